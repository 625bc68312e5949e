"""Open orders: chances from like orders, lateness, what is pressing; and seasons at the edge."""

from datetime import UTC, datetime, timedelta

import polars as pl
import pytest
from pytest import approx

from seasonboard.answers.orders.comparable import (
    ENOUGH,
    LateAfter,
    is_late,
    late_after,
    next_game_chances,
)
from seasonboard.answers.orders.open_orders import NO_GAME, NO_REQUEST, Attention
from seasonboard.answers.orders.report import REPORT
from seasonboard.answers.questions import ORDERS
from tests.queries.build import at, drawn, order, with_orders

QUESTION = ORDERS
BEGIN = datetime(2026, 3, 2, 9, tzinfo=UTC)


def like_rows(*rows):
    """Return rows of `orders/comparable`: (department, plan, kind, scan method, hours, ending)."""
    return pl.DataFrame(
        [
            {
                "department": department, "plan": plan, "time_zone": "UTC", "kind": kind,
                "scan_method": method, "from_at": BEGIN, "to_at": BEGIN + timedelta(hours=hours),
                "ending": ending,
            }
            for department, plan, kind, method, hours, ending in rows
        ],
        schema_overrides={"scan_method": pl.String},
    )  # fmt: skip


def waiting(age, by, department="D", plan="p", kind="shin", method="phone"):
    return pl.DataFrame(
        {
            "guard": ["X"], "department": [department], "plan": [plan], "kind": [kind],
            "scan_method": [method], "age_hours": [float(age)], "by_hours": [float(by)],
        },
        schema_overrides={"scan_method": pl.String},
    )  # fmt: skip


def many(number, *cells):
    return [cells] * number


NEAR = many(19, "D", "p", "shin", "phone", 100, "finished")
KIND = many(1, "D", "p", "shin", "scanner", 200, "finished")
HOME = many(20, "D", "p", "knee", "phone", 300, "finished")
PLAN = many(20, "E", "p", "knee", "phone", 400, "finished")
REST = many(5, "F", "q", "knee", "phone", 500, "finished")
EVERY = like_rows(*NEAR, *KIND, *HOME, *PLAN, *REST)


@pytest.mark.parametrize(
    ("age", "by", "likeness", "like", "share"),
    [
        (50, 150, "same department and kind", 20, 19 / 20),
        (100, 300, "same department", 21, 1),
        (200, 400, "same department", 20, 1),
        (300, 450, "same plan", 20, 1),
        (400, 450, "all orders", 5, 0),
        (500, 600, "all orders", 0, None),
    ],
)
def test_likeness_is_widened_until_20_orders_had_waited_longer(age, by, likeness, like, share):
    found = next_game_chances(waiting(age, by), EVERY, level=0.95)["X"]
    assert (found.likeness, found.chance.orders) == (likeness, like)
    assert found.chance.value == (None if share is None else approx(share))
    if share is None:
        assert found.chance.why == "none of the comparable orders has waited so long"


def test_a_scan_method_that_is_not_recorded_is_like_one_that_is_not():
    rows = like_rows(*many(ENOUGH, "D", "p", "shin", None, 9, "finished"), *NEAR)
    found = next_game_chances(waiting(1, 10, method=None), rows, level=0.95)["X"]
    assert found.likeness == "same department, kind and scan method"
    assert (found.chance.orders, found.chance.value) == (ENOUGH, 1)


def test_late_is_longer_than_four_in_five_of_the_department_take():
    """Twenty orders of 1 to 20 days, none open: four in five took 16.5 days or less."""
    own = [("D", "p", "shin", None, 24 * n, "finished") for n in range(1, 21)]
    few = [("E", "p", "shin", None, 24 * n, "finished") for n in range(21, 24)]
    rules = late_after(like_rows(*own, *few), ["D", "E", "nobody"])
    assert rules["D"] == LateAfter("D", 16.5, 20, "same department")
    assert rules["E"].likeness == "same plan"
    assert (rules["E"].orders, rules["nobody"].likeness) == (23, "all orders")
    assert is_late(17, rules["D"])
    assert not is_late(16, rules["D"])
    none = late_after(like_rows(*few), ["E"])["E"]
    assert (none.days, none.why) == (None, "fewer than 20 orders to tell it from")
    assert not is_late(1000, none)


def test_lateness_counts_open_orders_too():
    """With 6 of 20 open it is not known within which time four in five are fitted."""
    rows = like_rows(
        *many(14, "D", "p", "shin", None, 24, "finished"),
        *many(6, "D", "p", "shin", None, 48, "open"),
    )
    rule = late_after(rows, ["D"])["D"]
    assert rule.days is None
    assert rule.why == "not reached: 30 % were still waiting at the last"


GRID = """
         A B C E F
G1       . . . . .
G2@20    . . . . .
G3@24    - - - - -
"""


def busy_season():
    """Return 20 fitted orders of 1 to 20 days, one late, one early, one worn, one unlikely."""
    season = drawn(GRID)
    made = [
        order(f"done{n:02}", "F", {"requested": at(-20), "fitted": at(n - 20)})
        for n in range(1, 21)
    ]
    made += [
        order("late", "A", {"requested": at(1), "scanned": at(3), "printed": at(9)}),
        order("early", "B", {"requested": at(6)}),
        order("new", "C", {"requested": at(19)}),
        order("worn", "E", {"requested": at(10), "delivered": at(18)}),
    ]
    season.wear.append({"session": "G2", "guard": "worn"})
    return with_orders(season, *made)


def test_what_is_pressing_stands_first(ask):
    """Late, then unlikely, then worn already, then what is on its way."""
    answer = ask(busy_season(), through="2026-09-20")
    assert [(o.guard, o.attention) for o in answer.orders] == [
        ("late", Attention.LATE), ("new", Attention.UNLIKELY), ("worn", Attention.WORN),
        ("early", Attention.ON_ITS_WAY),
    ]  # fmt: skip
    assert (answer.known, answer.fitted) == (24, 20)
    assert [o.guard for o in answer.late] == ["late"]
    (rule,) = answer.late_after
    assert rule.days == 18, "lifelines KaplanMeierFitter: 0.216 after 17 days, 0.162 after 18"
    assert "4 orders on the way, 1 of them late (the oldest, late, is 19 days old)." in (
        answer.summary.answer
    )


def test_an_order_tells_its_stages_and_its_wait(ask):
    late = ask(busy_season(), through="2026-09-20").orders[0]
    assert [(s.stage, s.reached_at) for s in late.stages] == [
        ("requested", at(1)),
        ("scanned", at(3)),
        ("printed", at(9)),
    ]
    assert (late.stage, late.stage_days, late.age_days) == ("printed", 11, 19)
    assert late.age_working_days == 13
    assert late.age_hours == 19 * 24 + 15
    assert (late.next_game.session, late.next_game.days_ahead) == ("G3", 4)
    assert (late.exposures, late.bare) == (2, 2)


def test_a_chance_by_hand(ask):
    """One order took longer than 19 days and 15 hours: 20 days, which is before the game."""
    late, *_, early = ask(busy_season(), through="2026-09-20").orders
    assert late.likeness == "all orders"
    assert (late.chance.orders, late.chance.value) == (1, 1)
    assert late.chance.low == approx(0.025)
    # 14 days 15 hours old, the game 18 days 3 hours after its request: of 15 to 20 days and one
    # that is open after 19 days, 15, 16, 17 and 18 days are fitted by then.
    assert (early.chance.orders, early.chance.value) == (7, approx(4 / 7))


def test_without_a_game_ahead_there_is_no_chance_and_why(ask):
    answer = ask(busy_season(), through="2026-10-20")
    assert all(o.next_game is None and o.chance is None for o in answer.orders)
    assert {o.why for o in answer.orders} == {NO_GAME}
    told = REPORT.as_object(answer, "orders")["orders"][0]
    assert (told["next_game"], told["chance_by_next_game"], told["why"]) == (None, None, NO_GAME)
    assert "No chance can be told" in answer.summary.answer


def test_an_order_without_a_request_ages_from_its_first_stage(ask):
    season = with_orders(drawn(GRID), order("X", "A", {"scanned": at(5)}))
    (one,) = ask(season, through="2026-09-10").orders
    assert (one.age_days, one.chance, one.why) == (5, None, NO_REQUEST)


def test_an_order_older_than_all_others_has_no_chance_and_why(ask):
    season = with_orders(drawn(GRID), order("X", "A", {"requested": at(5)}))
    (one,) = ask(season, through="2026-09-10").orders
    assert (one.chance.value, one.why) == (None, "none of the comparable orders has waited so long")
    assert not one.is_late
    assert "rests on little" in " ".join(ask(season).summary.caveats)


@pytest.mark.parametrize(
    ("stages", "summary"),
    [
        ({"requested": at(1), "fitted": at(2)}, "Nothing is on its way: the only order is fitted"),
        ({"requested": at(1), "cancelled": at(2)}, "Nothing is on its way"),
        ({}, "No orders to look at: no stage of a guard is recorded here by that day."),
    ],
)
def test_nothing_open_is_said_in_words(ask, stages, summary):
    answer = ask(with_orders(drawn(GRID), order("X", "A", stages)))
    assert answer.orders == ()
    assert summary in answer.summary.answer
    assert [(left.what, left.count) for left in answer.summary.left_out] == (
        [] if stages else [("guards", 1)]
    )


def test_names_are_shown_letter_for_letter(ask):
    season = busy_season()
    season.roster[0]["name"] = "[/x] Lee\u202e"
    answer = ask(season, through="2026-09-20")
    text = REPORT.as_text(answer)
    assert "[/x] Lee" in text
    assert "\u202e" not in text
