"""The evidence of a pitch about the work: turnaround, remakes and take-up at departments served."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.remakes.groups import RemakeGroup
from seasonboard.answers.take_up.parts import ELIGIBLE, STEPS
from seasonboard.answers.turnaround.groups import TurnaroundGroup
from seasonboard.answers.turnaround.words import time_limits
from seasonboard.disclosure.coarse_curve import CoarsePoint
from seasonboard.documents.model import (
    Cell,
    Column,
    Form,
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
from seasonboard.documents.pitch.masked import HIDDEN, Shown
from seasonboard.documents.svg.curves import Curve, Step, Words, still_open
from seasonboard.documents.svg.drawing import MOST_LINES

NOT_RECORDED = "department not recorded"
_ALL = "all departments"
_FEW = "too few orders"


def turnaround_section(shown: Shown) -> Section:
    """Return how long guards took, by neutral labels of departments."""
    timed = shown.found.timed
    heading = "Evidence: how long a guard took"
    if not timed.whole.orders:
        return Section(heading, (Paragraph("No order is recorded yet."),))
    named = sorted(
        ((shown.found.labels.get(g.key, NOT_RECORDED), g) for g in timed.groups),
        key=lambda pair: (pair[0] == NOT_RECORDED, len(pair[0]), pair[0]),
    )
    rows = tuple(_times(shown, label, f"{ORDERS}, {label}", group) for label, group in named)
    rows += (_times(shown, _ALL, ORDERS, timed.whole),) if len(named) > 1 else ()
    level = words.level_words(timed.summary.scope)
    columns = (
        Column("department"),
        Column("orders", Form.COUNT),
        Column("median, days", Form.TENTHS),
        Column(f"{level} interval"),
        Column("80 % within", Form.TENTHS),
        Column("95 % within", Form.TENTHS),
    )
    table = Table(
        "turnaround",
        "Days from requested to fitted; open orders count up to their age.",
        columns,
        rows,
        note=f"A time is told where {shown.threshold} or more orders lie on either side of it.",
    )
    curves = [
        (label, points)
        for label, group in named
        if (points := order_points(group, shown.threshold))
        and shown.may(*order_names(label, points), f"{ORDERS}, {label}")
    ]
    parts: tuple[Part, ...] = (_curves(shown, curves[:MOST_LINES]), table) if curves else (table,)
    return Section(heading, parts)


def has_quantile(shown: Shown, name: str, orders: int, share: float) -> bool:
    """Say whether a time may be told: enough orders lie on either side of it."""
    return shown.may(name) and orders * min(share, 1 - share) >= shown.threshold - 1e-9


def _times(shown: Shown, label: str, name: str, group: TurnaroundGroup) -> tuple[Cell, ...]:
    told = [has_quantile(shown, name, group.orders, share) for share in (0.5, 0.8, 0.95)]
    times: list[Cell] = [
        float(words.duration(found.value)) if may and found.value is not None
        else None if may else _FEW
        for may, found in zip(told, (group.median, group.p80, group.p95), strict=True)
    ]  # fmt: skip
    between = time_limits(group.median) if told[0] else _FEW
    return (label, shown.count(name, group.orders), times[0], between, *times[1:])


def _curves(shown: Shown, curves: Sequence[tuple[str, tuple[CoarsePoint, ...]]]) -> Picture:
    drawn = [
        Curve(label, tuple(Step(p.at, p.share) for p in points), is_coarse=True)
        for label, points in curves
    ]
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
        note=f"Only points are known between which {shown.threshold} or more guards were fitted, "
        "or none; straight lines join them.",
    )
    summary = Words("open", title, about, "days")
    return Picture(title, about, still_open(summary, drawn, until=until), table)


def remakes_section(shown: Shown) -> Section:
    """Return the share of fitted guards that were remade soon, by kind."""
    remade = shown.found.remade
    heading = "Evidence: what came back"
    if not remade.whole.fitted:
        return Section(heading, (Paragraph("No guard is fitted yet."),))
    rows = [
        _remade(shown, group, f"{ALL_FITTED}, {group.group}", f"{REMADE}, {group.group}")
        for group in remade.groups
    ]
    if len(rows) > 1:
        rows.append(_remade(shown, remade.whole, ALL_FITTED, REMADE, "all kinds"))
    columns = (
        Column("kind"),
        Column("fitted guards", Form.COUNT),
        Column(f"remade within {remade.options.window} days", Form.SHARE),
        Column(f"{words.level_words(remade.summary.scope)} interval"),
    )
    table = Table("remakes", "Fitted guards that were remade, by kind.", columns, tuple(rows),
                  "Recent guards count as far as they are known.")  # fmt: skip
    return Section(heading, (table,))


def _remade(
    shown: Shown, group: RemakeGroup, fitted: str, share: str, label: str = ""
) -> tuple[Cell, ...]:
    within = group.within
    may = shown.may(share, f"{share}, limits")
    told: Cell = HIDDEN if not may else None if within.value is None else round(within.value, 2)
    between = HIDDEN if not may else "–"
    if may and within.low is not None and within.high is not None:
        between = f"{words.percent(within.low)} to {words.percent(within.high)}"
    return (label or group.group, shown.count(fitted, group.fitted), told, between)


def take_up_section(shown: Shown) -> Section:
    """Return how many took a guard, and how often it is worn."""
    taken = shown.found.taken
    heading = "Evidence: who took a guard, and wears it"
    whole = taken.whole
    everyone = whole.step(ELIGIBLE).count
    if not everyone:
        return Section(heading, (Paragraph("No athlete is recorded yet."),))
    rows = tuple(
        (name, shown.count(step_name(name), whole.step(name).count), _of_all(shown, name, everyone))
        for name in STEPS
    )
    columns = (Column("step"), Column("athletes", Form.COUNT), Column("of all", Form.SHARE))
    table = Table("take-up", "From eligible to worn.", columns, rows)
    parts: tuple[Part, ...] = (table,)
    worn = whole.worn
    if shown.may(WORN_IN, "worn in, athletes") and worn.share is not None:
        between = ""
        if worn.low is not None and worn.high is not None:
            between = (
                f" ({words.level_words(taken.summary.scope)}: {words.percent(worn.low)} to "
                f"{words.percent(worn.high)})"
            )
        told = f"A fitted guard was worn in {words.percent(worn.share)}{between} of the sessions."
        parts = (*parts, Paragraph(told))
    return Section(heading, parts)


def _of_all(shown: Shown, step: str, everyone: int) -> Cell:
    """Return a step's share of all who are eligible; both counts stand beside it."""
    if not shown.may(step_name(step), step_name(ELIGIBLE)):
        return HIDDEN
    return round(shown.found.taken.whole.step(step).count / everyone, 2)
