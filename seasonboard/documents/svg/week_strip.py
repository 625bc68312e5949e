"""The days of a week as columns: what happened on each, a dot for every one."""

from collections.abc import Sequence
from datetime import date

from seasonboard.answers import words
from seasonboard.answers.week.parts import MOST_DAYS
from seasonboard.documents.svg import drawing as d

_LEFT, _TOP, _ROW = 104.0, 34.0, 32.0
_MOST_DOTS = 3
_ROOM = 44
"""Units of a day in which its month, or dots beside its figure, have room."""


def week_strip(
    labels: d.PictureWords, days: Sequence[date], rows: Sequence[tuple[str, Sequence[int]]]
) -> str:
    """Return days and counts: up to three dots for so many, and always the figure.

    Each row is a label and one count a day; of more than 14 days the last ones are drawn.

    Raises:
        ValueError: A row has more or fewer counts than there are days.
    """
    if any(len(counts) != len(days) for _, counts in rows):
        raise ValueError("a row has more or fewer counts than there are days")
    last_days = days[-MOST_DAYS:]
    wide = (d.WIDE - _LEFT) / max(1, len(last_days))
    bottom = _TOP + len(rows) * _ROW
    pieces = []
    for n, day in enumerate(last_days):
        x = _LEFT + n * wide
        if day.weekday() >= 5:  # Saturday and Sunday
            pieces.append(d.box(x, 6, wide, bottom - 6, colour="#f1efe8"))
        for label, y, bold in ((f"{day:%a}", 18.0, False), (f"{day.day} {day:%b}", 31.0, True)):
            is_wide = wide >= _ROOM or not bold
            pieces.append(
                d.text(x + wide / 2, y, label if is_wide else str(day.day), anchor="middle",
                        size=d.SMALL, colour=d.INK if bold else d.QUIET, is_bold=bold)
            )  # fmt: skip
    for n, (label, counts) in enumerate(rows):
        y = _TOP + (n + 0.5) * _ROW
        pieces.append(d.line(0, y + _ROW / 2, d.WIDE, y + _ROW / 2, width=0.8))
        pieces.append(d.text(2, y + 5, label, is_bold=any(counts)))
        for number, count in enumerate(counts[-MOST_DAYS:]):
            pieces += _counted(_LEFT + (number + 0.5) * wide, y, count, wide)
    return d.drawing(labels, bottom + 4, pieces)


def _counted(x: float, y: float, count: int, wide: float) -> list[str]:
    if not count:
        return [d.text(x, y + 4, "·", anchor="middle", colour=d.QUIET)]
    figure = words.whole(count)
    dots = min(count, _MOST_DOTS) if wide >= _ROOM else 0
    start = x - (dots * 10 + d.breadth(figure)) / 2
    pieces = [d.dot(start + n * 10 + 4, y, 3.6, colour=d.BLUE) for n in range(dots)]
    pieces.append(d.text(start + dots * 10 + 2, y + 5, figure, is_bold=True))
    return pieces
