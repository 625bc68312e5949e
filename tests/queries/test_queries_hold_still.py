"""What must not change an answer: the future, the order of rows, and what things are called."""

import random
from collections import Counter
from copy import deepcopy
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.deep import tries
from tests.queries import asking
from tests.queries.build import Row, Season
from tests.queries.seasons import scopes, seasons
from tests.queries.test_queries_against_loops import MODEST, loaded

FEW = settings(MODEST, max_examples=tries(3))
VIEWS = st.sampled_from(["preventive", "return", "all"])


def cut(season: Season, until) -> Season:
    """Return what could have been recorded before a day."""
    known = deepcopy(season)
    known.sessions = [s for s in season.sessions if season.played_on(s["session"]) < until]
    keys = {s["session"] for s in known.sessions}
    known.attendance = [row for row in known.attendance if row["session"] in keys]
    known.wear = [row for row in known.wear if row["session"] in keys]
    known.injuries = [
        i | {"returned_on": _if_before(i["returned_on"], until)}
        for i in known.injuries
        if (i["reported_on"] or i["occurred_on"]) < until
    ]
    known.roster = [r | {"left_on": _if_before(r.get("left_on"), until)} for r in known.roster]
    return known


def _if_before(on, until):
    return on if on is not None and on < until else None


def every_answer(store, asked):
    """Return the rows of every question that takes a scope."""
    clock = asked | {"settings": ["game"], "clock": "games"}
    return {
        "strata": store.read("compare/strata", **asked).rows(),
        "left out": store.read("compare/left_out", **asked).rows(),
        "ticks": store.read("games/ticks", **clock).rows(),
        "injuries": store.read("rows/injuries", **asked).rows(),
        "athletes": store.read("rows/athletes", **asked).rows(),
        "at tick": store.read("rows/at_tick", **clock, tick=2).rows(),
    }


@pytest.mark.long
@FEW
@given(season=seasons(), parts=scopes(), view=VIEWS, early=st.integers(0, 12))
def test_a_season_rewound_to_a_day_answers_as_it_did_that_day(season, parts, view, early):
    """Later sessions, returns, reports and departures do not leak into the past."""
    first = min(season.played_on(s["session"]) for s in season.sessions)
    days = [season.played_on(s["session"]) for s in season.sessions]
    until = max(first, max(days) - timedelta(days=early)) + timedelta(days=1)
    asked = parts | {"purpose": view, "until": until}
    with loaded(season) as whole, loaded(cut(season, until)) as known:
        assert every_answer(whole, asked) == every_answer(known, asked)


def relabelled(season: Season, dice: random.Random) -> Season:
    """Return the same season, shuffled, with other keys for all but teams and departments."""
    names: dict[str, dict[str, str]] = {}
    for column, rows in (
        ("athlete", season.roster),
        ("session", season.sessions),
        ("guard", season.guards),
        ("injury", season.injuries),
    ):
        keys = sorted({row[column] for row in rows})
        fresh = [f"{number:03}" for number in range(len(keys))]
        dice.shuffle(fresh)
        names[column] = dict(zip(keys, fresh, strict=True))

    def renamed(rows: list[Row]) -> list[Row]:
        fresh = [
            {k: names[k][v] if k in names and v is not None else v for k, v in row.items()}
            for row in rows
        ]
        dice.shuffle(fresh)
        return fresh

    tables = ("roster", "sessions", "attendance", "guards", "wear", "injuries")
    return replace(season, **{name: renamed(getattr(season, name)) for name in tables})


@pytest.mark.long
@FEW
@given(season=seasons(), parts=scopes(), view=VIEWS, dice=st.integers(0, 999))
def test_neither_names_nor_the_order_of_rows_matter(season, parts, view, dice):
    asked = parts | {"purpose": view}
    with loaded(season) as one, loaded(relabelled(season, random.Random(dice))) as other:
        here, there = every_answer(one, asked), every_answer(other, asked)
    assert here["left out"] == there["left out"]
    assert here["ticks"] == there["ticks"]
    for name, labels in (("strata", 2), ("athletes", 4)):
        counts = [Counter(row[labels:] for row in rows[name]) for rows in (here, there)]
        assert counts[0] == counts[1]
    assert len(here["at tick"]) == len(there["at tick"])
    assert len(here["injuries"]) == len(there["injuries"])


@FEW
@given(season=seasons(), parts=scopes(), view=VIEWS)
def test_teams_apart_add_up_to_teams_together(season, parts, view):
    asked = parts | {"purpose": view, "teams": None}
    with loaded(season) as store:
        found = [asking.strata(store, **(asked | {"teams": t})) for t in (None, ["T"], ["U"])]
    for comparison in ("crude", "alike athletes", "same session"):
        whole, *apart = (asking.total(strata, comparison) for strata in found)
        assert whole == tuple(map(sum, zip(*apart, strict=True)))
