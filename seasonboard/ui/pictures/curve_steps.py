"""Curves as steps, and how ticks and shares lie on character cells."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.pictures.canvas import DOTS_ACROSS, DOTS_DOWN

if TYPE_CHECKING:
    from seasonboard.stats.direct_standardisation import StandardPoint
    from seasonboard.stats.survival import Curve

MARGIN = 9
"""Cells left of the picture: the words of the at-risk rows, the labels of the axis."""
ENDS = 17
"""Cells right of it: which curve ends here, and where."""
BELOW = 5
"""Lines below it: the axis, its ticks, two at-risk rows, where it was cut."""
LEAST_ROWS = 6
LEAST_SPAN = 0.01
"""The axis of shares spans this much at least, so that chance does not look like a cliff."""
_Y_STEPS = (0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.25)
_X_STEPS = (1, 5, 10, 20, 25, 50, 100, 200, 500, 1000)
_ROWS_A_LABEL = 3


@dataclass(frozen=True, slots=True)
class Step:
    """A curve's level and limits from one tick until the next."""

    tick: int
    level: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Line:
    """One group's steps, from the tick before its start, where all are uninjured."""

    name: str
    weight: int
    steps: tuple[Step, ...]
    at_risk: dict[int, int]
    last_large: int


@dataclass(frozen=True, slots=True)
class Axes:
    """How ticks and shares lie on the cells; `step` is between the labels of the shares."""

    first: int
    last: int
    bottom: float
    step: float
    columns: int
    rows: int

    def column(self, tick: float) -> int:
        """Return the column of a tick."""
        span = max(1, self.last - self.first)
        return round((tick - self.first) / span * (self.columns - 1))

    def row(self, share: float) -> int:
        """Return the row of a share."""
        return round(self._down(share))

    def dot_column(self, tick: float) -> int:
        """Return the column of a tick, in dots; a label stands over the right one of its two."""
        span = max(1, self.last - self.first)
        return 1 + round(DOTS_ACROSS * (tick - self.first) / span * (self.columns - 1))

    def dot_row(self, share: float) -> int:
        """Return the row of a share, in dots; a label stands beside the second of its four."""
        return 1 + round(DOTS_DOWN * self._down(share))

    def label(self, share: float) -> str:
        """Return a share as the axis writes it."""
        digits = max(0, math.ceil(-math.log10(self.step * 100) - 1e-9))
        return f"{words.number(share * 100, digits=digits)} %"

    def _down(self, share: float) -> float:
        return (1 - share) / (1 - self.bottom) * (self.rows - 1)


def from_curve(name: str, weight: int, curve: "Curve", *, limits: bool = True) -> Line | None:
    """Return a curve as steps, or None where it never starts; thin ticks have no limits."""
    if curve.start is None:
        return None
    steps = [Step(curve.start - 1, 1.0, 1.0, 1.0)]
    for p in curve.points:
        if p.survival is not None:
            low, high = (None, None) if p.thin else (p.low, p.high)
            steps.append(Step(p.tick, p.survival, low, high))
    if not limits:
        steps = [replace(step, low=None, high=None) for step in steps]
    at_risk = {p.tick: p.at_risk for p in curve.points}
    last = max((p.tick for p in curve.points if not p.thin), default=curve.start)
    return Line(name, weight, tuple(steps), at_risk, max(last, curve.start))


def from_points(name: str, weight: int, points: Sequence["StandardPoint"]) -> Line | None:
    """Return the points of a standardised curve as steps, or None without any."""
    if not points:
        return None
    steps = [Step(points[0].tick - 1, 1.0, 1.0, 1.0)]
    steps += [Step(p.tick, p.survival, p.low, p.high) for p in points]
    return Line(name, weight, tuple(steps), {p.tick: p.at_risk for p in points}, points[-1].tick)


def shortened(*lines: Line | None) -> list[Line]:
    """Return the lines there are without the tails in which all are thin.

    Such tails would take the room and tell little.
    """
    drawn = [line for line in lines if line is not None]
    last = max((line.last_large for line in drawn), default=0)
    return [replace(one, steps=tuple(s for s in one.steps if s.tick <= last)) for one in drawn]


def axes_of(lines: Sequence[Line], paper: Paper) -> Axes:
    """Return the axes that hold every level and lower limit of one line or more."""
    steps = [step for line in lines for step in line.steps]
    lowest = min(share for step in steps for share in (step.level, step.low) if share is not None)
    rows = max(LEAST_ROWS, paper.height - BELOW)
    room = max(1, rows // _ROWS_A_LABEL)
    gap = max(LEAST_SPAN, 1 - lowest)
    span = next((s for s in _Y_STEPS if s * room >= gap), _Y_STEPS[-1])
    spans = max(1, math.ceil(gap / span - 1e-9))
    return Axes(
        first=min(step.tick for step in steps),
        last=max(step.tick for step in steps),
        bottom=max(0.0, 1 - spans * span),
        step=span,
        columns=max(10, paper.width - MARGIN - ENDS),
        rows=1 + spans * max(1, (rows - 1) // spans),
    )


def share_label(axes: Axes, row: int) -> str:
    """Return the label of a share that lies on this row, if a round one does."""
    number = round((1 - axes.bottom) / axes.step)
    for index in range(number + 1):
        share = 1 - index * axes.step
        if axes.row(share) == row:
            return axes.label(share)
    return ""


def labelled(lines: Sequence[Line], axes: Axes) -> list[int]:
    """Return the first tick and the round ones after it, as many as have room."""
    widest = max(
        len(words.whole(count)) for line in lines for count in (*line.at_risk.values(), axes.last)
    )
    room = max(1, axes.columns // (widest + 2))
    span = axes.last - axes.first
    step = next((s for s in _X_STEPS if span / s <= room), _X_STEPS[-1])
    start = axes.first + 1
    return [start, *(t for t in range(step, axes.last + 1, step) if t - start >= 0.75 * step)]


def under(texts: dict[int, str], axes: Axes) -> str:
    """Return texts centred under their ticks."""
    row = [" "] * (axes.columns + 2)
    end = -1
    for tick, text in texts.items():
        begin = max(end + 1, axes.column(tick) - (len(text) - 1) // 2)
        begin = max(0, min(begin, len(row) - len(text)))
        if begin <= end:
            continue
        row[begin : begin + len(text)] = text
        end = begin + len(text)
    return "".join(row)
