"""Survival curves as text: steps with their limits, words at the ends, at-risk rows below.

The guarded curve is a whole line, the bare one a dotted line, and each fourth dot is missing where
they run as one. Limits are tinted areas, or dashes where tints cannot be told apart. The misleading
tally has half the dots and no colour.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.games.words import AS_PLAYED, clock_word
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.pictures.canvas import HEAVY, LIGHT, SAMPLES
from seasonboard.ui.pictures.curve_steps import (
    MARGIN,
    Axes,
    Line,
    axes_of,
    from_curve,
    from_points,
    labelled,
    shortened,
)
from seasonboard.ui.pictures.curves import curve_rows, cut_words, line_ends, row_below, tick_rows
from seasonboard.ui.pictures.plotext_trend import Trend, trend
from seasonboard.ui.themes import Ink

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer

TREND_ROWS = 7
_LETTERS = {LIGHT: "·", HEAVY: "●"}


def survival_picture(
    answer: "GamesAnswer", paper: Paper, *, is_same_mix: bool = False
) -> list[Text]:
    """Return both curves with axis, ticks and at-risk rows, as lines of the paper's width.

    The shares' axis starts at a round number under the lowest value or limit. Limits of thin
    ticks (fewer at risk than asked for) are not drawn, nor the curves where both are thin; a line
    says so, and that they are as played. Without any curve, one line says why. With `is_same_mix`
    they are those at one mix of athletes, where there are any.
    """
    mix = answer.one_mix
    if is_same_mix and not mix.why:
        bare = from_points("bare", LIGHT, mix.unguarded)
        lines = shortened(bare, from_points("guarded", HEAVY, mix.guarded))
        axes = axes_of(lines, paper)
        note = "at the same mix of athletes; at risk: those with others alike"
    else:
        lines = _as_played(answer)
        if not lines:
            why = answer.guarded.compared.why or answer.unguarded.compared.why or "no curve yet"
            return [Text(f" No curve to draw: {why}.", style=paper.ink.quiet)]
        axes = axes_of(lines, paper)
        note = AS_PLAYED + _cut(axes, answer)
    below = [Text(" " * MARGIN + note, style=paper.ink.quiet)]
    return _picture(lines, axes, answer, paper.ink) + below


def misleading_picture(answer: "GamesAnswer", paper: Paper) -> list[Text]:
    """Return the curves of sites ever and never guarded, dotted; none when it was not asked."""
    tally = answer.ever_never
    if tally is None:
        return []
    never = from_curve("never", LIGHT, tally.never, limits=False)
    ever = from_curve("ever", HEAVY, tally.ever, limits=False)
    least = answer.options.min_at_risk
    lines = shortened(*(_while_large(line, least) for line in (never, ever) if line is not None))
    if not lines:
        return [Text(" No curve to draw: nobody was at risk.", style=paper.ink.quiet)]
    quiet = paper.ink.quiet
    ink = replace(paper.ink, guarded=quiet, bare=quiet)
    return _picture(lines, axes_of(lines, paper), answer, ink, is_sparse=True)


def _while_large(line: Line, least: int) -> Line:
    large = [tick for tick, count in line.at_risk.items() if count >= least]
    return replace(line, last_large=max(large, default=line.steps[1].tick))


def _as_played(answer: "GamesAnswer") -> list[Line]:
    bare = from_curve("bare", LIGHT, answer.unguarded.compared)
    return shortened(bare, from_curve("guarded", HEAVY, answer.guarded.compared))


def _picture(
    lines: Sequence[Line], axes: Axes, answer: "GamesAnswer", ink: Ink, *, is_sparse: bool = False
) -> list[Text]:
    ends = line_ends(lines, axes)
    picture = []
    for row, (text, body) in enumerate(curve_rows(lines, axes, ink, is_sparse=is_sparse)):
        text.append_text(body)
        if row in ends:
            line, digits = ends[row], 0 if axes.step >= 0.05 else 1
            end = f"  {line.name} {words.number(line.steps[-1].level * 100, digits=digits)} %"
            text.append(end, ink.group(guarded=line.weight == HEAVY))
        picture.append(text)
    ticks = labelled(lines, axes)
    axis, *below = tick_rows(ticks, clock_word(answer), axes, ink)
    picture += [axis.append(f"  {cut_words(axes)}".rstrip(), ink.quiet), *below]
    for line in reversed(lines):
        counts = {tick: words.whole(line.at_risk.get(tick, 0)) for tick in ticks}
        sample = "" if is_sparse else f"  {SAMPLES[line.weight]}"
        text = row_below(line.name, counts, axes, "").append(f"  at risk{sample}")
        text.stylize(ink.group(guarded=line.weight == HEAVY))
        picture.append(text)
    return picture


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


def _cut(axes: Axes, answer: "GamesAnswer") -> str:
    """Say where the picture ends before the curves do."""
    last = max(p.tick for group in answer.groups for p in group.compared.points)
    if last <= axes.last:
        return ""
    least = words.whole(answer.options.min_at_risk)
    return f"; to {axes.last}, then under {least} at risk"
