"""A whole answer as text, JSON and CSV, made from the description of its fields and tables."""

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from seasonboard.answers.base import Summary
from seasonboard.answers.field_output import as_json as element_json
from seasonboard.answers.field_output import csv_columns, described
from seasonboard.answers.fields import Element, Field, Kind, Table, Value, joined, machine_value
from seasonboard.answers.layout import as_csv, page, prose
from seasonboard.answers.layout import table as text_table
from seasonboard.answers.output import Output
from seasonboard.answers.rows import Cell, Column, Rows

Lines = Callable[[Any], str | Sequence[str]]
"""What gives a paragraph, or lines that are laid out already, of an answer; empty: nothing."""

SUMMARY = (
    Field("question", "name of the question", get=str),
    Field("scope", "every part of the scope, resolved", get=str),
    Field("answer", "the answer in one sentence", get=str),
    Field("caveats", "sentences to keep in mind", get=str),
    Field("left_out", "what was recorded and is not counted: why, and the count", get=str),
)
"""What every JSON object has beside the fields of its answer."""


@dataclass(frozen=True, slots=True)
class Report:
    """How one kind of answer is told.

    Attributes:
        elements: The fields, groups and tables of its JSON object.
        csv: The table that CSV is made of.
        text: What stands under the answer where people read it: tables and lines, in order.
        status: The exit status of an answer.
    """

    elements: tuple[Element, ...]
    csv: Table
    text: tuple[Table | Lines, ...]
    status: Callable[[Any], int] = lambda _: 0

    def output(self, answer: Any, question: str) -> Output:  # noqa: ANN401 - any answer
        """Return an answer in each of its forms, none of them made yet."""
        return Output(
            partial(self.as_text, answer),
            partial(self.as_json, answer, question),
            partial(self.as_csv, answer),
            self.status(answer),
        )

    def as_json(self, answer: Any, question: str) -> str:  # noqa: ANN401 - any answer
        """Return one JSON object, unrounded, with its last line ended."""
        whole = self.as_object(answer, question)
        return json.dumps(whole, allow_nan=False, ensure_ascii=False, indent=1) + "\n"

    def as_object(self, answer: Any, question: str) -> dict[str, Any]:  # noqa: ANN401 - any answer
        """Return what JSON is written from."""
        return {**summary_json(answer.summary, question), **element_json(self.elements, answer)}

    def as_text(self, answer: Any) -> str:  # noqa: ANN401 - any answer
        """Return question, answer, tables and lines, what was left out and what to keep in mind."""
        body: list[str] = []
        for part in self.text:
            lines = table_text(part, answer) if isinstance(part, Table) else _lines(part(answer))
            body += ["", *lines] if body and lines else lines
        return page(answer.summary, body)

    def as_csv(self, answer: Any) -> str:  # noqa: ANN401 - any answer
        """Return the table as CSV, unrounded; empty where nothing is known."""
        return table_csv(self.csv, self.csv.rows(answer) or ())

    def help(self) -> list[str]:
        """Return a line for each field of the JSON object, then those of the CSV."""
        names = ", ".join(name for name, _ in csv_columns(self.csv.elements))
        return [*described((*SUMMARY, *self.elements)), "", f"CSV ({self.csv.name}): {names}"]


def _lines(text: str | Sequence[str]) -> list[str]:
    return prose(text) if isinstance(text, str) else list(text)


def summary_json(summary: Summary, question: str) -> dict[str, Any]:
    """Return question, resolved scope, answer, caveats and what was left out.

    Where the data checks that touch the answer were counted, they are in `data_checks`.
    """
    whole: dict[str, Any] = {
        "question": question,
        "scope": summary.scope.resolved(),
        "answer": summary.answer,
        "caveats": list(summary.caveats),
        "left_out": [
            {"why": f"{left.what}: {left.why}", "count": left.count} for left in summary.left_out
        ],
    }
    if summary.doubts is not None:
        whole["data_checks"] = [
            {"check": one.check, "count": one.count} for one in summary.doubts if one.count
        ]
    return whole


def table_text(table: Table, answer: object) -> list[str]:
    """Return a table as lines under headings; none where it has no rows."""
    fields = table.read_fields(answer)
    last = ("",) if fields[-1].kind.is_number else ()  # words stand at the left in the last column
    heads = (*(one.heading_of(answer) for one in fields), *last)
    rows = [(*(one.read(row) for one in fields), *last) for row in table.rows(answer) or ()]
    return text_table(heads, rows)


def table_csv(table: Table, rows: Iterable[object]) -> str:
    """Return rows as CSV under the names of the table's fields, unrounded."""
    columns = csv_columns(table.elements)
    cells = [tuple(_cell(one.get(row)) for _, one in columns) for row in rows]
    return as_csv([name for name, _ in columns], cells)


def table_rows(table: Table, answer: object, title: str) -> Rows:
    """Return a table as rows that a reader shows, sorts, copies or saves: typed, unrounded."""
    fields = table.read_fields(answer)
    rows = tuple(tuple(_cell(one.get(row)) for one in fields) for row in table.rows(answer) or ())
    return Rows(title, table_columns(table, answer), rows, len(rows), len(rows))


def table_columns(table: Table, answer: object = None) -> tuple[Column, ...]:
    """Return the columns that people read of a table, as a reader of rows shows them."""
    return tuple(
        Column(
            one.name,
            one.heading_of(answer),
            is_number=one.kind.is_number,
            is_share=one.kind is Kind.SHARE,
        )
        for one in table.read_fields(answer)
    )


def _cell(value: Value) -> Cell:
    if isinstance(value, str) or not isinstance(value, (Sequence, Mapping)):
        cell: Cell = machine_value(value)
        return None if cell == "" else cell
    return joined(value) or None
