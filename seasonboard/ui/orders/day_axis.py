"""An order on an axis of days: its stages, the last day known, its next game."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from rich.text import Text

from seasonboard.ui.layout.format import day
from seasonboard.ui.themes import Ink

NOW, GAME, BEFORE = "│", "◆", "‹"
_DONE, _AHEAD = "─", "┄"


@dataclass(frozen=True, slots=True)
class DayAxis:
    """Days from left to right; `now` is the last day known."""

    first: date
    now: date
    last: date

    def column(self, on: date, width: int) -> int:
        """Return the column of a day, at the edge where it lies beyond."""
        span = max(1, (self.last - self.first).days)
        return min(width - 1, max(0, round((on - self.first).days / span * (width - 1))))

    def dates(self, width: int) -> str:
        """Return the last day known, the first and the last, as far as they do not meet."""
        cells = [" "] * width
        for on in (self.now, self.first, self.last):
            text = day(on)
            begin = min(width - len(text), max(0, self.column(on, width) - len(text) // 2))
            if not "".join(cells[max(0, begin - 1) : begin + len(text) + 1]).strip():
                cells[begin : begin + len(text)] = text
        return "".join(cells)


def order_line(
    axis: DayAxis, stages: Sequence[tuple[str, date]], game: date | None, width: int, ink: Ink
) -> Text:
    """Return one order in `width` cells: past days solid, days to the next game dashed.

    `stages` are a letter and a day each, in order; of those that fall on one cell the last one is
    seen. `‹` says that it began before the axis does; a game beyond the axis is not marked, and the
    dashes run to its end.
    """
    cells = [" "] * width
    now = axis.column(axis.now, width)
    days = [on for _, on in stages]
    start = axis.column(min(days), width) if days else now
    cells[start:now] = _DONE * (now - start)
    until = axis.column(game, width) if game else width - 1
    end = until if game and game <= axis.last else width
    cells[now + 1 : end] = _AHEAD * (end - now - 1)
    cells[now] = NOW
    for letter, on in stages:
        cells[axis.column(on, width)] = letter
    if days and min(days) < axis.first:
        cells[0] = BEFORE
    if game and game <= axis.last:
        cells[until] = GAME
    text = Text("".join(cells))
    text.stylize(ink.guarded, 0, now)
    text.stylize(ink.bare, now + 1)
    return text
