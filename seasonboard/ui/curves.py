"""Survival curves as text: steps with their limits, words at the ends, at-risk rows below.

The guarded curve is a heavy line (`━`), the bare one a light line (`─`), `═` where they run as
one. Limits are tinted areas, or dashes where tints cannot be told apart.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui.blocks import Paper
from seasonboard.ui.canvas import HEAVY, LIGHT, Canvas
from seasonboard.ui.format import right
from seasonboard.ui.plots import Trend, trend
from seasonboard.ui.themes import Ink

if TYPE_CHECKING:
    from seasonboard.answers.games_parts import GamesAnswer, Group
    from seasonboard.stats.survival import CurvePoint

MARGIN = 9
"""Cells left of the picture: the words of the at-risk rows, the labels of the axis."""
ENDS = 17
"""Cells right of it: which curve ends here, and where."""
BELOW = 5
"""Lines below it: the axis, its ticks, two at-risk rows, where it was cut."""
LEAST_ROWS = 6
LEAST_SPAN = 0.01
"""The axis of shares spans this much at least, so that chance does not look like a cliff."""
TREND_ROWS = 7
_LETTERS = {LIGHT: "·", HEAVY: "●"}
_Y_STEPS = (0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.25)
_X_STEPS = (1, 5, 10, 20, 25, 50, 100, 200, 500, 1000)
_ROWS_A_LABEL = 3


@dataclass(frozen=True, slots=True)
class _Step:
    """A curve's level and limits from one tick until the next."""

    tick: int
    level: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class _Line:
    """One group's steps, from the tick before its start, where all are uninjured."""

    name: str
    weight: int
    steps: tuple[_Step, ...]
    at_risk: dict[int, int]
    last_large: int


@dataclass(frozen=True, slots=True)
class _Axes:
    """How ticks and shares lie on the cells; `step` is between the labels of the shares."""

    first: int
    last: int
    bottom: float
    step: float
    columns: int
    rows: int

    def column(self, tick: float) -> int:
        span = max(1, self.last - self.first)
        return round((tick - self.first) / span * (self.columns - 1))

    def row(self, share: float) -> int:
        return round((1 - share) / (1 - self.bottom) * (self.rows - 1))


def survival_picture(answer: "GamesAnswer", paper: Paper) -> list[Text]:
    """Return both curves with axis, ticks and at-risk rows, as lines of the paper's width.

    The shares' axis starts at a round number under the lowest value or limit. Limits of thin
    ticks (fewer at risk than asked for) are not drawn, nor the curves where both are thin; a line
    says so. Without any curve, one line says why.
    """
    lines = [_line(answer.unguarded, LIGHT), _line(answer.guarded, HEAVY)]
    drawn = _shortened([line for line in lines if line is not None])
    if not drawn:
        why = answer.guarded.compared.why or answer.unguarded.compared.why or "no curve yet"
        return [Text(f" No curve to draw: {why}.", style=paper.ink.quiet)]
    axes = _axes(drawn, paper)
    canvas = _canvas(axes, paper.ink)
    for line in drawn:
        _draw_limits(canvas, axes, line, paper.ink)
    for line in drawn:
        _draw_steps(canvas, axes, line)
    ends = _ends(drawn, axes)
    picture = []
    for row, body in enumerate(canvas.lines()):
        label = _share_label(axes, row)
        text = Text(right(label, MARGIN - 2) + " ", style=paper.ink.quiet)
        text.append("┤" if label else "│", paper.ink.rule)
        text.append_text(body)
        if row in ends:
            name, share, is_guarded = ends[row]
            end = f"  {name} {words.number(share * 100, digits=0 if axes.step >= 0.05 else 1)} %"
            text.append(end, paper.ink.group(guarded=is_guarded))
        picture.append(text)
    return [*picture, *_below(drawn, axes, answer, paper.ink), *_cut(axes, answer, paper.ink)]


def at_risk_trend(answer: "GamesAnswer", paper: Paper) -> list[Text]:
    """Return how many were at risk at every tick, in line with the curves above it."""
    lines = [_line(answer.unguarded, LIGHT), _line(answer.guarded, HEAVY)]
    drawn = _shortened([line for line in lines if line is not None])
    if not drawn:
        return []
    axes = _axes(drawn, paper)
    trends = []
    for line in drawn:
        ticks = tuple(step.tick for step in line.steps if step.tick in line.at_risk)
        counts = tuple(line.at_risk[tick] for tick in ticks)
        trends.append(Trend(ticks, counts, _LETTERS[line.weight]))
    span, labels = (axes.first, axes.last), _ticks(drawn, axes)
    plot = trend(trends, span, labels, columns=axes.columns, rows=TREND_ROWS)
    told = " " * MARGIN + f"at risk:  {_LETTERS[HEAVY]} guarded  {_LETTERS[LIGHT]} bare"
    gutter = plot[0].find("│") if "│" in plot[0] else plot[0].find("┤")
    found = [Text(told), *(Text(" " * (MARGIN - 1 - gutter) + row) for row in plot)]
    for text in found:
        text.stylize(paper.ink.quiet)
        text.highlight_regex(f"{_LETTERS[HEAVY]}+( guarded)?", paper.ink.guarded)
        text.highlight_regex(f"{_LETTERS[LIGHT]}+( bare)?", paper.ink.bare)
    return found


def _line(group: "Group", weight: int) -> _Line | None:
    curve = group.compared
    if curve.start is None:
        return None
    steps = [_Step(curve.start - 1, 1.0, 1.0, 1.0)]
    steps += [_step(p, p.survival) for p in curve.points if p.survival is not None]
    at_risk = {p.tick: p.at_risk for p in curve.points}
    last = max((p.tick for p in curve.points if not p.thin), default=curve.start)
    name = "guarded" if weight == HEAVY else "bare"
    return _Line(name, weight, tuple(steps), at_risk, max(last, curve.start))


def _shortened(lines: Sequence[_Line]) -> list[_Line]:
    """Cut the tails in which both groups are thin: they would take the room and tell little."""
    last = max((line.last_large for line in lines), default=0)
    return [
        replace(line, steps=tuple(step for step in line.steps if step.tick <= last))
        for line in lines
    ]


def _step(point: "CurvePoint", survival: float) -> _Step:
    low, high = (None, None) if point.thin else (point.low, point.high)
    return _Step(point.tick, survival, low, high)


def _axes(lines: Sequence[_Line], paper: Paper) -> _Axes:
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
    return _Axes(
        first=min(line.steps[0].tick for line in lines),
        last=max(line.steps[-1].tick for line in lines),
        bottom=bottom,
        step=step,
        columns=max(10, paper.width - MARGIN - ENDS),
        rows=1 + steps * max(1, (rows - 1) // steps),
    )


def _canvas(axes: _Axes, ink: Ink) -> Canvas:
    tints = {LIGHT: ink.bare_tint, HEAVY: ink.guarded_tint, 0: ink.both_tint}
    return Canvas(
        axes.columns,
        axes.rows,
        styles={LIGHT: ink.bare, HEAVY: ink.guarded},
        tints=tints if ink.tinted else {},
    )


def _draw_limits(canvas: Canvas, axes: _Axes, line: _Line, ink: Ink) -> None:
    style = ink.group(guarded=line.weight == HEAVY)
    dash = "╍" if line.weight == HEAVY else "╌"
    for step, after in pairwise(line.steps):
        if step.low is None or step.high is None:
            continue
        top, bottom = axes.row(step.high), axes.row(step.low)
        for column in range(axes.column(step.tick), axes.column(after.tick) + 1):
            if ink.tinted:
                canvas.tint(column, top, bottom, line.weight)
            else:
                canvas.put(top, column, dash, style)
                canvas.put(bottom, column, dash, style)


def _draw_steps(canvas: Canvas, axes: _Axes, line: _Line) -> None:
    for step, after in pairwise(line.steps):
        row, column = axes.row(step.level), axes.column(after.tick)
        canvas.across(row, axes.column(step.tick), column, line.weight)
        canvas.down(column, row, axes.row(after.level), line.weight)


def _ends(lines: Sequence[_Line], axes: _Axes) -> dict[int, tuple[str, float, bool]]:
    """Return what stands at the right of which row; labels that would meet move apart."""
    ends: dict[int, tuple[str, float, bool]] = {}
    for line in sorted(lines, key=lambda line: -line.steps[-1].level):
        level = line.steps[-1].level
        row = axes.row(level)
        while row in ends:
            row += 1
        if row >= axes.rows:
            others = {place - 1: end for place, end in ends.items()}
            ends, row = others, axes.rows - 1
        ends[row] = (line.name, level, line.weight == HEAVY)
    return ends


def _share_label(axes: _Axes, row: int) -> str:
    """Return the label of a share that lies on this row, if a round one does."""
    number = round((1 - axes.bottom) / axes.step)
    for index in range(number + 1):
        share = 1 - index * axes.step
        if axes.row(share) == row:
            digits = max(0, math.ceil(-math.log10(axes.step * 100) - 1e-9))
            return f"{words.number(share * 100, digits=digits)} %"
    return ""


def _below(lines: Sequence[_Line], axes: _Axes, answer: "GamesAnswer", ink: Ink) -> list[Text]:
    ticks = _ticks(lines, axes)
    axis = ["─"] * axes.columns
    for tick in ticks:
        axis[axes.column(tick)] = "┬"
    clock = {"sessions": "session"}.get(answer.options.clock.value, "game")
    numbers = {tick: str(tick) for tick in ticks}
    below = [
        Text(" " * (MARGIN - 1) + "└" + "".join(axis), style=ink.rule),
        Text(right(clock, MARGIN - 1) + " " + _under(numbers, axes), style=ink.quiet),
    ]
    for line in reversed(lines):
        counts = {tick: words.whole(line.at_risk.get(tick, 0)) for tick in ticks}
        text = Text(right(line.name, MARGIN - 1) + " " + _under(counts, axes) + "  at risk")
        text.stylize(ink.group(guarded=line.weight == HEAVY))
        below.append(text)
    return below


def _cut(axes: _Axes, answer: "GamesAnswer", ink: Ink) -> list[Text]:
    """Say where the picture ends before the curves do."""
    ticks = [p.tick for group in answer.groups for p in group.compared.points]
    if max(ticks) <= axes.last:
        return []
    least = words.whole(answer.options.min_at_risk)
    told = f"drawn to {axes.last}, the last with {least} at risk; the table goes on to {max(ticks)}"
    return [Text(" " * MARGIN + told, style=ink.quiet)]


def _ticks(lines: Sequence[_Line], axes: _Axes) -> list[int]:
    """Return the first tick and the round ones after it, as many as have room."""
    widest = max(
        len(words.whole(count)) for line in lines for count in (*line.at_risk.values(), axes.last)
    )
    room = max(1, axes.columns // (widest + 2))
    span = axes.last - axes.first
    step = next((s for s in _X_STEPS if span / s <= room), _X_STEPS[-1])
    start = axes.first + 1
    return [start, *(t for t in range(step, axes.last + 1, step) if t - start >= 0.75 * step)]


def _under(texts: dict[int, str], axes: _Axes) -> str:
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
