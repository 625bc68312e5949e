"""The evidence of a pitch about the work: turnaround, remakes and take-up at departments served."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from seasonboard.answers import words
from seasonboard.answers.fields import Field
from seasonboard.answers.remakes.groups import RemakeGroup
from seasonboard.answers.remakes.report import GROUPS as REMAKES
from seasonboard.answers.take_up.parts import ELIGIBLE
from seasonboard.answers.take_up.report import STEP_ROWS, GroupRow
from seasonboard.answers.turnaround.groups import TurnaroundGroup
from seasonboard.answers.turnaround.report import GROUPS as TURNAROUND
from seasonboard.disclosure.coarse_curve import CoarsePoint
from seasonboard.documents.described import as_rounded, document_table
from seasonboard.documents.model import Cell, Column, Paragraph, Part, Picture, Section, Table
from seasonboard.documents.pitch import counts
from seasonboard.documents.pitch.masked import MaskedPitch
from seasonboard.documents.svg.curves import CurveLine, still_open
from seasonboard.documents.svg.drawing import MOST_LINES, PictureWords

NOT_RECORDED = "department not recorded"
_ALL = "all departments"
_FEW = "too few orders"
_SHARES = {"median.value": 0.5, "median_interval": 0.5, "p80.value": 0.8, "p95.value": 0.95}
"""Of each time the share of orders that are done within it."""


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
    groups = [group for _, group in named]
    table = document_table(
        *(TURNAROUND, timed, "turnaround"),
        "Days from requested to fitted; open orders count up to their age.",
        only=("group", "orders", *_SHARES),
        headings={
            "group": "department",
            "median.value": "median, days",
            "median_interval": words.interval_words(timed.summary.scope),
            "p80.value": "80 % within",
            "p95.value": "95 % within",
        },
        rows=[*groups, timed.whole] if len(groups) > 1 else groups,
        cell=partial(_time_cell, masked),
        note=f"A time is told where {masked.threshold} or more orders lie on either side of it.",
    )
    curves = [
        (label, points)
        for label, group in named
        if (points := counts.order_points(group, masked.threshold))
        and masked.may(*counts.order_names(label, points), f"{counts.ORDERS}, {label}")
    ]
    parts: tuple[Part, ...] = (_curves(masked, curves[:MOST_LINES]), table) if curves else (table,)
    return Section(heading, parts)


def has_quantile(masked: MaskedPitch, name: str, orders: int, share: float) -> bool:
    """Say whether a time may be told: enough orders lie on either side of it."""
    return masked.may(name) and orders * min(share, 1 - share) >= masked.threshold - 1e-9


def _time_cell(masked: MaskedPitch, field: Field, group: TurnaroundGroup) -> Cell:
    sources = masked.sources
    is_whole = group is sources.timed.whole
    label = _ALL if is_whole else sources.labels.get(group.key, NOT_RECORDED)
    name = counts.ORDERS if is_whole else f"{counts.ORDERS}, {label}"
    if field.name == "group":
        return label
    if field.name == "orders":
        return masked.count(name, group.orders)
    is_told = has_quantile(masked, name, group.orders, _SHARES[field.name])
    return as_rounded(field, group) if is_told else _FEW


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
    names = {group.group: f", {group.group}" for group in remade.groups}
    whole = [replace(remade.whole, group="all kinds")] if len(remade.groups) > 1 else []

    def rests_on(group: RemakeGroup) -> dict[str, str | tuple[str, ...]]:
        of_kind = names.get(group.group, "")
        share = f"{counts.REMADE}{of_kind}"
        within = (share, f"{share}, interval")
        return {
            "fitted": f"{counts.ALL_FITTED}{of_kind}",
            "within.share": within,
            "within_interval": within,
        }

    table = document_table(
        *(REMAKES, remade, "remakes", "Fitted guards that were remade, by kind."),
        only=("group", "fitted", "within.share", "within_interval"),
        headings={
            "fitted": "fitted guards",
            "within.share": f"remade within {remade.options.window} days",
        },
        rows=[*remade.groups, *whole],
        cell=masked.cells(rests_on),
        lead="Recent guards count as far as they are known.",
    )
    return Section(heading, (table,))


def take_up_section(masked: MaskedPitch) -> Section:
    """Return how many took a guard, and how often it is worn."""
    taken = masked.sources.taken
    heading = "Evidence: who took a guard, and wears it"
    whole = taken.whole
    if not whole.step(ELIGIBLE).count:
        return Section(heading, (Paragraph("No athlete is recorded yet."),))

    def rests_on(row: GroupRow) -> dict[str, str | tuple[str, ...]]:
        name = counts.step_name(row.step.step if row.step else "")
        return {"athletes": name, "of_eligible.share": (name, counts.step_name(ELIGIBLE))}

    table = document_table(
        *(STEP_ROWS, taken, "take-up", "From eligible to worn."),
        only=("step", "athletes", "of_eligible.share"),
        headings={"of_eligible.share": "of all"},
        rows=[GroupRow("all", whole, step) for step in whole.steps],
        cell=masked.cells(rests_on),
    )
    worn = whole.worn
    if not masked.may(counts.WORN_IN, "worn in, athletes") or worn.value is None:
        return Section(heading, (table,))
    interval = ""
    if worn.has_interval:
        level = words.interval_words(taken.summary.scope)
        interval = f" ({level}: {words.share_interval(worn)})"
    text = f"A fitted guard was worn in {words.percent(worn.value)}{interval} of the sessions."
    return Section(heading, (table, Paragraph(text)))
