"""The data checks of rosters, sessions, attendance and injuries: given these rows, expect that."""

from datetime import timedelta

from tests.queries import build
from tests.queries.build import day, injury
from tests.queries.doubtful_seasons import doubts
from tests.queries.roster_seasons import club


def test_attendance_not_recorded(load):
    """B has no row in G2; C left before it; nobody has one in G3, which is another check."""
    store = load(
        club(
            """
            A B C
        G1  . . .
        G2  . - -
        G3  - - -
        """,
            roster={"C": {"left_on": day(1)}},
        )
    )
    summary = "game: on the roster that day, but no row"
    assert doubts(store, "attendance-not-recorded") == [("G2", "B", summary)]


def test_sessions_without_attendance(load):
    """On the last day known it may still be to come."""
    store = load(
        club("""
            A
        G1  .
        P2  -
        G3  -
    """)
    )
    asked = {"until": day(4)}
    assert doubts(store, "sessions-without-attendance", **asked) == [
        ("P2", None, "practice: nobody is recorded")
    ]


def test_only_who_took_part(load):
    """Five sessions, nobody out, somebody missing; one athlete recorded as out would tell."""
    grid = """
            A B
        G1  . -
        G2  . .
        G3  . .
        G4  - .
        G5  . {}
    """
    summary = "2026: nobody is out in 5 sessions, and 2 rows are missing beside 8 recorded"
    assert doubts(load(club(grid.format("."))), "only-who-took-part") == [("T", None, summary)]
    assert doubts(load(club(grid.format("o"))), "only-who-took-part") == []


def test_not_on_the_roster(load):
    """B joined on day 2; C is on the roster of another season only."""
    season = club(
        """
            A B C
        G1  . . .
        G2  . . o
        """,
        roster={"B": {"joined_on": day(2)}, "C": {"season": "2025"}},
    )
    assert doubts(load(season), "not-on-the-roster") == [
        ("G1", "B", "full, but joined only on 2026-09-02"),
        ("G1", "C", "full, but not on the roster of T in 2026"),
    ]


def test_session_twice(load):
    """The second 20 minutes after the first; the third an hour after that is another game."""
    season = club("""
              A
        G1@1  .
        G2@1  .
        G3@1  .
    """)
    season.session("G2")["starts_at"] += timedelta(minutes=20)
    season.session("G3")["starts_at"] += timedelta(minutes=80)
    summary = "game starts 20 minutes after session G1"
    assert doubts(load(season), "session-twice") == [("G2", None, summary)]


def test_teams_without_games(load):
    store = load(
        club("""
            A
        P1  .
        P2  .
        G3  -
    """)
    )
    summary = "2026: 2 practices recorded, and no game"
    assert doubts(store, "teams-without-games") == [("T", None, summary)]


def test_minutes_implausible(load):
    season = club("""
            A B C D E
        G1  . . o . .
    """)
    for row, told in zip(season.attendance, [(60, 12), (0, None), (20, None)], strict=False):
        row["minutes"], row["plays"] = told
    season.attendance[3]["plays"] = 400
    assert doubts(load(season), "minutes-implausible") == [
        ("G1", "B", "full, 0 minutes"),
        ("G1", "C", "out, 20 minutes"),
        ("G1", "D", "full, 400 plays"),
    ]


def test_position_group_missing(load):
    """B has none, and took part; C has none, and was out."""
    store = load(
        club(
            """
            A B C
        G1  . . o
        """,
            roster={"A": {"position_group": "back"}},
        )
    )
    summary = "2026: no position group"
    assert doubts(store, "position-group-missing") == [("B", "B", summary)]


def test_athletes_twice(load):
    """The words turned round, and one letter; names in other letters are compared as well."""
    names = {
        "A": "Zofia Kasprzyk", "B": "KASPRZYK, Zofia", "C": "Zofia Kasprzik", "D": "山田太郎",
        "E": "山田花子",
    }  # fmt: skip
    season = club("A B C D E", roster={key: {"name": name} for key, name in names.items()})
    assert doubts(load(season), "athletes-twice") == [
        ("B", "B", "nearly the name of A, Zofia Kasprzyk"),
        ("C", "C", "nearly the name of A, Zofia Kasprzyk"),
        ("C", "C", "nearly the name of B, KASPRZYK, Zofia"),
    ]


def test_athletes_known_by_figures_or_initials_are_not_taken_for_one(load):
    names = {"A": "Athlete 01", "B": "Athlete 02", "C": "Maria J", "D": "Maria K"}
    season = club("A B C D", roster={key: {"name": name} for key, name in names.items()})
    assert doubts(load(season), "athletes-twice") == []


def test_injuries_without_a_session_and_with_one_suggested(load):
    """A took part on day 1, B was out, C was hurt on a day without a session."""
    season = club(
        """
            A B C
        G1  . o .
        """,
        injuries=[injury(f"I{key}", key, day(on)) for key, on in (("A", 1), ("B", 1), ("C", 3))],
    )
    store = load(season)
    summary = "chest, midline: no session, and the athlete took part in none that day"
    assert doubts(store, "injuries-without-session") == [("IC", "C", summary), ("IB", "B", summary)]
    assert doubts(store, "injuries-session-suggested") == [
        ("IA", "A", "chest, midline: no session, but took part that day in G1")
    ]


def test_injuries_on_another_day(load):
    season = club(
        """
            A
        G1  .
        """,
        injuries=[injury("I", "A", day(2), session="G1")],
    )
    summary = "chest, midline: but session G1 was on 2026-09-01"
    assert doubts(load(season), "injuries-on-another-day") == [("I", "A", summary)]


def test_injuries_without_exposure(load):
    """Hurt and then listed as out, or not listed at all; A took part."""
    store = load(
        club("""
            A  B  C
        G1  .! o! -!
    """)
    )
    assert doubts(store, "injuries-without-exposure") == [
        ("B-G1!", "B", "chest, midline in session G1: recorded as out"),
        ("C-G1!", "C", "chest, midline in session G1: no row of attendance"),
    ]


def test_returns_not_recorded(load):
    """A is open and has played since; B has played in part only; C is back."""
    store = load(
        club("""
             A  B  C
        G1   .* .* .?
        G2   o  l  .
        G5@5 .  l  .
        G6   .  l  .
    """)
    )
    summary = "chest, midline: no return, but in full in 2 sessions since, first on 2026-09-05"
    assert doubts(store, "returns-not-recorded") == [("A-G1*", "A", summary)]
    assert doubts(store, "returns-not-recorded", until=day(5)) == []


def test_played_before_return(load):
    """Back on day 11, and in full again; before that is known, the injury is open instead."""
    store = load(
        club("""
            A
        G1  .!
        G4@4 .
        G11@11 .
    """)
    )
    summary = "chest, midline: returned on 2026-09-11, but in full in 1 sessions before, first on "
    assert doubts(store, "played-before-return") == [("A-G1!", "A", summary + "2026-09-04")]
    assert doubts(store, "played-before-return", until=day(11)) == []
    assert len(doubts(store, "returns-not-recorded", until=day(11))) == 1


def test_sites_without_kind(load):
    """Also when it happened in a session; a knee is covered by a kind that a store starts with."""
    season = club(
        """
            A
        G1  .
        """,
        injuries=[
            injury("I1", "A", day(1), area="neck", session="G1"),
            injury("I2", "A", day(1), area="knee", side="left"),
        ],
    )
    store = load(season)
    assert doubts(store, "sites-without-kind") == [
        ("I1", "A", "neck, midline: no guard kind covers it")
    ]
    assert doubts(store, "sites-without-kind", kinds=["chest"]) == []


def test_injuries_side_unknown(load):
    """Of a shin it can be completed; the chest is on the midline, and “multiple” has no side."""
    areas = (("I1", "lower leg", None), ("I2", "knee", "left"), ("I3", "multiple", None))
    season = club(
        "A", injuries=[injury(key, "A", day(3), area=area, side=side) for key, area, side in areas]
    )
    assert doubts(load(season), "injuries-side-unknown") == [
        ("I1", "A", "lower leg: side not known")
    ]


def test_injuries_twice_where_a_side_is_not_known(load):
    """The one without a side may be the other; it is not told as another."""
    knees = (("I1", 1, "left"), ("I2", 2, None), ("I3", 9, None))
    season = club(
        "A", injuries=[injury(key, "A", day(on), area="knee", side=s) for key, on, s in knees]
    )
    summary = "knee: injury I1 to the site is at most three days older"
    assert doubts(load(season), "injuries-twice") == [("I2", "A", summary)]


def test_injuries_twice(load):
    """Up to three days later to the same shin, once as both; not the other shin, not a fourth."""
    shin = {"area": "lower leg", "returned_on": None}
    days = (("I1", 1, "left"), ("I2", 2, "right"), ("I3", 4, "both"), ("I4", 8, "left"))
    season = club(
        "A", injuries=[injury(key, "A", day(on), **shin, side=side) for key, on, side in days]
    )
    summary = "lower leg, both: injury I1, I2 to the site is at most three days older"
    assert doubts(load(season), "injuries-twice") == [("I3", "A", summary)]


def test_time_zone_not_set_and_allotment_missing(load):
    season = club("A")
    season.departments = [
        build.department("D", plan="weekly allotment"),
        build.department("E", time_zone="America/Chicago", plan="weekly allotment"),
    ]
    store = load(season)
    zone = "time zone UTC, which is no place"
    assert doubts(store, "time-zone-not-set") == [("D", None, zone)]
    summary = "weekly allotment, but no prints a week"
    assert doubts(store, "allotment-missing") == [("D", None, summary)]
