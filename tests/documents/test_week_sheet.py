"""The meeting sheet holds the figures of `ask`, and under the curtain nobody's name."""

import json
from dataclasses import replace

import pytest

from seasonboard.answers.checks.parts import ANSWERS
from seasonboard.documents.model import Paragraph, Room, written
from seasonboard.documents.origin import Making
from seasonboard.documents.week.document import _TOUCHED, COVERED, OPEN, week_sheet
from seasonboard.documents.writers.html import as_html
from seasonboard.documents.writers.pdf import as_pdf
from seasonboard.documents.writers.xlsx import as_workbook
from tests.documents.conftest import MADE_ON, column, columns, scope_of, table


@pytest.fixture(scope="module")
def asked(run, sample_store):
    """Ask on the command line in the scope of the sheet."""
    scope = ("--store", sample_store, "--department", "QM", "--through", "2026-11-14")
    names = ("week", "roster", "orders", "checks")
    return {name: run("ask", name, *scope, "--format", "json").json for name in names}


def test_sentences_days_and_items_are_those_of_ask(sheet, asked):
    assert sheet.lead == asked["week"]["answer"]
    texts = {p.text for s in sheet.sections for p in s.parts if isinstance(p, Paragraph)}
    assert {asked["roster"]["answer"], asked["orders"]["answer"]} <= texts
    counts = ("games", "practices", "injuries", "returns", "asked", "fitted")
    wanted = [tuple(day[count] for count in counts) for day in asked["week"]["days"]]
    assert [row[1:] for row in table(sheet, "day by day").rows] == wanted
    for item in asked["week"]["items"]:
        if item["rows"]:
            sheet_rows = [
                tuple(c.isoformat() if hasattr(c, "isoformat") else c for c in row)
                for row in table(sheet, f"week {item['item']}").rows
            ]
            told = [{k: v for k, v in row.items() if k != "why"} for row in item["rows"]]
            assert sheet_rows == [tuple(row.values()) for row in told]


def test_the_roster_and_the_orders_are_those_of_ask(sheet, asked):
    names = ("athlete", "name", "status", "because", "worn_share")
    wanted = [
        (*(a[name] for name in names), " ".join(a["needs"]) or None)
        for a in asked["roster"]["athletes"]
    ]
    heads = (*(name.replace("_", " ") for name in names), "needs")
    assert columns(table(sheet, "roster, all"), *heads) == wanted
    listed = asked["orders"]["orders"]
    wanted = [(o["guard"], o["age_days"], o["chance_by_next_game"]) for o in listed]
    heads = ("guard", "age days", "chance by next game")
    assert columns(table(sheet, "open orders, all"), *heads) == wanted
    keys = [o["guard"] for o in listed]
    assert column(table(sheet, "open orders"), "key") == keys[:20]
    html = as_html(replace(sheet, sheets=())).decode()
    assert [a["name"] for a in asked["roster"]["athletes"] if a["name"] not in html] == []


def test_checks_are_counted_as_ask_counts_them(sheet, asked):
    wanted = {
        (check["check"], check["count"])
        for check in asked["checks"]["checks"]
        if check["count"] and set(_TOUCHED) & set(check["touches"])
    }
    assert set(columns(table(sheet, "data checks"), "check", "rows")) == wanted
    assert set(_TOUCHED) <= set(ANSWERS)


def test_it_says_where_it_comes_from_and_leaves_room_to_write(sheet, board):
    facts = dict(sheet.facts.lines())
    assert facts["through"] == "2026-11-14"
    assert facts["store"] == board.fingerprint()
    assert facts["command"] == (
        "seasonboard handout week --sample --through 2026-11-14 --department QM"
    )
    assert sheet.notice == OPEN
    assert [p for s in sheet.sections for p in s.parts if isinstance(p, Room)]


@pytest.mark.long
def test_behind_the_curtain_stands_no_name_in_any_file(board, run, sample_store):
    scope = scope_of(board)
    open_ = week_sheet(board, scope, Making("week", MADE_ON))
    board.cover(is_down=True)
    try:
        covered = week_sheet(board, scope, Making("week", MADE_ON))
    finally:
        board.cover(is_down=False)
    people = table(open_, "roster, all")
    names = {name for pair in columns(people, "athlete", "name") for name in pair}
    shown = as_html(open_).decode()
    assert sum(name in shown for name in names) > 100  # the same search finds them when it is up
    assert covered.notice == COVERED
    cells = [
        written(cell, column.form)
        for one in covered.tables()
        for row in one.rows
        for cell, column in zip(row, one.columns, strict=True)
    ]
    told = "\n".join([as_html(covered).decode(), *cells, json.dumps(covered.keep_in_mind)])
    assert [name for name in names if name in told] == []
    assert len({len(as_workbook(covered)), len(as_pdf(covered).data)}) == 2


def test_a_store_s_path_is_not_told(board, sheet):
    board._place = "/home/sam/north.duckdb"
    try:
        found = week_sheet(board, scope_of(board, department="QM"), Making("week", MADE_ON))
    finally:
        board._place = "invented sample season"
    facts = dict(found.facts.lines())
    assert "data" not in facts
    assert "--store …" in facts["command"]
    assert "north" not in as_html(found).decode()
