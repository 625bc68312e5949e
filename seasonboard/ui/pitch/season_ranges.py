"""Ranges of simulated seasons as lines: where the median lies, and 80 and 95 % of them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rich.text import Text

from seasonboard.answers.pitch.words import count, range_80, range_95
from seasonboard.stats.season_ahead import Spread
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.layout.format import fit, right

NAME, _MEDIAN, _RANGE = 17, 7, 14
_MOST = 60
"""Cells of an axis at most: a longer one says no more."""
KEY = "■ median ━ 80 % ├─┤ 95 % of seasons ┊ 0; each line has a scale of its own"

NamedSpread = tuple[str, Spread]


@dataclass(frozen=True, slots=True)
class RangeAxis:
    """Cells across, and the cell in which 0 stands."""

    width: int
    zero: int


def axis(spreads: Sequence[Spread], width: int) -> RangeAxis:
    """Return an axis on which 0 has one place for ranges that each have a scale of their own."""
    shares = [below / (below + above) for below, above in map(_ends, spreads) if below + above]
    share = max(shares, default=0.0)
    return RangeAxis(width, min(width - 1, math.ceil(share * (width - 1))))


def _ends(spread: Spread) -> tuple[float, float]:
    """Return how far a range reaches below and above 0."""
    return max(-spread.low_95, 0.0), max(spread.high_95, 0.0)


def span(spread: Spread, on: RangeAxis) -> str:
    """Return a range on an axis: `├──━━■━━━──┤`."""
    below, above = _ends(spread)
    left, rest = on.zero, on.width - 1 - on.zero
    unit = max(below / left if left else 0.0, above / rest if rest else 0.0)

    def cell_of(value: float) -> int:
        moved = math.floor(value / unit + 0.5) if unit else 0
        return min(on.width - 1, max(0, on.zero + moved))

    cells = [" "] * on.width
    cells[on.zero] = "┊"
    first, last = cell_of(spread.low_95), cell_of(spread.high_95)
    cells[first : last + 1] = "─" * (last + 1 - first)
    begin, end = cell_of(spread.low_80), cell_of(spread.high_80) + 1
    cells[begin:end] = "━" * (end - begin)
    cells[last], cells[first] = "┤", "├"
    cells[cell_of(spread.median)] = "■"
    return "".join(cells)


def range_lines(
    figures: Sequence[NamedSpread], paper: Paper, *, ends: tuple[str, str]
) -> list[Text]:
    """Return a heading and a line for each figure: its picture, its median and its ranges.

    `ends` are what lies left and right of 0, in a word; empty: nothing is said.
    """
    room = paper.width - NAME - _MEDIAN - 2 * _RANGE - 2
    on = axis([spread for _, spread in figures], min(_MOST, max(8, room)))
    head = f" {'':{NAME}}{_over(on, ends)}{right('median', _MEDIAN)}"
    head += right("80 %", _RANGE) + right("95 %", _RANGE)
    lines = [Text(head, style=paper.ink.quiet)]
    for name, spread in figures:
        text = Text(f" {fit(name, NAME)}")
        text.append(span(spread, on), paper.ink.guarded)
        text.append(right(count(spread.median), _MEDIAN), paper.ink.strong)
        text.append(right(range_80(spread), _RANGE) + right(range_95(spread), _RANGE))
        lines.append(text)
    for text in lines:
        text.truncate(paper.width)
    return lines


def _over(on: RangeAxis, ends: tuple[str, str]) -> str:
    """Return what stands over an axis: 0, and what lies on either side of it."""
    left, right_of = ends
    before = f"{left} " if left and on.zero > len(left) else ""
    beyond = f" {right_of}" if right_of and on.width - on.zero > len(right_of) + 1 else ""
    return f"{before.rjust(on.zero)}0{beyond}".ljust(on.width)
