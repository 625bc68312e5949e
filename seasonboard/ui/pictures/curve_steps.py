"""Curves as steps, and how ticks and shares lie on character cells."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.ui.layout.blocks import Paper

if TYPE_CHECKING:
    from seasonboard.stats.direct_standardisation import StandardPoint
    from seasonboard.stats.survival import Curve, CurvePoint

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
        return round((1 - share) / (1 - self.bottom) * (self.rows - 1))


def from_curve(name: str, weight: int, curve: "Curve", *, limits: bool = True) -> Line | None:
    """Return a curve as steps, or None where it never starts; thin ticks have no limits."""
    if curve.start is None:
        return None
    edge = 1.0 if limits else None
    steps = [Step(curve.start - 1, 1.0, edge, edge)]
    steps += [_step(p, p.survival, limits) for p in curve.points if p.survival is not None]
    at_risk = {p.tick: p.at_risk for p in curve.points}
    last = max((p.tick for p in curve.points if not p.thin), default=curve.start)
    return Line(name, weight, tuple(steps), at_risk, max(last, curve.start))


def _step(point: "CurvePoint", survival: float, limits: bool) -> Step:  # noqa: FBT001 - one flag
    is_known = limits and not point.thin
    low, high = (point.low, point.high) if is_known else (None, None)
    return Step(point.tick, survival, low, high)


def from_points(name: str, weight: int, points: Sequence["StandardPoint"]) -> Line | None:
    """Return the points of a standardised curve as steps, or None without any."""
    if not points:
        return None
    steps = [Step(points[0].tick - 1, 1.0, 1.0, 1.0)]
    steps += [Step(p.tick, p.survival, p.low, p.high) for p in points]
    return Line(name, weight, tuple(steps), {p.tick: p.at_risk for p in points}, points[-1].tick)


def shortened(lines: Sequence[Line | None]) -> list[Line]:
    """Return the lines there are without the tails in which all are thin.

    Such tails would take the room and tell little.
    """
    drawn_lines = [line for line in lines if line is not None]
    last = max((line.last_large for line in drawn_lines), default=0)
    return [
        replace(line, steps=tuple(step for step in line.steps if step.tick <= last))
        for line in drawn_lines
    ]


def axes_of(lines: Sequence[Line], paper: Paper) -> Axes:
    """Return the axes that hold every level and lower limit of one line or more."""
    shares = [
        share
        for line in lines
        for step in line.steps
        for share in (step.level, step.low)
        if share is not None
    ]
    rows = max(LEAST_ROWS, paper.height - BELOW)
    room = max(1, rows // _ROWS_A_LABEL)
    gap = max(LEAST_SPAN, 1 - min(shares))
    step = next((s for s in _Y_STEPS if s * room >= gap), _Y_STEPS[-1])
    steps = max(1, math.ceil(gap / step - 1e-9))
    bottom = max(0.0, 1 - steps * step)
    return Axes(
        first=min(line.steps[0].tick for line in lines),
        last=max(line.steps[-1].tick for line in lines),
        bottom=bottom,
        step=step,
        columns=max(10, paper.width - MARGIN - ENDS),
        rows=1 + steps * max(1, (rows - 1) // steps),
    )


def share_label(axes: Axes, row: int) -> str:
    """Return the label of a share that lies on this row, if a round one does."""
    number = round((1 - axes.bottom) / axes.step)
    for index in range(number + 1):
        share = 1 - index * axes.step
        if axes.row(share) == row:
            digits = max(0, math.ceil(-math.log10(axes.step * 100) - 1e-9))
            return f"{words.number(share * 100, digits=digits)} %"
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
