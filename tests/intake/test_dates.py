"""Dates are settled from the whole column; what cannot be told is asked, never guessed."""

from datetime import date

import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.dates import days_of_serials
from seasonboard.store.intake.plan import LoadPlan, plan_load
from tests.intake.desk import Desk

HEADER = "injury,athlete,occurred_on,area,side\n"


def injuries(*days: str) -> str:
    rows = [f'I9{place},A3,"{day}",knee,left\n' for place, day in enumerate(days)]
    return HEADER + "".join(rows)


def days(plan: LoadPlan) -> list[date]:
    return plan.rows["injuries"].sort("injury")["occurred_on"].to_list()


def plan_with(desk: Desk, text: str, **options: str) -> LoadPlan:
    desk.put(injuries=text)
    return plan_load(desk.store, [desk.folder], LoadOptions(**options))


THIRD = date(2026, 10, 3)


@pytest.mark.parametrize(
    "written",
    [
        *("2026-10-03", "2026/10/3", "2026.10.03", "20261003", "3 Oct 2026", "3-Oct-26"),
        *("October 3, 2026", "Oct. 3 2026", "Sat, 3 October 2026", "3rd October 2026", "46298"),
        *("Oct 3rd, 2026", "2026-10-03T00:00:00", "2026-10-03 00:00"),
    ],
)
def test_dates_with_one_reading(loaded: Desk, written: str) -> None:
    assert days(loaded.plan(injuries=injuries(written))) == [THIRD]


def test_one_row_over_12_settles_day_and_month_for_the_whole_column(loaded: Desk) -> None:
    plan = loaded.plan(injuries=injuries("03/04/2026", "05/04/2026", "13/04/2026", "11/12/2025"))
    assert days(plan) == [date(2026, 4, 3), date(2026, 4, 5), date(2026, 4, 13), date(2025, 12, 11)]
    (note,) = [one for one in plan.notes if one.column == "occurred_on" and "read" in one.expected]
    assert (note.row, note.value) == (4, "13/04/2026")
    assert "day/month/year" in note.expected


def test_the_other_order_is_settled_in_the_same_way(loaded: Desk) -> None:
    plan = loaded.plan(injuries=injuries("03/04/2026", "04/13/2026"))
    assert days(plan) == [date(2026, 3, 4), date(2026, 4, 13)]


def test_a_column_that_nothing_settles_shows_both_readings_and_how_to_say_which(loaded) -> None:
    problem = loaded.problem(injuries=injuries("03/04/2026", "05/04/2026"))
    assert (problem.row, problem.value) == (2, "03/04/2026")
    assert "2026-04-03 or 2026-03-04" in problem.expected
    assert "--dates dmy" in problem.expected
    assert "--dates mdy" in problem.expected


@pytest.mark.parametrize(("order", "day"), [("dmy", date(2026, 4, 3)), ("mdy", date(2026, 3, 4))])
def test_the_order_said_is_the_order_read(loaded: Desk, order: str, day: date) -> None:
    assert days(plan_with(loaded, injuries("03/04/2026"), dates=order)) == [day]


def test_a_column_written_in_both_orders_is_refused_with_a_row_of_each(loaded: Desk) -> None:
    problem = loaded.problem(injuries=injuries("13/04/2026", "04/14/2026", "01/02/2026"))
    assert problem.row == 2
    assert "row 3" in problem.expected
    assert "two ways" in problem.expected


def test_with_the_order_said_rows_that_do_not_fit_are_told_one_by_one(loaded: Desk) -> None:
    from seasonboard.errors import IntakeError

    with pytest.raises(IntakeError) as refused:
        plan_with(loaded, injuries("13/04/2026", "04/14/2026", "01/02/2026"), dates="dmy")
    (problem,) = refused.value.problems
    assert (problem.row, problem.value) == (3, "04/14/2026")


def test_the_same_day_in_either_order_needs_no_answer(loaded: Desk) -> None:
    assert days(loaded.plan(injuries=injuries("04/04/2026"))) == [date(2026, 4, 4)]


def test_dates_written_iso_do_not_hang_on_the_rest_of_the_column(loaded: Desk) -> None:
    plan = loaded.plan(injuries=injuries("2026-03-04", "03.04.2026", "31.03.2026"))
    assert days(plan) == [date(2026, 3, 4), date(2026, 4, 3), date(2026, 3, 31)]


def test_years_of_two_digits_are_told(loaded: Desk) -> None:
    plan = loaded.plan(injuries=injuries("22/08/26", "03/09/25"))
    assert days(plan) == [date(2026, 8, 22), date(2025, 9, 3)]
    assert any("two digits" in note.expected for note in plan.notes)


def test_day_numbers_become_dates_and_are_told(loaded: Desk) -> None:
    plan = loaded.plan(injuries=injuries("46270", "46326", "2026-11-07"))
    assert days(plan) == [date(2026, 9, 5), date(2026, 10, 31), date(2026, 11, 7)]
    assert any("(2 cells)" in note.expected for note in plan.notes)


def test_a_time_beside_a_date_is_left_out_and_told(loaded: Desk) -> None:
    plan = loaded.plan(injuries=injuries("2026-09-05 18:30"))
    assert days(plan) == [date(2026, 9, 5)]
    assert any("time of day" in note.expected for note in plan.notes)


SESSION = "session,team,season,starts_at,setting\nS9,T1,2026,{cell},game\n"


@pytest.mark.parametrize(
    "cell",
    [
        *("9/25/2026 6:30 PM", "25.09.2026 18:30", "25 Sep 2026, 18:30", "46290.7708333"),
        *("2026-09-25 6:30 p.m.", "09/25/2026 23:30Z", "2026/9/25 18:30:00"),
    ],
)
def test_instants_in_other_writings(loaded: Desk, cell: str) -> None:
    """All are half past six in the evening in Chicago, which is 23:30 UTC."""
    plan = loaded.plan(sessions=SESSION.format(cell=f'"{cell}"'))
    instant = plan.rows["sessions"]["starts_at"][0]
    assert abs((instant.replace(tzinfo=None) - _at(2026, 9, 25, 23, 30)).total_seconds()) < 1


def _at(*parts: int):
    from datetime import datetime

    return datetime(*parts)  # noqa: DTZ001 - UTC without its name


@pytest.mark.parametrize("cell", ["25 Sep 2026 25:00", "9/25/2026 13:00 PM", "2026-09-25 18:61"])
def test_times_that_no_clock_shows_are_refused(loaded: Desk, cell: str) -> None:
    assert loaded.problem(sessions=SESSION.format(cell=cell)).value == cell


@pytest.mark.parametrize("from_1904", [False, True])
def test_day_numbers_follow_the_published_counts(*, from_1904: bool) -> None:
    """ECMA-376 part 1, 18.17.4.1; the 1904 count begins 1462 days later. Others are no days."""
    numbers = pl.Series("number", [36526, 46298, 19_000, 90_000]) - 1462 * from_1904
    days = numbers.to_frame().select(days_of_serials(pl.col("number"), from_1904=from_1904))
    assert days.to_series().to_list() == [date(2000, 1, 1), THIRD, None, None]


@settings(max_examples=15)
@given(data=st.data())
def test_a_column_is_read_whole_or_asked_about_never_half(loaded_store, tmp_path_factory, data):
    """Whatever the days, all rows are read in one order, or none is."""
    from seasonboard.errors import IntakeError

    meant = data.draw(
        st.lists(st.dates(date(2025, 1, 1), date(2027, 12, 31)), min_size=1, max_size=6)
    )
    order = data.draw(st.sampled_from(["%d/%m/%Y", "%m/%d/%Y"]))
    file = tmp_path_factory.mktemp("days") / "injuries.csv"
    file.write_text(injuries(*(day.strftime(order) for day in meant)), "utf-8")
    settled = any(day.day > 12 for day in meant)
    same = all(day.day == day.month for day in meant)
    if settled or same:
        assert days(plan_load(loaded_store, [file])) == meant
    else:
        with pytest.raises(IntakeError, match="--dates"):
            plan_load(loaded_store, [file])
