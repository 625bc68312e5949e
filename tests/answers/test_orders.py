"""Open orders: chances from like orders, lateness, what is pressing; and seasons at the edge."""

from datetime import UTC, date, datetime, timedelta

import polars as pl
import pytest
from pytest import approx

from seasonboard.answers.orders.forecast import TOO_LITTLE
from seasonboard.answers.orders.lateness import LateAfter, is_late, late_after
from seasonboard.answers.orders.open_orders import NO_GAME, Attention
from seasonboard.answers.orders.report import REPORT
from seasonboard.answers.questions import ORDERS
from tests.queries.build import at, drawn, order, with_orders

QUESTION = ORDERS
BEGIN = datetime(2026, 3, 2, 9, tzinfo=UTC)
LAST = date(2026, 9, 20)


def history(*rows):
    """Return rows of `orders/histories`: (department, plan, days it took or is open, ending)."""
    return pl.DataFrame(
        [
            {
                "department": department, "plan": plan, "time_zone": "UTC", "from_at": BEGIN,
                "to_at": BEGIN + timedelta(days=days), "ending": ending,
            }
            for department, plan, days, ending in rows
        ]
    )  # fmt: skip


def fitted(department, plan, days):
    return [(department, plan, day, "finished") for day in days]


def still_open(department, plan, days):
    return [(department, plan, day, "open") for day in days]


def test_late_is_longer_than_four_in_five_of_the_department_take():
    """Twenty orders of 1 to 20 days, none open: four in five took 16.5 days or less."""
    rows = history(*fitted("D", "p", range(1, 21)), *fitted("E", "p", range(21, 24)))
    rules = late_after(rows, ["D", "E", "nobody"])
    assert rules["D"] == LateAfter("D", 16.5, 20, "same department")
    assert rules["E"].likeness == "same plan"
    assert (rules["E"].orders, rules["nobody"].likeness) == (23, "all orders")
    assert is_late(17, rules["D"], None, LAST)
    assert not is_late(16, rules["D"], None, LAST)
    none = late_after(history(*fitted("E", "p", range(21, 24))), ["E"])["E"]
    assert (none.days, none.why) == (None, "fewer than 20 fitted orders to tell it from")
    assert is_late(1000, none, None, LAST) is None


@pytest.mark.parametrize(
    ("others", "likeness", "days"),
    [
        (fitted("E", "p", [12] * 30), "same plan", 12),
        (fitted("E", "q", [14] * 30), "all orders", 14),
        ([], "same department: those fitted, as too many are still open", 9),
    ],
)
def test_a_department_whose_orders_have_stopped_moving_has_late_ones(others, likeness, days):
    """Twenty were fitted in 6 to 10 days, then eight are open since September."""
    stuck = still_open("D", "p", range(60, 68))
    own = [*fitted("D", "p", [6, 7, 8, 9, 10] * 4), *stuck]
    rule = late_after(history(*own, *others), ["D"])["D"]
    assert rule.likeness == likeness
    assert rule.days == approx(days, abs=0.5)
    assert all(is_late(day, rule, None, LAST) for _, _, day, _ in stuck)


@pytest.mark.parametrize(
    ("promised", "late"), [(LAST - timedelta(1), True), (LAST, True), (LAST + timedelta(1), False)]
)
def test_a_promised_day_counts_first_whatever_such_orders_take(promised, late):
    """At the end of the day it was promised for it is late; before that it is not, however old."""
    usual, unknown = LateAfter("D", 9.0, 40, "all orders"), LateAfter("D", None, 3, "all orders")
    for age_days in (1, 100):
        for rule in (usual, unknown):
            assert is_late(age_days, rule, promised, LAST) is late


def test_a_promise_and_a_stage_without_an_hour_are_told_with_the_order(ask):
    """The last day known is 20 September; of P a promise is over, of Q none of it is known."""
    season = drawn(GRID)
    made = [
        order("P", "A", {"requested": at(18)}, promised_on=LAST),
        order("Q", "B", {"requested": at(18)}),
    ]
    with_orders(season, *made)
    season.stages[-1]["timed"] = "no"
    answer = ask(season, through="2026-09-20")
    told = {one.guard: (one.is_late_told, one.is_late, one.age_hours) for one in answer.orders}
    assert told["P"] == (True, True, approx(63))
    assert told["Q"] == (False, False, None)
    assert "1 of them late (the oldest, P, is 2 days old; of 1 it cannot be told)" in (
        answer.summary.answer
    )


GRID = """
         A B C E F
G1       . . . . .
G2@20    . . . . .
G3@24    - - - - -
"""


def busy_season():
    """Return 40 orders fitted within 20 days, one late, one early, one worn, one unlikely."""
    season = drawn(GRID)
    made = [
        order(f"done{n:02}", "F", {
            "requested": at(-40), "scanned": at(-40 + n // 4), "printed": at(-38 + n // 3),
            "delivered": at(-36 + n // 3), "fitted": at(n // 2 - 34),
        })
        for n in range(1, 41)
    ]  # fmt: skip
    made += [
        order("late", "A", {"requested": at(-14), "scanned": at(3), "printed": at(9)}),
        order("early", "B", {"requested": at(6), "scanned": at(9), "delivered": at(18)}),
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
    assert (answer.known, answer.fitted) == (44, 40)
    assert [o.guard for o in answer.late] == ["late"]
    (rule,) = answer.late_after
    assert rule.days == 22, "lifelines KaplanMeierFitter: 0.250 after 21 days, 0.200 after 22"
    assert "4 orders on the way, 1 of them late (the oldest, late, is 34 days old)." in (
        answer.summary.answer
    )


def test_an_order_tells_its_stages_and_its_wait(ask):
    late = ask(busy_season(), through="2026-09-20").orders[0]
    assert [(s.stage, s.reached_at) for s in late.stages] == [
        ("requested", at(-14)),
        ("scanned", at(3)),
        ("printed", at(9)),
    ]
    assert (late.stage, late.stage_days, late.age_days) == ("printed", 11, 34)
    assert late.age_working_days == 24
    assert late.age_hours == 34 * 24 + 15
    assert (late.next_game.session, late.next_game.days_ahead) == ("G3", 4)
    assert (late.exposures, late.bare) == (2, 2)


def test_a_chance_follows_the_stage_and_its_days(ask):
    """Of forty alike, each delivered one was fitted within days; what is new has it all ahead."""
    by_guard = {o.guard: o for o in ask(busy_season(), through="2026-09-20").orders}
    early, new = by_guard["early"].chance, by_guard["new"].chance
    assert early.value > 0.6
    assert new.value < 0.2
    assert (early.likeness, early.orders) == ("same department and kind", 38)
    assert early.low < early.value <= early.high


def test_early_in_a_season_a_chance_is_not_told_as_unlikely(ask):
    """Nine were fitted: too few. No mark, no part in the sum, and the sentence says so."""
    season = drawn(GRID)
    made = [order(f"done{n}", "F", {"requested": at(0), "fitted": at(2)}) for n in range(9)]
    answer = ask(with_orders(season, *made, order("X", "A", {"requested": at(18)})))
    (one,) = answer.orders
    assert (one.chance.value, one.chance.is_least, one.why) == (None, False, TOO_LITTLE)
    assert one.attention is Attention.ON_ITS_WAY
    assert "Of none it can be told yet" in answer.summary.answer
    assert "which are late cannot be told yet (the oldest, X, is " in answer.summary.answer
    assert REPORT.as_object(answer, "orders")["late"] is None


def test_forecasts_of_the_past_are_graded_by_what_came(ask):
    """Every eighth day, for games played since; what was called off before is set aside."""
    season = busy_season()
    told = ask(with_orders(season), through="2026-10-20").graded
    assert told.all.forecasts + told.bounds > 0
    assert told.all.forecasts == sum(stage.grading.forecasts for stage in told.stages)


def test_without_a_game_ahead_there_is_no_chance_and_why(ask):
    answer = ask(busy_season(), through="2026-10-20")
    assert all(o.next_game is None and o.chance is None for o in answer.orders)
    assert {o.why for o in answer.orders} == {NO_GAME}
    told = REPORT.as_object(answer, "orders")["orders"][0]
    assert (told["next_game"], told["chance_by_next_game"], told["why"]) == (None, None, NO_GAME)
    assert "No chance can be told" in answer.summary.answer


def test_an_order_without_a_request_ages_from_its_first_stage_and_is_told_from_its_stage(ask):
    season = busy_season()
    (one,) = [
        o
        for o in ask(with_orders(season, order("X", "A", {"delivered": at(18)})),
                     through="2026-09-20").orders
        if o.guard == "X"
    ]  # fmt: skip
    assert (one.age_days, one.stage) == (2, "delivered")
    assert one.chance.value > 0.6


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
