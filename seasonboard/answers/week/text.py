"""The Week answer as text that can be read aloud in five minutes, and as CSV."""

from seasonboard.answers import words
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.answers.rows import Cell, Column
from seasonboard.answers.safe_text import one_line
from seasonboard.answers.week.answer import day_words
from seasonboard.answers.week.parts import DayCounts, WeekAnswer, WeekItem

MOST_COLUMNS = 5
"""Columns read out; the others, mostly keys, are in JSON."""

MOST_DAYS = 14
"""A strip of more days than this is not drawn in text."""

_LONGEST = 60
_SHARES = frozenset({"chance", "game_share", "practice_share"})


def week_text(answer: WeekAnswer) -> str:
    """Return the Week answer as lines of text: of each item the first rows, the rest counted."""
    changed = [item for item in answer.items if not item.is_ahead]
    ahead = [item for item in answer.items if item.is_ahead]
    body = [
        *_strip(answer),
        f"Changed after {day_words(answer.since)}, up to {day_words(answer.through)}",
        *(line for item in changed for line in _item(item)),
        "",
        "Ahead, and to be decided",
        *(line for item in ahead for line in _item(item)),
    ]
    return page(answer.summary, body)


def _strip(answer: WeekAnswer) -> list[str]:
    days = answer.days
    if not 1 < len(days) <= MOST_DAYS:
        return []
    heads = ("", *(f"{day.day:%a} {day.day.day}" for day in days), "")
    rows = [(name, *(_count(day, name) for day in days), "") for name in _COUNTED]
    return [*table(heads, rows), ""]


_COUNTED = ("games", "practices", "injuries", "returns", "asked", "fitted")


def _count(day: DayCounts, name: str) -> str:
    count: int = getattr(day, name)
    return str(count) if count else "·"


def _item(item: WeekItem) -> list[str]:
    lines = prose(f"{item.title}: {item.sentence}", hang="  ")
    shown = item.rows[: item.summary]
    columns = item.columns[:MOST_COLUMNS]
    rows = [
        tuple(_cell(cell, column) for cell, column in zip(row, columns, strict=False))
        for row in shown
    ]
    lines += [f"    {line}" for line in table(("",) * len(columns), rows)[1:]]
    rest = len(item.rows) - len(shown)
    if shown and rest:
        lines.append(f"    and {words.whole(rest)} more")
    return lines


def _cell(cell: Cell, column: Column) -> str:
    if cell is None:
        return "–"
    if isinstance(cell, float):
        return words.percent(cell) if column.name in _SHARES else words.number(cell, digits=0)
    text = one_line(str(cell))
    if column.name == "age_days":
        return f"{text} d"
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"


def week_csv(answer: WeekAnswer) -> str:
    """Return every row of every item as CSV: item, number of the row, column, value."""
    rows = [
        (item.key, number, column.name, cell)
        for item in answer.items
        for number, row in enumerate(item.rows, 1)
        for column, cell in zip(item.columns, row, strict=True)
    ]
    return as_csv(("item", "row", "column", "value"), rows)
