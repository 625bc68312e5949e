"""Guards recorded as not worn, and injuries without a side: what they count in, and in what not."""

from copy import deepcopy

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.store.catalogue import catalogue
from seasonboard.store.store import Store
from tests.deep import tries
from tests.queries import asking, build
from tests.queries.build import Season, day
from tests.queries.seasons import scopes, seasons
from tests.queries.test_queries_against_loops import MODEST, loaded

SCOPED = sorted(
    name for name, question in catalogue().items()
    if question.params and set(question.params) <= set(asking.OPEN)
)  # fmt: skip
"""Every question that takes nothing but a scope."""


def answers(store: Store, parts: dict) -> dict:
    """Return the rows of every question that takes nothing but a scope."""
    return {name: asking.put(store, name, **parts).rows() for name in SCOPED}


def with_not_worn(season: Season) -> Season:
    """Return the season with a row “not worn” of every guard and session that have none."""
    more = deepcopy(season)
    there = {(row["session"], row["guard"]) for row in season.wear}
    more.wear += [
        {"session": s["session"], "guard": g["guard"], "worn": "no"}
        for s in season.sessions
        for g in season.guards
        if (s["session"], g["guard"]) not in there
    ]
    return more


@pytest.mark.long
@settings(MODEST, max_examples=tries(4))
@given(season=seasons(), parts=scopes())
def test_a_guard_that_was_not_worn_changes_no_answer(season, parts):
    assert {"compare/strata", "take_up/wear", "roster/guards"} <= set(SCOPED)
    with loaded(season) as plain, loaded(with_not_worn(season)) as more:
        assert answers(plain, parts) == answers(more, parts)


@pytest.mark.long
@settings(MODEST, max_examples=tries(4))
@given(season=seasons(), parts=scopes(), on=st.integers(1, 12))
def test_an_injury_without_a_side_is_in_no_comparison_of_sites(season, parts, on):
    hurt = deepcopy(season)
    hurt.injuries.append(build.injury("Y1", "A", day(on), area="lower leg", side=None))
    with loaded(season) as plain, loaded(hurt) as more:
        for name in ("compare/strata", "compare/athlete_strata"):
            assert asking.put(plain, name, **parts).rows() == asking.put(more, name, **parts).rows()


def test_an_injury_without_a_side_is_in_availability_and_not_in_a_ratio(load):
    season = build.legs([("A", "left"), ("B", None)])
    shin = {"area": "lower leg", "side": None, "session": "G1"}
    season.injuries.append(build.injury("Y1", "A", day(1), **shin))
    store = load(season)
    places = asking.put(store, "roster/places", kinds=["shin"])
    open_ = places.select("athlete", "open_injury", "open_area", "open_side").rows()
    assert open_ == [("A", "Y1", "lower leg", None), ("B", None, None, None)]
    assert asking.crude(store, kinds=["shin"])[:2] == (0, 0)
