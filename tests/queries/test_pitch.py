"""What a pitch rests on, by eye, and against the same counts made by plain loops."""

import polars as pl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.queries.asking import put, scope
from tests.queries.build import at, day, drawn, injury, order
from tests.queries.seasons import scopes
from tests.queries.slow_pitch import SlowPitch
from tests.queries.slow_take_up import working_seasons
from tests.queries.test_queries_against_loops import MODEST, loaded


def keyed(frame, keys):
    found = {row[:keys]: row[keys:] for row in frame.iter_rows()}
    assert len(found) == len(frame), "one row for each key"
    return found


@pytest.fixture
def small():
    """Three athletes, four sessions: A is guarded in one of them, B is hurt bare, C once out."""
    plain = drawn(
        """
          A   B   C
      G1  .   .   .
      P2  g   .   o
      G9@9  .   .!  .
      P10@10 .   .   -
    """,
        injuries=[injury("Z", "C", day(3))],
    )
    made = plain
    made.stages = order(
        "g-A",
        "A",
        {"requested": at(1, 6), "modelled": at(1, 10), "printed": at(2, 4), "fitted": at(2, 6)},
    )[1]
    made.guards[0]["print_hours"] = 4.5
    return made


def test_bare_exposures_and_injuries_by_sport_sex_setting_and_area(load, small):
    """Games: 6, less C's in G9 after the injury; practices: B in P2, A in P10."""
    assert keyed(put(load(small), "pitch/baseline").drop("department"), 4) == {
        ("soccer", "women", "game", "chest"): (1, 1, 5),
        ("soccer", "women", "practice", "chest"): (1, 0, 2),
    }


def test_both_sides_of_an_area_are_two_sites(load):
    store = load(drawn("A B\nG1 . ."))
    assert keyed(put(store, "pitch/baseline", kinds=["shin"]).drop("department"), 4) == {
        ("soccer", "women", "game", "lower leg"): (2, 0, 4)
    }
    assert keyed(
        put(store, "pitch/baseline", kinds=["shin"], sides=["left"]).drop("department"), 4
    ) == {("soccer", "women", "game", "lower leg"): (1, 0, 2)}


def test_who_takes_part_is_counted_of_the_roster_of_the_day(load, small):
    """Six places at games, all there; six at practices, C once out and once not recorded."""
    assert keyed(put(load(small), "pitch/taking_part"), 2) == {
        ("soccer", "game"): (2, 6, 6),
        ("soccer", "practice"): (2, 6, 4),
    }


def test_a_team_is_as_large_as_its_roster_and_its_games_may_be_to_come(load, small):
    store = load(small)
    assert keyed(put(store, "pitch/served"), 2) == {("soccer", "women"): (1, 3.0, 2.0, 2.0, 2.0)}
    early = keyed(put(store, "pitch/served", through=day(2)), 2)
    assert early == {("soccer", "women"): (1, 3.0, 2.0, 1 * 9 / 2, 2.0)}, "at the same pace"


def test_a_sport_with_a_fall_and_a_winter_season_has_both_in_one_year(load):
    fall = drawn("A B\nG1 . .\nP2 . .")
    winter = drawn("A B\nG8@8 . .\nG9@9 . .")
    for row in (*winter.sessions, *winter.roster):
        row["season"] = "2026-27 winter"
    for name in ("sessions", "roster"):
        getattr(fall, name).extend(getattr(winter, name))
    assert keyed(put(load(fall), "pitch/served"), 2) == {
        ("soccer", "women"): (2, 2.0, 3.0, 1.0, 2.0)
    }


def test_days_lost_are_full_days_and_open_injuries_last_so_far(load, small):
    """B is back after 10 days, so 9 are lost; C, hurt on day 3, is out through day 12: 9 too."""
    assert keyed(put(load(small), "pitch/absences", through=day(12)), 1) == {
        (9,): (0, 1, 0),
        (3,): (0, 1, 1),
    }
    assert keyed(put(load(small), "pitch/absences", through=day(30)), 1) == {
        (9,): (1, 0, 1),
        (27,): (0, 1, 0),
    }


def test_time_outside_the_print_is_from_requested_to_fitted_less_modelled_to_printed(load, small):
    """24 hours in all, 18 of them between modelled and printed."""
    assert put(load(small), "pitch/making").rows() == [("onsite printer", 6, 1)]


def test_guards_an_athlete_and_hours_a_print(load, small):
    assert put(load(small), "pitch/prints").row(0) == (1, 1, 1, 4.5)
    assert put(load(small), "pitch/prints", through=day(1)).row(0) == (0, 0, 0, None)


@pytest.mark.long
@MODEST
@given(
    season=working_seasons(),
    parts=scopes(),
    setting=st.sampled_from([None, ["game"], ["practice"]]),
    hours=st.lists(st.sampled_from([None, 2.0, 3.5, 8.0]), min_size=40, max_size=40),
)
def test_what_a_pitch_rests_on_is_what_loops_count(season, parts, setting, hours):
    for guard, print_hours in zip(season.guards, hours, strict=False):
        guard["print_hours"] = print_hours
    with loaded(season) as store:
        for view in ("preventive", "all"):
            asked = {**scope(**parts), "purpose": view, "settings": setting}
            slow = SlowPitch(season, asked)
            assert keyed(put(store, "pitch/baseline", **asked), 5) == slow.baseline()
        assert keyed(put(store, "pitch/taking_part", **asked), 2) == slow.taking_part()
        assert keyed(put(store, "pitch/served", **asked), 2) == slow.served()
        absences = keyed(put(store, "pitch/absences", **asked), 1)
        assert {days: cell for (days,), cell in absences.items()} == slow.absences()
        making = put(store, "pitch/making", **asked).group_by("hours").agg(pl.sum("orders"))
        assert dict(making.iter_rows()) == slow.making()
        assert put(store, "pitch/prints", **asked).row(0) == slow.prints()
