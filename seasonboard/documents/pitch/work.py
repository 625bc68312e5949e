"""The evidence of a pitch about the work: turnaround, remakes and take-up at departments served."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.fields import Kind
from seasonboard.answers.remakes.groups import RemakeGroup
from seasonboard.answers.take_up.parts import ELIGIBLE, STEPS
from seasonboard.answers.turnaround.groups import TurnaroundGroup
from seasonboard.answers.turnaround.words import time_limits
from seasonboard.disclosure.coarse_curve import CoarsePoint
from seasonboard.documents.model import (
    Cell,
    Column,
    Paragraph,
    Part,
    Picture,
    Section,
    Table,
)
from seasonboard.documents.pitch.counts import (
    ALL_FITTED,
    ORDERS,
    REMADE,
    WORN_IN,
    order_names,
    step_name,
)
from seasonboard.documents.pitch.curves import order_points
from seasonboard.documents.pitch.masked import HIDDEN, MaskedPitch
from seasonboard.documents.svg.curves import CurveLine, still_open
from seasonboard.documents.svg.drawing import MOST_LINES, PictureWords

NOT_RECORDED = "department not recorded"
_ALL = "all departments"
_FEW = "too few orders"


def turnaround_section(masked: MaskedPitch) -> Section:
    """Return how long guards took, by neutral labels of departments."""
    timed = masked.sources.timed
    heading = "Evidence: how long a guard took"
    if not timed.whole.orders:
        return Section(heading, (Paragraph("No order is recorded yet."),))
    named = sorted(
        ((masked.sources.labels.get(g.key, NOT_RECORDED), g) for g in timed.groups),
        key=lambda pair: (pair[0] == NOT_RECORDED, len(pair[0]), pair[0]),
    )
    rows = tuple(_times(masked, label, f"{ORDERS}, {label}", group) for label, group in named)
    rows += (_times(masked, _ALL, ORDERS, timed.whole),) if len(named) > 1 else ()
    level = words.level_words(timed.summary.scope)
    columns = (
        Column("department"),
        Column("orders", Kind.COUNT),
        Column("median, days", Kind.TENTHS),
        Column(f"{level} interval"),
        Column("80 % within", Kind.TENTHS),
        Column("95 % within", Kind.TENTHS),
    )
    table = Table(
        "turnaround",
        "Days from requested to fitted; open orders count up to their age.",
        columns,
        rows,
        note=f"A time is told where {masked.threshold} or more orders lie on either side of it.",
    )
    curves = [
        (label, points)
        for label, group in named
        if (points := order_points(group, masked.threshold))
        and masked.may(*order_names(label, points), f"{ORDERS}, {label}")
    ]
    parts: tuple[Part, ...] = (_curves(masked, curves[:MOST_LINES]), table) if curves else (table,)
    return Section(heading, parts)


def has_quantile(masked: MaskedPitch, name: str, orders: int, share: float) -> bool:
    """Say whether a time may be told: enough orders lie on either side of it."""
    return masked.may(name) and orders * min(share, 1 - share) >= masked.threshold - 1e-9


def _times(masked: MaskedPitch, label: str, name: str, group: TurnaroundGroup) -> tuple[Cell, ...]:
    told = [has_quantile(masked, name, group.orders, share) for share in (0.5, 0.8, 0.95)]
    times: list[Cell] = [
        float(words.duration(found.value)) if may and found.value is not None
        else None if may else _FEW
        for may, found in zip(told, (group.median, group.p80, group.p95), strict=True)
    ]  # fmt: skip
    between = time_limits(group.median) if told[0] else _FEW
    return (label, masked.count(name, group.orders), times[0], between, *times[1:])


def _curves(masked: MaskedPitch, curves: Sequence[tuple[str, tuple[CoarsePoint, ...]]]) -> Picture:
    drawn = [CurveLine(label, tuple((p.at, p.share) for p in points)) for label, points in curves]
    until = int(max(points[-1].at for _, points in curves)) + 1
    title = "Share of orders still open, by days since the request"
    about = "; ".join(
        f"{label}: {words.percent(points[-1].share)} after {points[-1].at:.0f} days"
        for label, points in curves
    )
    table = Table(
        "orders still open",
        "The same as a table.",
        (Column("department"), Column("still open after so many days")),
        tuple(
            (label, " · ".join(f"{p.at:.0f}: {words.percent(p.share)}" for p in points))
            for label, points in curves
        ),
        note=f"Only points are known between which {masked.threshold} or more guards were fitted, "
        "or none; straight lines join them.",
    )
    summary = PictureWords("open", title, about, "days")
    return Picture(title, about, still_open(summary, drawn, until=until), table)


def remakes_section(masked: MaskedPitch) -> Section:
    """Return the share of fitted guards that were remade soon, by kind."""
    remade = masked.sources.remade
    heading = "Evidence: what came back"
    if not remade.whole.fitted:
        return Section(heading, (Paragraph("No guard is fitted yet."),))
    rows = [
        _remade(masked, group, f"{ALL_FITTED}, {group.group}", f"{REMADE}, {group.group}")
        for group in remade.groups
    ]
    if len(rows) > 1:
        rows.append(_remade(masked, remade.whole, ALL_FITTED, REMADE, "all kinds"))
    columns = (
        Column("kind"),
        Column("fitted guards", Kind.COUNT),
        Column(f"remade within {remade.options.window} days", Kind.SHARE),
        Column(f"{words.level_words(remade.summary.scope)} interval"),
    )
    table = Table("remakes", "Fitted guards that were remade, by kind.", columns, tuple(rows),
                  "Recent guards count as far as they are known.")  # fmt: skip
    return Section(heading, (table,))


def _remade(
    masked: MaskedPitch, group: RemakeGroup, fitted: str, share: str, label: str = ""
) -> tuple[Cell, ...]:
    within = group.within
    may = masked.may(share, f"{share}, limits")
    told: Cell = HIDDEN if not may else None if within.value is None else round(within.value, 2)
    between = HIDDEN if not may else "–"
    if may and within.low is not None and within.high is not None:
        between = f"{words.percent(within.low)} to {words.percent(within.high)}"
    return (label or group.group, masked.count(fitted, group.fitted), told, between)


def take_up_section(masked: MaskedPitch) -> Section:
    """Return how many took a guard, and how often it is worn."""
    taken = masked.sources.taken
    heading = "Evidence: who took a guard, and wears it"
    whole = taken.whole
    everyone = whole.step(ELIGIBLE).count
    if not everyone:
        return Section(heading, (Paragraph("No athlete is recorded yet."),))
    rows = tuple(
        (
            name,
            masked.count(step_name(name), whole.step(name).count),
            _of_all(masked, name, everyone),
        )
        for name in STEPS
    )
    columns = (Column("step"), Column("athletes", Kind.COUNT), Column("of all", Kind.SHARE))
    table = Table("take-up", "From eligible to worn.", columns, rows)
    parts: tuple[Part, ...] = (table,)
    worn = whole.worn
    if masked.may(WORN_IN, "worn in, athletes") and worn.value is not None:
        between = ""
        if worn.low is not None and worn.high is not None:
            between = (
                f" ({words.level_words(taken.summary.scope)}: {words.percent(worn.low)} to "
                f"{words.percent(worn.high)})"
            )
        told = f"A fitted guard was worn in {words.percent(worn.value)}{between} of the sessions."
        parts = (*parts, Paragraph(told))
    return Section(heading, parts)


def _of_all(masked: MaskedPitch, step: str, everyone: int) -> Cell:
    """Return a step's share of all who are eligible; both counts stand beside it."""
    if not masked.may(step_name(step), step_name(ELIGIBLE)):
        return HIDDEN
    return round(masked.sources.taken.whole.step(step).count / everyone, 2)
