"""Every data check, asked of random seasons, against plain loops; and rewound."""

from collections import Counter
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.answers.checks.all_checks import ALL_CHECKS
from tests.deep import tries
from tests.queries.doubtful_seasons import check_scopes, doubtful, wide
from tests.queries.slow_checks_guards import SlowGuardChecks
from tests.queries.slow_wear import partly_recorded
from tests.queries.test_queries_against_loops import MODEST, loaded
from tests.queries.test_queries_hold_still import cut

CLOCK_BOUND = {"stages-ahead"}
"""Depends on the moment of loading; it has its worked examples."""


def found_of(store, check, scope):
    rows = store.read(check.query, **scope).iter_rows(named=True)
    return Counter((row["athlete"], row["key"]) for row in rows)


@pytest.mark.long
@settings(MODEST, max_examples=tries(4))
@given(season=partly_recorded(doubtful()), narrow=check_scopes())
def test_every_check_finds_what_loops_find(season, narrow):
    """In some scope and in the widest; and counting gives as many as there are rows."""
    checks = [check for check in ALL_CHECKS.values() if check.name not in CLOCK_BOUND]
    with loaded(season) as store:
        for scope in (narrow, wide()):
            slow = SlowGuardChecks(season, scope)
            found = {check.name: found_of(store, check, scope) for check in checks}
            counts = store.count_each([(check.query, scope) for check in checks])
            expected = {c.name: getattr(slow, c.name.replace("-", "_"))() for c in checks}
            assert found == expected
            assert list(counts) == [sum(expected[check.name].values()) for check in checks]


@pytest.mark.long
@settings(MODEST, max_examples=tries(2))
@given(season=partly_recorded(doubtful()), scope=check_scopes(), early=st.integers(0, 12))
def test_checks_rewound_to_a_day_find_what_they_found_that_day(season, scope, early):
    """What is dated later neither adds a doubt nor takes one away."""
    days = [season.played_on(s["session"]) for s in season.sessions]
    until = max(min(days), max(days) - timedelta(days=early)) + timedelta(days=1)
    asked = scope | {"until": until}
    slow = SlowGuardChecks(season, asked)
    # which sessions a season has was known before it began, and tells which place a guard is of
    past = replace(cut(season, until), sessions=season.sessions)
    zones = {g["guard"]: slow.orders.place(g) for g in season.guards}
    past.stages = [
        row
        for row in season.stages
        if (place := zones[row["guard"]]) is not None
        and row["reached_at"].astimezone(slow.orders.zone(place)).date() < until
    ]
    past.offers = [row for row in season.offers if row["offered_on"] < until]
    dated = [{row["guard"] for row in (*one.stages, *one.wear)} for one in (season, past)]
    unheard = dated[0] - dated[1]
    checks = [check for check in ALL_CHECKS.values() if check.name not in CLOCK_BOUND]
    with loaded(season) as whole, loaded(past) as then:
        for check in checks:
            now, before = (store.read(check.query, **asked) for store in (whole, then))
            kept = [row for row in before.rows() if row[6] not in unheard]
            assert now.rows() == kept, check.name
