"""Tables of help and README that come from descriptions: the questions, the stored tables."""

from seasonboard.answers.questions import QUESTIONS
from seasonboard.stored_column import CellType, StoredColumn, StoredTable
from seasonboard.stored_tables import TABLES

_FEW = 7
"""A list of at most so many words stands beside its column; a longer one below."""


def questions_markdown() -> str:
    """Return every question: its key and screen, and how it is asked on the command line."""
    lines = ["| key | screen | question | `seasonboard ask …` |", "| --- | --- | --- | --- |"]
    for one in QUESTIONS:
        screen = f"`{one.key}` | {one.title}" if one.key else " |"
        lines.append(f"| {screen} | {one.asks} | `{one.name}` |")
    return "\n".join(lines)


def columns_markdown() -> str:
    """Return every table with its key and its other columns, then the longer word lists."""
    head = ["| table | key | other columns |", "| --- | --- | --- |"]
    rows = [_row(table) for table in TABLES.values()]
    long = {
        column.name: column.words
        for table in TABLES.values()
        for column in table.columns
        if len(column.words) > _FEW
    }
    words = [f"| {name} | {', '.join(listed)} |" for name, listed in long.items()]
    return "\n".join([*head, *rows, "", "| column | its words |", "| --- | --- |", *words])


def _row(table: StoredTable) -> str:
    others = [_with_content(column) for column in table.columns if column.name not in table.key]
    return f"| {table.name} | {', '.join(table.key)} | {', '.join(others)} |"


def _with_content(column: StoredColumn) -> str:
    """Return a column's name, with `?` where it may be empty, and what it holds if not text."""
    name = column.name if column.required else f"{column.name}?"
    if column.words:
        beside = ", ".join(column.words) if len(column.words) <= _FEW else "words below"
    elif column.refers and column.refers[1] != column.name:
        beside = f"a {column.refers[1]}"
    else:
        beside = {CellType.DATE: "date", CellType.INSTANT: "date and time"}.get(column.holds, "")
    return f"{name} ({beside})" if beside else name
