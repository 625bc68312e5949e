"""Days as columns with a count in each row: a week, or as many days as have room."""

from collections.abc import Sequence
from datetime import date

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.week.parts import MOST_DAYS
from seasonboard.ui.layout.blocks import Paper, note
from seasonboard.ui.layout.format import clean, fit, right

NONE = "·"
_LABEL = 13
_CELL = 8


def week_strip(
    days: Sequence[date], rows: Sequence[tuple[str, Sequence[int]]], paper: Paper
) -> list[Text]:
    """Return a heading of days and a line of counts for each row; none without days.

    The last days are shown, as many as have room, 14 at most; that there are more is said. A row
    is a label with one count a day; with a count in sight it stands out.

    Raises:
        ValueError: A row has more or fewer counts than there are days.
    """
    if any(len(counts) != len(days) for _, counts in rows):
        raise ValueError("a row has more or fewer counts than there are days")
    if not days:
        return []
    room = max(1, min(MOST_DAYS, (paper.width - _LABEL - 1) // _CELL))
    last_days = days[-room:]
    names = "".join(right(f"{day:%a} {day.day}", _CELL) for day in last_days)
    lines = [Text(" " * (_LABEL + 1) + names, style=paper.ink.quiet)]
    for label, counts in rows:
        last = counts[-room:]
        cells = "".join(right(words.whole(count) if count else NONE, _CELL) for count in last)
        text = Text(f" {fit(clean(label), _LABEL)}", style=paper.ink.quiet)
        lines.append(text.append(cells, f"not dim {paper.ink.strong}" if any(last) else ""))
    if len(days) > len(last_days):
        lines += note(f"the last {len(last_days)} of {len(days)} days", paper)
    return lines
