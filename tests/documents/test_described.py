"""A described table becomes a table of a document: chosen columns as read, or all of them typed."""

import io
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime

import openpyxl

from seasonboard.answers.estimate_fields import estimate
from seasonboard.answers.fields import Field, Group, Kind, Table, of
from seasonboard.documents.described import as_held, document_table, workbook_table
from seasonboard.documents.model import written
from seasonboard.documents.writers.xlsx import as_workbook


@dataclass
class Share:
    value: float
    low: float | None
    high: float | None
    why: str = ""


@dataclass
class Row:
    key: str
    days: int
    share: Share
    on: date | None
    at: datetime
    is_late: bool
    needs: tuple[str, ...]


ROWS = Table(
    "orders",
    lambda answer: answer,
    (
        Field("key", "key", heading="order"),
        Field("age_days", "age", Kind.COUNT, get=of("days"), heading="age"),
        estimate("remade", of("share"), "share remade", kind=Kind.SHARE),
        Group("game", lambda row: row if row.on else None, (Field("on", "", Kind.DAY),)),
        Field("at", "requested", Kind.INSTANT),
        Field("late", "whether late", Kind.FLAG, get=of("is_late"), heading="late"),
        Field("needs", "what it needs", heading="needs", show=lambda r: r.needs[0]),
    ),
    "an order",
)
AT = datetime(2026, 9, 3, 14, 5, tzinfo=UTC)
ANSWER = [
    Row("O-1", 12, Share(0.25, 0.125, 0.5), date(2026, 9, 5), AT, is_late=True, needs=("a", "b")),
    Row("O-2", 1234, Share(0.5, None, None), None, AT, is_late=False, needs=("c",)),
]


def lines(table):
    columns = table.columns
    return [
        [column.heading for column in columns],
        *([written(c, column.form) for c, column in zip(row, columns, strict=True)]
          for row in table.rows),
    ]  # fmt: skip


def test_a_document_reads_the_fields_that_people_read_in_their_words():
    assert lines(document_table(ROWS, ANSWER, "orders", "Orders")) == [
        ["order", "age", "late", "needs"],
        ["O-1", "12", "yes", "a"],
        ["O-2", "1,234", "no", "c"],
    ]


def test_fields_headings_rows_and_cells_may_be_those_of_the_document():
    table = document_table(
        *(ROWS, ANSWER, "orders", "Orders"),
        only=("needs", "remade.value", "game.on", "key"),
        headings={"game.on": "next game"},
        rows=ANSWER[:1],
        cell=lambda field, row: "hidden" if field.name == "key" else as_held(field, row),
        marks="game.on",
    )
    assert lines(table)[0] == ["needs", "remade", "next game", "order"]
    assert table.rows == (("a, b", 0.25, date(2026, 9, 5), "hidden"),)
    assert table.marks == 2


def test_a_workbook_gets_every_column_of_the_csv_typed_and_unrounded():
    table = workbook_table(ROWS, ANSWER, "orders, all", "Every order")
    assert [column.heading for column in table.columns] == [
        *("key", "age days", "remade", "remade low", "remade high"),
        *("game on", "at", "late", "needs"),
    ]
    assert table.rows == (
        ("O-1", 12, 0.25, 0.125, 0.5, date(2026, 9, 5), AT, True, "a, b"),
        ("O-2", 1234, 0.5, None, None, None, AT, False, "c"),
    )
    assert lines(table)[1][5:8] == ["5 Sep 2026", "3 Sep 2026 14:05", "yes"]


def test_days_instants_and_flags_stand_in_a_workbook_as_such(hostile):
    table = workbook_table(ROWS, ANSWER, "orders, all", "Every order")
    book = openpyxl.load_workbook(io.BytesIO(as_workbook(replace(hostile, sheets=(table,)))))
    row = next(book["orders, all"].iter_rows(min_row=3, values_only=True))
    assert row[5:8] == (datetime(2026, 9, 5), datetime(2026, 9, 3, 14, 5), "yes")  # noqa: DTZ001
