"""Rows that go straight into the store are what a load of their files puts there."""

from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings

from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from tests.deep import tries
from tests.queries import build
from tests.queries.slow_orders import order_seasons
from tests.queries.straight import put_straight
from tests.reused import ReusedStore

CHANCE = "'loaded_at', 'made_at', 'mark', 'sha256'"
"""Columns that no two loads have alike."""


def stored(store):
    """Return every row of every table, in no order."""
    ask = store._connection.execute
    names = ask("SELECT table_name FROM duckdb_tables() WHERE database_name = 'store'").fetchall()
    every = f"SELECT COLUMNS(lambda name: name NOT IN ({CHANCE})) FROM store"
    return {
        name: sorted(ask(f"{every}.{name}").fetchall(), key=str)
        for (name,) in names
        if name != "about"
    }


def is_as_a_load(season, folder):
    with ReusedStore() as one, ReusedStore() as other:
        assert put_straight(one, season.tables())
        write_load(other, plan_load(other, [season.write(folder)]))
        return stored(one) == stored(other)


@pytest.mark.long
@settings(max_examples=tries(4))
@given(season=order_seasons())
def test_a_season_goes_straight_where_its_files_would_have_put_it(season):
    with TemporaryDirectory() as folder:
        assert is_as_a_load(season, Path(folder))


def test_a_game_far_from_home_goes_straight_with_its_day_and_its_number(tmp_path):
    season = build.drawn("""
           A B
    G9@1   . g!
    P1@2   ? .
    """)
    season.departments = [build.department("D", time_zone="Pacific/Auckland", name="It's D")]
    season.session("P1")["starts_at"] = datetime(2026, 9, 2, 23, tzinfo=UTC)
    assert is_as_a_load(season, tmp_path)


def test_what_a_load_must_look_at_does_not_go_straight():
    plain = build.drawn("""
           A
    G1@1   .
    """).tables()
    rows = plain["attendance"]
    for cells in ({"part": "Full"}, {"part": None}, {"minutes": "40"}, {"minutes": -1}, {"x": 1}):
        assert not put_straight(None, plain | {"attendance": [rows[0] | cells]}), cells
    assert not put_straight(None, plain | {"attendance": rows * 2})
