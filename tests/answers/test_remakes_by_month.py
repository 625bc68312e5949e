"""Remakes by the month they were asked for: empty months count, the last only when it is over."""

from datetime import date

import polars as pl
import pytest

from seasonboard.answers.remakes.monthly import asked_months


def guards(known: date, *asked: date | None) -> pl.DataFrame:
    """Return guards fitted on 31 August, as remade on these days; None: not remade."""
    return pl.DataFrame(
        {
            "fitted_on": [date(2026, 8, 31)] * len(asked),
            "known_through": [known] * len(asked),
            "counts_as": ["remake" if day else None for day in asked],
            "successor_asked_on": list(asked),
        },
        schema_overrides={"counts_as": pl.String, "successor_asked_on": pl.Date},
    )


@pytest.mark.parametrize(
    ("known", "counts"), [(date(2026, 11, 29), [0, 2, 0]), (date(2026, 11, 30), [0, 2, 0, 1])]
)
def test_months_without_a_remake_are_0_and_one_that_is_not_over_is_left_out(known, counts):
    days = (date(2026, 9, 3), date(2026, 9, 30), date(2026, 11, 2), None)
    months = asked_months(guards(known, *days))
    assert [one.month.month for one in months] == [8, 9, 10, 11][: len(counts)]
    assert [one.remakes for one in months] == counts


def test_the_limits_are_those_of_counts_by_hand():
    """Mean 4 of 1, 3 and 8: 4 + 3 x 2 is 10, and what is below 0 is 0."""
    days = [date(2026, 8, 31), *[date(2026, 9, 5)] * 3, *[date(2026, 10, 5)] * 8]
    for one in asked_months(guards(date(2026, 10, 31), *days)):
        assert (one.control_limits.low, one.control_limits.high) == pytest.approx((0, 10))
        assert one.control_limits.is_outside is False


def test_nothing_fitted_has_no_month():
    assert asked_months(guards(date(2026, 10, 31))) == ()
