"""Tables of help and README that come from descriptions: the questions, the stored tables."""

from seasonboard.answers.questions import QUESTIONS
from seasonboard.stored_column import StoredColumn, StoredTable
from seasonboard.stored_tables import TABLES


def questions_markdown() -> str:
    """Return every question: its key and screen, and how it is asked on the command line."""
    lines = ["| key | screen | question | `seasonboard ask …` |", "| --- | --- | --- | --- |"]
    for one in QUESTIONS:
        screen = f"`{one.key}` | {one.title}" if one.key else " |"
        lines.append(f"| {screen} | {one.asks} | `{one.name}` |")
    return "\n".join(lines)


def columns_markdown() -> str:
    """Return every stored table: what a row is, its key, its columns and what they hold."""
    return "\n\n".join(_section(table) for table in TABLES.values())


def _section(table: StoredTable) -> str:
    rows = [
        f"| {one.name}{'' if one.required else '?'} | {_meaning(one)} |" for one in table.columns
    ]
    title, key = f"## {table.name}: {table.meaning}", f"Key: {', '.join(table.key)}."
    return "\n".join([title, "", key, "", "| column | what it is |", "| --- | --- |", *rows])


def _meaning(column: StoredColumn) -> str:
    """Return what a column is, with its words, else its type and unit where that is not text."""
    if column.words:
        return f"{column.meaning}: {', '.join(column.words)}"
    unit = f" in {column.unit}" if column.unit else ""
    return column.meaning + ("" if column.is_free else f", {column.holds.value}{unit}")
