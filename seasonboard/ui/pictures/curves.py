"""Curves on a canvas: steps with their limits, the axis of shares beside, ticks and counts below.

A level lies within half a dot of its number, a dot being a quarter of a line. Limits are tinted
areas, or dashes where tints cannot be told apart.
"""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from rich.text import Text

from seasonboard.ui.layout.format import right
from seasonboard.ui.pictures.canvas import FOURTH, HEAVY, LIGHT, THIRD, Canvas
from seasonboard.ui.pictures.curve_steps import MARGIN, Axes, Line, share_label, under
from seasonboard.ui.themes import Ink

DASHES = {LIGHT: "╌", HEAVY: "╍"}


def curve_rows(
    lines: Sequence[Line],
    axes: Axes,
    ink: Ink,
    dashes: Mapping[int, str] = DASHES,
    *,
    is_sparse: bool = False,
) -> list[tuple[Text, Text]]:
    """Return the rows of a picture: the axis of shares, and the curves right of it."""
    tints = {LIGHT: ink.bare_tint, HEAVY: ink.guarded_tint, LIGHT | HEAVY: ink.both_tint}
    styles = {LIGHT: ink.bare, HEAVY: ink.guarded, THIRD: "", FOURTH: ""}
    areas = tints if ink.tinted else {}
    canvas = Canvas(axes.columns, axes.rows, styles=styles, tints=areas, is_sparse=is_sparse)
    for line in lines:
        _draw_limits(canvas, axes, line, ink, dashes.get(line.weight, ""))
    for line in lines:
        for step, after in pairwise(line.steps):
            y, x = axes.dot_row(step.level), axes.dot_column(after.tick)
            canvas.across(y, axes.dot_column(step.tick), x, line.weight)
            canvas.down(x, y, axes.dot_row(after.level), line.weight)
    rows = []
    for row, body in enumerate(canvas.lines()):
        label = share_label(axes, row)
        text = Text(right(label, MARGIN - 2) + " ", style=ink.quiet)
        rows.append((text.append("┤" if label else "│", ink.rule), body))
    return rows


def line_ends(lines: Sequence[Line], axes: Axes) -> dict[int, Line]:
    """Return which line ends at which row; those that would meet move apart."""
    ends: dict[int, Line] = {}
    for line in sorted(lines, key=lambda line: -line.steps[-1].level):
        row = axes.row(line.steps[-1].level)
        while row in ends:
            row += 1
        if row >= axes.rows:
            ends = {place - 1: other for place, other in ends.items()}
            row = axes.rows - 1
        ends[row] = line
    return ends


def _draw_limits(canvas: Canvas, axes: Axes, line: Line, ink: Ink, dash: str) -> None:
    style = ink.group(guarded=line.weight == HEAVY)
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


def tick_rows(ticks: Sequence[int], unit: str, axes: Axes, ink: Ink) -> list[Text]:
    """Return the axis below a picture and its labels, led by what they count.

    Where the axis of shares does not start at 0, `≈` stands at its foot.
    """
    axis = ["─"] * axes.columns
    for tick in ticks:
        axis[axes.column(tick)] = "┬"
    numbers = {tick: str(tick) for tick in ticks}
    corner = "≈" if axes.bottom > 0 else "└"
    return [
        Text(" " * (MARGIN - 1) + corner + "".join(axis), style=ink.rule),
        row_below(unit, numbers, axes, ink.quiet),
    ]


def cut_words(axes: Axes) -> str:
    """Say that the axis of shares does not start at 0, or nothing."""
    return f"≈ from {axes.label(axes.bottom)}" if axes.bottom > 0 else ""


def row_below(name: str, texts: dict[int, str], axes: Axes, style: str) -> Text:
    """Return a row of texts under their ticks, led by its name."""
    return Text(right(name, MARGIN - 1) + " " + under(texts, axes), style=style)
