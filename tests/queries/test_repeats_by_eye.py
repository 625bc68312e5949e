"""Repeats on a clock, and the tally by ever and never: by eye, then against plain loops."""

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.answers.games.beside_curves import repeats as mean_of_repeats
from seasonboard.scope import View
from tests.deep import tries
from tests.queries.asking import group, scope, ticks
from tests.queries.build import day, drawn, injury, legs
from tests.queries.seasons import scopes
from tests.queries.slow_comparisons import SlowComparisons, staged_seasons
from tests.queries.test_queries_against_loops import CLOCKS, MODEST, loaded


def asked_for(name, store, *, clock="games", **parts):
    """Put a question of the clock; it ticks by games unless `settings` say."""
    asked = scope(**({"settings": ["game"]} | parts))
    if name == "games/repeats":
        del asked["purpose"]
    return store.read(name, **asked, clock=clock)


def spells(store, **parts):
    """Return the stretches at risk as (guarded, first tick, last tick): sites."""
    rows = asked_for("games/repeats", store, **parts).to_dicts()
    found = Counter()
    for row in rows:
        if row["sites"]:
            found[row["guarded"], row["entry"] + 1, row["leaving"]] += row["sites"]
    return dict(found)


def hurt(store, **parts):
    """Return the injuries as (guarded, tick): how many."""
    rows = asked_for("games/repeats", store, **parts).to_dicts()
    found = Counter()
    for row in rows:
        if row["injuries"]:
            assert row["entry"] == row["leaving"] - 1
            found[row["guarded"], row["leaving"]] += row["injuries"]
    return dict(found)


def ever_never(store, **parts):
    """Return (at risk, injuries) by ever guarded and tick."""
    rows = asked_for("games/ever_never", store, **parts).to_dicts()
    return {(r["ever"], r["tick"]): (r["at_risk"], r["injuries"]) for r in rows}


def test_a_guard_put_on_and_taken_off_parts_the_games_into_stretches(season):
    store = season("""
            A    B
        G1  .    .
        G2  g    .
        G3  g    .
        G4  .    .
        G5  g    .
    """)
    assert spells(store) == {
        (False, 1, 1): 1, (True, 2, 3): 1, (False, 4, 4): 1, (True, 5, 5): 1, (False, 1, 5): 1,
    }  # fmt: skip
    assert hurt(store) == {}


def test_an_injury_does_not_end_follow_up_and_every_repeat_counts(season):
    store = season("""
            A    B
        G1  .!   .
        G2  .    .
        G3  .!   g!
        G4  .!   g
    """)
    assert spells(store) == {(False, 1, 4): 1, (False, 1, 2): 1, (True, 3, 4): 1}
    assert hurt(store) == {(False, 1): 1, (False, 3): 1, (False, 4): 1, (True, 3): 1}


def test_two_records_in_one_session_are_two_injuries(season):
    """Compare counts exposures with an injury; here every record is an event."""
    store = season("""
            A
        G1  .!*
        G2  .!?
    """)
    assert hurt(store) == {(False, 1): 2, (False, 2): 1}
    assert hurt(store, outcome="any") == {(False, 1): 2, (False, 2): 2}


def test_games_under_a_return_guard_or_another_kind_are_at_risk_in_neither_group(season):
    store = season("""
            A    B
        G1  g    .
        G2  gr!  x!
        G3  g    .
    """)
    assert spells(store) == {(True, 1, 1): 1, (True, 3, 3): 1, (False, 1, 1): 1, (False, 3, 3): 1}
    assert hurt(store) == {}


def test_both_legs_of_an_athlete_are_at_risk_and_an_injury_to_both_is_two(load):
    plain = legs([("A", "left"), ("B", None)])
    both = {"area": "lower leg", "side": "both", "session": "G1"}
    plain.injuries.append(injury("both", "A", day(1), **both))
    store = load(plain)
    assert spells(store, kinds=["shin"]) == {(True, 1, 1): 1, (False, 1, 1): 3}
    assert hurt(store, kinds=["shin"]) == {(True, 1): 1, (False, 1): 1}


CLOCK_GRID = """
        A    B
    G1  .    .
    P2  g!   .
    G3  o    .
    G4  g!   .
"""


def test_the_own_clock_closes_up_over_games_missed_and_the_teams_does_not(season):
    store = season(CLOCK_GRID)
    assert spells(store) == {(False, 1, 1): 1, (True, 2, 2): 1, (False, 1, 3): 1}
    assert hurt(store) == {(True, 2): 1}
    assert spells(store, clock="season-games") == {
        (False, 1, 1): 1,
        (True, 3, 3): 1,
        (False, 1, 3): 1,
    }
    assert hurt(store, clock="season-games") == {(True, 3): 1}


def test_on_the_clock_of_sessions_practices_tick_and_hurt(season):
    store = season(CLOCK_GRID)
    assert spells(store, settings=None) == {(False, 1, 1): 1, (True, 2, 3): 1, (False, 1, 4): 1}
    assert hurt(store, settings=None) == {(True, 2): 1, (True, 3): 1}


def test_seasons_start_the_clock_anew_and_add_up_at_each_tick(load):
    plain = drawn("""
            A
        G1  .!
        G2  .!
        G3  .
    """)
    plain.session("G2")["season"] = plain.session("G3")["season"] = "2027"
    plain.roster.append(plain.roster[0] | {"season": "2027"})
    store = load(plain)
    assert spells(store) == {(False, 1, 1): 1, (False, 1, 2): 1}
    assert hurt(store) == {(False, 1): 2}
    mean = mean_of_repeats(
        asked_for("games/repeats", store), guarded=False, min_at_risk=1, level=0.95
    )
    assert [(p.tick, p.at_risk, p.events, p.mean) for p in mean.points] == [
        (1, 2, 2, 1.0),
        (2, 1, 0, 1.0),
    ]


def test_the_mean_number_of_injuries_adds_events_over_sites_at_risk(season):
    """1 of 3, then 2 of 3, then 1 of 2."""
    store = season("""
            A    B    C
        G1  .!   .    .
        G2  .!   .!   .
        G3  .!   .    o
    """)
    mean = mean_of_repeats(
        asked_for("games/repeats", store), guarded=False, min_at_risk=1, level=0.95
    )
    assert [p.at_risk for p in mean.points] == [3, 3, 2]
    assert [p.mean for p in mean.points] == pytest.approx([1 / 3, 1, 1.5])


def test_a_site_guarded_later_counts_as_ever_guarded_from_its_first_tick(season):
    """That is what makes the tally misleading: A could not be hurt before the guard came."""
    store = season("""
            A    B    C
        G1  .    .!   .
        G2  .    g    .
        G3  g!   g    .
        G4  g    g    .
    """)
    assert ever_never(store) == {
        (True, 1): (1, 0), (True, 2): (1, 0), (True, 3): (1, 1), (False, 1): (2, 1),
        (False, 2): (1, 0), (False, 3): (1, 0), (False, 4): (1, 0),
    }, "B was hurt before the guard, and nobody follows B after that"  # fmt: skip


def test_ever_guarded_holds_for_one_season_and_one_site(load):
    plain = legs([("A", "left")])
    plain.sessions.append(plain.session("G1") | {"session": "G2", "season": "2027"})
    plain.session("G2")["starts_at"] = plain.session("G2")["starts_at"].replace(year=2027)
    plain.attendance.append({"session": "G2", "athlete": "A", "part": "full"})
    plain.roster.append(plain.roster[0] | {"season": "2027"})
    store = load(plain)
    found = ever_never(store, kinds=["shin"], until=day(1).replace(year=2028))
    assert found == {(True, 1): (1, 0), (False, 1): (3, 0)}


@settings(MODEST, max_examples=tries(3))
@given(
    season=staged_seasons(),
    parts=scopes(),
    clock=st.sampled_from(list(CLOCKS)),
    view=st.sampled_from(list(View)),
)
def test_repeats_and_the_ever_never_tally_are_what_loops_count(season, parts, clock, view):
    """Spells at risk, their sum by tick in the mean cumulative curve, injuries; and the tally,
    which adds up to the followed ticks of the two curves."""
    ticking, by_team = CLOCKS[clock], clock == "season-games"
    asked = {**parts, "settings": ticking}
    with loaded(season) as store:
        slow = SlowComparisons(season, {**asked, "purpose": "through"})
        frame = asked_for("games/repeats", store, clock=clock, **asked)
        check_repeats(frame, slow.repeats(by_team=by_team))
        asked["purpose"] = view.value
        found = ever_never(store, clock=clock, **asked)
        assert found == SlowComparisons(season, asked).ever_never(by_team=by_team)
        whole = [r for r in ticks(store, clock=clock, **asked) if r["tick"] is not None]
        followed = [group(whole, "at_risk injuries", guarded=g) for g in (True, False)]
        tallied = [shown(found, ever=e) for e in (True, False)]
        assert added_up(tallied) == added_up(followed)


def check_repeats(frame, slow):
    assert by_person(counted(frame)) == by_person(slow)
    for guarded in (True, False):
        mean = mean_of_repeats(frame, guarded=guarded, min_at_risk=1, level=0.95)
        found = {p.tick: (p.at_risk, p.events) for p in mean.points}
        assert found == by_tick(slow, guarded=guarded)
        check_stretches(frame, guarded=guarded)


def counted(frame):
    """Return (sites at risk, injuries) by group, athlete's number and tick."""
    found = {}
    for row in frame.to_dicts():
        for tick in range(row["entry"] + 1, row["leaving"] + 1):
            cell = found.setdefault((row["guarded"], row["athlete_no"], tick), [0, 0])
            cell[0] += row["sites"]
            cell[1] += row["injuries"]
    return {key: tuple(cell) for key, cell in found.items()}


def by_person(found):
    """Return each athlete's cells, athletes unnamed: how often each story occurs."""
    rows = {}
    for (guarded, athlete, tick), cell in found.items():
        rows.setdefault(athlete, []).append((guarded, tick, *cell))
    return Counter(tuple(sorted(some)) for some in rows.values())


def by_tick(found, *, guarded):
    sums = {}
    for (group_of, _, tick), (sites, injuries) in found.items():
        if group_of is guarded:
            so_far = sums.get(tick, (0, 0))
            sums[tick] = (so_far[0] + sites, so_far[1] + injuries)
    return sums


def check_stretches(frame, *, guarded):
    rows = [r for r in frame.to_dicts() if r["guarded"] is guarded]
    assert all(0 <= r["entry"] < r["leaving"] for r in rows)
    assert all((r["sites"] > 0) != (r["injuries"] > 0) for r in rows)


def shown(found, *, ever):
    return {tick: counts for (which, tick), counts in found.items() if which is ever}


def added_up(groups):
    sums = {}
    for counts in groups:
        for tick, (at_risk, injuries) in counts.items():
            so_far = sums.get(tick, (0, 0))
            sums[tick] = (so_far[0] + at_risk, so_far[1] + injuries)
    return sums
