"""Small pictures inside a line: strips of sessions, bars and shares with their limits.

Every mark is one cell wide and tells by its shape; colour only repeats it.
"""

import math
from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.roster.words import strip_mark
from seasonboard.answers.sparkline import sparkline
from seasonboard.ui.layout.format import day
from seasonboard.ui.themes import Ink

if TYPE_CHECKING:
    from seasonboard.answers.roster.parts import StripCell

_PARTS = "▏▎▍▌▋▊▉"


def strip(cells: Sequence["StripCell"], ink: Ink) -> Text:
    """Return sessions as one mark each, oldest first; guarded or bare is told of full ones."""
    text = Text()
    for cell in cells:
        worn = cell.is_guarded
        full = ink.quiet if worn is None else ink.group(guarded=worn)
        styles = {"full": full, "limited": "", "out": ink.strong}
        text.append(strip_mark(cell), styles.get(cell.state, ink.quiet))
    return text


def bar(share: float, width: int) -> str:
    """Return a share of 0 to 1 as a bar in `width` cells; anything above 0 is seen."""
    eighths = round(min(1.0, max(0.0, share)) * width * 8)
    if share > 0:
        eighths = max(1, eighths)
    whole, rest = divmod(eighths, 8)
    return ("█" * whole + (_PARTS[rest - 1] if rest else "")).ljust(width)


def trend_line(
    days: Sequence[date],
    values: Sequence[float | None],
    read: Callable[[float], str],
    unit: str = "",
) -> Text:
    """Return figures as block letters between their first and last day, then their range."""
    line = f" {day(days[0])} {sparkline(values, floor=0)} {day(days[-1])}"
    if figures := [value for value in values if value is not None]:
        line += f"   {read(min(figures))} to {read(max(figures))}{unit}"
    return Text(line)


def share_line(
    share: float | None,
    interval: tuple[float | None, float | None],
    width: int,
    *,
    limits: tuple[float, float] | None = None,
    most: float = 1.0,
) -> str:
    """Return a share `■` with its interval `├─┤` on an axis from 0 to `most`.

    `limits`, where given, are drawn as `┊`: what lies beyond them is more than chance explains.
    What lies beyond the axis is not drawn at its end as if it lay there: `▸` says it goes on.
    """
    cells = [" "] * width
    low, high = interval

    def cell_of(value: float) -> int:
        return min(width - 1, max(0, math.floor(value / most * (width - 1) + 0.5)))

    for limit in limits or ():
        if limit <= most:
            cells[cell_of(limit)] = "┊"
    if low is not None and high is not None:
        first, last = cell_of(low), cell_of(high)
        cells[first : last + 1] = "─" * (last + 1 - first)
        cells[first], cells[last] = "├", "▸" if high > most else "┤"
    if share is not None:
        cells[cell_of(share)] = "■" if share <= most else "▸"
    return "".join(cells)
