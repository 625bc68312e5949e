"""Turnaround: groups, readiness, stages, weeks, units, holidays; and seasons at the edge."""

import json
import sys
from dataclasses import replace
from datetime import date
from types import SimpleNamespace

import pytest
from pytest import approx

from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.orders.order_times import Unit, read_stage
from seasonboard.answers.questions import TURNAROUND
from seasonboard.answers.turnaround.groups import turnaround_groups
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.report import REPORT
from seasonboard.errors import ScopeError
from seasonboard.scope import read_scope
from seasonboard.store.catalogue import catalogue
from seasonboard.terms import Stage
from tests.queries import build
from tests.queries.asking import scope as query_scope
from tests.queries.build import at, drawn, order, with_orders

QUESTION = TURNAROUND
GRID = """
      A B C E
G1    . . . .
G2@9  . . . .
G3@30 - - - -
"""


def season(*orders):
    return with_orders(drawn(GRID), *orders)


def scanned(number):
    """Return so many orders of three days by scanner and of eight by phone, and one by neither."""
    made = (("scanner", "A", 4), ("phone", "B", 9))
    return season(
        *(
            order(f"{method}{n}", who, {"requested": at(1), "fitted": at(on)}, scan_method=method)
            for method, who, on in made
            for n in range(number)
        ),
        order("Z", "C", {"requested": at(1)}),
    )


def test_groups_are_named_and_what_is_not_recorded_comes_last(ask):
    by_method = TurnaroundOptions(by=OrdersBy.SCAN_METHOD)
    answer = ask(scanned(10), by_method, through="2026-09-12")
    assert [(g.name, g.median.value) for g in answer.groups] == [
        ("phone", 8),
        ("scanner", 3),
        ("not recorded", None),
    ]
    assert answer.whole.orders == 21
    assert "Shortest median: scanner, 3 days" in answer.summary.answer
    groups = REPORT.as_object(answer, "turnaround")["groups"]
    assert [g["key"] for g in groups] == ["phone", "scanner", None]


def test_of_fewer_than_ten_orders_nothing_is_ranked_and_no_19_in_20_told(ask):
    answer = ask(scanned(4), TurnaroundOptions(by=OrdersBy.SCAN_METHOD), through="2026-09-12")
    assert "what 19 in 20 take cannot be told from 9" in answer.summary.answer
    assert "Shortest" not in answer.summary.answer
    assert {group.p95.why for group in answer.groups} == {"fewer than 10 orders"}
    assert "too few" in REPORT.as_text(answer)


def test_of_an_order_with_a_day_alone_days_are_told_and_hours_are_not(ask):
    made = season(*(order(g, "A", {"requested": at(1), "fitted": at(4, 21)}) for g in "XY"))
    made.stages[-1]["timed"] = "no"
    assert ask(made, through="2026-09-12").whole.orders == 2
    in_hours = ask(made, TurnaroundOptions(unit=Unit.HOURS), through="2026-09-12")
    assert (in_hours.whole.orders, in_hours.whole.median.value) == (1, 84)
    (left_out,) = (one for one in in_hours.summary.left_out if "day alone" in one.why)
    assert left_out.count == 1


def test_departments_from_one_frame_are_those_of_the_answer(board):
    this = board(season(order("X", "A", {"requested": at(1), "fitted": at(4)})))
    by_department = TurnaroundOptions(by=OrdersBy.DEPARTMENT)
    scope = read_scope({"through": "2026-09-12"}, this.scope_values)
    answer = this.ask(TURNAROUND, scope, by_department)
    asked = {name: query_scope(build.day(12))[name] for name in catalogue()["orders/orders"].params}
    frame = this._reader.read("orders/orders", **asked)
    assert turnaround_groups(frame, by_department)[1] == answer.groups
    assert answer.groups[0].name == "College D"


def test_ready_for_the_next_game(ask):
    """Games on days 1 (noon), 9 and 30; known up to day 12."""
    rows = season(
        order("ready", "A", {"requested": at(2), "fitted": at(9, 11)}),
        order("missed", "B", {"requested": at(2), "fitted": at(9, 12)}),
        order("open and missed", "C", {"requested": at(2)}),
        order("called off in time", "E", {"requested": at(2), "cancelled": at(5)}),
        order("called off too late", "E", {"requested": at(2), "cancelled": at(10)}),
        order("to come", "A", {"requested": at(9, 12)}),
        order("early for day 30", "B", {"requested": at(9, 12), "fitted": at(11)}),
    )
    ready = ask(rows, through="2026-09-12").whole.ready
    assert (ready.share.successes, ready.share.trials) == (2, 5)
    assert (ready.undecided, ready.cancelled, ready.no_game) == (1, 1, 0)
    late = season(order("X", "A", {"requested": at(30, 12), "fitted": at(31)}))
    none = ask(late, through="2026-10-12").whole.ready
    assert (none.share.value, none.no_game) == (None, 1)
    assert none.share.why


def test_where_the_time_goes(ask):
    """One goes on, one waits in scanned, one is called off there, one skips being scanned."""
    rows = season(
        order("X", "A", {"requested": at(1), "scanned": at(3), "modelled": at(7)}),
        order("Y", "B", {"requested": at(1), "scanned": at(4)}),
        order("Z", "C", {"requested": at(1), "scanned": at(5), "cancelled": at(6)}),
        order("W", "E", {"requested": at(1), "modelled": at(2)}),
    )
    stages = {s.stage: s for s in ask(rows, through="2026-09-12").whole.stages}
    assert list(stages) == ["requested", "scanned", "modelled"]
    asked, scanned = stages["requested"], stages["scanned"]
    assert (asked.orders, asked.finished, asked.next_stages) == (4, 4, ("scanned", "modelled"))
    assert asked.median.value == 2.5
    assert (scanned.orders, scanned.finished, scanned.waiting, scanned.cancelled) == (3, 1, 1, 1)
    assert scanned.median.value == 4, "half of the two that were left"
    assert stages["modelled"].waiting == 2


def test_a_stage_that_was_passed_without_a_stamp_is_told_not_guessed(ask):
    rows = season(
        order("X", "A", {"requested": at(1), "fitted": at(5)}),
        order("Y", "B", {"scanned": at(1)}),
        order("Z", "C", {"requested": at(1), "printed": at(4)}),
    )
    answer = ask(rows, TurnaroundOptions(end=Stage.PRINTED), through="2026-09-12")
    assert {left.why: left.count for left in answer.summary.left_out} == {
        "went past “printed” without a stamp": 1,
        "no “requested” stage is recorded": 1,
    }
    assert answer.whole.orders == 1
    assert "fitted before the next game" not in answer.summary.answer


def test_a_second_fitted_stamp_is_not_used_and_told(ask):
    rows = season(order("X", "A", {"requested": at(1), "fitted": at(5)}))
    rows.stages.append({"guard": "X", "stage": "fitted", "reached_at": at(8)})
    answer = ask(rows, through="2026-09-12")
    assert answer.whole.median.value == 4
    assert any("the first stamp counts" in c for c in answer.summary.caveats)


def weekly(*lasted):
    """Return five orders a week, from 6 July 2026 on, that take so many days (None: open)."""
    plain = build.Season()
    plain.roster = [build.member("A")]
    stages = []
    for week, days in enumerate(lasted):
        for number in range(5):
            key, first = f"W{week}-{number}", -56 + 7 * week + number
            plain.guards.append(build.guard(key, "A"))
            reached = {"requested": at(first)}
            if days is not None:
                reached["fitted"] = at(first + days)
            stages += [{"guard": key, "stage": s, "reached_at": t} for s, t in reached.items()]
    plain.stages = stages
    return plain


def test_weeks_count_open_orders_and_only_old_weeks_set_limits(ask):
    """Eight weeks of 6 to 7 days, then one of 5 whose last orders are too recent to be judged."""
    answer = ask(weekly(6, 7, 6, 7, 6, 7, 6, 7, 5), through="2026-09-07")
    *old, last = answer.weeks
    assert [w.median.value for w in old] == [6, 7, 6, 7, 6, 7, 6, 7]
    assert all(w.sets_limits and w.orders == 5 for w in old)
    assert not last.sets_limits
    assert last.why == "too recent: a slow order would still be open"
    assert (answer.chart.centre, answer.chart.high) == approx((6.5, 6.5 + 3 / 1.128))


def test_a_slow_week_stands_outside_and_a_stuck_one_is_told(ask):
    answer = ask(weekly(6, 7, 6, 7, 6, 20, 7, 6, 7, 6, 7, None, 6), through="2026-12-31")
    assert [w.monday for w in answer.weeks if w.is_outside] == [date(2026, 8, 10)]
    (stuck,) = [w for w in answer.weeks if w.median.value is None]
    assert stuck.why == "half of its orders are not done although it is old enough"
    text = REPORT.as_text(answer)
    assert "outside the control limits" in text


def test_few_weeks_have_no_limits_and_why(ask):
    answer = ask(weekly(6, 7, 6), through="2026-12-31")
    assert (answer.chart.low, answer.chart.high) == (None, None)
    limits = REPORT.as_object(answer, "turnaround")["control_limits"]
    assert limits["low"] is None
    assert limits["why"].startswith("fewer than 4 weeks")
    assert {week.is_outside for week in answer.weeks} == {None}


@pytest.mark.parametrize(
    ("options", "summary"),
    [
        ({"start": Stage.FITTED, "end": Stage.PRINTED}, "does not come after"),
        ({"start": Stage.FITTED, "end": Stage.FITTED}, "does not come after"),
        ({"end": Stage.CANCELLED}, "has no turnaround"),
        ({"holidays_of": "US"}, "only in working days"),
    ],
)
def test_questions_that_make_no_sense_are_refused_with_what_to_do(ask, options, summary):
    with pytest.raises(ScopeError, match=summary) as caught:
        ask(season(), TurnaroundOptions(**options))
    assert caught.value.hint


def test_a_stage_is_found_by_name_and_an_unknown_one_lists_the_known():
    assert read_stage(" Printed ") is Stage.PRINTED
    with pytest.raises(ScopeError, match="Did you mean “delivered”") as caught:
        read_stage("deliverd")
    assert "requested, scanned" in caught.value.hint


def some_library():
    """Return what stands in for the library of public holidays."""

    def country_holidays(country, subdiv, years):
        assert (country, years) == ("US", [2025, 2026])
        return {date(2026, 9, 7): "Labor Day"} if subdiv else {}

    known = {"US": ["NY", "CA"], "DE": []}
    return SimpleNamespace(
        list_supported_countries=lambda **_: known, country_holidays=country_holidays
    )


FRIDAY_TO_TUESDAY = order("X", "A", {"requested": at(4), "fitted": at(8)})
WORKED = {"unit": Unit.WORKING_DAYS}


def test_public_holidays_come_from_the_library_when_it_is_there(ask, monkeypatch):
    """Friday 4 to Tuesday 8 September: 2 working days, 1 without Labor Day."""
    assert ask(season(FRIDAY_TO_TUESDAY), TurnaroundOptions(**WORKED)).whole.median.value == 2
    monkeypatch.setitem(sys.modules, "holidays", some_library())
    options = TurnaroundOptions(**WORKED, holidays_of="US-NY")
    answer = ask(season(FRIDAY_TO_TUESDAY), options)
    assert answer.whole.median.value == 1
    assert any("the 1 holiday of US-NY" in c for c in answer.summary.caveats)
    for place, summary in (("XX", "no country “XX”"), ("US-TX", "no part “TX” of US")):
        with pytest.raises(ScopeError, match=summary):
            ask(season(FRIDAY_TO_TUESDAY), TurnaroundOptions(**WORKED, holidays_of=place))


def test_an_own_list_of_holidays_needs_no_library(ask, tmp_path):
    own, wrong = tmp_path / "closed.txt", tmp_path / "wrong.txt"
    own.write_text("2026-09-07 the shop is closed\n\n2026-11-27\n")
    wrong.write_text("2026-09-07\nthe Friday after\n")
    options = TurnaroundOptions(**WORKED, holidays_of=str(own))
    assert ask(season(FRIDAY_TO_TUESDAY), options).whole.median.value == 1
    with pytest.raises(ScopeError, match="Line 2 of wrong") as refused:
        ask(season(FRIDAY_TO_TUESDAY), replace(options, holidays_of=str(wrong)))
    assert "such as 2026-11-27" in refused.value.hint


def test_without_the_library_the_error_says_how_to_get_it(ask, monkeypatch):
    monkeypatch.setitem(sys.modules, "holidays", None)
    with pytest.raises(ScopeError, match="not installed") as caught:
        ask(season(FRIDAY_TO_TUESDAY), TurnaroundOptions(**WORKED, holidays_of="US"))
    assert "pip install" in caught.value.hint


@pytest.mark.parametrize(
    ("stages", "summary"),
    [
        (None, "No turnaround to tell: no order of the scope was requested by that day."),
        ({"requested": at(2)}, "Not half of the orders that were requested are fitted yet"),
        ({"requested": at(2), "cancelled": at(3)}, "1 cancelled"),
        ({"requested": at(2), "fitted": at(2, 10)}, "within 0 days of being requested"),
    ],
)
def test_seasons_at_the_edge_are_told_in_words(ask, stages, summary):
    answer = ask(season(*([order("X", "A", stages)] if stages else [])), through="2026-09-12")
    assert summary in answer.summary.answer
    assert json.dumps(REPORT.as_object(answer, "turnaround"), allow_nan=False)
    assert REPORT.as_text(answer)
    assert REPORT.as_csv(answer).startswith("group,key,orders,finished")
