"""Drawn turns: who counts as come and who as waiting, by eye, then against plain loops."""

import math
from collections import Counter
from dataclasses import replace
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.deep import tries
from tests.queries.asking import put
from tests.queries.build import Row, Season, day, drawn, injury
from tests.queries.seasons import ATHLETES, FIRST, KIND_SITES, scopes, seasons
from tests.queries.slow import Slow, sides
from tests.queries.slow_wear import partly_recorded
from tests.queries.test_queries_against_loops import MODEST, loaded

COUNTS = (
    *("come_guarded", "come_bare", "waiting_guarded", "waiting_bare"),
    *("exposures_come", "exposures_waiting"),
)
UNKNOWN = ("come_unknown", "waiting_unknown")


def turn(athlete: str, week: int, **cells: object) -> Row:
    """Return a turn of a draw on day 1, whose week 1 begins on day 2, ready after 2 days."""
    base = {"draw": "T01", "athlete": athlete, "kind": "chest", "side": "midline", "stratum": "T"}
    base |= {"turn": week, "week": week, "drawn_on": day(1), "starts_on": day(2)}
    base |= {"prints_per_week": 1, "ready_days": 2.0, "seed": 7, "earlier_injury": "no"}
    return base | {"board_number": "B 12"} | cells


def with_turns(season: Season, turns: list[Row]) -> Season:
    return replace(season, turns=turns)


def cells(store, names=COUNTS, **parts):
    """Return the counts by stratum; None: the strata without an injury, summed."""
    rows = put(store, "compare/drawn_turns", **parts).to_dicts()
    return {row["stratum"]: tuple(row[name] for name in names) for row in rows}


GRID = """
            A    B    C    E
    P1@1    .!   .    .    .
    G1@3    .    .    .    .!
    G2@4    g    .    .    .
    G3@10   .!   g!   .    .
    G4@11   .!   .    .!   .
    G5@18   .    .    .    .
"""
TURNS = [turn("A", 1), turn("B", 2), turn("C", 3)]


def test_a_turn_has_come_once_its_week_and_the_days_until_it_is_ready_are_over(load):
    """A's turn has come from day 4 on, B's from day 11, C's from day 18; E was not drawn.

    Day 1 is before the draw and counts for nothing. On day 10 A is hurt bare though the turn has
    come, and B guarded though it has not (it was made out of turn): both stay as drawn. A site is
    followed up to its first injury since the draw.
    """
    store = load(with_turns(drawn(GRID), TURNS))
    assert cells(store) == {
        "chest · G3 · draw T01": (0, 1, 1, 0, 1, 2),
        "chest · G4 · draw T01": (0, 0, 0, 1, 0, 1),
        None: (0, 0, 0, 0, 1, 5),
    }
    jumped = [turn("A", 1), turn("B", 2, jumped_on=day(3), jump_reason="hurry"), turn("C", 3)]
    assert cells(load(with_turns(drawn(GRID), jumped))) == cells(store)


def test_parts_of_a_day_until_it_is_ready_wait_for_the_next(load):
    later = [turn(one["athlete"], one["week"], ready_days=2.1) for one in TURNS]
    assert cells(load(with_turns(drawn(GRID), later)))[None] == (0, 0, 0, 0, 0, 6)


def test_injuries_that_cost_no_day_or_lie_outside_sessions_end_the_follow_up_all_the_same(load):
    grid = """
                A    B
        G1@3    .?   .
        G2@4    .    .
        G3@5    .    .!
    """
    season = with_turns(drawn(grid), [turn("A", 1), turn("B", 3)])
    assert cells(load(season)) == {
        "chest · G3 · draw T01": (0, 0, 0, 1, 0, 1),
        None: (0, 0, 0, 0, 0, 3),
    }
    season.injuries = [injury("i", "A", day(4))]
    assert cells(load(season)) == {None: (0, 0, 0, 0, 1, 4)}
    season.injuries = [injury("i", "A", day(1))]
    assert cells(load(season)) == {None: (0, 0, 0, 0, 2, 4)}, "hurt before the draw was drawn too"


def test_an_injury_of_which_nobody_recorded_the_wear_counts_by_its_turn_alone(load):
    """B's guard is fitted, G2 is not completely recorded, and nobody said whether it was on."""
    season = with_turns(drawn("A B\nG1@5 . g\nG2@6 .! .!\n"), [turn("A", 3), turn("B", 1)])
    for one in season.sessions:
        one["wear_complete"] = "no"
    found = cells(load(season), (*COUNTS, *UNKNOWN))
    assert found["chest · G2 · draw T01"] == (0, 0, 0, 1, 1, 1, 1, 0)
    season.injuries[1]["was_on"] = "yes"
    found = cells(load(season), (*COUNTS, *UNKNOWN))
    assert found["chest · G2 · draw T01"] == (1, 0, 0, 1, 1, 1, 0, 0)


def test_draws_are_kept_apart_and_a_site_stays_with_its_first_one(load):
    grid = "A B C\nG1@4 . . .!\n"
    turns = [
        turn("A", 1),
        turn("B", 1, draw="T02", drawn_on=day(2)),
        turn("C", 2, draw="T02", drawn_on=day(2), turn=2),
        turn("C", 1, draw="T03", kind="vest", drawn_on=day(3)),
    ]
    season = with_turns(drawn(grid), turns)
    assert cells(load(season), kinds=["chest", "vest"]) == {
        "chest · G1 · draw T02": (0, 0, 0, 1, 1, 1),
        None: (0, 0, 0, 0, 1, 0),
    }


def test_draws_tell_their_turns_jumps_and_what_the_board_said(load):
    turns = [
        turn("A", 1),
        turn("B", 2, jumped_on=day(3), jump_reason="hurry"),
        turn("C", 5, jumped_on=day(9), jump_reason="left"),
    ]
    store = load(with_turns(drawn(GRID), turns))

    def draws(**parts):
        rows = put(store, "compare/draws", **parts).to_dicts()
        return [
            (r["draw"], r["last_week"], r["turns"], r["jumped"], r["board_number"]) for r in rows
        ]

    assert draws() == [("T01", 5, 3, 2, "B 12")]
    assert draws(through=day(3)) == [("T01", 5, 3, 1, "B 12")]
    assert draws(teams=["U"]) == draws(kinds=["shin"]) == draws(through=day(0)) == []


@st.composite
def drawn_seasons(draw: st.DrawFn) -> Season:
    """Draw a season in which some athletes have turns, of one draw or of two."""
    season = draw(seasons())
    rows: dict[tuple[str, ...], Row] = {}
    for number in range(draw(st.integers(1, 7))):
        kind = draw(st.sampled_from(sorted(KIND_SITES)))
        year = draw(st.sampled_from(["2025", "2026", "2026"]))
        key, early = draw(st.sampled_from([("T01", 0), ("T02", 3)]))
        row = turn(draw(st.sampled_from(ATHLETES)), draw(st.integers(1, 3)), draw=key, kind=kind)
        row |= {"side": draw(st.sampled_from(KIND_SITES[kind])), "turn": number + 1}
        row["drawn_on"] = FIRST[year] + timedelta(days=early - 2)
        row["starts_on"] = row["drawn_on"] + timedelta(days=draw(st.integers(0, 3)))
        row["ready_days"] = draw(st.sampled_from([0.0, 1.5, 4.0]))
        rows[key, row["athlete"], kind, row["side"]] = row
    return with_turns(season, list(rows.values()))


def looped(season: Season, asked: dict) -> Counter:
    """Count come and waiting by loops over every turn, session and site."""
    slow = Slow(season, asked)
    found: dict[tuple, list[int]] = {}
    for e in slow.exposures:
        own = [
            t
            for t in season.turns
            if t["athlete"] == e["athlete"]
            and t["drawn_on"] < slow.until
            and t["kind"] in asked["kinds"]
            and e["site"][0] in slow.covers[t["kind"]]
            and e["site"][1] in sides(e["site"][0], t["side"])
        ]
        if not own:
            continue
        one = min(own, key=lambda t: (t["drawn_on"], t["draw"], t["turn"]))
        session = e["session"]["session"]
        on, start = season.played_on(session), season.instant(session)
        since = [
            i for i in slow.hurt_at(e["athlete"], e["site"]) if i["occurred_on"] > one["drawn_on"]
        ]
        hurt_before = any(
            season.instant(i["session"]) < start if i["session"] else i["occurred_on"] < on
            for i in since
        )
        if on <= one["drawn_on"] or hurt_before:
            continue
        wait = 7 * (one["week"] - 1) + math.ceil(one["ready_days"])
        is_come = on >= one["starts_on"] + timedelta(days=wait)
        cell = found.setdefault((one["draw"], e["site"][0], session), [0] * 8)
        cell[4 if is_come else 5] += 1
        worn, is_unknown = slow.at_site(e["session"], e["athlete"], e["site"])
        place = (0 if is_come else 2) + (0 if "preventive" in worn else 1)
        cell[(6 if is_come else 7) if is_unknown else place] += e["injured"]
    counted = Counter(tuple(cell) for cell in found.values() if _injuries(cell))
    rest = [cell for cell in found.values() if not _injuries(cell)]
    if rest:
        counted["rest", *map(sum, zip(*rest, strict=True))] += 1
    return counted


def _injuries(cell):
    return sum(cell[:4]) + sum(cell[6:])


@settings(MODEST, max_examples=tries(12))
@given(season=partly_recorded(drawn_seasons()), parts=scopes())
def test_come_and_waiting_are_what_loops_count(season, parts):
    with loaded(season) as store:
        rows = cells(store, (*COUNTS, *UNKNOWN), **parts)
        found = Counter(("rest", *c) if stratum is None else c for stratum, c in rows.items())
        assert found == looped(season, {**parts, "settings": None})
