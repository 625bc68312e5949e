"""The tallies of Games, on seasons small enough to follow by eye."""

from datetime import date

import pytest

from seasonboard.paging import PageAsked
from tests.queries import build
from tests.queries.asking import alike, group, scope, ticks
from tests.queries.build import Season, day, drawn, injury

ENDINGS = ("changed", "site_injury", "other_injury", "left_roster", "set_aside", "no_more")


def risk(rows, *, guarded):
    """Return (at risk, injuries, entered) by tick."""
    return group(on_ticks(rows), "at_risk injuries entered", guarded=guarded)


def endings(rows, *, guarded):
    """Return how follow-up ended, by tick, without zeros."""
    found = group(on_ticks(rows), " ".join(ENDINGS), guarded=guarded)
    named = {
        tick: {name: n for name, n in zip(ENDINGS, counts, strict=True) if n}
        for tick, counts in found.items()
    }
    return {tick: counts for tick, counts in named.items() if counts}


def on_ticks(rows):
    return [row for row in rows if row["tick"] is not None]


def wholes(rows):
    """Return (athletes, sites) of each group, guarded or not."""
    return {r["guarded"]: (r["athletes"], r["sites"]) for r in rows if r["tick"] is None}


def test_a_guard_taken_up_later_enters_the_guarded_curve_there(season):
    rows = ticks(
        season("""
            A    B    C
        G1  .    .    .
        G2  g    .    .!
        G3  g!   .    o
        G4  .    .    .
        """)
    )
    assert risk(rows, guarded=False) == {1: (3, 0, 3), 2: (2, 1, 0), 3: (1, 0, 0), 4: (1, 0, 0)}
    assert risk(rows, guarded=True) == {2: (1, 0, 1), 3: (1, 1, 0)}
    assert endings(rows, guarded=False) == {1: {"changed": 1}, 4: {"no_more": 1}}
    assert endings(rows, guarded=True) == {}
    assert wholes(rows) == {True: (1, 1), False: (3, 3)}


def test_the_own_clock_skips_games_missed_and_the_season_clock_does_not(season):
    store = season("""
            A    B
        G1  .    .
        G2  o    .
        G3  .!   .
    """)
    own = ticks(store)
    assert risk(own, guarded=False) == {1: (2, 0, 2), 2: (2, 1, 0), 3: (1, 0, 0)}
    assert endings(own, guarded=False) == {3: {"no_more": 1}}
    season_games = ticks(store, clock="season-games")
    assert risk(season_games, guarded=False) == {1: (2, 0, 2), 2: (1, 0, 0), 3: (2, 1, 1)}
    assert endings(season_games, guarded=False) == {1: {"set_aside": 1}, 3: {"no_more": 1}}


def test_alike_are_sites_of_one_area_position_and_fortnight(season):
    """A guarded, B and C bare in both games, 13 days apart: the second is in the next fortnight.

    D plays another position, and nobody bare does. A's chest is hurt in the second game. Shins
    are not compared with chests: no guarded one is alike a bare one.
    """
    roster = {a: {"position_group": "back"} for a in "ABC"} | {"D": {"position_group": "wing"}}
    store = season(
        """
               A    B    C    D
        G1@1   g    .    .    g
        G2@14  g!   .    -    g
        """,
        roster=roster,
    )
    asked = {"kinds": ["chest", "shin"]}
    counts = alike(store, **asked)
    assert [(key[0], key[3], key[6], cell) for key, cell in sorted(counts.items())] == [
        ("chest", "back", 1, [1, 0, 2, 0]),
        ("chest", "back", 2, [1, 1, 1, 0]),
    ]
    first, second = sorted(counts)
    assert second[5] == first[5] + 1
    assert [row["horizon"] for row in ticks(store, **asked) if row["tick"] is None] == [2, 2]


def test_practices_tick_only_the_clock_of_sessions(season):
    """A practice injury ends follow-up by games; by sessions it is an event."""
    store = season("""
            A    B
        G1  .    .
        P2  .!   .
        G3  .    .
    """)
    games = ticks(store)
    assert risk(games, guarded=False) == {1: (2, 0, 2), 2: (1, 0, 0)}
    assert endings(games, guarded=False) == {1: {"site_injury": 1}, 2: {"no_more": 1}}
    sessions = ticks(store, settings=None)
    assert risk(sessions, guarded=False) == {1: (2, 0, 2), 2: (2, 1, 0), 3: (1, 0, 0)}


def test_an_injury_that_is_no_event_still_ends_follow_up(season):
    store = season("""
            A
        G1  .?
        G2  .
    """)
    assert endings(ticks(store), guarded=False) == {1: {"site_injury": 1}}
    rows = ticks(store, outcome="any")
    assert risk(rows, guarded=False) == {1: (1, 1, 1)}
    assert endings(rows, guarded=False) == {}


def test_an_injury_to_the_site_outside_sessions_ends_follow_up(season):
    store = season(
        """
              A
        G1@1  .
        G2@4  .
        """,
        injuries=[injury("at home", "A", day(2))],
    )
    rows = ticks(store)
    assert risk(rows, guarded=False) == {1: (1, 0, 1)}
    assert endings(rows, guarded=False) == {1: {"site_injury": 1}}


def test_a_game_on_the_day_of_an_injury_outside_sessions_is_still_followed(season):
    """Which came first is not recorded; nothing says that the game was not played uninjured."""
    home = [injury("at home", "A", day(2))]
    rows = ticks(season("A\nG1 .\nG2 .\nG3 .", injuries=home))
    assert risk(rows, guarded=False) == {1: (1, 0, 1), 2: (1, 0, 0)}
    assert endings(rows, guarded=False) == {2: {"site_injury": 1}}


def test_a_game_in_neither_group_interrupts_and_the_next_one_enters_again(season):
    rows = ticks(
        season("""
            A
        G1  g
        G2  r
        G3  g
        """)
    )
    assert risk(rows, guarded=True) == {1: (1, 0, 1), 3: (1, 0, 1)}
    assert endings(rows, guarded=True) == {1: {"set_aside": 1}, 3: {"no_more": 1}}
    assert wholes(rows) == {True: (1, 1)}


def test_the_view_return_follows_a_site_from_its_first_injury_to_the_next(season):
    rows = ticks(
        season("""
            A    B
        G1  .!   .
        G2  r    .
        G3  .    .
        G4  r!   .
        G5  r    .
        """),
        purpose="return",
    )
    assert risk(rows, guarded=True) == {2: (1, 0, 1), 4: (1, 1, 1)}
    assert risk(rows, guarded=False) == {3: (1, 0, 1)}
    assert endings(rows, guarded=True) == {2: {"changed": 1}}


KNEE = {"area": "knee", "side": "left"}


@pytest.mark.parametrize(
    ("returned_on", "why"),
    [(None, "other_injury"), (day(9), "other_injury"), (day(3), "no_more"), (day(2), "no_more")],
)
def test_an_injury_elsewhere_ends_the_season_when_no_session_followed(season, returned_on, why):
    """Back before the season's last session, the injury did not keep the athlete from it."""
    store = season(
        """
            A    B
        G1  .    .
        G2  o    .
        G3  o    .
        """,
        injuries=[injury("knee", "A", day(1), **KNEE, session="G1", returned_on=returned_on)],
    )
    assert endings(ticks(store), guarded=False) == {1: {why: 1}, 3: {"no_more": 1}}


def two_seasons(**cells) -> Season:
    """Return A's three games of 2025 and one of 2026, in one department."""
    plain = drawn("""
               A
        G1@1   .
        G2@2   .
        G3@3   .
        G4@90  .
    """)
    plain.roster = [build.member("A", season="2025", **cells), build.member("A")]
    for name in ("G1", "G2", "G3"):
        plain.session(name)["season"] = "2025"
    return plain


def test_the_clock_starts_anew_each_season(load):
    rows = ticks(load(two_seasons()))
    assert risk(rows, guarded=False) == {1: (2, 0, 2), 2: (1, 0, 0), 3: (1, 0, 0)}
    assert endings(rows, guarded=False) == {1: {"no_more": 1}, 3: {"no_more": 1}}
    assert wholes(rows) == {False: (1, 1)}, "one athlete, one site, in both seasons"


def test_an_injury_of_the_next_season_does_not_end_the_one_before(load):
    plain = two_seasons()
    plain.injuries = [injury("knee", "A", day(90), **KNEE, session="G4")]
    rows = ticks(load(plain))
    assert endings(rows, guarded=False) == {1: {"other_injury": 1}, 3: {"no_more": 1}}


def test_leaving_the_roster_is_told_once_it_has_happened(load):
    store = load(two_seasons(left_on=day(5)))
    assert endings(ticks(store, seasons=["2025"]), guarded=False) == {3: {"left_roster": 1}}
    before = ticks(store, seasons=["2025"], through=day(4))
    assert endings(before, guarded=False) == {3: {"no_more": 1}}


def test_an_injury_counts_once_however_often_it_is_recorded(season):
    rows = ticks(
        season("""
            A
        G1  .!*
        """)
    )
    assert risk(rows, guarded=False) == {1: (1, 1, 1)}


def test_an_injury_in_a_game_its_athlete_is_not_recorded_in_ends_follow_up(season):
    rows = ticks(
        season("""
            A
        G1  .
        G2  o!
        G3  .
        """)
    )
    assert risk(rows, guarded=False) == {1: (1, 0, 1)}
    assert endings(rows, guarded=False) == {1: {"site_injury": 1}}


def test_each_side_is_followed_on_its_own(load):
    """A shin guard on the left: the right is bare, and goes on when the left is hurt."""
    plain = drawn("""
            A
        G1  .
        G2  .
    """)
    plain.guards = [build.guard("s", "A", kind="shin", side="left")]
    plain.wear = [{"session": "G1", "guard": "s"}]
    left = {"area": "lower leg", "side": "left", "session": "G1"}
    plain.injuries = [injury("shin", "A", day(1), **left)]
    rows = ticks(load(plain), kinds=["shin"])
    assert risk(rows, guarded=True) == {1: (1, 1, 1)}
    assert risk(rows, guarded=False) == {1: (1, 0, 1), 2: (1, 0, 0)}
    assert wholes(rows) == {True: (1, 1), False: (1, 1)}


def test_strata_are_sport_sex_and_position_group(load):
    plain = drawn(
        """
            A    B
        G1  .    .!
        """,
        roster={"A": {"position_group": "back"}},
    )
    rows = on_ticks(ticks(load(plain)))
    found = {
        (row["sport"], row["sex"], row["position_group"]): (row["at_risk"], row["injuries"])
        for row in rows
    }
    assert found == {("soccer", "women", "back"): (1, 0), ("soccer", "women", None): (1, 1)}


def test_who_was_at_risk_is_told_site_by_site_the_injured_first(season):
    store = season("""
            A    B    C
        G1  .    .!   .
        G2  g    .    .!
    """)
    asked = scope(settings=["game"]) | {"clock": "games"}
    second = store.read("rows/at_tick", **asked, tick=2).rows(named=True)
    assert [(r["athlete"], r["session"], r["worn"], r["injured"]) for r in second] == [
        ("C", "G2", "bare", "yes"),
        ("A", "G2", "guarded", "no"),
    ]
    assert second[0]["name"] == "Athlete C"
    assert second[0]["played_on"] == date(2026, 9, 2)
    cut = store.read_page("rows/at_tick", PageAsked(1), **asked, tick=1)
    assert (cut.rows.height, cut.total) == (1, 3)
    assert store.read("rows/at_tick", **asked, tick=3).is_empty()
