"""The roster's questions, asked of random seasons, against counts made by plain loops."""

from copy import deepcopy
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.answers.roster.availability import days_out
from tests.queries.build import Season
from tests.queries.roster_seasons import clubs
from tests.queries.seasons import scopes
from tests.queries.slow_roster import SlowRoster
from tests.queries.test_queries_against_loops import MODEST, loaded
from tests.queries.test_queries_hold_still import cut

WHO = ("seasons", "until", "departments", "teams", "sports", "sexes")
GROUPED = (*WHO, "position_groups")
GUARDED = (*GROUPED, "kinds", "areas", "sides", "made_of")
PARTS = {
    "roster/places": GUARDED, "roster/guards": GUARDED, "roster/sessions": GROUPED,
    "roster/injuries": GROUPED, "roster/teams": WHO, "roster/like_injuries": ("until",),
}  # fmt: skip


def read(store, name, asked):
    return store.read(name, **{part: asked[part] for part in PARTS[name]})


@MODEST
@given(club=clubs(), asked=scopes())
def test_states_and_strips_are_what_loops_find(club, asked):
    """Status, reason, sessions since the last record, and the last twelve sessions."""
    slow = SlowRoster(club, asked)
    with loaded(club) as store:
        rows = read(store, "roster/places", asked).to_dicts()
    found = {(r["athlete"], r["team"], r["season"]): r for r in rows}
    expected = {(p["athlete"], p["team"], p["season"]): p for p in slow.places()}
    assert found.keys() == expected.keys()
    for key, place in expected.items():
        row = found[key]
        assert (row["status"], row["because"], row["sessions_since"]) == slow.state(place)
        assert list(zip(row["parts"], row["guarded"], strict=True)) == slow.strip(place)


@MODEST
@given(club=clubs(), asked=scopes())
def test_guards_and_how_they_are_worn_are_what_loops_find(club, asked):
    with loaded(club) as store:
        rows = read(store, "roster/guards", asked).to_dicts()
    expected = SlowRoster(club, asked).guards()
    assert {row["guard"] for row in rows} == expected.keys()
    for row in rows:
        told = expected[row["guard"]]
        assert {name: row[name] for name in told} == told


@MODEST
@given(club=clubs(), asked=scopes())
def test_availability_by_session_is_what_loops_count(club, asked):
    slow = SlowRoster(club, asked)
    with loaded(club) as store:
        rows = read(store, "roster/sessions", asked).to_dicts()
    assert [r["session"] for r in rows] == [s["session"] for s in slow.sessions()]
    for row, session in zip(rows, slow.sessions(), strict=True):
        counts = {k: v for k, v in row.items() if isinstance(v, int) and v}
        assert counts == {k: v for k, v in slow.session_counts(session).items() if v}
        states = ("full_part", "limited_health", "limited_other", "limited_unknown", "out_injury")
        more = ("out_illness", "out_other", "out_unknown", "not_recorded")
        assert row["rostered"] == sum(row[name] for name in (*states, *more)), "nobody is lost"


@MODEST
@given(club=clubs(), asked=scopes())
def test_days_out_are_the_days_that_a_calendar_holds(club, asked):
    names = ("roster/places", "roster/teams", "roster/injuries")
    with loaded(club) as store:
        frames = [read(store, name, asked) for name in names]
    found = days_out(*frames, asked["until"] - timedelta(days=1))
    roster_days, lost = SlowRoster(club, asked).days()
    assert found.roster_days == roster_days
    assert {who: days for who, days in found.by_athlete.items() if days} == lost


def cut_club(club: Season, until) -> Season:
    """Return what could have been recorded before a day; the schedule stays known."""
    known = cut(club, until)
    known.sessions = deepcopy(club.sessions)
    known.stages = [s for s in club.stages if s["reached_at"].date() < until]
    staged = {s["guard"] for s in club.stages} | {w["guard"] for w in club.wear}
    now = {s["guard"] for s in known.stages} | {w["guard"] for w in known.wear}
    known.guards = [g for g in club.guards if g["guard"] in now or g["guard"] not in staged]
    keys = {g["guard"] for g in known.guards}
    for g in known.guards:
        if g.get("remake_of") not in keys:
            g["remake_of"] = g["remake_reason"] = None
    return known


@pytest.mark.long
@MODEST
@given(club=clubs(), asked=scopes(), early=st.integers(0, 12))
def test_a_roster_rewound_to_a_day_is_what_it_was_that_day(club, asked, early):
    """Later attendance, returns, stages, wear and departures do not leak into the past."""
    first = min(club.played_on(s["session"]) for s in club.sessions)
    last = max(club.played_on(s["session"]) for s in club.sessions)
    until = max(first, last - timedelta(days=early)) + timedelta(days=1)
    asked = asked | {"until": until}
    with loaded(club) as whole, loaded(cut_club(club, until)) as known:
        for name in PARTS:
            assert read(whole, name, asked).rows() == read(known, name, asked).rows(), name
