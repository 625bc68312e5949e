"""Rows that go straight into the store are what a load of their files puts there."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings

from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import memory_store
from tests.deep import tries
from tests.queries import build
from tests.queries.slow_orders import order_seasons
from tests.queries.straight import straight_plan


@pytest.mark.long
@settings(max_examples=tries(4))
@given(season=order_seasons())
def test_a_season_goes_straight_where_its_files_would_have_put_it(season):
    plan = straight_plan(season.tables())
    assert plan is not None
    with TemporaryDirectory() as folder, memory_store() as one, memory_store() as other:
        write_load(one, plan)
        write_load(other, plan_load(other, [season.write(Path(folder))]))
        wanted = export_tables(other)
        for name, frame in export_tables(one).items():
            assert frame.equals(wanted[name]), name


def test_what_a_load_must_look_at_does_not_go_straight():
    plain = build.drawn("""
           A
    G1@1   .
    """)
    assert straight_plan(plain.tables()) is not None
    for cells in ({"part": "Full"}, {"part": None}, {"minutes": "40"}, {"minutes": -1}, {"x": 1}):
        own = plain.tables() | {"attendance": [plain.attendance[0] | cells]}
        assert straight_plan(own) is None, cells
    assert straight_plan(plain.tables() | {"attendance": plain.attendance * 2}) is None
