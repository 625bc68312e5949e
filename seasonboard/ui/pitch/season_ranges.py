"""Ranges of simulated seasons as lines: where the middle lies, and 80 and 95 % of them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rich.text import Text

from seasonboard.answers.pitch.words import count, range_80, range_95
from seasonboard.stats.season_ahead import Spread
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.layout.format import fit, right

NAME, _MIDDLE, _RANGE = 17, 7, 14
_MOST = 60
"""Cells of an axis at most: a longer one says no more."""
KEY = "■ middle ━ 80 % ├─┤ 95 % of seasons ┊ 0; each line has a scale of its own"

Named = tuple[str, Spread]


@dataclass(frozen=True, slots=True)
class Axis:
    """Cells across, and the cell in which 0 stands."""

    width: int
    zero: int


def axis(spreads: Sequence[Spread], width: int) -> Axis:
    """Return an axis on which 0 has one place for ranges that each have a scale of their own."""
    shares = [below / (below + above) for below, above in map(_ends, spreads) if below + above]
    share = max(shares, default=0.0)
    return Axis(width, min(width - 1, math.ceil(share * (width - 1))))


def _ends(found: Spread) -> tuple[float, float]:
    """Return how far a range reaches below and above 0."""
    return max(-found.low_95, 0.0), max(found.high_95, 0.0)


def span(found: Spread, on: Axis) -> str:
    """Return a range on an axis: `├──━━■━━━──┤`."""
    below, above = _ends(found)
    left, rest = on.zero, on.width - 1 - on.zero
    unit = max(below / left if left else 0.0, above / rest if rest else 0.0)

    def place(value: float) -> int:
        moved = math.floor(value / unit + 0.5) if unit else 0
        return min(on.width - 1, max(0, on.zero + moved))

    cells = [" "] * on.width
    cells[on.zero] = "┊"
    first, last = place(found.low_95), place(found.high_95)
    for cell in range(first, last + 1):
        cells[cell] = "─"
    for cell in range(place(found.low_80), place(found.high_80) + 1):
        cells[cell] = "━"
    cells[last], cells[first] = "┤", "├"
    cells[place(found.median)] = "■"
    return "".join(cells)


def promise(figures: Sequence[Named], paper: Paper, *, ends: tuple[str, str]) -> list[Text]:
    """Return a heading and a line for each figure: its picture, its middle and its ranges.

    Args:
        figures: A name and a spread each.
        paper: What to draw on.
        ends: What lies left and right of 0, in a word; empty: nothing is said.
    """
    room = paper.width - NAME - _MIDDLE - 2 * _RANGE - 2
    on = axis([found for _, found in figures], min(_MOST, max(8, room)))
    head = f" {'':{NAME}}{_over(on, ends)}{right('middle', _MIDDLE)}"
    head += right("80 %", _RANGE) + right("95 %", _RANGE)
    lines = [Text(head, style=paper.ink.quiet)]
    for name, found in figures:
        text = Text(f" {fit(name, NAME)}")
        text.append(span(found, on), paper.ink.guarded)
        text.append(right(count(found.median), _MIDDLE), paper.ink.strong)
        text.append(right(range_80(found), _RANGE) + right(range_95(found), _RANGE))
        lines.append(text)
    for text in lines:
        text.truncate(paper.width)
    return lines


def _over(on: Axis, ends: tuple[str, str]) -> str:
    """Return what stands over an axis: 0, and what lies on either side of it."""
    left, right_of = ends
    told = f"{left} " if left and on.zero > len(left) else ""
    beyond = f" {right_of}" if right_of and on.width - on.zero > len(right_of) + 1 else ""
    return f"{told.rjust(on.zero)}0{beyond}".ljust(on.width)
