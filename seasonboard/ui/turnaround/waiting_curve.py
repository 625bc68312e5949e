"""The share of orders not yet there by age, drawn as a curve with its confidence interval."""

from dataclasses import replace
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.ui.layout.blocks import Paper, note
from seasonboard.ui.pictures.canvas import HEAVY
from seasonboard.ui.pictures.curve_steps import ENDS, MARGIN, Line, Step, axes_of, labelled
from seasonboard.ui.pictures.curves import curve_rows, cut_words, row_below, tick_rows

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
    height = min(paper.height // 2, _HIGHEST)
    axes = axes_of([drawn], replace(paper, width=paper.width + ENDS - 2, height=height))
    ticks, dashes = labelled([drawn], axes), {HEAVY: "╌"}
    rows = [label.append_text(body) for label, body in curve_rows([drawn], axes, paper.ink, dashes)]
    followed = {tick: str(_followed(drawn, tick)) for tick in ticks}
    rows += tick_rows(ticks, unit, axes, paper.ink)
    rows.append(row_below("orders", followed, axes, paper.ink.quiet))
    remarks = [cut_words(axes)]
    last = round(curve.points[-1].time)
    if last > drawn.steps[-1].tick:
        remarks.append(f"drawn while {_THIN} or more are followed; the longest is {last} {unit}")
    if any(remarks):
        rows += note("; ".join(filter(None, remarks)), paper, " " * MARGIN)
    return rows


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


def _followed(drawn: Line, tick: int) -> int:
    """Return how many were still followed and not there just before a time."""
    later = [at for at in drawn.at_risk if at >= tick]
    return drawn.at_risk[min(later)] if later else 0
