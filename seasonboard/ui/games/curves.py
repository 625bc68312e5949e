"""Survival curves as text: steps with their limits, words at the ends, at-risk rows below.

The guarded curve is a heavy line (`━`), the bare one a light line (`─`), `═` where they run as
one. Limits are tinted areas, or dashes where tints cannot be told apart. The misleading tally is
dotted and without colour.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.games.words import clock_word
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.layout.format import right
from seasonboard.ui.pictures.canvas import HEAVY, LIGHT, Canvas
from seasonboard.ui.pictures.curve_steps import (
    MARGIN,
    Axes,
    Line,
    axes_of,
    from_curve,
    from_points,
    labelled,
    share_label,
    shortened,
    under,
)
from seasonboard.ui.pictures.plotext_trend import Trend, trend
from seasonboard.ui.themes import Ink

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer

TREND_ROWS = 7
_LETTERS = {LIGHT: "·", HEAVY: "●"}
_DOTTED = str.maketrans("━─═┃│", "┅┄┅┇┆")


def survival_picture(
    answer: "GamesAnswer", paper: Paper, *, is_same_mix: bool = False
) -> list[Text]:
    """Return both curves with axis, ticks and at-risk rows, as lines of the paper's width.

    The shares' axis starts at a round number under the lowest value or limit. Limits of thin
    ticks (fewer at risk than asked for) are not drawn, nor the curves where both are thin; a line
    says so. Without any curve, one line says why.

    Args:
        answer: What is drawn.
        paper: What to draw on.
        is_same_mix: Draw the curves at one mix of athletes, where there are any.
    """
    mix = answer.one_mix
    if is_same_mix and mix is not None and not mix.why:
        lines = shortened(
            [from_points("bare", LIGHT, mix.unguarded), from_points("guarded", HEAVY, mix.guarded)]
        )
        axes = axes_of(lines, paper)
        note = f"at the same mix of athletes, drawn to {axes.last}, where each kind was in both"
        return _picture(lines, axes, answer, paper.ink) + _note(note, paper.ink)
    lines = _as_played(answer)
    if not lines:
        why = answer.guarded.compared.why or answer.unguarded.compared.why or "no curve yet"
        return [Text(f" No curve to draw: {why}.", style=paper.ink.quiet)]
    axes = axes_of(lines, paper)
    return _picture(lines, axes, answer, paper.ink) + _cut(axes, answer, paper.ink)


def misleading_picture(answer: "GamesAnswer", paper: Paper) -> list[Text]:
    """Return the curves of sites ever and never guarded, dotted; none when it was not asked."""
    tally = answer.ever_never
    if tally is None:
        return []
    lines = shortened(
        [
            _while_large(line, answer.options.min_at_risk)
            for line in (
                from_curve("never", LIGHT, tally.never, limits=False),
                from_curve("ever", HEAVY, tally.ever, limits=False),
            )
            if line is not None
        ]
    )
    if not lines:
        return [Text(" No curve to draw: nobody was at risk.", style=paper.ink.quiet)]
    quiet = paper.ink.quiet
    ink = replace(paper.ink, guarded=quiet, bare=quiet)
    return _picture(lines, axes_of(lines, paper), answer, ink, is_dotted=True)


def _while_large(line: Line, least: int) -> Line:
    large = [tick for tick, count in line.at_risk.items() if count >= least]
    return replace(line, last_large=max(large, default=line.steps[1].tick))


def _as_played(answer: "GamesAnswer") -> list[Line]:
    return shortened(
        [
            from_curve("bare", LIGHT, answer.unguarded.compared),
            from_curve("guarded", HEAVY, answer.guarded.compared),
        ]
    )


def _picture(
    lines: Sequence[Line],
    axes: Axes,
    answer: "GamesAnswer",
    ink: Ink,
    *,
    is_dotted: bool = False,
) -> list[Text]:
    canvas = _canvas(axes, ink)
    for line in lines:
        _draw_limits(canvas, axes, line, ink)
    for line in lines:
        _draw_steps(canvas, axes, line)
    ends = _ends(lines, axes)
    picture = []
    for row, body in enumerate(canvas.lines()):
        label = share_label(axes, row)
        text = Text(right(label, MARGIN - 2) + " ", style=ink.quiet)
        text.append("┤" if label else "│", ink.rule)
        if is_dotted:
            body.plain = body.plain.translate(_DOTTED)
        text.append_text(body)
        if row in ends:
            name, share, is_guarded = ends[row]
            end = f"  {name} {words.number(share * 100, digits=0 if axes.step >= 0.05 else 1)} %"
            text.append(end, ink.group(guarded=is_guarded))
        picture.append(text)
    return [*picture, *_below(lines, axes, answer, ink)]


def at_risk_trend(answer: "GamesAnswer", paper: Paper) -> list[Text]:
    """Return how many were at risk at every tick, in line with the curves above it."""
    drawn = _as_played(answer)
    if not drawn:
        return []
    axes = axes_of(drawn, paper)
    trends = []
    for line in drawn:
        ticks = tuple(step.tick for step in line.steps if step.tick in line.at_risk)
        counts = tuple(line.at_risk[tick] for tick in ticks)
        trends.append(Trend(ticks, counts, _LETTERS[line.weight]))
    span, labels = (axes.first, axes.last), labelled(drawn, axes)
    plot = trend(trends, span, labels, columns=axes.columns, rows=TREND_ROWS)
    key = " " * MARGIN + f"at risk:  {_LETTERS[HEAVY]} guarded  {_LETTERS[LIGHT]} bare"
    gutter = plot[0].find("│") if "│" in plot[0] else plot[0].find("┤")
    texts = [Text(key), *(Text(" " * (MARGIN - 1 - gutter) + row) for row in plot)]
    for text in texts:
        text.stylize(paper.ink.quiet)
        text.highlight_regex(f"{_LETTERS[HEAVY]}+( guarded)?", paper.ink.guarded)
        text.highlight_regex(f"{_LETTERS[LIGHT]}+( bare)?", paper.ink.bare)
    return texts


def _canvas(axes: Axes, ink: Ink) -> Canvas:
    tints = {LIGHT: ink.bare_tint, HEAVY: ink.guarded_tint, 0: ink.both_tint}
    return Canvas(
        axes.columns,
        axes.rows,
        styles={LIGHT: ink.bare, HEAVY: ink.guarded},
        tints=tints if ink.tinted else {},
    )


def _draw_limits(canvas: Canvas, axes: Axes, line: Line, ink: Ink) -> None:
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


def _draw_steps(canvas: Canvas, axes: Axes, line: Line) -> None:
    for step, after in pairwise(line.steps):
        row, column = axes.row(step.level), axes.column(after.tick)
        canvas.across(row, axes.column(step.tick), column, line.weight)
        canvas.down(column, row, axes.row(after.level), line.weight)


def _ends(lines: Sequence[Line], axes: Axes) -> dict[int, tuple[str, float, bool]]:
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


def _below(lines: Sequence[Line], axes: Axes, answer: "GamesAnswer", ink: Ink) -> list[Text]:
    ticks = labelled(lines, axes)
    axis = ["─"] * axes.columns
    for tick in ticks:
        axis[axes.column(tick)] = "┬"
    numbers = {tick: str(tick) for tick in ticks}
    below = [
        Text(" " * (MARGIN - 1) + "└" + "".join(axis), style=ink.rule),
        Text(right(clock_word(answer), MARGIN - 1) + " " + under(numbers, axes), style=ink.quiet),
    ]
    for line in reversed(lines):
        counts = {tick: words.whole(line.at_risk.get(tick, 0)) for tick in ticks}
        text = Text(right(line.name, MARGIN - 1) + " " + under(counts, axes) + "  at risk")
        text.stylize(ink.group(guarded=line.weight == HEAVY))
        below.append(text)
    return below


def _cut(axes: Axes, answer: "GamesAnswer", ink: Ink) -> list[Text]:
    """Say where the picture ends before the curves do."""
    ticks = [p.tick for group in answer.groups for p in group.compared.points]
    if max(ticks) <= axes.last:
        return []
    least = words.whole(answer.options.min_at_risk)
    note = f"drawn to {axes.last}, the last with {least} at risk; the table goes on to {max(ticks)}"
    return _note(note, ink)


def _note(note: str, ink: Ink) -> list[Text]:
    return [Text(" " * MARGIN + note, style=ink.quiet)]
