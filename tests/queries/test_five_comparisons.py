"""The counts behind the comparisons that Compare adds: by eye, then against plain loops."""

from collections import Counter
from datetime import time

from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.scope import View
from tests.deep import tries
from tests.queries import build
from tests.queries.asking import strata
from tests.queries.asking_comparisons import (
    athlete_strata,
    bare_rates,
    by_athlete,
    courses,
    pace,
    pairs,
    summed,
)
from tests.queries.build import day, drawn, injury, legs
from tests.queries.seasons import scopes
from tests.queries.slow_comparisons import SlowComparisons, stage, staged, staged_seasons
from tests.queries.test_queries_against_loops import MODEST, loaded


def test_athletes_are_counted_in_the_strata_with_an_injury_and_in_no_other(season):
    store = season("""
            A    B    C
        G1  g    .    .
        G2  g!   .    .!
        P3  .    .    o
    """)
    found = {
        key: sorted(cells.values())
        for key, cells in athlete_strata(store).items()
        if key[0] != "crude"
    }
    assert found == {
        ("alike athletes", 1): [(0, 0, 0, 2), (0, 1, 0, 2), (1, 0, 2, 0)],
        ("same session", 1): [(0, 0, 0, 1), (0, 1, 0, 1), (1, 0, 1, 0)],
    }


def test_an_athletes_two_legs_are_added_up_within_a_stratum(load):
    plain = legs([("A", "left"), ("B", None)])
    plain.injuries.append(lower_leg("A", "left"))
    found = athlete_strata(load(plain), kinds=["shin"])
    assert sorted(found["same session", 1].values()) == [(0, 0, 0, 2), (1, 0, 1, 1)]


def lower_leg(athlete, side, session="G1"):
    cells = {"area": "lower leg", "side": side, "session": session}
    return injury(f"{athlete}-{side}", athlete, day(1), **cells)


def test_an_athlete_is_followed_through_injuries_from_when_the_guard_was_first_worn(season):
    """A from G2 on. B has no guard. C's guard came after an injury; E was never hurt."""
    store = season("""
            A    B    C    E
        G1  .    .    .!   .
        G2  g    .    .    g
        G3  g!   .!   g    g
        G4  .!   .    g!   .
        G5  .    .    .    .
    """)
    assert by_athlete(store) == {"A": (False, 1, 1, 2, 2), "C": (True, 1, 0, 2, 1)}


def test_follow_up_starts_when_the_guard_was_asked_for_where_that_is_recorded(load):
    """Asked for on day 2 before the game, worn on day 4: two games bare, waiting for it."""
    plain = drawn("""
            A
        G1  .
        G2  .!
        G3  .
        G4  g
    """)
    store = load(staged(plain, [stage("g-A", day(2)), stage("g-A", day(3), word="fitted")]))
    assert by_athlete(store) == {"A": (False, 0, 1, 1, 2)}
    late = load(staged(plain, [stage("g-A", day(2), time(13))]))
    assert by_athlete(late) == {}, "hurt in the game before it was asked for, and never since"


def test_a_stage_not_yet_known_does_not_start_follow_up(load):
    plain = drawn("""
            A
        G1  .
        G2  g!
        G3  g
    """)
    store = load(staged(plain, [stage("g-A", day(3))]))
    assert by_athlete(store) == {}, "hurt before it was asked for, and never since"
    assert by_athlete(store, through=day(2)) == {"A": (False, 1, 0, 1, 0)}


def test_an_injury_outside_a_session_before_the_guard_was_asked_for_is_flagged(season):
    grid = """
            A    B
        G1  .    .
        G2  g!   g!
        G3  .    .
    """
    home = [injury("a", "A", day(1), area="chest"), injury("b", "B", day(2), area="chest")]
    assert by_athlete(season(grid, injuries=home)) == {
        "A": (True, 1, 0, 1, 1),
        "B": (False, 1, 0, 1, 1),
    }


def test_return_guards_and_other_kinds_are_no_part_of_an_athletes_own_comparison(season):
    store = season("""
            A    B    C    E
        G1  g    x    r    r
        G2  r!   x!   r!   .
        G3  x    .    .    .
        G4  .!   .    .    .!
        G5  gr   .    .    .
        G6  gx   .    .    .
    """)
    assert by_athlete(store) == {"A": (False, 0, 1, 2, 1)}
    assert by_athlete(store, kinds=["vest"]) == {"A": (True, 0, 1, 2, 1), "B": (False, 1, 0, 2, 4)}


def test_a_one_sided_guard_starts_follow_up_of_the_midline_area_that_it_covers(load):
    plain = drawn("""
            A
        G1  .
        G2  .!
    """)
    plain.kinds = [{"kind": "vest", "area": "chest"}, {"kind": "vest", "area": "shoulder"}]
    plain.guards = [build.guard("v", "A", kind="vest", side="left")]
    plain.wear = [{"session": "G1", "guard": "v"}]
    store = load(plain)
    assert by_athlete(store, kinds=["vest"]) == {"A": (False, 0, 1, 1, 1)}


def test_position_groups_settings_and_blocks_are_told_apart_in_an_athletes_course(load):
    grid = """
               A
        G1@5   g!
        P2@6   .
        G3@7   .
    """
    store = load(drawn(grid, roster={"A": {"position_group": "back"}}))
    first = (day(5) - day(5).replace(year=2000, month=1, day=3)).days // 14
    assert courses(store) == {
        ("A", "chest", "midline", "soccer", "back", "game", first): (False, 1, 0, 1, 0),
        ("A", "chest", "midline", "soccer", "back", "practice", first): (False, 0, 0, 0, 1),
        ("A", "chest", "midline", "soccer", "back", "game", first + 1): (False, 0, 0, 0, 1),
    }


def test_bare_rates_count_repeats_and_no_guarded_exposure(season):
    store = season("""
            A    B    C
        G1  .!   g!   .
        G2  .!   .    r
        G3  .?   .    x
        P4  .    o    .
    """)
    found = {key[3]: counts for key, counts in bare_rates(store).items()}
    assert found == {"game": (2, 6), "practice": (0, 2)}
    assert {k[3]: n for k, n in bare_rates(store, outcome="any").items()}["game"] == (3, 6)


def test_the_other_side_is_compared_within_one_athlete_and_session(load):
    """A hurt on the guarded leg, B on the bare one, C on both, E on none; F wore two, H none."""
    plain = legs(
        [("A", "left"), ("B", "left"), ("C", "right"), ("E", "left"), ("F", "both"), ("H", None)]
    )
    for athlete, side in (("A", "left"), ("B", "right"), ("C", "both"), ("F", "left")):
        plain.injuries.append(lower_leg(athlete, side))
    plain.injuries.append(lower_leg("H", "left"))
    store = load(plain)
    assert pairs(store, kinds=["shin"]) == {
        ("lower leg", "A", 1, 0): 1, ("lower leg", "B", 0, 1): 1, ("lower leg", "C", 1, 1): 1,
        ("lower leg", None, 0, 0): 1,
    }  # fmt: skip
    assert pairs(store, kinds=["shin"], sides=["left"]) == {}, "one side has no other"
    assert pairs(store, kinds=["chest"]) == {}, "the middle has no other side"


def test_the_bare_side_leaves_the_pairs_once_it_was_hurt_before(load):
    """In the preventive view both sides must be without an earlier injury."""
    plain = legs([("A", "left")])
    plain.sessions.append(build.session("G2", day(2)))
    plain.attendance.append({"session": "G2", "athlete": "A", "part": "full"})
    plain.wear.append({"session": "G2", "guard": "s-A"})
    plain.injuries.append(lower_leg("A", "right"))
    store = load(plain)
    assert pairs(store, kinds=["shin"]) == {("lower leg", "A", 0, 1): 1}
    assert pairs(store, kinds=["shin"], purpose="all") == {
        ("lower leg", "A", 0, 1): 1,
        ("lower leg", None, 0, 0): 1,
    }


def test_pace_counts_games_in_which_someone_took_part(season):
    store = season("""
            A    B
        G1  .    .
        P2  .    .
        G3  o    -
        G4  l    o
    """)
    assert pace(store) == 2
    assert pace(store, through=day(3)) == 1
    assert pace(store, teams=["nobody"]) == 0


def by_stratum(found):
    """Return the athletes' counts of each stratum, athletes unnamed: how often each occurs."""
    return Counter(
        (comparison, tuple(sorted(cells.values()))) for (comparison, _), cells in found.items()
    )


def by_person(found):
    """Return each athlete's rows over all strata, athletes unnamed."""
    rows = {}
    for (comparison, _), cells in found.items():
        for athlete, counts in cells.items():
            rows.setdefault(athlete, []).append((comparison, summed(cells.values()), counts))
    return Counter(tuple(sorted(some)) for some in rows.values())


def has_injury(key, cells):
    return key[0] == "crude" or any(a + b for a, b, _, _ in cells.values())


@settings(MODEST, max_examples=tries(3))
@given(
    season=staged_seasons(),
    parts=scopes(),
    setting=st.sampled_from([None, ["game"], ["practice"]]),
    view=st.sampled_from(list(View)),
)
def test_every_comparison_rests_on_what_loops_count(season, parts, setting, view):
    with loaded(season) as store:
        asked = {**parts, "purpose": view.value, "settings": setting}
        slow = SlowComparisons(season, asked)
        found = athlete_strata(store, **asked)
        counted = {k: c for k, c in slow.athlete_strata().items() if has_injury(k, c)}
        assert by_stratum(found) == by_stratum(counted)
        assert by_person(found) == by_person(counted)
        check_sums(found, strata(store, **asked))
        assert pairs(store, **asked) == slow.pairs()
        through = {**parts, "settings": setting}
        slow = SlowComparisons(season, {**through, "purpose": "through"})
        assert courses(store, **through) == slow.courses()
        assert bare_rates(store, **through) == slow.bare_rates()
        assert pace(store, **through) == slow.pace()


def check_sums(found, whole):
    """The athletes of a stratum add up to the stratum, for every stratum with an injury."""
    sums = Counter((key[0], *summed(cells.values())) for key, cells in found.items())
    rows = Counter((name, *counts[:4]) for (name, _), counts in whole.items() if sum(counts[:2]))
    assert Counter({row: n for row, n in sums.items() if row[1] + row[2]}) == rows
