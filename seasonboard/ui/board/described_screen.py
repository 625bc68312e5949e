"""The screen of a question that has none of its own: the tables of its report, one a section."""

from collections.abc import Iterable, Sequence
from functools import cache, partial
from typing import Any

from seasonboard.answers.fields import Table
from seasonboard.answers.questions import Question
from seasonboard.answers.report import table_rows
from seasonboard.answers.rows import page_in_memory
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Opens, Paper, What, pictured
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.tables import column, table_blocks

_NARROW = 6
"""Cells that a column has at least, so that figures of neighbours stand apart."""


class DescribedScreen(WorkScreen[Any]):
    """The tables that people read of an answer; Enter opens the rows of one."""

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the rows of a table of the answer."""
        table = _tables(self.QUESTION).get(opens.key) if opens.what is What.TABLE else None
        if table is None or self.answer is None:
            return super().rows_of(opens)
        rows = table_rows(table, self.answer, self.QUESTION.title)
        return rows.title, partial(page_in_memory, rows)


@cache
def described_screen(question: Question[Any, Any]) -> type[BoardScreen[Any]]:
    """Return the screen of a question; its help is the text of its first method card."""
    own = {
        "QUESTION": question,
        "PAGE": staticmethod(partial(described_page, question)),
        "HELP": next(iter(question.cards().values())).what,
    }
    return type(f"{question.title}Screen", (DescribedScreen,), own)


def described_page(question: Question[Any, Any], answer: Any, paper: Paper) -> Sequence[Block]:  # noqa: ANN401 - any answer
    """Return question, answer, every table of the report, what to keep in mind."""
    summary, tables = answer.summary, _tables(question)
    card = f"{question.folder}/{next(iter(question.cards()))}"
    with_rows = (name for name, table in tables.items() if any(True for _ in _rows(table, answer)))
    opens = Opens(What.TABLE, next(with_rows, ""))
    sections: list[Section] = [partial(_table, table, answer, card) for table in tables.values()]
    sections += page_parts.ends(summary, card, opens)
    opening = page_parts.opening(summary, paper, card, opens)
    return [*opening, *in_columns(sections, paper)]


def _tables(question: Question[Any, Any]) -> dict[str, Table]:
    """Return the tables that people read of an answer by name, in their order."""
    return {part.name: part for part in question.report().text if isinstance(part, Table)}


def _rows(table: Table, answer: object) -> Iterable[Any]:
    return table.rows(answer) or ()


def _table(table: Table, answer: object, card: str, paper: Paper) -> list[Block]:
    rows, fields = list(_rows(table, answer)), table.read_fields(answer)
    heads = []
    for one in fields:
        texts = (one.heading_of(answer), *(one.read(row) for row in rows))
        width = max(_NARROW, *map(len, texts))
        heads.append(column(one, width, answer, grows=one is fields[0]))
    opens = Opens(What.TABLE, table.name)
    blocks = table_blocks(
        heads, rows, paper, lambda row: (f"{table.name} {fields[0].read(row)}", card, opens)
    )
    return [GAP, *pictured(blocks)] if blocks else []
