"""The data checks of wear, guards, stages and offers: given these rows, expect that."""

from datetime import UTC, date, datetime, timedelta

from seasonboard.answers.checks.all_checks import ALL_CHECKS
from tests.queries import build
from tests.queries.build import day, guard
from tests.queries.doubtful_seasons import doubts, stamp, wide
from tests.queries.roster_seasons import club

MAKING = (
    "requested", "scanned", "modelled", "printed", "finished", "shipped", "delivered", "fitted",
)  # fmt: skip


def made(season, key, on=1, *, leaving_out=()):
    """Let a guard reach every stage in one day, an hour apart."""
    season.stages += [
        stamp(key, stage, day(on), hour)
        for hour, stage in enumerate(MAKING)
        if stage not in leaving_out
    ]


def with_guards(season, athletes, on=1):
    """Give each athlete a chest guard, made in one day."""
    for athlete in athletes:
        season.guards.append(guard(f"g-{athlete}", athlete))
        made(season, f"g-{athlete}", on)
    return season


def test_wear_not_recorded(load):
    """Three who have a guard took part and none was worn; where one was worn, that is an answer."""
    season = club("""
              A B C
        G3@3  . . .
        G4    . . g
        G5    . o .
    """)
    with_guards(season, "AB")
    made(season, "g-C")
    summary = "game: no guard worn, but 3 took part who had one"
    assert doubts(load(season), "wear-not-recorded") == [("G3", None, summary)]


def test_wear_not_recorded_counts_only_guards_that_are_there(load):
    """C's comes on the day after; then it is retired."""
    season = club("""
              A B C
        G3@3  . . .
        G8@8  . . .
    """)
    with_guards(season, "AB")
    with_guards(season, "C", on=4)
    season.stages.append(stamp("g-C", "retired", day(7)))
    assert doubts(load(season), "wear-not-recorded") == []


def test_wear_of_few_games(load):
    """Worn in 2 of 5 games in which A had a guard; a practice does not count."""
    season = club("""
              A
        G3@3  g
        G4    .
        G5    .
        G6    .
        G7    g
        P8    .
    """)
    made(season, "g-A")
    summary = "2026: worn in 2 of 5 games in which somebody had a guard"
    assert doubts(load(season), "wear-of-few-games") == [("T", None, summary)]


def test_worn_before_delivered(load):
    """A's came on day 2, in the evening of day 1 where it is; B's only was asked for; C's is not
    staged at all."""
    season = club("""
            A B C
        G1  g g g
        G3  g . .
    """)
    season.departments = [build.department("D", time_zone="America/Denver")]
    season.stages = [stamp("g-A", "delivered", day(2), hour=3), stamp("g-B", "requested", day(1))]
    store = load(season)
    assert doubts(store, "worn-before-delivered") == [
        ("g-A", "A", "worn in session G1, but here only on 2026-09-01"),
        ("g-B", "B", "worn in session G1, and neither delivered nor fitted so far"),
    ]


def test_worn_while_out_and_worn_without_attendance(load):
    season = club("""
            A   B   C
        G1  go  g-  g
    """)
    store = load(season)
    summary = "worn in session G1, whose attendance says out"
    assert doubts(store, "worn-while-out") == [("g-A", "A", summary)]
    summary = "worn in session G1, without a row of attendance"
    assert doubts(store, "worn-without-attendance") == [("g-B", "B", summary)]


def test_worn_after_the_end(load):
    """Retired before the game of day 2; until then nothing is known of it."""
    season = club("""
            A
        G1  g
        G2  g
    """)
    season.stages = [stamp("g-A", "delivered", day(-3)), stamp("g-A", "retired", day(2))]
    store = load(season)
    summary = "worn in session G2, but retired or cancelled on 2026-09-02"
    assert doubts(store, "worn-after-the-end") == [("g-A", "A", summary)]
    assert doubts(store, "worn-after-the-end", until=day(2)) == []


def test_two_guards_at_once(load):
    """A guard and a vest over one chest; a left and a right one are no two at one site."""
    season = club("""
            A
        G1  gx
    """)
    for side in ("left", "right"):
        season.guards.append(guard(f"s-{side}", "A", kind="shin", side=side))
        season.wear.append({"session": "G1", "guard": f"s-{side}"})
    summary = "chest, midline in session G1: g-A, x-A"
    assert doubts(load(season), "two-guards-at-once") == [("g-A", "A", summary)]


def test_stages_out_of_order(load):
    season = with_guards(club("A"), "A")
    season.guards.append(guard("late", "A"))
    season.stages += [stamp("late", "printed", day(3)), stamp("late", "fitted", day(2))]
    summary = "fitted on 2026-09-02: before a stage that usually comes first"
    assert doubts(load(season), "stages-out-of-order") == [("late", "A", summary)]


def test_stages_missing(load):
    """A printer in the house needs neither shipping nor delivery; an allotment does."""
    season = club("A")
    season.guards = [guard("one", "A"), guard("two", "A"), guard("three", "A")]
    made(season, "one", leaving_out=("shipped", "delivered", "fitted"))
    made(season, "two", leaving_out=("scanned", "shipped"))
    made(season, "three", leaving_out=("shipped", "delivered"))
    store = load(season)
    assert doubts(store, "stages-missing") == [("two", "A", "not recorded: scanned")]
    season.departments = [build.department("D", plan="weekly allotment")]
    assert doubts(load(season), "stages-missing") == [
        ("three", "A", "not recorded: shipped, delivered"),
        ("two", "A", "not recorded: scanned, shipped"),
    ]


def test_stages_ahead(load):
    """Dated after it was loaded, and after the last session: a year mistyped."""
    season = with_guards(club("A\nG9@9 ."), "A")
    season.stages.append(stamp("g-A", "retired", date(2096, 9, 3)))
    store = load(season)
    summary = "retired on 2096-09-03, but loaded before"
    assert doubts(store, "stages-ahead", until=date(2097, 1, 1)) == [("g-A", "A", summary)]
    assert doubts(store, "stages-ahead") == []


def test_stages_before_the_last_session_are_not_ahead_however_early_they_were_loaded(load):
    """An invented season may lie in the future as a whole."""
    ahead = datetime.now(UTC).date() + timedelta(days=400)
    season = with_guards(club("A\nG1 ."), "A")
    season.session("G1")["starts_at"] = datetime.combine(ahead, datetime.min.time())
    season.stages = [stamp("g-A", "requested", ahead - timedelta(days=2))]
    assert doubts(load(season), "stages-ahead", until=ahead + timedelta(days=9)) == []


def test_orders_without_stage(load):
    """Worn without any, and never even worn; worn only later it is not known yet."""
    season = club("""
            A B C
        G1  g . .
        G2  . g .
    """)
    season.guards.append(guard("g-C", "C"))
    store = load(season)
    never = ("g-C", "C", "chest, midline: no stage, and never worn")
    assert doubts(store, "orders-without-stage") == [
        ("g-B", "B", "chest, midline: no stage, but first worn on 2026-09-02"),
        ("g-A", "A", "chest, midline: no stage, but first worn on 2026-09-01"),
        never,
    ]
    first = ("g-A", "A", "chest, midline: no stage, but first worn on 2026-09-01")
    assert doubts(store, "orders-without-stage", until=day(2)) == [first, never]


def test_offers_without_order(load):
    """A has the guard; B's was retired before; C declined; E's offer is of another kind."""
    season = with_guards(club("A B C E"), "AB")
    season.stages.append(stamp("g-B", "retired", day(3)))
    answers = {"A": "accepted", "B": "accepted", "C": "declined", "E": "accepted"}
    season.offers = [
        {
            "offer": f"O{key}",
            "athlete": key,
            "kind": "chest" if key != "E" else "shin",
            "offered_on": day(5),
            "answer": answer,
        }
        for key, answer in answers.items()
    ]
    store = load(season)
    assert doubts(store, "offers-without-order") == [
        ("OB", "B", "chest: accepted, but no guard of that kind"),
        ("OE", "E", "shin: accepted, but no guard of that kind"),
    ]
    assert doubts(store, "offers-without-order", until=day(5)) == []


def test_remake_of_another(load):
    season = club("A B")
    shin = {"kind": "shin"}
    season.guards = [
        guard("old", "A", side="left", **shin),
        guard("fits", "A", side="both", **shin, remake_of="old"),
        guard("other side", "A", side="right", **shin, remake_of="old"),
        guard("other kind", "A", remake_of="old"),
        guard("other one", "B", side="left", **shin, remake_of="old"),
    ]
    assert doubts(load(season), "remake-of-another") == [
        ("other kind", "A", "in place of old, which is of the kind shin"),
        ("other one", "B", "in place of old, which is another athlete's"),
        ("other side", "A", "in place of old, which is left where this is right"),
    ]


def test_order_twice(load):
    """Three days apart; a remake, a cancelled first or one of more than a week later is none."""
    season = club("A B C E")
    for who, cells in (("A", {}), ("B", {"remake_of": "B1"}), ("C", {}), ("E", {})):
        season.guards += [guard(f"{who}1", who), guard(f"{who}2", who, **cells)]
        second = day(4) if who != "E" else day(8)
        season.stages += [
            stamp(f"{who}1", "requested", day(1)),
            stamp(f"{who}2", "requested", second, hour=10),
        ]
    season.stages.append(stamp("C1", "cancelled", day(2)))
    summary = "chest, midline: asked for within seven days of A1"
    assert doubts(load(season), "order-twice") == [("A2", "A", summary)]


def test_dimensions_implausible(load):
    season = club("A")
    season.guards = [
        guard("good", "A", shell_mm=2.5, liner_mm=4, contact_pct=90, mass_g=120, print_hours=6),
        guard("odd", "A", shell_mm=12, contact_pct=9, mass_g=1500),
    ]
    summary = "shell 12 mm, contact 9 %, mass 1500 g"
    assert doubts(load(season), "dimensions-implausible") == [("odd", "A", summary)]


def test_the_rows_of_every_check_have_one_shape(load):
    """So that one table can show any of them, and a script read them all alike."""
    store = load(club("A"))
    shapes = [store.read(check.query, **wide()).schema for check in ALL_CHECKS.values()]
    assert all(shape == shapes[0] for shape in shapes)
