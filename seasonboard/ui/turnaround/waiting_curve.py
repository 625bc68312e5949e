"""The share of orders not yet there by age, drawn as a curve with its confidence interval."""

from itertools import pairwise
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.ui.layout.blocks import Paper, paragraph
from seasonboard.ui.layout.format import right
from seasonboard.ui.pictures.canvas import HEAVY, LIGHT, Canvas
from seasonboard.ui.pictures.curve_steps import (
    ENDS,
    MARGIN,
    Axes,
    Line,
    Step,
    axes_of,
    labelled,
    share_label,
    under,
)

if TYPE_CHECKING:
    from seasonboard.stats.waiting_times import WaitCurve

_HIGHEST = 18
"""Lines that the picture takes at most."""
_THIN = 5
"""Where fewer are still followed the curve is not drawn on."""


def wait_picture(curve: "WaitCurve", unit: str, paper: Paper) -> list[Text]:
    """Return the curve with axis, labels and the orders still followed; none without a point."""
    drawn = _line(curve)
    if drawn is None:
        return []
    axes = axes_of(
        [drawn], Paper(paper.width + ENDS - 2, min(paper.height // 2, _HIGHEST), paper.ink)
    )
    canvas = Canvas(
        axes.columns,
        axes.rows,
        styles={LIGHT: paper.ink.bare, HEAVY: paper.ink.guarded},
        tints={HEAVY: paper.ink.guarded_tint} if paper.ink.tinted else {},
    )
    _interval(canvas, axes, drawn, paper)
    for step, after in pairwise(drawn.steps):
        row, column = axes.row(step.level), axes.column(after.tick)
        canvas.across(row, axes.column(step.tick), column, HEAVY)
        canvas.down(column, row, axes.row(after.level), HEAVY)
    rows = []
    for row, body in enumerate(canvas.lines()):
        label = share_label(axes, row)
        text = Text(right(label, MARGIN - 2) + " ", style=paper.ink.quiet)
        rows.append(text.append("┤" if label else "│", paper.ink.rule).append_text(body))
    return [*rows, *_below(drawn, axes, unit, paper), *_cut(curve, drawn, unit, paper)]


def _line(curve: "WaitCurve") -> Line | None:
    """Return the curve on whole units of time: at each the last that was reached by then."""
    points = [p for p in curve.points if p.at_risk >= _THIN or p is curve.points[0]]
    if not points:
        return None
    steps: dict[int, Step] = {0: Step(0, 1.0, 1.0, 1.0)}
    at_risk = {0: curve.orders}
    for point in points:
        tick = round(point.time)
        steps[tick] = Step(tick, point.waiting, point.low, point.high)
        at_risk[tick] = point.at_risk
    ordered = tuple(steps[tick] for tick in sorted(steps))
    if len(ordered) < 2:
        ordered = (*ordered, Step(1, ordered[-1].level, None, None))
    return Line("not yet", HEAVY, ordered, at_risk, ordered[-1].tick)


def _interval(canvas: Canvas, axes: Axes, drawn: Line, paper: Paper) -> None:
    for step, after in pairwise(drawn.steps):
        if step.low is None or step.high is None:
            continue
        top, bottom = axes.row(step.high), axes.row(step.low)
        for column in range(axes.column(step.tick), axes.column(after.tick) + 1):
            if paper.ink.tinted:
                canvas.tint(column, top, bottom, HEAVY)
            else:
                for row in {top, bottom}:
                    canvas.put(row, column, "╌", paper.ink.guarded)


def _below(drawn: Line, axes: Axes, unit: str, paper: Paper) -> list[Text]:
    ticks = labelled([drawn], axes)
    axis = ["─"] * axes.columns
    for tick in ticks:
        axis[axes.column(tick)] = "┬"
    followed = {tick: str(_followed(drawn, tick)) for tick in ticks}
    quiet = paper.ink.quiet
    return [
        Text(" " * (MARGIN - 1) + "└" + "".join(axis), style=paper.ink.rule),
        Text(right(unit, MARGIN - 1) + " " + under({t: str(t) for t in ticks}, axes), style=quiet),
        Text(right("orders", MARGIN - 1) + " " + under(followed, axes), style=quiet),
    ]


def _cut(curve: "WaitCurve", drawn: Line, unit: str, paper: Paper) -> list[Text]:
    """Say where the picture ends before the orders do."""
    last = round(curve.points[-1].time)
    if last <= drawn.steps[-1].tick:
        return []
    text = f"drawn while {_THIN} or more are followed; the longest is {last} {unit}"
    return list(paragraph(text, paper.width, paper.ink.quiet, " " * MARGIN))


def _followed(drawn: Line, tick: int) -> int:
    """Return how many were still followed and not there just before a time."""
    later = [at for at in drawn.at_risk if at >= tick]
    return drawn.at_risk[min(later)] if later else 0
