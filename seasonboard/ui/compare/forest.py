"""The comparisons as a forest: one line each, intervals on a logarithmic axis."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.compare.control_sites import (
    CONTROL_SITES,
    NEIGHBOURING_SITES,
    far_reading,
    neighbouring_reading,
)
from seasonboard.answers.compare.report import COMPARISONS, evidence_words
from seasonboard.ui.layout.blocks import Paper, note
from seasonboard.ui.layout.format import MISSING, clean, fit, right

if TYPE_CHECKING:
    from seasonboard.answers.compare.comparisons import Comparison
    from seasonboard.answers.compare.parts import CompareAnswer
    from seasonboard.stats.anytime_valid import AnytimeValid
    from seasonboard.stats.estimate import Estimate
    from seasonboard.stats.negative_control import ControlRatio

NAME = 17
LEAST, MOST = 15, 61
"""Cells of the axis; odd, so that 1 lies in the middle."""
ROOMY = 28
"""Lines of paper from which each comparison says what it takes away."""
WIDE_AXIS = 31
"""Cells that the axis keeps when limits by athlete are set beside the others."""
BY_ATHLETE = "by athlete"
_REACHES = (2, 4, 8)


ORDINARY, DOUBLE = "├─┼■┤", "╞═╪▪╡"
"""The letters of an interval: its low end, its run, where it crosses 1, its point, its high end."""


@dataclass(frozen=True, slots=True)
class Axis:
    """A logarithmic axis from 1/reach to reach, `width` cells wide, 1 in the middle."""

    reach: int
    width: int

    def cell_of(self, ratio: float) -> int:
        """Return the cell of a ratio above 0; it may lie beyond the axis."""
        return self.middle + round(math.log(ratio) / math.log(self.reach) * self.middle)

    @property
    def middle(self) -> int:
        """Return the cell of a ratio of 1."""
        return (self.width - 1) // 2


def axis(ratios: Sequence["Estimate"], width: int) -> Axis:
    """Return the shortest axis that holds every limit, or the longest there is."""
    ends = [
        max(end, 1 / end)
        for ratio in ratios
        for end in (ratio.value, ratio.low, ratio.high)
        if end is not None and end > 0
    ]
    reach = next((r for r in _REACHES if max(ends, default=1.0) <= r), _REACHES[-1])
    return Axis(reach, width)


def whisker(ratio: "Estimate", axis: Axis, strokes: str = ORDINARY) -> str:
    """Return one interval: `├──■──┤`, an arrow where it leaves the axis, a line at 1."""
    cells = [" "] * axis.width
    cells[axis.middle] = "│"
    if ratio.low is None and ratio.high is None:
        return "".join(cells)
    low_end, run, cross, point, high_end = tuple(strokes)
    last = axis.width - 1
    low = axis.cell_of(ratio.low) if ratio.low else -1
    high = axis.cell_of(ratio.high) if ratio.high is not None else last + 1
    if ratio.high == 0 or high < 0:
        return "◂" + "".join(cells[1:])
    if low > last:
        return "".join(cells[:-1]) + "▸"
    for cell in range(max(low, 0), min(high, last) + 1):
        cells[cell] = cross if cell == axis.middle else run
    cells[max(low, 0)] = low_end if low >= 0 else "◂"
    cells[min(high, last)] = high_end if high <= last else "▸"
    if ratio.value and 0 <= axis.cell_of(ratio.value) <= last:
        cells[axis.cell_of(ratio.value)] = point
    return "".join(cells)


@dataclass(frozen=True, slots=True)
class Forest:
    """The head of the forest, the lines of each comparison, the headline once more otherwise.

    `peek_proof` begins with the dashed line that parts them; `apart` are the comparisons with
    other groups: decliners, drawn turns where there are some. `by_athlete` says whether the
    limits by athlete stand in a column of their own; `controls` are the sites that no guard covers.
    """

    head: tuple[Text, ...]
    rows: tuple[tuple[Text, ...], ...]
    anytime_valid: tuple[Text, ...]
    apart: tuple[tuple["Comparison", tuple[Text, ...]], ...]
    controls: tuple[tuple[Text, ...], ...]
    axis: Axis
    by_athlete: bool


def forest(answer: "CompareAnswer", level: str, paper: Paper) -> Forest:
    """Return the comparisons of an answer as a forest, the headline first and marked.

    The limits by athlete get a column where the axis then still has `WIDE_AXIS` cells. `level` is
    that of the intervals, in words.
    """
    comparisons, now = (*answer.comparisons, *answer.apart), answer.watched.now
    columns, found = _columns(level), answer.controls
    controls = found.far, found.neighbouring
    table = _cells(columns, comparisons, now, controls)
    by_athlete = paper.width - NAME - sum(_widths(table)) >= WIDE_AXIS
    if not by_athlete:
        columns = tuple(one for one in columns if one.heading != BY_ATHLETE)
        table = _cells(columns, comparisons, now, controls)
    widths = _widths(table)
    heads, *rows, last, far, beside = (
        "".join(right(text, width) for text, width in zip(row, widths, strict=True))
        for row in table
    )
    room = paper.width - NAME - sum(widths)
    intervals: list[Estimate] = [now, *(c.ratio for c in comparisons), *controls]
    shared = axis(intervals, max(LEAST, min(MOST, room - 1 + room % 2)))
    lines = [
        _lines(comparison, shared, row, paper, is_headline=number == 0)
        for number, (comparison, row) in enumerate(zip(comparisons, rows, strict=True))
    ]
    anytime_valid = _peek_proof(now, shared, last, paper)
    head = _head(shared, heads, paper)
    elsewhere = (
        _control((CONTROL_SITES, far_reading(found)), found.far, shared, far, paper),
        _control(
            (NEIGHBOURING_SITES, neighbouring_reading(found)),
            *(found.neighbouring, shared, beside, paper),
        ),
    )
    count = len(answer.comparisons)
    apart = tuple(zip(answer.apart, lines[count:], strict=True))
    return Forest(
        *(head, tuple(lines[:count]), anytime_valid, apart, elsewhere, shared, by_athlete)
    )


@dataclass(frozen=True, slots=True)
class _Column:
    """Figures beside the forest: what heads them, and the cell of each kind of row."""

    heading: str
    cell: "Callable[[Comparison], str]"
    anytime_valid: "Callable[[AnytimeValid], str]" = lambda _: ""
    control: "Callable[[ControlRatio], str]" = lambda _: ""


def _columns(level: str) -> tuple[_Column, ...]:
    read = COMPARISONS.field
    return (
        _Column("ratio", read("rate_ratio").read, _ratio, _ratio),
        _Column(level, lambda one: narrow_interval(one.ratio), narrow_interval, narrow_interval),
        _Column(
            BY_ATHLETE,
            lambda one: narrow_interval(one.clustered) if one.clustered.athletes else MISSING,
        ),
        _Column("hurt", read("hurt").read, control=lambda one: words.whole(one.injuries)),
        _Column("strata", read("informative_strata").read, lambda now: f"e {evidence_words(now)}"),
    )


def _ratio(estimate: "Estimate") -> str:
    return words.ratio(estimate.value)


def _cells(
    columns: Sequence[_Column],
    comparisons: "Sequence[Comparison]",
    now: "AnytimeValid",
    controls: "Sequence[ControlRatio]",
) -> list[list[str]]:
    """Return headings, a row a comparison, the headline as anytime-valid, and control sites."""
    return [
        [one.heading for one in columns],
        *([one.cell(comparison) for one in columns] for comparison in comparisons),
        [one.anytime_valid(now) for one in columns],
        *([one.control(control) for one in columns] for control in controls),
    ]


def _widths(table: Sequence[Sequence[str]]) -> list[int]:
    return [max(map(len, column)) + 2 for column in zip(*table, strict=True)]


def _peek_proof(now: "AnytimeValid", axis: Axis, figures: str, paper: Paper) -> tuple[Text, ...]:
    """Return a dashed line and the peek-proof row under it."""
    width = NAME + axis.width + len(figures)
    dashes = Text(" " + "╌" * (width - 1), style=paper.ink.rule)
    text = Text(fit(" peek-proof", NAME) + whisker(now, axis, DOUBLE) + figures)
    return (dashes, text, *(note(now.why, paper, " " * NAME) if now.why else ()))


def _control(
    texts: tuple[str, str], ratio: "ControlRatio", axis: Axis, figures: str, paper: Paper
) -> tuple[Text, ...]:
    """Return harm at sites that no guard covers: `texts` are its name and what it means."""
    name, reading = texts
    line = Text(fit(f" {name}", NAME) + whisker(ratio, axis) + figures)
    return (line, *note(reading, paper, " " * NAME))


def _head(axis: Axis, headings: str, paper: Paper) -> tuple[Text, ...]:
    """Return the two lines over the forest: which way is fewer, ticks, and headings."""
    ways = fit("‹ fewer", axis.middle) + " " + right("more ›", axis.width - axis.middle - 1)
    lines = (ways, _tick_labels(axis) + headings)
    return tuple(Text(" " * NAME + line, style=paper.ink.quiet) for line in lines)


def _tick_labels(axis: Axis) -> str:
    """Return the axis' labels: 1 first, then its ends, then what still has room between."""
    rising = [2.0**power for power in range(1, round(math.log2(axis.reach)) + 1)]
    outer = [tick for ratio in reversed(rising) for tick in (ratio, 1 / ratio)]
    cells = [" "] * axis.width
    for tick in (1.0, *outer):
        label = f"{tick:g}".removeprefix("0")
        begin = axis.cell_of(tick) - (len(label) - 1) // 2
        begin = min(max(0, begin), axis.width - len(label))
        if all(cell == " " for cell in cells[max(0, begin - 1) : begin + len(label) + 1]):
            cells[begin : begin + len(label)] = label
    return "".join(cells)


def _lines(
    comparison: "Comparison", axis: Axis, figures: str, paper: Paper, *, is_headline: bool
) -> tuple[Text, ...]:
    """Return one comparison: its interval and figures, and in words what is not known of it."""
    ratio = comparison.ratio
    style = paper.ink.strong if is_headline else ""
    name = fit(f" {clean(comparison.name)}", NAME - 2) + ("▸ " if is_headline else "  ")
    text = Text(name + whisker(ratio, axis) + figures, style=style)
    notes = [ratio.why] if ratio.why else []
    if paper.height >= ROOMY:
        alike = comparison.removes.startswith("as ")
        notes.append(comparison.removes if alike else f"takes away {comparison.removes}")
    return (text, *(line for why in notes for line in note(why, paper, " " * NAME)))


def narrow_interval(ratio: "Estimate") -> str:
    """Return a confidence interval as figures, or in words what is not known of it."""
    if ratio.low is None:
        return "no limits yet" if ratio.high is None else f"to {words.ratio(ratio.high)}"
    if ratio.high is None:
        return f"{words.ratio(ratio.low)} up"
    return f"{words.ratio(ratio.low)}–{words.ratio(ratio.high)}"
