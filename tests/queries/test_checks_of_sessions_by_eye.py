"""The data checks of rosters, sessions, attendance and injuries: given these rows, expect that."""

from datetime import timedelta

import pytest

from tests.queries.build import day, department, drawn, injury
from tests.queries.doubtful_seasons import case, doubts

FIVE = "A B\nG1 . -\nG2 . .\nG3 . .\nG4 - .\nG5 . "
NEARLY = "nearly the name of"
SAME_SITE = "to the site is at most three days older"
RETURNS = "A  B  C\nG1 .* .* .?\nG2 o l .\nG5@5 . l .\nG6 . l ."
EARLY = "A\nG1 .!\nG4@4 .\nG11@11 ."


def named(*names):
    """Return a roster of A, B and so on with these names."""
    heads = "ABCDE"[: len(names)]
    return drawn(
        " ".join(heads), roster={h: {"name": n} for h, n in zip(heads, names, strict=True)}
    )


def hurt(grid, *cells, **more):
    """Return a season with an injury I1, I2 … of A on a day, to an area and a side, a row each."""
    rows = [
        injury(f"I{number}", "A", day(on), area=area, side=side, **more)
        for number, (on, area, side) in enumerate(cells, 1)
    ]
    return drawn(grid, injuries=rows)


def minutes():
    season = drawn("A B C D E\nG1 . . o . .")
    for row, told in zip(season.attendance, [(60, 12), (0, None), (20, None)], strict=False):
        row["minutes"], row["plays"] = told
    season.attendance[3]["plays"] = 400
    return season


def three_on_a_day():
    season = drawn("A\nG1@1 .\nG2@1 .\nG3@1 .")
    season.session("G2")["starts_at"] += timedelta(minutes=20)
    season.session("G3")["starts_at"] += timedelta(minutes=80)
    return season


def departments():
    season = drawn("A")
    season.departments = [
        department("D", plan="weekly allotment"),
        department("E", time_zone="America/Chicago", plan="weekly allotment"),
    ]
    return season


WITHOUT_SESSION = drawn(
    "A B C\nG1 . o .",
    injuries=[injury(f"I{key}", key, day(on)) for key, on in (("A", 1), ("B", 1), ("C", 3))],
)
ELSEWHERE = hurt("A\nG1 .", (1, "neck", "midline"), (1, "knee", "left"))
ELSEWHERE.injuries[0]["session"] = "G1"
"""In a session too; a knee is covered by a kind that a store starts with."""


CASES = (
    # B has no row in G2; C left before it; nobody has one in G3, which is another check
    case(
        "attendance-not-recorded",
        drawn("A B C\nG1 . . .\nG2 . - -\nG3 - - -", roster={"C": {"left_on": day(1)}}),
        ("G2", "B", "game: on the roster that day, but no row"),
    ),
    # on the last day known it may still be to come
    case(
        "sessions-without-attendance",
        drawn("A\nG1 .\nP2 -\nG3 -"),
        ("P2", None, "practice: nobody is recorded"),
        until=day(4),
    ),
    # five sessions, nobody out, somebody missing; one athlete recorded as out would tell
    case(
        "only-who-took-part",
        drawn(FIVE + "."),
        ("T", None, "2026: nobody is out in 5 sessions, and 2 rows are missing beside 8 recorded"),
    ),
    case("only-who-took-part", drawn(FIVE + "o")),
    # B joined on day 2; C is on the roster of another season only
    case(
        "not-on-the-roster",
        drawn(
            "A B C\nG1 . . .\nG2 . . o",
            roster={"B": {"joined_on": day(2)}, "C": {"season": "2025"}},
        ),
        ("G1", "B", "full, but joined only on 2026-09-02"),
        ("G1", "C", "full, but not on the roster of T in 2026"),
    ),
    # the second 20 minutes after the first; the third an hour after that is another game
    case(
        "session-twice", three_on_a_day(), ("G2", None, "game starts 20 minutes after session G1")
    ),
    case(
        "teams-without-games",
        drawn("A\nP1 .\nP2 .\nG3 -"),
        ("T", None, "2026: 2 practices recorded, and no game"),
    ),
    case(
        "minutes-implausible",
        minutes(),
        ("G1", "B", "full, 0 minutes"),
        ("G1", "C", "out, 20 minutes"),
        ("G1", "D", "full, 400 plays"),
    ),
    # B has none, and took part; C has none, and was out
    case(
        "position-group-missing",
        drawn("A B C\nG1 . . o", roster={"A": {"position_group": "back"}}),
        ("B", "B", "2026: no position group"),
    ),
    # the words turned round, and one letter; names in other letters are compared as well
    case(
        "athletes-twice",
        named("Zofia Kasprzyk", "KASPRZYK, Zofia", "Zofia Kasprzik", "山田太郎", "山田花子"),
        ("B", "B", f"{NEARLY} A, Zofia Kasprzyk"),
        ("C", "C", f"{NEARLY} A, Zofia Kasprzyk"),
        ("C", "C", f"{NEARLY} B, KASPRZYK, Zofia"),
    ),
    # known by figures or initials
    case("athletes-twice", named("Athlete 01", "Athlete 02", "Maria J", "Maria K")),
    # A took part on day 1, B was out, C was hurt on a day without a session
    case(
        "injuries-without-session",
        WITHOUT_SESSION,
        *[
            (
                f"I{who}",
                who,
                "chest, midline: no session, and the athlete took part in none that day",
            )
            for who in "CB"
        ],
    ),
    case(
        "injuries-session-suggested",
        WITHOUT_SESSION,
        ("IA", "A", "chest, midline: no session, but took part that day in G1"),
    ),
    case(
        "injuries-on-another-day",
        hurt("A\nG1 .", (2, "chest", "midline"), session="G1"),
        ("I1", "A", "chest, midline: but session G1 was on 2026-09-01"),
    ),
    # hurt and then listed as out, or not listed at all; A took part
    case(
        "injuries-without-exposure",
        drawn("A B C\nG1 .! o! -!"),
        ("B-G1!", "B", "chest, midline in session G1: recorded as out"),
        ("C-G1!", "C", "chest, midline in session G1: no row of attendance"),
    ),
    # A is open and has played since; B has played in part only; C is back
    case(
        "returns-not-recorded",
        drawn(RETURNS),
        (
            "A-G1*",
            "A",
            "chest, midline: no return, but in full in 2 sessions since, first on 2026-09-05",
        ),
    ),
    case("returns-not-recorded", drawn(RETURNS), until=day(5)),
    # back on day 11, and in full again; before that is known, the injury is open instead
    case(
        "played-before-return",
        drawn(EARLY),
        (
            "A-G1!",
            "A",
            "chest, midline: returned on 2026-09-11, but in full in 1 sessions before, "
            "first on 2026-09-04",
        ),
    ),
    case("played-before-return", drawn(EARLY), until=day(11)),
    case(
        "returns-not-recorded",
        drawn(EARLY),
        (
            "A-G1!",
            "A",
            "chest, midline: no return, but in full in 1 sessions since, first on 2026-09-04",
        ),
        until=day(11),
    ),
    case("sites-without-kind", ELSEWHERE, ("I1", "A", "neck, midline: no guard kind covers it")),
    case("sites-without-kind", ELSEWHERE, kinds=["chest"]),
    # of a shin it can be completed; the chest is on the midline, and “multiple” has no side
    case(
        "injuries-side-unknown",
        hurt("A", (3, "lower leg", None), (3, "knee", "left"), (3, "multiple", None)),
        ("I1", "A", "lower leg: side not known"),
    ),
    # the one without a side may be the other; it is not told as another
    case(
        "injuries-twice",
        hurt("A", (1, "knee", "left"), (2, "knee", None), (9, "knee", None)),
        ("I2", "A", f"knee: injury I1 {SAME_SITE}"),
    ),
    # up to three days later to the same shin, once as both; not the other shin, not a fourth
    case(
        "injuries-twice",
        hurt(
            "A",
            *(
                (n, "lower leg", s)
                for n, s in ((1, "left"), (2, "right"), (4, "both"), (8, "left"))
            ),
        ),
        ("I3", "A", f"lower leg, both: injury I1, I2 {SAME_SITE}"),
    ),
    case("time-zone-not-set", departments(), ("D", None, "time zone UTC, which is no place")),
    case("allotment-missing", departments(), ("D", None, "weekly allotment, but no prints a week")),
)


@pytest.mark.parametrize(("check", "season", "expected", "parts"), CASES)
def test_a_check_finds_what_is_doubtful_and_no_more(load, check, season, expected, parts):
    assert doubts(load(season), check, **parts) == expected
