"""Working days: the first day is day 0, weekends and holidays are none."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.working_time import working_days

DAYS = st.dates(date(2020, 1, 1), date(2030, 1, 1))


def count(first, last, *holidays):
    return working_days([first], [last], holidays=holidays)[0]


def test_examples_of_the_numpy_manual():
    """busday_count: January 2011 has 21, the year 2011 260 (counted from the day before)."""
    before = date(2010, 12, 31)
    assert count(before, date(2011, 1, 31)) == 21
    assert count(before, date(2011, 12, 31)) == 260


def test_weekends_and_holidays_do_not_count():
    thanksgiving = (date(2024, 11, 28), date(2024, 11, 29))
    assert count(date(2024, 11, 25), date(2024, 12, 2)) == 5
    assert count(date(2024, 11, 25), date(2024, 12, 2), *thanksgiving) == 3
    assert count(date(2024, 11, 30), date(2024, 12, 1)) == 0
    assert count(date(2024, 11, 29), date(2024, 12, 2)) == 1
    assert count(date(2024, 11, 29), date(2024, 11, 29)) == 0


@given(DAYS, st.integers(0, 60), st.sets(DAYS, max_size=5))
def test_it_is_what_a_walk_over_the_days_counts(first, lasted, holidays):
    days = [first + timedelta(days=n) for n in range(1, lasted + 1)]
    walked = sum(day.weekday() < 5 and day not in holidays for day in days)
    assert count(first, first + timedelta(days=lasted), *holidays) == walked
