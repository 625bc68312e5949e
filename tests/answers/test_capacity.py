"""Queues of prints, the order to agree on and the last time to ask, counted by eye.

Day 1 is 1 September 2026; the last day known is day 20, so a queue begins at day 21, 00:00 UTC.
"""

from datetime import UTC, datetime

import polars as pl
import pytest

from seasonboard.answers.capacity.agreement import agreed, decisions
from seasonboard.answers.capacity.parts import CapacityOptions, ReturnGuards
from seasonboard.answers.capacity.words import step_words
from seasonboard.answers.orders.forecast import forecaster
from seasonboard.answers.questions import CAPACITY, WEEK
from seasonboard.scope import read_scope
from tests.queries import build
from tests.queries.build import at, day, order, session, with_orders

QUESTION, SCOPE = CAPACITY, {"through": "2026-09-20"}
KINDS = [{"kind": "vest", "area": "chest"}]


def past(number, kind="chest", hours=6.0, **cells):
    """Twelve orders a kind: a day to the model, a day to the print, a day to the fitting."""
    stages = {"requested": at(1, number), "modelled": at(2, number), "printed": at(3, number)}
    stages |= {"fitted": at(4, number)}
    return order(f"{kind}{number}", "H", stages, kind=kind, print_hours=hours, **cells)


HISTORY = [past(n, kind, hours) for n in range(12) for kind, hours in (("chest", 6), ("vest", 12))]


def waiting(key, athlete, kind="chest", on=19, **cells):
    return order(key, athlete, {"requested": at(on, 1), "modelled": at(on, 2)}, kind=kind, **cells)


def season(*orders, history=HISTORY, games=(22, 24), printers=(), **department):
    """Athletes A to E and H of one department; games at noon of some days."""
    made = build.Season(kinds=KINDS, departments=[build.department("D", **department)])
    made.roster = [build.member(one) for one in "ABCDEH"]
    made.sessions = [session(f"G{n}", day(n)) for n in games]
    made.printers = [{"printer": name, "department": "D", "hours_per_week": hours}
                     for name, hours in printers]  # fmt: skip
    return with_orders(made, *history, *orders)


ONE = [("P", 168.0)]
THREE = [waiting("V1", "A", "vest", 17), waiting("C1", "B", on=18), waiting("C2", "C", on=19)]


def line_of(answer):
    (line,) = answer.lines
    return line


def test_an_order_with_fewer_missed_stands_beside_the_order_asked_for(ask):
    """36 hours to the game less 24 to the fitting: 12 hours hold the vest, or two for the chest."""
    answer = ask(season(*THREE, printers=ONE))
    line = line_of(answer)
    assert [one.guard for one in line.in_queue] == ["C1", "C2", "V1"]
    assert [one.asked_place for one in line.in_queue] == [2, 3, 1]
    assert (line.asked.missed, line.planned.missed, line.is_fewest) == (2, 1, True)
    assert [one.is_in_time for one in line.in_queue] == [True, True, False]
    over = [one.over_at.hour for one in line.in_queue]
    assert over == [6, 12, 0]
    assert {one.print_by for one in line.in_queue} == {datetime(2026, 9, 21, 12, tzinfo=UTC)}
    assert (
        "1 would miss their next game in the order below, 2 as asked for" in answer.summary.answer
    )


def test_return_guards_go_first_and_it_says_so(ask):
    hurt = waiting("V1", "A", "vest", 19, purpose="return")
    line = line_of(ask(season(*THREE[1:], hurt, printers=ONE)))
    assert (line.in_queue[0].guard, line.in_queue[0].rule) == ("V1", "return guard: first")
    assert line.planned.missed == 2


def test_whether_return_guards_go_first_can_be_changed_and_is_always_said(ask):
    hurt = waiting("V1", "A", "vest", 19, purpose="return")
    as_others = CapacityOptions(ReturnGuards.AS_OTHERS)
    answer = ask(season(*THREE[1:], hurt, printers=ONE), as_others)
    line = line_of(answer)
    assert [one.guard for one in line.in_queue] == ["C1", "C2", "V1"]
    assert line.planned.missed == 1
    assert any("return guards stand as others do" in one for one in answer.summary.caveats)
    ((_, text),) = decisions(answer)
    assert "return guards as others" in text


def turn(athlete, number, **cells):
    own = {"draw": "T01", "athlete": athlete, "kind": "chest", "side": "midline", "turn": number}
    own |= {"stratum": "T", "week": 1, "drawn_on": day(5), "starts_on": day(7), "seed": 1}
    own |= {"prints_per_week": 4, "ready_days": 3.0, "earlier_injury": "no", "board_number": "B1"}
    return own | cells


def test_drawn_turns_keep_their_order_and_it_says_what_that_costs(ask):
    """The vest of turn 1 leaves no time for the others: two miss their game; without it, one."""
    drawn = season(waiting("C1", "B"), waiting("V2", "C", "vest"), waiting("C3", "A"), printers=ONE)
    drawn.turns = [turn("C", 1, kind="vest"), turn("B", 2)]
    line = line_of(ask(drawn))
    assert [one.guard for one in line.in_queue] == ["V2", "C1", "C3"]
    assert [one.rule for one in line.in_queue] == ["turn 1 of T01", "turn 2 of T01", ""]
    assert (line.planned.missed, line.drawless.missed, line.draw_costs) == (2, 1, 1)
    drawn.turns[1] |= {"jumped_on": day(15), "jump_reason": "medical need"}
    first = line_of(ask(drawn)).in_queue[0]
    assert (first.guard, first.rule) == ("C1", "medical need: first")


def test_the_last_day_to_ask_is_the_last_with_a_chance_of_four_in_five(ask):
    """Every order took three days: what is asked for now is there on day 26, and not on day 22."""
    soon, later = ask(season(printers=ONE, games=(22, 28))).games
    assert (soon.ask_by, soon.is_over) == (None, True)
    assert soon.chance.value < 0.2
    assert day(22) <= later.ask_by <= day(25)
    assert later.chance.value > 0.9


def test_with_too_little_followed_no_last_day_is_told_and_it_is_not_called_too_late(ask):
    (game,) = ask(season(*THREE, history=HISTORY[:4], games=(24,))).games
    assert (game.ask_by, game.is_over) == (None, False)
    assert "too little followed" in game.why


def test_an_allotment_begins_a_print_every_so_often(ask):
    """Fourteen a week begin every 12 hours; they are over at 6, 18 and 30 hours: two miss."""
    plan = {"plan": "weekly allotment", "prints_per_week": 14}
    line = line_of(ask(season(*(waiting(k, a) for k, a in ("1A", "2B", "3C")), **plan)))
    assert [one.over_at.hour for one in line.in_queue] == [6, 18, 6]
    assert (line.planned.missed, line.prints_per_week) == (2, 14)


def test_two_printers_and_short_weeks_stretch_a_print(ask):
    """Half a week each: a print of 6 hours takes 12 of the clock, on two of them at a time."""
    line = line_of(ask(season(*THREE[1:], printers=[("P", 84.0), ("Q", 84.0)])))
    assert [one.over_at.hour for one in line.in_queue] == [12, 12]
    assert (line.printers, line.weekly_hours, line.is_fewest) == (2, 168, False)


WRONG_WAY = order("W", "H", {"requested": at(9), "fitted": at(8)})
TWICE = [waiting("C1", "A"), waiting("C2", "A")]
WORN = [waiting("C1", "A")]


@pytest.mark.parametrize(
    ("made", "said"),
    [
        (lambda: season(*THREE, history=[]), "no hours of a print are recorded"),
        (lambda: season(*THREE, history=[], plan="weekly allotment", prints_per_week=3),
            "fewer than 20 fitted orders"),
        (lambda: season(*THREE, plan="weekly allotment"), "no allotment is recorded"),
        (lambda: season(*THREE, plan="weekly allotment", prints_per_week=0),
            "no print is allowed, so none of them is ever printed"),
        (lambda: season(*THREE, plan=None), "no plan is recorded"),
        (lambda: season(*THREE), "no printer is listed or named: one"),
        (lambda: season(*THREE, games=()), "no game of theirs is recorded ahead"),
        (season, "No print waits in 1 department"),
        (lambda: season(*THREE, printers=[("P", 0.0)]), "no print is allowed"),
    ],
    ids=["no history", "no times", "no allotment", "0 prints", "no plan", "no printer", "no games",
         "no queue", "0 hours"],
)  # fmt: skip
def test_what_cannot_be_planned_is_said_in_words_and_never_as_none_missed(ask, made, said):
    answer = ask(made())
    assert said in answer.summary.answer
    for one in line_of(answer).in_queue:
        assert one.is_in_time is not None or one.why


@pytest.mark.parametrize(
    ("orders", "left_out"),
    [
        ([WRONG_WAY], ("stages lacking or out of order", 1)),
        (TWICE, ("asked twice for one athlete and site", 2)),
    ],
    ids=["wrong order", "twice"],
)
def test_doubtful_orders_are_counted(ask, orders, left_out):
    told = ask(season(*orders, printers=ONE)).summary.left_out
    assert [left_out[1]] == [one.count for one in told if left_out[0] in one.why]


def test_printers_nobody_named_and_printers_nobody_listed_are_told(ask):
    named = [past(n, printer="P") for n in range(12)]
    found = {
        one.printer: one for one in ask(season(history=named, printers=[("Q", None)])).printers
    }
    assert found["P"].note.startswith("named in orders, not in the list of printers")
    assert (found["P"].prints, found["P"].hours) == (12, 72)
    assert found["Q"].note == "hours not recorded: 168 a week assumed; named in no order"


def test_too_few_past_orders_simulate_nothing_and_say_so(ask):
    for change in ask(season(history=HISTORY[:8], printers=ONE)).changes:
        assert change.simulated is None
        assert "fewer than 20 past orders" in change.why


def test_another_printer_shortens_what_the_past_waited_for(ask):
    """24 orders in half a day on one printer of 6 and 12 hours a print: nothing but a queue."""
    more, phone = ask(season(printers=ONE)).changes
    assert more.simulated.days_change.high_95 < 0
    assert phone.why == "fewer than 20 past orders were scanned by phone"


def test_the_queue_is_whole_whatever_part_of_it_is_looked_at(ask):
    answer = ask(season(*THREE, printers=ONE), kind="vest")
    assert line_of(answer).queue == 3
    assert any("Queues are whole" in one for one in answer.summary.caveats)


def test_a_decision_names_guards_in_their_order_and_nobody(ask):
    ((department, text),) = decisions(ask(season(*THREE, printers=ONE)))
    assert department == "D"
    assert text == "Print in this order (queue of 20 Sep 2026): C1 chest, C2 chest, V1 vest."


def test_keys_of_decisions_count_on_and_no_print_is_no_decision(ask):
    two = season(*THREE, printers=ONE)
    two.departments.append(build.department("E", plan="onsite printer"))
    two.teams.append(build.team("U", department="E"))
    two.roster.append(build.member("Z", team="U"))
    with_orders(two, waiting("Z1", "Z"))
    rows = agreed(ask(two), first_key="D09", on=day(21)).tables["decisions"]
    assert [(row["decision"], row["department"]) for row in rows] == [("D09", "D"), ("D10", "E")]
    assert {row["decided_on"] for row in rows} == {"2026-09-21"}
    assert agreed(ask(season(printers=ONE)), first_key="D09", on=day(21)) is None


PRINTED = {"requested": at(17), "modelled": at(18), "printed": at(20, 12)}


def test_what_can_still_be_changed_before_the_next_game_is_said_step_by_step(board):
    """For noon of day 22: printed by noon of day 21; what is printed is only fitted by the game.

    C is out, D's other guard is in hand, and B's is asked for too late to be modelled in time.
    """
    made = season(
        *(waiting("A1", "A"), order("B1", "B", {"requested": at(20, 20)})),
        *(order("C1", "C", PRINTED), order("D1", "D", PRINTED)),
        order("D0", "D", {"requested": at(1, 1), "fitted": at(4, 1)}),
    )
    made.sessions.append(session("P20", day(20)))
    made.attendance = [{"session": "P20", "athlete": one, "part": "full"} for one in "ABD"]
    made.attendance.append({"session": "P20", "athlete": "C", "part": "out", "reason": "illness"})
    this = board(made)
    answer = this.ask(WEEK, read_scope(SCOPE, this.scope_values))
    item = answer.item("change")
    told = {one.order.guard: (step_words(one), one.meanwhile) for one in item.rows}
    assert told == {
        "A1": ("print it by Mon 21 Sep 12:00", "bare"),
        "C1": ("fit it by Tue 22 Sep 12:00", "is out"),
        "D1": ("fit it by Tue 22 Sep 12:00", "wears D0"),
    }
    assert "3 of 4 guards on the way can still be there" in item.sentence
    assert "1 of them play bare until then. For 1 it is later than four in five" in item.sentence
    assert answer.summary.answer.startswith("3 guards can still be there for the next games.")
    assert next(one for one in answer.items if one.is_ahead) is item


def test_asking_later_is_never_the_better(board):
    """A guard asked for on the day of a game is not there; each later day lowers the chance."""
    this = board(season(printers=ONE, games=(28,)))
    until, game = day(21), day(28)
    forecast = forecaster(this._store.read("orders/histories", until=until), until)
    days = [day(n) for n in range(21, 29)]
    own = {"department": "D", "plan": "onsite printer", "kind": "", "stage": "requested"}
    orders = pl.DataFrame([own | {"stage_on": on, "by_on": game, "by_share": 0.5} for on in days])
    chances = [one.value for one in forecast.chances(orders)]
    assert chances == sorted(chances, reverse=True)
    assert chances[0] > 0.9
    assert chances[-1] < 0.05
