"""The share of orders not yet there by age: one curve with its confidence interval, or several."""

from dataclasses import replace
from typing import TYPE_CHECKING

from rich.cells import cell_len
from rich.text import Text

from seasonboard.ui.layout.blocks import Paper, note
from seasonboard.ui.layout.format import fit
from seasonboard.ui.pictures.canvas import FOURTH, HEAVY, LIGHT, SAMPLES, THIRD
from seasonboard.ui.pictures.curve_steps import ENDS, MARGIN, Axes, Line, Step, axes_of, labelled
from seasonboard.ui.pictures.curves import curve_rows, cut_words, line_ends, row_below, tick_rows

if TYPE_CHECKING:
    from collections.abc import Sequence

    from seasonboard.answers.turnaround.groups import TurnaroundGroup
    from seasonboard.stats.waiting_times import WaitCurve

_HIGHEST = 18
"""Lines that the picture takes at most."""
_THIN = 5
"""Where fewer are still followed the curve is not drawn on."""
_WEIGHTS = (HEAVY, LIGHT, THIRD, FOURTH)
"""Strokes that curves drawn together are told apart by."""
_LONGEST_NAME = 18
"""Cells of a group's name beside its curve."""


def wait_picture(curve: "WaitCurve", unit: str, paper: Paper) -> list[Text]:
    """Return the curve with axis, labels and the orders still followed; none without a point."""
    drawn = _line("not yet", HEAVY, curve)
    if drawn is None:
        return []
    axes = _axes([drawn], paper, ends=2)
    ticks, dashes = labelled([drawn], axes), {HEAVY: "╌"}
    rows = [label.append_text(body) for label, body in curve_rows([drawn], axes, paper.ink, dashes)]
    rows += tick_rows(ticks, unit, axes, paper.ink)
    rows.append(_followed_row("orders", drawn, ticks, axes, paper))
    remarks = [cut_words(axes)]
    last = round(curve.points[-1].time)
    if last > drawn.steps[-1].tick:
        remarks.append(f"drawn while {_THIN} or more are followed; the longest is {last} {unit}")
    if any(remarks):
        rows += note("; ".join(filter(None, remarks)), paper, " " * MARGIN)
    return rows


def group_picture(groups: "Sequence[TurnaroundGroup]", unit: str, paper: Paper) -> list[Text]:
    """Return the curves of the largest groups on the same axes, named at their ends.

    They have no limits. As many as there are strokes are drawn; how many that are is said.
    """
    largest = sorted(groups, key=lambda one: -one.curve.orders)
    lines = [
        _line(_cut(one.name, _LONGEST_NAME), weight, one.curve)
        for weight, one in zip(_WEIGHTS, largest, strict=False)
    ]
    drawn = [
        replace(line, steps=tuple(replace(step, low=None, high=None) for step in line.steps))
        for line in lines
        if line is not None
    ]
    if not drawn:
        return []
    ends = max(cell_len(line.name) for line in drawn) + 6
    axes = _axes(drawn, paper, ends=ends)
    names, ink = line_ends(drawn, axes), replace(paper.ink, guarded="", bare="")
    rows = []
    for row, (label, body) in enumerate(curve_rows(drawn, axes, ink)):
        label.append_text(body)
        if row in names:
            label.append(f"  {SAMPLES[names[row].weight]} {names[row].name}")
        rows.append(label)
    ticks = labelled(drawn, axes)
    rows += tick_rows(ticks, unit, axes, paper.ink)
    rows += [_followed_row(line.name, line, ticks, axes, paper) for line in drawn]
    left_out = len(groups) - len(drawn)
    remarks = [cut_words(axes), f"each drawn while {_THIN} or more orders are followed"]
    remarks += [f"the {len(drawn)} largest of {len(groups)} groups"] if left_out else []
    return [*rows, *note("; ".join(filter(None, remarks)), paper, " " * MARGIN)]


def _axes(lines: "Sequence[Line]", paper: Paper, *, ends: int) -> Axes:
    height = min(paper.height // 2, _HIGHEST)
    return axes_of(lines, replace(paper, width=paper.width + ENDS - ends, height=height))


def _followed_row(name: str, line: Line, ticks: "Sequence[int]", axes: Axes, paper: Paper) -> Text:
    followed = {tick: str(_followed(line, tick)) for tick in ticks}
    return row_below(_cut(name, MARGIN - 2), followed, axes, paper.ink.quiet)


def _cut(name: str, width: int) -> str:
    return fit(name, min(cell_len(name), width))


def _line(name: str, weight: int, curve: "WaitCurve") -> Line | None:
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
    return Line(name, weight, ordered, at_risk, ordered[-1].tick)


def _followed(drawn: Line, tick: int) -> int:
    """Return how many were still followed and not there just before a time."""
    later = [at for at in drawn.at_risk if at >= tick]
    return drawn.at_risk[min(later)] if later else 0
