"""What Compare leaves out, and when something is known, on seasons that can be counted by eye."""

from datetime import date, timedelta

from tests.queries import build
from tests.queries.asking import crude, left_out, scope, strata
from tests.queries.build import Season, day, drawn, injury, legs

AFTER = ("site-exposures", "after an earlier injury to the site")
OUT = ("injuries", "the athlete is not recorded as taking part in that session")


def test_an_injury_not_yet_returned_from_on_the_last_day_known_is_open(season):
    """Out on day 1, back on day 2: on day 1 nobody knows, from day 2 on no day was lost."""
    store = season("""
            A
        G1  .?
    """)
    assert crude(store, through=day(1)) == (0, 1, 0, 1)
    assert crude(store, through=day(2)) == (0, 0, 0, 1)


def test_every_injury_that_is_not_counted_is_told_with_its_reason(season):
    store = season(
        """
            A    B    C    E    F
        G1  .!*  o!   -!   .    .
        G2  o    o    o    .    r!
        """,
        injuries=[
            injury("between", "E", day(1)),
            injury("before the season", "F", day(-30), returned_on=day(-20)),
        ],
    )
    assert crude(store) == (0, 1, 0, 2)
    assert left_out(store) == {
        ("injuries", "a second record of the same site in the same session"): 1,
        ("injuries", "after an earlier injury to the site"): 1,
        OUT: 2,
        ("injuries", "no session recorded"): 1,
        AFTER: 3,
        ("athletes' sessions", "attendance not recorded"): 1,
    }


def test_an_injury_outside_sessions_sets_the_site_aside_from_the_next_day_on(season):
    store = season(
        """
            A
        G1  .
        G2  .
        """,
        injuries=[injury("at home", "A", day(1))],
    )
    assert crude(store) == (0, 0, 0, 1)
    assert left_out(store) == {("injuries", "no session recorded"): 1, AFTER: 1}


def test_the_second_game_of_a_day_comes_after_an_injury_in_the_first(load):
    plain = drawn("""
              A
        G1@1  .!
        G2@1  g
    """)
    plain.session("G2")["starts_at"] += timedelta(hours=4)
    assert crude(load(plain)) == (0, 1, 0, 1)


def test_an_injury_from_an_earlier_season_counts_as_earlier(load):
    two = drawn("""
               A
        G1@1   .?
        G2@30  .
    """)
    two.session("G2")["season"] = "2027"
    two.roster.append(build.member("A", season="2027"))
    store = load(two)
    assert left_out(store, seasons=["2027"]) == {AFTER: 1}


def test_a_guard_worn_by_someone_who_was_out_is_told_and_not_counted(season):
    cells = {"A": {"position_group": "back"}, "B": {"position_group": "wing"}}
    store = season(
        """
            A    B    C
        G1  og   -g   .
        """,
        roster=cells,
    )
    worn = ("guards worn", "the athlete is not recorded as taking part in that session")
    assert crude(store) == (0, 0, 0, 1)
    assert left_out(store)[worn] == 2
    assert left_out(store, position_groups=["back"])[worn] == 1, "the scope holds for it too"
    assert worn not in left_out(store, kinds=["vest"])


def test_guards_worn_while_out_are_told_only_for_the_sites_asked(load):
    plain = legs([("A", "left"), ("B", "both")])
    for row in plain.attendance:
        row["part"] = "out"
    store = load(plain)
    worn = ("guards worn", "the athlete is not recorded as taking part in that session")
    assert left_out(store, kinds=["shin"]) == {worn: 2}
    assert left_out(store, kinds=["shin"], sides=["right"]) == {worn: 1}


def test_nothing_recorded_counts_nothing(load):
    store = load(Season())
    assert strata(store) == {}
    assert left_out(store) == {}


def test_a_report_that_comes_later_is_not_known_before(season):
    told_late = {"session": "G1", "reported_on": day(9), "returned_on": day(20)}
    store = season(
        """
            A
        G1  .
        G2  .
        """,
        injuries=[injury("late", "A", day(1), **told_late)],
    )
    assert crude(store, through=day(8)) == (0, 0, 0, 2)
    assert crude(store, through=day(9)) == (0, 1, 0, 1)
    assert crude(store, through=date(2026, 8, 31)) == (0, 0, 0, 0)


def test_of_two_records_of_a_site_in_a_session_the_one_that_cost_time_counts(season):
    """Whatever their keys: one is counted, the other has its reason, in list and rows."""
    twice = [
        injury("1 light", "A", day(1), session="G1", returned_on=day(1)),
        injury("2 heavy", "A", day(1), session="G1", returned_on=day(9)),
    ]
    store = season("A\nG1 .", injuries=twice)
    assert crude(store) == (0, 1, 0, 1)
    assert left_out(store) == {("injuries", "no day lost"): 1}
    rows = store.read("rows/injuries", **scope())
    assert rows.select("injury", "counted").rows() == [
        ("2 heavy", "yes"),
        ("1 light", "no: no day lost"),
    ]
