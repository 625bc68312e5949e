"""Prints against the plan, on a few orders that can be counted by eye."""

import pytest

from seasonboard.answers.questions import ALLOTMENT
from tests.queries import build
from tests.queries.build import at, order, with_orders

QUESTION, SCOPE = ALLOTMENT, {"through": "2026-09-20"}


def season(plan, *orders, **department):
    """Return a department with one plan; day 1, 1 September 2026, is a Tuesday."""
    plain = build.Season(departments=[build.department("D", plan=plan, **department)])
    plain.roster = [build.member("A")]
    return with_orders(plain, *orders)


def orders(**cells):
    """Five orders of the first week; three are printed in it, one in the next, one called off."""
    return [
        order("O1", "A", {"requested": at(1), "printed": at(2)}, **cells),
        order("O2", "A", {"requested": at(1), "printed": at(3)}, **cells),
        order("O3", "A", {"requested": at(2), "printed": at(6)}, **cells),
        order("O4", "A", {"requested": at(2), "fitted": at(9)}, **cells),
        order("O5", "A", {"requested": at(3), "cancelled": at(8)}, **cells),
    ]


def test_weeks_against_an_allotment(ask):
    """Two a week: the first week is over it; what waits is carried, an unstamped print leaves."""
    (found,) = ask(season("weekly allotment", *orders(), prints_per_week=2)).departments
    assert [(w.asked, w.prints, w.queue, w.is_over) for w in found.weeks] == [
        (5, 3, 2, True),
        (0, 0, 0, False),
        (0, 0, 0, False),
    ]
    assert (found.whole_weeks, found.weeks_over, found.used) == (3, 1, 0.5)
    assert (found.queue, found.longest_queue, found.hours_share) == (0, 2, None)


def test_hours_of_a_printer_of_its_own(ask):
    answer = ask(season("onsite printer", *orders(printer="one", print_hours=42.0)))
    (found,) = answer.departments
    assert found.weeks[0].hours_share == 3 * 42 / 168
    assert found.hours_share == 3 * 42 / (3 * 168)
    assert (found.used, found.why) == (None, "it prints on its own printer")
    assert "126 printer hours, 25 % of those of 1 printer" in answer.summary.answer


def test_a_week_is_only_summed_when_its_sunday_is_known(ask):
    """Through Saturday 5 September the first week is not whole: no share of the plan yet."""
    answer = ask(season("weekly allotment", *orders(), prints_per_week=2), through="2026-09-05")
    (found,) = answer.departments
    assert (found.whole_weeks, found.used, found.why) == (0, None, "no whole week is known yet")
    assert "no whole week is known yet; 3 waiting" in answer.summary.answer


def test_hours_not_recorded_are_told(ask):
    answer = ask(season("onsite printer", *orders(printer="one")))
    (found,) = answer.departments
    assert (found.hours_share, found.hours_why) == (None, "no hours are recorded")
    assert "3 prints without hours recorded" in " ".join(answer.summary.caveats)


def test_a_printer_that_is_not_named_has_no_hours_available(ask):
    (found,) = ask(season("onsite printer", *orders(print_hours=5.0))).departments
    assert (found.printers, found.hours, found.hours_share) == (0, 15.0, None)
    assert found.hours_why == "no printer is named in its orders"


def test_two_printers_have_twice_the_hours(ask):
    first, *rest = orders(printer="one", print_hours=84.0)
    first[0]["printer"] = "two"
    (found,) = ask(season("onsite printer", first, *rest)).departments
    assert (found.printers, found.weeks[0].hours_share) == (2, 3 * 84 / (2 * 168))


def test_guards_in_no_week_s_prints_are_told(ask):
    """O4 was fitted without the stage printed; W was worn and has no stage at all."""
    plain = season("weekly allotment", *orders(), prints_per_week=2)
    plain.guards.append(build.guard("W", "A"))
    plain.sessions.append(build.session("G9", build.day(9)))
    plain.wear.append({"session": "G9", "guard": "W"})
    told = {left.why: left.count for left in ask(plain).summary.left_out}
    assert told == {
        "made, but the stage “printed” is not recorded": 1,
        "worn, but no stage is recorded": 1,
    }
    assert ask(plain, through="2026-09-08").summary.left_out == ()


def test_an_allotment_of_none_is_over_with_the_first_print(ask):
    (found,) = ask(season("weekly allotment", *orders(), prints_per_week=0)).departments
    assert (found.used, found.weeks_over) == (None, 1)
    assert found.why == "its allotment is no print at all"


@pytest.mark.parametrize("part", [{"kind": "chest"}, {"team": "T"}, {"season": "2026"}])
def test_a_part_of_the_orders_is_said_to_be_one(ask, part):
    plain = season("weekly allotment", *orders(), prints_per_week=2)
    plain.guards.append(build.guard("S", "A", kind="shin", side="left"))
    plain.sessions.append(build.session("G9", build.day(9)))
    for asked, is_part in ((part, True), ({}, False)):
        told = " ".join(ask(plain, **asked).summary.caveats)
        assert ("leaves out orders of the department" in told) is is_part


def test_listed_hours_are_what_is_available(ask):
    """126 hours of 84 in the first of three weeks; an idle printer that is listed adds its own."""
    half = season("onsite printer", *orders(printer="one", print_hours=42.0))
    half.printers = [{"printer": "one", "department": "D", "hours_per_week": 84.0}]
    (found,) = ask(half).departments
    assert (found.weeks[0].hours_share, found.hours_share) == (1.5, 0.5)
    half.printers.append({"printer": "two", "department": "D", "hours_per_week": 42.0})
    (found,) = ask(half).departments
    assert (found.weeks[0].hours_share, found.printers) == (1.0, 2)
