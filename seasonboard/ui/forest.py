"""The comparisons as a forest: one line each, intervals on a logarithmic axis."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui.blocks import Paper, paragraph
from seasonboard.ui.format import clean, fit, right

if TYPE_CHECKING:
    from seasonboard.answers.compare import Comparison
    from seasonboard.stats.ratios import RateRatio

NAME = 17
LEAST, MOST = 15, 61
"""Cells of the axis; odd, so that 1 lies in the middle."""
ROOMY = 28
"""Lines of paper from which each comparison says what it takes away."""
_REACHES = (2, 4, 8)


@dataclass(frozen=True, slots=True)
class Axis:
    """A logarithmic axis from 1/reach to reach, `width` cells wide, 1 in the middle."""

    reach: int
    width: int

    def place(self, ratio: float) -> int:
        """Return the cell of a ratio above 0; it may lie beyond the axis."""
        half = (self.width - 1) // 2
        return half + round(math.log(ratio) / math.log(self.reach) * half)

    @property
    def middle(self) -> int:
        """Return the cell of a ratio of 1."""
        return (self.width - 1) // 2


def axis(ratios: Sequence["RateRatio"], width: int) -> Axis:
    """Return the shortest axis that holds every limit, or the longest there is."""
    ends = [
        max(end, 1 / end)
        for ratio in ratios
        for end in (ratio.rate_ratio, ratio.low, ratio.high)
        if end is not None and end > 0
    ]
    reach = next((r for r in _REACHES if max(ends, default=1.0) <= r), _REACHES[-1])
    return Axis(reach, width)


def whisker(ratio: "RateRatio", axis: Axis) -> str:
    """Return one interval: `├──■──┤`, an arrow where it leaves the axis, a line at 1."""
    cells = [" "] * axis.width
    cells[axis.middle] = "│"
    if ratio.low is None and ratio.high is None:
        return "".join(cells)
    last = axis.width - 1
    low = axis.place(ratio.low) if ratio.low else -1
    high = axis.place(ratio.high) if ratio.high is not None else last + 1
    if ratio.high == 0 or high < 0:
        return "◂" + "".join(cells[1:])
    if low > last:
        return "".join(cells[:-1]) + "▸"
    for cell in range(max(low, 0), min(high, last) + 1):
        cells[cell] = "┼" if cell == axis.middle else "─"
    cells[max(low, 0)] = "├" if low >= 0 else "◂"
    cells[min(high, last)] = "┤" if high <= last else "▸"
    if ratio.rate_ratio:
        place = axis.place(ratio.rate_ratio)
        if 0 <= place <= last:
            cells[place] = "■"
    return "".join(cells)


def forest(
    comparisons: Sequence["Comparison"], level: str, paper: Paper
) -> tuple[tuple[Text, ...], list[tuple[Text, ...]]]:
    """Return the head of the forest, and the lines of each comparison, the headline first.

    Args:
        comparisons: What is compared.
        level: The level of the intervals, in words.
        paper: What to draw on.
    """
    heads = ("ratio", level, "hurt", "strata")
    figures = [_figures(comparison.ratio) for comparison in comparisons]
    cells = [max(map(len, column)) + 2 for column in zip(heads, *figures, strict=True)]
    room = paper.width - NAME - sum(cells)
    shared = axis([c.ratio for c in comparisons], max(LEAST, min(MOST, room - 1 + room % 2)))
    lines = [
        _lines(comparison, shared, _row(row, cells), paper, is_headline=number == 0)
        for number, (comparison, row) in enumerate(zip(comparisons, figures, strict=True))
    ]
    return _head(shared, _row(heads, cells), paper), lines


def _row(texts: Sequence[str], cells: Sequence[int]) -> str:
    return "".join(right(text, width) for text, width in zip(texts, cells, strict=True))


def _head(axis: Axis, headings: str, paper: Paper) -> tuple[Text, ...]:
    """Return the two lines over the forest: which way is fewer, ticks, and headings."""
    half = axis.middle
    ways = fit("‹ fewer", half) + " " + right("more ›", axis.width - half - 1)
    style = paper.ink.quiet
    return (
        Text(" " * NAME + ways, style=style),
        Text(" " * NAME + _tick_labels(axis) + headings, style=style),
    )


def _tick_labels(axis: Axis) -> str:
    """Return the axis' labels: 1 first, then its ends, then what still has room between."""
    rising = [2.0**power for power in range(1, round(math.log2(axis.reach)) + 1)]
    outer = [tick for ratio in reversed(rising) for tick in (ratio, 1 / ratio)]
    cells = [" "] * axis.width
    for tick in (1.0, *outer):
        label = f"{tick:g}".removeprefix("0")
        begin = axis.place(tick) - (len(label) - 1) // 2
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
        notes.append(f"takes away {comparison.removes}")
    told = (paragraph(note, paper.width, paper.ink.quiet, " " * NAME) for note in notes)
    return (text, *chain.from_iterable(told))


def _figures(ratio: "RateRatio") -> tuple[str, ...]:
    return (
        words.ratio(ratio.rate_ratio),
        _limits(ratio),
        f"{words.whole(ratio.injuries_guarded)} v {words.whole(ratio.injuries_unguarded)}",
        words.whole(ratio.informative_strata),
    )


def _limits(ratio: "RateRatio") -> str:
    if ratio.low is None and ratio.high is None:
        return "no limits yet"
    if ratio.high is None:
        return f"{words.ratio(ratio.low)} up"
    return f"{words.ratio(ratio.low)}–{words.ratio(ratio.high)}"
