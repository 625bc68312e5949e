"""The evidence behind an offer: the figures of one release, as tables and pictures."""

from collections.abc import Sequence
from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import CRUDE, DECLINERS, DRAWN_TURNS, HEADLINE, REMOVES
from seasonboard.answers.fields import Kind
from seasonboard.answers.games.parts import Clock
from seasonboard.answers.games.words import AS_PLAYED, ONE_TICK, TICKS
from seasonboard.answers.pitch.inputs import WORN_IN
from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.answers.take_up.parts import ELIGIBLE, STEPS
from seasonboard.disclosure.count_table import THRESHOLD
from seasonboard.documents.model import Cell, Column, Paragraph, Part, Picture, Section, Table
from seasonboard.documents.svg.curves import CurveLine, falling
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.ranges import ForestRow, forest
from seasonboard.releases.basis import told_rate, told_share
from seasonboard.releases.block import AGREEMENT, SAME_SITES, Block, Figure
from seasonboard.releases.injuries import ARMS, AT_RISK, CLOCK, CURVE, EXPOSURES, RATIO
from seasonboard.releases.work import (
    DECIDED,
    DEPARTMENTS,
    FITTED,
    ORDERS,
    READY,
    REMADE,
    STILL_OPEN,
    TIMES,
    step_name,
)

HIDDEN = "hidden"
_APART = (DECLINERS, DRAWN_TURNS)
_FEW = "too few"
_INTERVAL = "95 % confidence interval"
_ENDS = ("from", "to")


def evidence_sections(block: Block) -> tuple[Section, ...]:
    """Return the sections of what was recorded at departments served."""
    return (
        Section("Appendix: how long a guard took", _turnaround(block), starts_page=True),
        Section("What came back", _remakes(block)),
        Section("Who took a guard, and wears it", _take_up(block)),
        Section("Injuries in departments served", _injuries(block)),
        Section("Games before an injury", _followed(block)),
    )


def _count(block: Block, name: str) -> Cell:
    """Return a count, marked where it was told higher before, or that it is hidden."""
    count = block.count(name)
    if count is None:
        return HIDDEN
    return f"{words.whole(count)} (corrected)" if name in block.corrected else count


def _cells(unknown: str, digits: int, *values: float | None) -> list[Cell]:
    """Return figures with the digits they are told in; what stands in the place of others."""
    return [unknown if value is None else round(value, digits) for value in values]


def _limits(figure: Figure | None, unknown: str, digits: int) -> list[Cell]:
    """Return a figure with its two limits."""
    if figure is None:
        return [unknown] * 3
    return _cells(unknown, digits, figure.value, figure.low, figure.high)


def _injuries(block: Block) -> tuple[Part, ...]:
    if not any(arm in block.masked.table.cells for arm in ARMS):
        return (Paragraph("No figures on injuries are released for this kind of guard."),)
    rows: list[tuple[Cell, ...]] = []
    for arm, word in ARMS.items():
        rate = told_rate(block, arm)
        ends = (None,) * 3 if rate is None else (rate.value, rate.low, rate.high)
        counts = (_count(block, arm), _count(block, EXPOSURES[arm]))
        rows.append((word, *counts, *_cells(HIDDEN, 2, *ends)))
    heads = (Column("sites"), Column("injuries", Kind.COUNT), Column("site-exposures", Kind.COUNT))
    table = Table(
        "injuries",
        "Injuries and exposures, guarded and bare.",
        (*heads, *(Column(name, Kind.HUNDREDTHS) for name in ("per 1000", *_ENDS))),
        tuple(rows),
        lead="A site-exposure is one site of one athlete in one session; from and to are the "
        f"{_INTERVAL}.",
    )
    picture = _forest(block)
    return (table,) if picture is None else (picture, table)


def _forest(block: Block) -> Picture | None:
    """Return the comparisons; None where no ratio is told."""
    names = [name for name in REMOVES if name not in _APART]
    told = {name: _limits(block.figure(f"{RATIO}, {name}"), "not told", 2) for name in names}
    rows = [_forest_row(block, name) for name in names]
    if not any(row.value for row in rows):
        return None
    title = "How often guarded sites were hurt, against bare ones"
    about = "A row for each comparison, its interval as a line on a scale of ratios: " + "; ".join(
        f"{row.name}, {row.note}" for row in rows
    )
    table = Table(
        "comparisons",
        "Comparisons; the first is the one to quote, the last one is not to be quoted.",
        (
            Column("comparison"),
            *(Column(name, Kind.HUNDREDTHS) for name in ("ratio", *_ENDS)),
            Column("what it removes"),
        ),
        tuple((name, *told[name], REMOVES[name]) for name in names),
        note=f"From and to are the {_INTERVAL}. Ratio of injuries per exposure, guarded over bare: "
        f"below 1, guarded sites were hurt less often. Not told where a group has 1 to "
        f"{THRESHOLD - 1} injuries, or where such a count could be worked out.",
    )
    sides = ("hurt less often", "hurt more often")
    labels = PictureWords("forest", title, about, "guarded / bare", *sides)
    return Picture(title, about, forest(labels, rows), table)


def _forest_row(block: Block, name: str) -> ForestRow:
    one = block.figure(f"{RATIO}, {name}")
    is_main, is_apart = name == HEADLINE, name == CRUDE
    if one is None or (one.value, one.low, one.high) == (None,) * 3:
        return ForestRow(name, None, None, None, "too few injuries", is_main, is_apart)
    note = f"{words.ratio(one.value)} ({words.interval(one.low, one.high)})"
    return ForestRow(name, one.value, one.low, one.high, note, is_main, is_apart)


def _points(block: Block, of: str) -> list[tuple[float, float]]:
    """Return the points of a curve that is told, by their place."""
    points = []
    for place in block.cuts(of):
        figure = block.figure(f"{of}, {place}")
        if "," not in place and figure is not None and figure.value is not None:
            points.append((float(place), figure.value))
    return sorted(points)


def _curves(
    labels: PictureWords, curves: Sequence[CurveLine], columns: tuple[Column, ...], note: str
) -> Picture:
    """Return curves that fall, and their points as a table; with counts where one has some."""
    has_counts = any(curve.counts for curve in curves)
    rows: list[tuple[Cell, ...]] = [
        (curve.name, int(at), share, *((dict(curve.counts).get(at, HIDDEN),) if has_counts else ()))
        for curve in curves
        for at, share in curve.points
    ]
    about = f"A line for each that falls from 100 %, by {labels.axis}: " + "; ".join(
        f"{curve.name} to {curve.end} at {curve.points[-1][0]:g}" for curve in curves
    )
    until = int(max(curve.points[-1][0] for curve in curves))
    drawn = falling(replace(labels, description=about), curves, until=until)
    table = Table(
        f"curve of {labels.name}",
        "The same as a table.",
        columns,
        tuple(rows),
        note=f"Only points are known between which {THRESHOLD} or more {note}, or none; straight "
        "lines join them.",
    )
    return Picture(labels.title, about, drawn, table)


def _line(block: Block, name: str, of: str, at_risk: str = "") -> CurveLine:
    points = _points(block, of)
    counts = ((at, block.count(f"{at_risk}, {at:g}")) for at, _ in points if at_risk)
    told = tuple((at, count) for at, count in counts if count is not None)
    return CurveLine(name, tuple(points), told, words.percent(points[-1][1]) if points else "")


def _followed(block: Block) -> tuple[Part, ...]:
    told = block.figure(CLOCK)
    if told is None:
        text = (
            "Too few injuries to publish a curve: between two of its points, and in each group, "
            f"{THRESHOLD} or more are needed, or none."
        )
        return (Paragraph(text),)
    clock = Clock(told.words)
    curves = [
        _line(block, word, f"{CURVE}, {word}", f"{AT_RISK}, {word}") for word in ARMS.values()
    ]
    by = "sessions taken part in" if clock is Clock.SESSIONS else f"{TICKS[clock]} played"
    title = f"Share of sites not yet injured, by {by}: {AS_PLAYED}"
    picture = _curves(
        PictureWords("injuries", title, "", TICKS[clock], counts="at risk"),
        curves,
        (
            *(Column("sites"), Column(f"after {ONE_TICK[clock]}", Kind.COUNT)),
            *(Column("not yet injured", Kind.SHARE), Column("at risk there", Kind.COUNT)),
        ),
        "were injured",
    )
    mixed = (
        "A site is guarded or bare by what was worn at each step. The curves are as played: of "
        "different mixes of athletes, sports and parts of the season, as in the crude ratio. The "
        "same-session ratio above is the one that compares like with like."
    )
    return (picture, Paragraph(mixed, "Read with care:"))


def _turnaround(block: Block) -> tuple[Part, ...]:
    if not block.masked.table.cells.get(ORDERS):
        return (Paragraph("No order is recorded yet."),)
    plans = block.cuts(ORDERS)
    rows = [_turnaround_row(block, f", {plan}", plan) for plan in plans]
    rows.append(_turnaround_row(block, "", "all orders"))
    table = Table(
        "turnaround",
        "Days from requested to fitted, by how a department gets its prints; open orders count up "
        "to their age.",
        (
            *(Column("plan"), Column("of"), Column("orders", Kind.COUNT)),
            *(Column(name, Kind.WHOLE) for name in ("median", *_ENDS)),
            *(Column(name, Kind.WHOLE) for name in ("80 % within", "95 % within")),
            Column("ready for the next game", Kind.SHARE),
        ),
        tuple(rows),
        note=f"From and to are the {_INTERVAL} of the median. A time is told where {THRESHOLD} or "
        "more orders lie on either side of it.",
    )
    lines = [_line(block, plan, f"{STILL_OPEN}, {plan}") for plan in plans]
    curves = [curve for curve in lines if curve.points]
    if not curves:
        return (table,)
    title = "Share of orders still open, by days since the request"
    heads = (Column("plan"), Column("after days", Kind.COUNT), Column("still open", Kind.SHARE))
    labels = PictureWords("orders", title, "", "days")
    return (_curves(labels, curves, heads, "guards were fitted"), table)


def _turnaround_row(block: Block, cut: str, name: str) -> tuple[Cell, ...]:
    median, *others = (block.figure(f"{time}{cut}") for time in TIMES)
    behind = block.figure(f"{DEPARTMENTS}{cut}")
    count = block.departments if behind is None else round(behind.value or 0)
    of = "one department" if count == 1 else words.plural(count, "department")
    ready = told_share(block, f"{READY}{cut}", f"{DECIDED}{cut}")
    return (
        *(name, of, _count(block, f"{ORDERS}{cut}"), *_limits(median, _FEW, 0)),
        *(_limits(one, _FEW, 0)[0] for one in others),
        *_cells(HIDDEN, 2, None if ready is None else ready.value),
    )


def _remakes(block: Block) -> tuple[Part, ...]:
    window = block.figure("days of a remake")
    share = told_share(block, REMADE, FITTED)
    if share is None or share.value is None or window is None:
        return (Paragraph("How many guards were made again may not be told, or none is fitted."),)
    text = (
        f"{words.percent(share.value)} of {words.whole(share.trials)} fitted guards were remade "
        f"within {round(window.value or 0)} days ({_INTERVAL}: {words.share_interval(share)}). "
        "Recent guards count as far as they are known."
    )
    return (Paragraph(text),)


def _take_up(block: Block) -> tuple[Part, ...]:
    rows = []
    for step in STEPS:
        share = told_share(block, step_name(step), step_name(ELIGIBLE))
        of_all = _cells(HIDDEN, 2, None if share is None else share.value)
        rows.append((step, _count(block, step_name(step)), *of_all))
    table = Table(
        "take-up",
        "From eligible to worn.",
        (Column("step"), Column("athletes", Kind.COUNT), Column("of all", Kind.SHARE)),
        tuple(rows),
    )
    worn = block.figure(WORN_IN)
    if worn is None or worn.value is None or worn.low is None or worn.high is None:
        return (table,)
    text = (
        f"A fitted guard was worn in {words.percent(worn.value)} of the sessions. In another "
        f"department it may be {words.percent(worn.low)} to {words.percent(worn.high)}."
    )
    return (table, Paragraph(text))


def keep_in_mind(pitch: PitchAnswer, block: Block) -> tuple[str, ...]:
    """Return what was hidden or left out, and what to keep in mind."""
    lines = [
        f"“hidden” stands for a count of 1 to {THRESHOLD - 1}, for one from which such a count "
        "could be worked out, and for one of too few departments.",
        *(one.words for name in (AGREEMENT, SAME_SITES) if (one := block.figure(name))),
    ]
    if block.corrected:
        lines.append(f"Corrected since an earlier release: {', '.join(block.corrected)}.")
    lines += [each for each in pitch.summary.caveats if each not in pitch.prospect.notes]
    lines.append(
        "Hiding small counts is a safeguard, not a finding that nobody can be known again: who "
        "knows a team may know more."
    )
    return tuple(dict.fromkeys(lines))
