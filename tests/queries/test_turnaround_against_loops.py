"""Turnaround of random seasons against plain loops over the same orders; nothing is lost."""

from collections import Counter
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.answers.orders.answer import orders as ask_orders
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.orders.order_times import MAKING, Unit
from seasonboard.answers.scope_values import read_known
from seasonboard.answers.turnaround.answer import turnaround
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.scope import Scope
from seasonboard.terms import Stage
from tests.queries.seasons import scopes
from tests.queries.slow_orders import SlowOrders, order_seasons
from tests.queries.test_queries_against_loops import MODEST, loaded

PAIRS = st.lists(st.sampled_from(MAKING), min_size=2, max_size=2, unique=True)


def scope_of(parts):
    lists = (
        "seasons", "departments", "teams", "sports", "sexes",
        "position_groups", "kinds", "areas", "sides",
    )  # fmt: skip
    cells = {name: None if parts[name] is None else tuple(parts[name]) for name in lists}
    return Scope(through=parts["until"] - timedelta(days=1), **cells)


def timed_slowly(slow, one, start, end, unit):
    """Return (time, what became of it) between two stages; None where it cannot be told."""
    begun, reached, off = one[f"{start}_at"], one[f"{end}_at"], one["cancelled_at"]
    zone = slow.zone({"team": one["team"]})
    later = MAKING[MAKING.index(end) + 1 :]
    if begun is None or (reached is not None and reached < begun):
        return None
    if reached is None and any(one[f"{stage}_at"] for stage in later):
        return None
    if reached is None and off is not None and off < begun:
        return None
    stop = reached or off
    became = "finished" if reached else "cancelled" if off else "open"
    if unit is Unit.HOURS:
        from datetime import datetime, time

        stop = stop or datetime.combine(slow.until, time(0), tzinfo=zone)
        return (stop - begun).total_seconds() / 3600, became
    first = begun.astimezone(zone).date()
    last = stop.astimezone(zone).date() if stop else slow.until - timedelta(days=1)
    days = [first + timedelta(days=n) for n in range(1, (last - first).days + 1)]
    if unit is Unit.WORKING_DAYS:
        days = [day for day in days if day.weekday() < 5]
    return float(len(days)), became


def fate_slowly(one, until):
    asked, fitted, game, off = (
        one[name] for name in ("requested_at", "fitted_at", "first_game_at", "cancelled_at")
    )
    if asked is None or (fitted is not None and fitted < asked):
        return None
    if game is None:
        return "no game"
    if fitted is not None:
        return "ready" if fitted < game else "not ready"
    if off is not None and off < game:
        return "cancelled"
    return "undecided" if game >= until else "not ready"


@pytest.mark.long
@MODEST
@given(
    season=order_seasons(),
    parts=scopes(),
    pair=PAIRS,
    unit=st.sampled_from(list(Unit)),
    by=st.sampled_from(list(OrdersBy)),
)
def test_turnaround_is_what_loops_find(season, parts, pair, unit, by):
    """Times, what became of each, readiness; timed and set aside add up to all orders."""
    start, end = sorted(pair, key=MAKING.index)
    slow = SlowOrders(season, parts)
    found = slow.orders()
    scope = scope_of(parts)
    with loaded(season) as store:
        known = read_known(store)
        answer = turnaround(store, scope, known, TurnaroundOptions(start, end, unit, by))
        still = ask_orders(store, scope, known)
    timed = [timed_slowly(slow, one, start, end, unit) for one in found.values()]
    expected = Counter(each for each in timed if each is not None)
    curve = answer.whole.curve
    assert expected == Counter(
        {
            (p.time, name): getattr(p, name)
            for p in curve.points
            for name in ("finished", "open", "cancelled")
            if getattr(p, name)
        }
    )
    aside = sum(left.count for left in answer.summary.left_out if left.what == "orders")
    assert curve.orders + aside == len(found)
    assert sum(g.orders for g in answer.groups) == curve.orders
    check_ready(answer, slow, found)
    assert {o.guard for o in still.orders} == {k for k, o in found.items() if o["state"] == "open"}
    assert [o.guard for o in still.orders] == [o.guard for o in answer.open_orders]
    for one in still.orders:
        told = found[one.guard]
        assert (one.exposures, one.bare, one.worn) == tuple(
            told[name] for name in ("exposures", "bare", "worn")
        )
        assert one.age_days >= 0
        assert one.stage_days >= 0


def check_ready(answer, slow, found):
    from datetime import datetime, time

    fates = Counter(
        fate_slowly(
            one, datetime.combine(slow.until, time(0), tzinfo=slow.zone({"team": one["team"]}))
        )
        for one in found.values()
    )
    ready = answer.whole.ready
    assert (ready.share.successes, ready.share.trials - ready.share.successes) == (
        fates["ready"],
        fates["not ready"],
    )
    told = (ready.undecided, ready.cancelled, ready.no_game)
    assert told == tuple(fates[name] for name in ("undecided", "cancelled", "no game"))


def test_the_stages_of_making_are_those_of_the_word_list():
    assert set(MAKING) == set(Stage) - {Stage.CANCELLED}
