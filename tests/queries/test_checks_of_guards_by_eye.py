"""The data checks of wear, guards, stages and offers: given these rows, expect that."""

from datetime import UTC, date, datetime, timedelta

import pytest

from seasonboard.answers.checks.all_checks import ALL_CHECKS
from tests.queries.build import day, department, drawn, guard, offer, stamp
from tests.queries.doubtful_seasons import case, doubts, wide

MAKING = (
    "requested", "scanned", "modelled", "printed", "finished", "shipped", "delivered", "fitted",
)  # fmt: skip
CHEST = "chest, midline"
UNSTAGED = f"{CHEST}: no stage, but first worn on 2026-09-0"


def made(key, on=1, *, without=()):
    """Return every stage of a guard, reached in one day, an hour apart."""
    return [
        stamp(key, stage, on, hour) for hour, stage in enumerate(MAKING) if stage not in without
    ]


def having(grid, stages=(), guards=(), owners="", **tables):
    """Return a grid's season with these rows, and a chest guard made on day 1 for each owner."""
    season = drawn(grid)
    season.guards += [*(guard(f"g-{who}", who) for who in owners), *guards]
    season.stages = [*(row for who in owners for row in made(f"g-{who}")), *stages]
    vars(season).update(tables)
    return season


def both_sides():
    """A guard and a vest over one chest; a left and a right one are no two at one site."""
    shins = [guard(f"s-{side}", "A", kind="shin", side=side) for side in ("left", "right")]
    season = having("A\nG1 gx", guards=shins)
    season.wear += [{"session": "G1", "guard": f"s-{side}"} for side in ("left", "right")]
    return season


def printed(plan):
    """A printer in the house needs neither shipping nor delivery; an allotment does."""
    lacking = {
        "one": ("shipped", "delivered", "fitted"), "two": ("scanned", "shipped"),
        "three": ("shipped", "delivered"),
    }  # fmt: skip
    stages = [row for key, without in lacking.items() for row in made(key, without=without)]
    return having(
        "A", stages, [guard(key, "A") for key in lacking], departments=[department("D", plan=plan)]
    )


def in_place_of_another():
    shin = {"kind": "shin"}
    guards = [
        guard("old", "A", side="left", **shin),
        guard("fits", "A", side="both", **shin, remake_of="old"),
        guard("other side", "A", side="right", **shin, remake_of="old"),
        guard("other kind", "A", remake_of="old"),
        guard("other one", "B", side="left", **shin, remake_of="old"),
    ]
    return having("A B", guards=guards)


def asked_for_before_fitting():
    """The first came to be fitted on day 5; asked for on that day the second may replace it."""
    second = [guard(name, "A", remake_of="old") for name in ("early", "in time")]
    stamps = [("old", "requested", 1), ("old", "fitted", 5), ("early", "requested", 4)]
    stamps.append(("in time", "requested", 5))
    return having("A", [stamp(*one) for one in stamps], guards=[guard("old", "A"), *second])


def asked_for_again():
    """Three days apart; a remake, a cancelled first or one of more than a week later is none."""
    season = having("A B C E", [stamp("C1", "cancelled", 2)])
    for who, cells in (("A", {}), ("B", {"remake_of": "B1"}), ("C", {}), ("E", {})):
        season.guards += [guard(f"{who}1", who), guard(f"{who}2", who, **cells)]
        second = stamp(f"{who}2", "requested", 4 if who != "E" else 8, hour=10)
        season.stages += [stamp(f"{who}1", "requested", 1), second]
    return season


OFFERED = having(
    "A B C E",
    [stamp("g-B", "retired", 3)],
    owners="AB",
    offers=[
        offer("OA", "A", day(5), "accepted"),
        offer("OB", "B", day(5), "accepted"),
        offer("OC", "C", day(5), "declined"),
        offer("OE", "E", day(5), "accepted", kind="shin"),
    ],
)
"""A has the guard; B's was retired before; C declined; E's offer is of another kind."""
RETIRED = having("A\nG1 g\nG2 g", [stamp("g-A", "delivered", -3), stamp("g-A", "retired", 2)])
"""Retired before the game of day 2; until then nothing is known of it."""
MISTYPED = having("A\nG9@9 .", [stamp("g-A", "retired", date(2096, 9, 3))], owners="A")
"""Dated after it was loaded, and after the last session: a year mistyped."""
NEVER_STAGED = having("A B C\nG1 g . .\nG2 . g .", guards=[guard("g-C", "C")])
"""Worn without any, and never even worn; worn only later it is not known yet."""


CASES = (
    # three who have a guard took part and none was worn; where one was worn, that is an answer
    case(
        "wear-not-recorded",
        having("A B C\nG3@3 . . .\nG4 . . g\nG5 . o .", made("g-C"), owners="AB"),
        ("G3", None, "game: no guard worn, but 3 took part who had one"),
    ),
    # C's comes on the day after; then it is retired
    case(
        "wear-not-recorded",
        having(
            "A B C\nG3@3 . . .\nG8@8 . . .",
            [*made("g-C", 4), stamp("g-C", "retired", 7)],
            [guard("g-C", "C")],
            owners="AB",
        ),
    ),
    # worn in 2 of 5 games in which A had a guard; a practice does not count
    case(
        "wear-of-few-games",
        having("A\nG3@3 g\nG4 .\nG5 .\nG6 .\nG7 g\nP8 .", made("g-A")),
        ("T", None, "2026: worn in 2 of 5 games in which somebody had a guard"),
    ),
    # A's came in the evening of day 1 where it is; B's only was asked for; C's is not staged
    case(
        "worn-before-delivered",
        having(
            "A B C\nG1 g g g\nG3 g . .",
            [stamp("g-A", "delivered", 2, hour=3), stamp("g-B", "requested", 1)],
            departments=[department("D", time_zone="America/Denver")],
        ),
        ("g-A", "A", "worn in session G1, but here only on 2026-09-01"),
        ("g-B", "B", "worn in session G1, and neither delivered nor fitted so far"),
    ),
    case(
        "worn-while-out",
        drawn("A B C\nG1 go g- g"),
        ("g-A", "A", "worn in session G1, whose attendance says out"),
    ),
    case(
        "worn-and-not",
        having(
            "A B C\nG1 g g g",
            wear=[
                {"session": "G1", "guard": f"g-{who}", "worn": worn, "kept_on": kept_on}
                for who, worn, kept_on in (
                    ("A", "no", "part"),
                    ("B", "no", None),
                    ("C", "yes", "all"),
                )
            ],
        ),
        ("g-A", "A", "not worn in session G1, but kept on for part of it"),
    ),
    case(
        "worn-without-attendance",
        drawn("A B C\nG1 go g- g"),
        ("g-B", "B", "worn in session G1, without a row of attendance"),
    ),
    case(
        "worn-after-the-end",
        RETIRED,
        ("g-A", "A", "worn in session G2, but retired or cancelled on 2026-09-02"),
    ),
    case("worn-after-the-end", RETIRED, until=day(2)),
    case("two-guards-at-once", both_sides(), ("g-A", "A", f"{CHEST} in session G1: g-A, x-A")),
    case(
        "stages-out-of-order",
        having(
            "A",
            [stamp("late", "printed", 3), stamp("late", "fitted", 2)],
            [guard("late", "A")],
            owners="A",
        ),
        ("late", "A", "fitted on 2026-09-02: before a stage that usually comes first"),
    ),
    case("stages-missing", printed("onsite printer"), ("two", "A", "not recorded: scanned")),
    case(
        "stages-missing",
        printed("weekly allotment"),
        ("three", "A", "not recorded: shipped, delivered"),
        ("two", "A", "not recorded: scanned, shipped"),
    ),
    case(
        "stages-ahead",
        MISTYPED,
        ("g-A", "A", "retired on 2096-09-03, but loaded before"),
        until=date(2097, 1, 1),
    ),
    case("stages-ahead", MISTYPED),
    case(
        "orders-without-stage",
        NEVER_STAGED,
        ("g-B", "B", UNSTAGED + "2"),
        ("g-A", "A", UNSTAGED + "1"),
        ("g-C", "C", f"{CHEST}: no stage, and never worn"),
    ),
    case(
        "orders-without-stage",
        NEVER_STAGED,
        ("g-A", "A", UNSTAGED + "1"),
        ("g-C", "C", f"{CHEST}: no stage, and never worn"),
        until=day(2),
    ),
    case(
        "offers-without-order",
        OFFERED,
        ("OB", "B", "chest: accepted, but no guard of that kind"),
        ("OE", "E", "shin: accepted, but no guard of that kind"),
    ),
    case("offers-without-order", OFFERED, until=day(5)),
    case(
        "remake-of-another",
        in_place_of_another(),
        ("other kind", "A", "in place of old, which is of the kind shin"),
        ("other one", "B", "in place of old, which is another athlete's"),
        ("other side", "A", "in place of old, which is left where this is right"),
    ),
    case(
        "remake-before-fitting",
        asked_for_before_fitting(),
        ("early", "A", f"in place of old, which was fitted only on {day(5)}"),
    ),
    case(
        "order-twice", asked_for_again(), ("A2", "A", f"{CHEST}: asked for within seven days of A1")
    ),
    case(
        "dimensions-implausible",
        having(
            "A",
            guards=[
                guard(
                    "good", "A", shell_mm=2.5, liner_mm=4, contact_pct=90, mass_g=120, print_hours=6
                ),
                guard("odd", "A", shell_mm=12, contact_pct=9, mass_g=1500),
            ],
        ),
        ("odd", "A", "shell 12 mm, contact 9 %, mass 1500 g"),
    ),
)


@pytest.mark.parametrize(("check", "season", "expected", "parts"), CASES)
def test_a_check_finds_what_is_doubtful_and_no_more(load, check, season, expected, parts):
    assert doubts(load(season), check, **parts) == expected


def test_stages_before_the_last_session_are_not_ahead_however_early_they_were_loaded(load):
    """An invented season may lie in the future as a whole."""
    ahead = datetime.now(UTC).date() + timedelta(days=400)
    asked = stamp("g-A", "requested", ahead - timedelta(days=2))
    season = having("A\nG1 .", [asked], [guard("g-A", "A")])
    season.session("G1")["starts_at"] = datetime.combine(ahead, datetime.min.time())
    assert doubts(load(season), "stages-ahead", until=ahead + timedelta(days=9)) == []


def test_the_rows_of_every_check_have_one_shape(load):
    """So that one table can show any of them, and a script read them all alike."""
    store = load(drawn("A"))
    shapes = [store.read(check.query, **wide()).schema for check in ALL_CHECKS.values()]
    assert all(shape == shapes[0] for shape in shapes)
