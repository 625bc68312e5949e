"""The questions about orders, asked of random seasons, against plain loops; and rewound."""

from collections import Counter
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.store.catalogue import catalogue
from tests.queries.seasons import scopes
from tests.queries.slow_orders import MADE, SlowOrders, order_seasons
from tests.queries.test_queries_against_loops import MODEST, loaded
from tests.queries.test_queries_hold_still import cut


def asked_of(scope):
    return {name: scope[name] for name in catalogue()["orders/orders"].params}


@pytest.mark.long
@MODEST
@given(season=order_seasons(), scope=scopes())
def test_orders_are_what_loops_find(season, scope):
    """Stamps, states, games waited for, exposures bare meanwhile; and nothing is lost."""
    slow = SlowOrders(season, scope)
    expected = slow.orders()
    with loaded(season) as store:
        rows = store.read("orders/orders", **asked_of(scope)).to_dicts()
        check_groups(store, asked_of(scope), rows)
        unstaged = store.read("orders/unstaged", **asked_of(scope)).item()
        histories = store.read("orders/histories", until=scope["until"]).to_dicts()
    assert {row["guard"] for row in rows} == expected.keys()
    for row in rows:
        one = expected[row["guard"]]
        assert {name: row[name] for name in one} == one
    assert unstaged == slow.unstaged()
    names = ("department", "team", "kind", *(f"{stage}_on" for stage in MADE), "over_on")
    names += ("from_at", "to_at", "ending")
    rows = Counter(tuple(row[name] for name in names) for row in histories)
    assert rows == Counter(slow.histories())


def check_groups(store, asked, orders):
    """Whatever they are grouped by, each order is in one group, with the same cells."""
    for by in OrdersBy:
        name = by.value.replace("-", "_")
        found = []
        for member in {row[name] for row in orders}:
            params = asked | {"by": by.value, "member": member or ""}
            group = store.read("orders/of_group", **params).to_dicts()
            assert {row["guard"] for row in group} == {
                row["guard"] for row in orders if row[name] == member
            }
            found += group
        known = {row["guard"]: row for row in orders}
        assert len(found) == len(orders)
        assert all(row == {cell: known[row["guard"]][cell] for cell in row} for row in found)


@pytest.mark.long
@MODEST
@given(season=order_seasons(), scope=scopes(), early=st.integers(0, 12))
def test_orders_rewound_to_a_day_are_as_they_were_that_day(season, scope, early):
    """What happened later does not leak into the past; games ahead were known already."""
    days = [season.played_on(s["session"]) for s in season.sessions]
    until = max(min(days), max(days) - timedelta(days=early)) + timedelta(days=1)
    asked = asked_of(scope) | {"until": until}
    past = replace(cut(season, until), sessions=season.sessions)
    slow = SlowOrders(season, scope | {"until": until})
    known = {
        (guard["guard"], *found)
        for guard in season.guards
        for place in [slow.place(guard)]
        if place is not None
        for found in slow.known_stamps(guard, place)
    }
    past.stages = [s for s in season.stages if (s["guard"], s["stage"], s["reached_at"]) in known]
    staged = {s["guard"] for s in past.stages}
    later = {s["guard"] for s in season.stages} - staged
    with loaded(season) as whole, loaded(past) as then:
        for name, params in (("orders/orders", asked), ("orders/histories", {"until": until})):
            now = whole.read(name, **params).rows()
            assert now == [r for r in then.read(name, **params).rows() if r[0] not in later]
