"""The Week answer described: days and items, for text, JSON, CSV, pages and documents."""

from collections.abc import Iterator, Sequence
from typing import Any, cast

from seasonboard.answers import words
from seasonboard.answers.fields import Field, Kind, Table, TableChoice, of
from seasonboard.answers.layout import prose, table
from seasonboard.answers.report import Report
from seasonboard.answers.safe_text import one_line
from seasonboard.answers.week.item_tables import ITEM_TABLES
from seasonboard.answers.week.parts import MOST_DAYS, DayCounts, WeekAnswer, WeekItem, day_words

MOST_FIELDS = 5
"""Fields of a row that are read out; the others, mostly keys, stand in its table."""

_LONGEST = 60


def _count(name: str, meaning: str, heading: str = "") -> Field:
    return Field(name, meaning, Kind.COUNT, heading=heading or name)


DAYS = Table.described(
    "days",
    "a day, and what happened on it",
    Field("day", "the day", Kind.DAY, heading="day", show=lambda d: day_words(d.day)),
    _count("games", "games held"),
    _count("practices", "practices held"),
    _count("injuries", "injuries that became known"),
    _count("returns", "returns from an injury"),
    _count("asked", "orders asked for", "orders"),
    _count("fitted", "guards fitted", "guards fitted"),
)


def day_counts(days: Sequence[DayCounts]) -> list[tuple[str, list[int]]]:
    """Return what is counted by day: its heading, and its count on each day."""
    counts = [one for one in DAYS.read_fields() if one.kind is Kind.COUNT]
    return [(one.heading_of(None), [cast("int", one.get(day)) for day in days]) for one in counts]


def _strip_lines(answer: WeekAnswer) -> list[str]:
    days = answer.days
    if not 1 < len(days) <= MOST_DAYS:
        return []
    heads = ("", *(f"{day.day:%a} {day.day.day}" for day in days), "")
    rows = [
        (heading, *(str(count) if count else "·" for count in counts), "")
        for heading, counts in day_counts(days)
    ]
    return table(heads, rows)


def _items_lines(answer: WeekAnswer) -> list[str]:
    lines = ["Ahead, and to be decided"]
    lines += [line for item in answer.items if item.is_ahead for line in _item_lines(item)]
    lines += ["", f"Changed after {day_words(answer.since)}, up to {day_words(answer.through)}"]
    return lines + [
        line for item in answer.items if not item.is_ahead for line in _item_lines(item)
    ]


def _item_lines(item: WeekItem) -> list[str]:
    lines = prose(f"{item.title}: {item.sentence}", hang="  ")
    first, fields = item.rows[: item.summary], item.fields[:MOST_FIELDS]
    rows = [tuple(_spoken(one, row) for one in fields) for row in first]
    lines += [f"    {line}" for line in table(("",) * len(fields), rows)[1:]]
    rest = len(item.rows) - len(first)
    return [*lines, f"    and {words.whole(rest)} more"] if first and rest else lines


def _spoken(field: Field, row: object) -> str:
    """Return a cell as it is read with no heading above it."""
    text = one_line(field.read(row))
    if field.name == "age_days":
        return f"{text} d"
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"


def _cells(answer: WeekAnswer) -> Iterator[dict[str, Any]]:
    for item in answer.items:
        for number, row in enumerate(item.rows, 1):
            for one in item.fields:
                cell = {"row": number, "column": one.name, "value": one.get(row)}
                yield {"item": item.key, **cell}


_CELLS = Table.described(
    "cells of items",
    "a cell of a row of an item",
    Field("item", "the item"),
    Field("row", "number of its row", Kind.COUNT),
    Field("column", "name of the field"),
    Field("value", "what it holds"),
    rows=_cells,
)

ITEMS = Table.described(
    "items",
    "one thing to talk about",
    Field("item", "what it is called by", get=of("key")),
    Field("title", "its title"),
    Field("sentence", "what is read aloud"),
    Field("ahead", "whether it lies ahead, or changed", Kind.FLAG, get=of("is_ahead")),
    TableChoice("rows", of("rows"), (), "the rows behind it", tables=ITEM_TABLES),
)

REPORT = Report(
    (
        Field("since", "the last day already talked about", Kind.DAY),
        Field("through", "the last day known", Kind.DAY),
        DAYS,
        ITEMS,
    ),
    csv=_CELLS,
    text=(_strip_lines, _items_lines),
)
