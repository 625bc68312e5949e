"""A season broken in one way is told once, and nothing else of it changes."""

import csv
import io
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.rejects import write_rejects
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import Store
from tests.deep import tries
from tests.intake.desk import SMALL_SEASON
from tests.reused import ReusedStore

Season = dict[str, list[list[str]]]


@dataclass(frozen=True)
class Break:
    """One wrong cell: what it is in, and what it becomes; `cut` ones change the row's length."""

    table: str
    column: str
    value: str


WRONG = {
    ("attendance", "part"): ("ful", "N/A"),
    ("attendance", "minutes"): ("-5", "ninety", "40 kg", "5000"),
    ("attendance", "plays"): ("4.5",),
    ("attendance", "athlete"): ("Q9", "0A1"),
    ("attendance", "session"): ("",),
    ("injuries", "area"): ("shoudler",),
    ("injuries", "side"): ("lefty", "L/R knee hand"),
    ("injuries", "occurred_on"): ("2026-02-30", "31/31/2026", "2026-09-05T"),
    ("injuries", "returned_on"): ("2020-01-01", "13.13.13"),
    ("injuries", "reported_on"): ("1926-09-05",),
    ("wear", "kept_on"): ("perhaps",),
    ("wear", "guard"): ("G99",),
    ("stages", "reached_at"): ("noon",),
    ("stages", "stage"): ("posted",),
    ("offers", "answer"): ("hm",),
    ("offers", "kind"): ("helmet",),
    ("decisions", "decided_on"): ("TBD",),
    ("decisions", "department"): ("D99",),
}
CELLS = [Break(*column, value) for column, values in WRONG.items() for value in values]


def _rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text)))


def _csv(rows: list[list[str]], mark: str, ending: str) -> str:
    out = io.StringIO()
    csv.writer(out, delimiter=mark, lineterminator=ending).writerows(rows)
    return out.getvalue()


LOOKS: dict[str, Callable[[list[list[str]]], bytes]] = {
    "as it is": lambda rows: _csv(rows, ",", "\n").encode(),
    "semicolons": lambda rows: _csv(rows, ";", "\r\n").encode("utf-8-sig"),
    "tabs in UTF-16": lambda rows: _csv(rows, "\t", "\r\n").encode("utf-16"),
    "titles and totals": lambda rows: _csv(
        [["A title"], [], *rows, ["Total", *[""] * (len(rows[0]) - 1)]], ",", "\n"
    ).encode(),
}
ABOVE = {"titles and totals": 2}


def broken(one: Break, place: int) -> tuple[Season, int]:
    """Return the small season with one wrong cell, and its row in the file without titles."""
    season = {name: _rows(text) for name, text in SMALL_SEASON.items()}
    rows = season[one.table]
    row = 1 + place % (len(rows) - 1)
    rows[row][rows[0].index(one.column)] = one.value
    return season, row + 1


def written(season: Season, look: str, folder: Path) -> Path:
    for name, rows in season.items():
        (folder / f"{name}.csv").write_bytes(LOOKS[look](rows))
    return folder


def differing(store: Store, other: Store) -> list[str]:
    """Return the tables in which two stores differ."""
    tables = export_tables(other)
    return [name for name, one in export_tables(store).items() if not one.equals(tables[name])]


@pytest.mark.long
@settings(max_examples=tries(10))
@given(one=st.sampled_from(CELLS), place=st.integers(0, 9), look=st.sampled_from(sorted(LOOKS)))
def test_one_wrong_cell_is_named_once_and_all_else_is_loaded(tmp_path_factory, one, place, look):
    """With the good rows wanted, all but the broken row are there, as if it had not been."""
    season, row = broken(one, place)
    folder = written(season, look, tmp_path_factory.mktemp("season"))
    with ReusedStore() as store, ReusedStore() as other:
        plan = plan_load(store, [folder], LoadOptions(keep_good=True))
        named = plan.rejected[one.table]
        at = row + ABOVE.get(look, 0)
        assert named["rejected_row"].to_list() == [str(at)]
        assert named["rejected_column"].to_list() == [one.column]
        assert {name: rows.height for name, rows in plan.rejected.items()} == {one.table: 1}
        told = [problem for problem in plan.problems if problem.row is not None]
        assert [(p.file, p.row, p.column) for p in told] == [(f"{one.table}.csv", at, one.column)]
        assert told[0].value == (one.value or None)
        write_load(store, plan)
        del season[one.table][row - 1]
        clean = written(season, "as it is", tmp_path_factory.mktemp("clean"))
        write_load(other, plan_load(other, [clean]))
        assert differing(store, other) == []


@pytest.mark.long
@settings(max_examples=tries(4))
@given(one=st.sampled_from(CELLS), place=st.integers(0, 9), look=st.sampled_from(sorted(LOOKS)))
def test_the_rejected_row_corrected_makes_the_season_whole(tmp_path_factory, one, place, look):
    season, row = broken(one, place)
    folder = written(season, look, tmp_path_factory.mktemp("season"))
    with ReusedStore() as store, ReusedStore() as other:
        plan = plan_load(store, [folder], LoadOptions(keep_good=True))
        write_load(store, plan)
        left = write_rejects(tmp_path_factory.mktemp("rejects"), plan.rejected)
        rows = _rows((left / f"{one.table}.csv").read_text("utf-8"))
        right = _rows(SMALL_SEASON[one.table])[row - 1]
        column = rows[0].index(one.column)
        rows[1][column] = right[column - 5]
        (left / f"{one.table}.csv").write_text(_csv(rows, ",", "\n"), "utf-8")
        write_load(store, plan_load(store, [left]))
        whole = {name: _rows(text) for name, text in SMALL_SEASON.items()}
        clean = written(whole, "as it is", tmp_path_factory.mktemp("clean"))
        write_load(other, plan_load(other, [clean]))
        assert differing(store, other) == []
