"""The items of the Week as tables of a document, typed."""

from collections.abc import Mapping
from datetime import date

from seasonboard.answers import words
from seasonboard.answers.rows import Cell as RowCell
from seasonboard.answers.week.parts import WeekItem
from seasonboard.documents.model import Cell, Column, Form, Table

_SHARES = frozenset({"chance", "game_share", "practice_share"})
_SHOWN: Mapping[str, tuple[str, ...]] = {
    "played": ("team", "games", "game_share", "practices", "practice_share", "unrecorded"),
    "injuries": ("name", "team", "area", "side", "worn", "state", "known_on"),
    "returns": ("name", "team", "area", "side", "days_lost", "returned_on"),
    "remakes": ("name", "team", "kind", "counts_as", "reason", "on"),
    "offers": ("name", "team", "kind", "answer", "reason", "offered_on"),
    "games": ("team", "played_on", "at", "label", "guards", "limited", "out"),
    "decisions": ("text", "department_name", "due_on", "state"),
    "decided": ("text", "department_name", "what", "due_on", "done_on"),
}
"""Of each item the columns on paper, in their order; the workbook has all of them."""


MOST_ROWS = 12
"""Rows of an item on paper, unless asked otherwise."""


def shown_table(item: WeekItem, *, most: int = MOST_ROWS) -> Table | None:
    """Return the first rows of an item in the columns for paper; None where there are none."""
    names = _SHOWN.get(item.key, ())
    if not names or not item.rows:
        return None
    found = all_rows(item)
    places = [[column.name for column in item.columns].index(name) for name in names]
    rest = len(item.rows) - most
    return Table(
        name=item.key,
        caption=f"{item.title}:",
        lead=item.sentence,
        columns=tuple(found.columns[place] for place in places),
        rows=tuple(tuple(row[place] for place in places) for row in found.rows[:most]),
        note=f"And {words.whole(rest)} more: in the workbook." if rest > 0 else "",
    )


def all_rows(item: WeekItem) -> Table:
    """Return an item with every row and column."""
    columns = tuple(
        Column(column.heading, _form(column.name, is_number=column.is_number))
        for column in item.columns
    )
    names = [column.name for column in item.columns]
    rows = tuple(
        tuple(typed(name, cell) for name, cell in zip(names, row, strict=True)) for row in item.rows
    )
    return Table(f"week {item.key}", f"{item.title}:", columns, rows, lead=item.sentence)


def _form(name: str, *, is_number: bool) -> Form:
    if name in _SHARES:
        return Form.SHARE
    if name == "late_after":
        return Form.WHOLE
    return Form.COUNT if is_number else Form.TEXT


def typed(name: str, cell: RowCell) -> Cell:
    """Return a cell with a day as a day: such columns end in `on`, or are called `since`."""
    if isinstance(cell, str) and (name in {"on", "since"} or name.endswith("_on")):
        return date.fromisoformat(cell)
    if isinstance(cell, str | int | float) or cell is None:
        return cell
    return str(cell)
