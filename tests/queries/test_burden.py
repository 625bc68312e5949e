"""What injuries cost: counted by eye, and by a loop over every injury."""

from collections import Counter

import pytest
from hypothesis import given

from seasonboard.scope import View
from tests.queries.asking import scope
from tests.queries.build import day, drawn, guard, injury
from tests.queries.seasons import scopes, seasons
from tests.queries.slow import sides
from tests.queries.slow_left_out import SlowLeftOut
from tests.queries.slow_wear import partly_recorded
from tests.queries.test_queries_against_loops import MODEST, loaded

COLUMNS = ("is_guarded", "why", "days_lost", "is_open", "onset", "mechanism")


def cost(store, **parts):
    """Return how often each row occurs, without the athlete's number."""
    rows = store.read("compare/burden", **scope(**parts)).select(COLUMNS).iter_rows()
    return Counter(rows)


def test_each_injury_is_with_its_group_or_set_aside(load):
    """A was hurt guarded for nine days and again, B bare and is still out on day 8, C in a game
    without being recorded, E lost no day."""
    season = drawn("""
            A    B    C    E
        G1  g!   .*   -    .?
        G2  g!   o    .    .
    """)
    season.injuries.append(
        injury("Z", "C", day(1), session="G1", onset="acute sudden", returned_on=day(4))
    )
    out = "the athlete is not recorded as taking part in that session"
    assert cost(load(season), through=day(8)) == {
        (True, None, 7, True, None, None): 1,
        (True, "after an earlier injury to the site", 6, True, None, None): 1,
        (False, None, 7, True, None, None): 1,
        (None, out, 2, False, "acute sudden", None): 1,
        (False, "no day lost", 0, False, None, None): 1,
    }


def test_a_guard_of_another_purpose_was_on_all_the_same(load):
    season = drawn("""
            A
        G1  .!
    """)
    season.guards.append(guard("R", "A", purpose="return"))
    season.wear.append({"session": "G1", "guard": "R"})
    assert cost(load(season)) == {
        (True, "a guard made for return was worn", 9, False, None, None): 1
    }


def slow_cost(season, asked):
    slow, found = SlowLeftOut(season, asked), Counter()
    fates = slow.injury_fates()
    for i in slow.known:
        for side in sides(i["area"], i["side"]):
            why = fates.get((i["injury"], side))
            if why is None:
                continue
            s = season.session(i["session"])
            worn, unknown = slow.at_site(s, i["athlete"], (i["area"], side))
            is_out = why == "the athlete is not recorded as taking part in that session"
            is_open = slow.is_open(i)
            days = (asked["until"] - i["occurred_on"]).days - 1 if is_open else slow.days_lost(i)
            at_site = None if is_out or (unknown and not worn) else bool(worn)
            found[
                at_site, None if why == "yes" else why, days, is_open,
                i.get("onset"), i.get("mechanism"),
            ] += 1  # fmt: skip
    return found


@pytest.mark.long
@MODEST
@given(season=partly_recorded(seasons()), parts=scopes())
def test_what_injuries_cost_is_what_a_loop_counts_in_every_view(season, parts):
    with loaded(season) as store:
        for view in View:
            asked = {**parts, "purpose": view.value}
            assert cost(store, **asked) == slow_cost(season, asked)
