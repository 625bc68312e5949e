"""Rules of sports stand where a department looked them up; all else is not checked."""

from datetime import date

import pytest

from seasonboard.answers.base import rules_caveat
from seasonboard.answers.lists import Lists
from tests.queries.asking import put
from tests.queries.build import day, department, drawn, stamp, team


@pytest.fixture
def store(load):
    """Department D looked up chest guards in soccer; its hockey team and H did not."""
    season = drawn("   A B\nG1  g g\nG2  r .")
    season.departments = [department("D"), department("H")]
    season.teams = [team("T"), team("U", sport="hockey")]
    base = {
        "department": "D",
        "kind": "chest",
        "source": "rule book",
        "checked_on": date(2026, 8, 1),
    }
    season.rules = [
        base | {"sport": "soccer", "purpose": "preventive", "rule": "with covering"},
        base | {"sport": "hockey", "purpose": "return", "rule": "not allowed"},
        base | {"sport": "soccer", "purpose": "preventive", "rule": "allowed", "department": "H"},
    ]
    season.stages = [stamp(guard["guard"], "requested", 1, 8) for guard in season.guards]
    season.offers = [
        {"offer": "o", "athlete": "A", "kind": "chest", "offered_on": day(1), "answer": "accepted"}
    ]
    return load(season)


def test_orders_roster_and_offers_tell_the_same(store):
    looked_up = {"preventive": "with covering", "return": "not checked"}
    for question in ("orders/orders", "roster/guards"):
        rows = put(store, question, day(9))
        assert len(rows) == 3
        told = rows.select("purpose", "rule").unique().iter_rows()
        assert dict(told) == looked_up, question
    offers = put(store, "week/offers", day(9), since=day(0))
    assert offers["rule"].to_list() == ["with covering"]


def test_who_orders_or_offers_one_that_is_not_plainly_allowed_reads_where_it_was_looked_up(store):
    lists = Lists(store)
    said = "In games, soccer: with covering (rule book, 2026-08-01)."
    assert lists.rules("A", "chest", "preventive") == said
    assert lists.rules("A", "chest", "return") == lists.rules("A", "shin", "preventive") == ""


def test_what_nobody_checked_is_counted_and_taken_for_nothing(store):
    rules = put(store, "orders/orders", day(9))["rule"]
    assert rules_caveat(rules) == [
        "In games, by the rules that departments looked up: 2 with covering; 1 not checked."
    ]
    assert rules_caveat(rules.filter(rules == "not checked")) == []
