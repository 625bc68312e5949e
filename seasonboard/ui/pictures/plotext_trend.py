"""Trends drawn by the plotting library; nothing else in the board touches it.

Its import takes a tenth of a second and more, so it waits until a picture is wanted. It draws on
one shared figure: call `trend` from the screen's own thread only.
"""

from collections.abc import Sequence
from dataclasses import dataclass

LABEL_STEPS = 4
"""Labels of the axis of values, about."""


@dataclass(frozen=True, slots=True)
class Trend:
    """Whole numbers by tick, and the one-cell letter they are drawn with."""

    ticks: tuple[int, ...]
    counts: tuple[int, ...]
    letter: str


def warm() -> None:
    """Load the library, so that the first picture does not have to."""
    import plotext  # noqa: F401 - late, as said above


def trend(
    trends: Sequence[Trend],
    span: tuple[int, int],
    labels: Sequence[int],
    *,
    columns: int,
    rows: int,
) -> list[str]:
    """Return counts by tick as lines of plain text; a later trend covers an earlier one.

    Each line is led by its count's label and the axis; there is none with nothing to draw.

    Args:
        trends: What is drawn; those without ticks are passed over.
        span: The first and the last tick of the axis.
        labels: The ticks that are labelled.
        columns: Cells across, right of the axis of counts.
        rows: Lines over the labels.
    """
    import plotext

    with_ticks = [trend for trend in trends if trend.ticks]
    if not with_ticks:
        return []
    figure = plotext.figure
    figure.clear()
    figure.theme("colorless")
    figure.axes(active=False)
    figure.axes(active=True, axis=1, side=0)
    for each in with_ticks:
        signal = figure.signal(list(each.ticks), list(each.counts), marker=each.letter)
        figure.draw(signal.lines(True))
    most = max(max(each.counts) for each in with_ticks)
    step = max(1, -(-most // LABEL_STEPS))
    figure.plot_size(columns + len(str(most - most % step)) + 1, rows + 1)
    figure.ruler("y").lim(0, max(1, most)).ticks(list(range(0, most + 1, step)))
    figure.ruler("x").lim(*span).ticks(list(labels))
    text = plotext.uncolorize(figure.build().string())
    return [line.rstrip() for line in text.splitlines()]
