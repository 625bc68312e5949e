"""What became of guards, and prints by week, on random seasons, against plain loops."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.store.catalogue import catalogue
from tests.queries.seasons import scopes
from tests.queries.slow_remakes import SlowRemakes, remake_seasons, wide_scopes
from tests.queries.test_queries_against_loops import MODEST, loaded


@pytest.mark.long
@MODEST
@given(season=remake_seasons(), scope=st.one_of(scopes(), wide_scopes()))
def test_remakes_and_prints_are_what_loops_find(season, scope):
    slow = SlowRemakes(season, scope)
    asked = {name: scope[name] for name in catalogue()["orders/orders"].params}
    with loaded(season) as store:
        guards = {row["guard"]: row for row in store.read("remakes/guards", **asked).to_dicts()}
        weeks = store.read("allotment/weeks", **asked).to_dicts()
        left_out = store.read("remakes/left_out", **asked).rows()
        not_printed = store.read("allotment/left_out", **asked).rows()
    expected = slow.guards()
    assert guards.keys() == expected.keys()
    for key, row in guards.items():
        assert {name: row[name] for name in expected[key]} == expected[key], key
    assert {(what, why): n for what, why, n in left_out} == slow.left_out()
    assert {(what, why): n for what, why, n in not_printed} == slow.not_printed()
    found = {(row["department"], row["week"]): row for row in weeks}
    loops = slow.weeks()
    assert found.keys() == loops.keys()
    for key, row in found.items():
        assert {name: row[name] for name in loops[key]} == loops[key], key
