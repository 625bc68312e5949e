"""The counts of Compare, on seasons small enough to count by eye."""

from datetime import datetime, time

import pytest

from tests.queries import build
from tests.queries.asking import crude, left_out, strata
from tests.queries.build import Season, day, drawn, injury, legs

AFTER = ("site-exposures", "after an earlier injury to the site")


def alike(words):
    return f"chest · soccer · women · position not recorded · {words}"


def test_injuries_and_exposures_are_counted_by_what_was_worn_in_that_session(season):
    store = season("""
            A    B    C
        G1  g    .    .
        G2  g!   .    .!
        P3  .    .    o
    """)
    found = strata(store)
    assert found == {
        ("crude", "all"): (1, 1, 2, 5, 1),
        ("alike athletes", alike("game · 2026 · two weeks from 2026-08-24")): (1, 1, 2, 4, 1),
        ("alike athletes", None): (0, 0, 0, 1, 1),
        ("same session", "chest · G2 · position not recorded"): (1, 1, 1, 2, 1),
        ("same session", None): (0, 0, 1, 3, 2),
    }
    assert left_out(store) == {AFTER: 1}


def test_two_week_blocks_begin_on_a_monday(season):
    """6 September 2026 is a Sunday: the next day begins a block."""
    store = season("""
              A    B
        G1@6  .    .!
        G2@7  .!   -
    """)
    blocks = {stratum for name, stratum in strata(store) if name == "alike athletes"}
    assert blocks == {
        alike("game · 2026 · two weeks from 2026-08-24"),
        alike("game · 2026 · two weeks from 2026-09-07"),
    }


def test_position_groups_of_one_session_are_strata_of_their_own(load):
    store = load(
        drawn(
            """
                A    B    C    E
            G1  g    .!   .    .!
            """,
            roster={a: {"position_group": "back"} for a in "AB"}
            | {"C": {"position_group": "wing"}},
        )
    )
    same = {key[1]: counts for key, counts in strata(store).items() if key[0] == "same session"}
    assert same == {
        "chest · G1 · back": (0, 1, 1, 1, 1),
        "chest · G1 · position not recorded": (0, 1, 0, 1, 1),
        None: (0, 0, 0, 1, 1),
    }


def test_limited_is_one_exposure_and_out_or_not_recorded_is_none(season):
    store = season("""
            A    B    C    E
        G1  .    l    o    -
    """)
    assert crude(store) == (0, 0, 0, 2)
    assert left_out(store) == {("athletes' sessions", "attendance not recorded"): 1}


def test_games_before_a_guard_is_worn_are_bare(season):
    """Nobody is a guarded athlete for a season: the hurt before the guard was bare."""
    store = season("""
            A    B
        G1  .    .!
        G2  .    .
        G3  g    g
        G4  g    g
    """)
    assert crude(store, outcome="any") == (0, 1, 2, 3)
    assert left_out(store) == {AFTER: 3}


VIEWS = {
    "preventive": (
        (0, 1, 2, 3),
        {AFTER: 3, ("site-exposures", "a guard made for return was worn"): 2},
    ),
    "return": (
        (1, 0, 1, 1),
        {
            ("site-exposures", "no earlier injury to the site"): 7,
            ("site-exposures", "a preventive guard was worn"): 1,
        },
    ),
    "all": ((1, 1, 6, 4), {}),
}


@pytest.mark.parametrize("view", VIEWS)
def test_each_view_sets_the_others_aside_and_says_so(season, view):
    """preventive: until the first injury; return: after it; both guards at once: each its own."""
    counts, aside = VIEWS[view]
    store = season("""
            A    B    C    E
        G1  g    .!   r    .
        G2  .    r!   gr   g
        P3  -    .    -    -
        P4  -    g    -    -
    """)
    found = crude(store, purpose=view)
    told = {
        key: n for key, n in left_out(store, purpose=view).items() if key[0] == "site-exposures"
    }
    assert told == aside
    assert found == counts
    assert sum(found[2:]) + sum(told.values()) == 10


def test_a_guard_of_another_kind_at_the_site_is_neither_guarded_nor_bare(season):
    store = season("""
            A    B    C
        G1  x    xg   .
    """)
    assert crude(store) == (0, 0, 1, 1)
    other = ("site-exposures", "a guard outside the scope was worn at the site")
    assert left_out(store) == {other: 1}
    assert crude(store, kinds=["vest"]) == (0, 0, 2, 1), "seen from the other kind it is guarded"


def test_a_guard_of_another_kind_under_one_that_counts_changes_nothing(season):
    store = season("""
            A    B
        G1  .!   .!
        G2  rx   x
    """)
    assert crude(store, purpose="return") == (0, 0, 1, 0)
    assert crude(store, purpose="all") == (0, 2, 1, 2)


def test_time_loss_takes_a_full_day_and_any_takes_all(season):
    """The day of onset and the day of return are not lost; without a return it is still open."""
    store = season(
        """
            A    B    C    E
        G1  .!   .?   .*   .
        """,
        injuries=[injury("E", "E", day(1), session="G1", returned_on=day(3))],
    )
    assert crude(store) == (0, 3, 0, 4)
    assert left_out(store) == {("injuries", "no day lost"): 1}
    assert crude(store, outcome="any") == (0, 4, 0, 4)
    assert left_out(store, outcome="any") == {}


def test_a_site_is_an_area_and_a_side(load):
    """One guard on the left leaves the right bare; a pair guards both."""
    store = load(legs([("A", "left"), ("B", "both"), ("C", None)]))
    assert crude(store, kinds=["shin"]) == (0, 0, 3, 3)
    assert crude(store, kinds=["shin"], sides=["left"]) == (0, 0, 2, 1)
    assert crude(store, kinds=["shin", "chest"], areas=["chest"]) == (0, 0, 0, 3)


def test_an_injury_to_both_sides_is_one_at_each(load):
    plain = legs([("A", "left"), ("B", None)])
    both = {"area": "lower leg", "side": "both", "session": "G1"}
    plain.injuries.append(injury("both", "A", day(1), **both))
    assert crude(load(plain), kinds=["shin"]) == (1, 1, 1, 3)


def test_a_guard_of_one_side_covers_the_midline_area_of_its_kind(load):
    """A kind may cover the chest and a shoulder: the chest has no side of its own."""
    plain = drawn("""
            A
        G1  .
    """)
    plain.kinds = [{"kind": "vest", "area": "chest"}, {"kind": "vest", "area": "shoulder"}]
    plain.guards = [build.guard("v", "A", kind="vest", side="left")]
    plain.wear = [{"session": "G1", "guard": "v"}]
    store = load(plain)
    assert crude(store, kinds=["vest"], areas=["chest"]) == (0, 0, 1, 0)
    assert crude(store, kinds=["vest"], areas=["shoulder"]) == (0, 0, 1, 1)


def two_teams() -> Season:
    """Return A on both teams, in other positions; B and C on one."""
    plain = drawn("""
            A    B    C
        G1  g    .!   -
        G2  .    -    .
    """)
    plain.teams.append(build.team("U", sport="hockey", sex="men"))
    plain.session("G2")["team"] = "U"
    plain.roster = [
        build.member("A", position_group="back"),
        build.member("B"),
        build.member("A", team="U", position_group="wing"),
        build.member("C", team="U"),
    ]
    return plain


def test_an_athlete_of_two_teams_has_the_position_of_the_team_that_plays(load):
    store = load(two_teams())
    assert crude(store) == (0, 1, 1, 3)
    assert crude(store, position_groups=["back"]) == (0, 0, 1, 0)
    assert crude(store, position_groups=["wing"]) == (0, 0, 0, 1)
    assert crude(store, teams=["U"]) == crude(store, sports=["hockey"]) == (0, 0, 0, 2)
    assert crude(store, sexes=["women"]) == (0, 1, 1, 1)
    assert crude(store, departments=["nowhere"]) == (0, 0, 0, 0)


def test_teams_taken_together_count_what_they_count_apart(load):
    store = load(two_teams())
    apart = [crude(store, teams=[team]) for team in "TU"]
    assert crude(store) == tuple(map(sum, zip(*apart, strict=True)))


def test_a_late_game_belongs_to_the_day_where_it_was_played(load):
    """21:30 in Denver is the next day in UTC, and still known on its own day."""
    plain = drawn("""
              A
        G1@6  .!
    """)
    plain.departments = [build.department("D", time_zone="America/Denver")]
    plain.sessions[0]["starts_at"] = datetime.combine(day(6), time(21, 30))
    store = load(plain)
    assert crude(store, through=day(6)) == (0, 1, 0, 1)
    assert ("alike athletes", alike("game · 2026 · two weeks from 2026-08-24")) in strata(store)


def test_kinds_that_nobody_knows_study_no_site(season):
    store = season("""
            A
        G1  .!
    """)
    assert crude(store, kinds=[]) == crude(store, kinds=["nothing"]) == (0, 0, 0, 0)
