"""Injury rates per 1000 exposures and the exact limits of a Poisson count."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.rates import hourly_rate, injury_rate, poisson_limits
from tests.front_door import reference_rows
from tests.stats.laws import law

PRINTED = [row for row in reference_rows("collegiate_rates.csv") if row["rate_per_1000"]]
RECOMPUTABLE = [row for row in PRINTED if row["injuries"] and row["athlete_exposures"]]


@pytest.mark.parametrize(
    ("count", "low", "high"),
    [
        (0, 0, 3.6889), (1, 0.0253, 5.5716), (2, 0.2422, 7.2247), (3, 0.6187, 8.7673),
        (5, 1.6235, 11.6683), (10, 4.7954, 18.3904), (20, 12.2165, 30.8884), (50, 37.1110, 65.9188),
        (100, 81.3640, 121.6268),
    ],
)  # fmt: skip
def test_poisson_limits_are_garwoods(count, low, high):
    """Garwood (1936), Biometrika 28, 437-442; values as recomputed to four digits."""
    assert poisson_limits(count) == pytest.approx((low, high), abs=1e-4)


def test_without_an_injury_the_upper_limit_has_a_closed_form():
    """No injury has probability exp(-m), so the limit is -log of the tail: 3.6889 at 95 %."""
    for level in (0.5, 0.8, 0.9, 0.95, 0.99):
        low, high = poisson_limits(0, level=level)
        assert low == 0
        assert high == pytest.approx(-math.log((1 - level) / 2), rel=1e-12)


def test_a_rate_with_exact_limits_as_other_software_gives_it():
    """15 in 400: R's exactci, as quoted in the tests of statsmodels."""
    rate = injury_rate(15, 400)
    assert rate.value == pytest.approx(37.5)
    assert (rate.low, rate.high) == pytest.approx((20.9884653, 61.8505472), abs=1e-7)


def test_five_injuries_in_a_thousand_have_the_exact_not_the_quick_interval():
    """The normal interval would be 0.617 to 9.383."""
    rate = injury_rate(5, 1000)
    assert (rate.low, rate.high) == pytest.approx((1.623, 11.668), abs=1e-3)


def test_the_collegiate_table_holds_enough_rates_to_check():
    assert len(RECOMPUTABLE) >= 36


@pytest.mark.parametrize(
    "row",
    RECOMPUTABLE,
    ids=lambda r: f"{r['sport']}-{r['sex']}-{r['setting']}-{r['division']}-{r['period'][:4]}",
)
def test_collegiate_rates_come_out_as_printed(row):
    """The source of each is named in its row; printed to two digits, with normal limits.

    The exact interval of a large count lies within a few hundredths of the printed one.
    """
    rate = injury_rate(int(row["injuries"]), int(row["athlete_exposures"]))
    assert rate.value == pytest.approx(float(row["rate_per_1000"]), abs=0.00501)
    assert rate.low < rate.value < rate.high
    if row["ci_low"]:
        width = float(row["ci_high"]) - float(row["ci_low"])
        assert rate.high - rate.low == pytest.approx(width, abs=0.02 + 0.02 * width)


def test_divisions_add_up_to_the_whole_table():
    """Injuries of divisions I, II and III add exactly; Chandran et al. 2021, football."""
    football = [r for r in PRINTED if r["sport"] == "football" and r["setting"] == "overall"]
    by_division = {r["division"]: int(r["injuries"]) for r in football}
    assert sum(by_division[d] for d in ("I", "II", "III")) == by_division["all"]


def test_without_exposures_there_is_no_rate_but_a_reason():
    rate = injury_rate(0, 0)
    assert (rate.value, rate.low, rate.high) == (None, None, None)
    assert rate.why == "no exposures"


counts_of = st.integers(0, 5000)


@law
@given(counts_of, st.integers(1, 10**7))
def test_limits_hold_the_rate_and_are_finite(injuries, exposures):
    rate = injury_rate(injuries, exposures)
    assert 0 <= rate.low <= rate.value < rate.high < math.inf


@law
@given(counts_of, st.floats(0.5, 0.98))
def test_a_higher_level_is_never_narrower(injuries, level):
    narrow, wide = poisson_limits(injuries, level=level), poisson_limits(injuries, level=0.99)
    assert wide[0] <= narrow[0]
    assert narrow[1] <= wide[1]


@law
@given(st.integers(1, 300), st.floats(0.6, 0.99))
def test_at_its_limits_a_count_is_just_as_rare_as_the_level_says(count, level):
    """The Poisson tail at each limit is half of what the level leaves out."""
    low, high = poisson_limits(count, level=level)
    tail = (1 - level) / 2
    below = math.fsum(_poisson(k, low) for k in range(count))
    assert 1 - below == pytest.approx(tail, abs=1e-10)
    assert math.fsum(_poisson(k, high) for k in range(count + 1)) == pytest.approx(tail, abs=1e-10)


def _poisson(count: int, mean: float) -> float:
    return math.exp(count * math.log(mean) - mean - math.lgamma(count + 1))


def test_ten_injuries_in_a_thousand_hours_have_garwood_s_limits():
    """Garwood (1936): 4.7954 to 18.3904 for a count of 10; 60,000 minutes are 1000 hours."""
    rate = hourly_rate(10, 60_000)
    assert (rate.hours, rate.value) == (1000, 10)
    assert (rate.low, rate.high) == pytest.approx((4.7954, 18.3904), abs=1e-4)


@law
@given(injuries=st.integers(0, 50), hours=st.integers(1, 10_000))
def test_in_whole_hours_the_rate_is_that_of_as_many_exposures(injuries, hours):
    by_hour, by_exposure = hourly_rate(injuries, hours * 60), injury_rate(injuries, hours)
    assert by_hour.value == pytest.approx(by_exposure.value)
    assert (by_hour.low, by_hour.high) == pytest.approx((by_exposure.low, by_exposure.high))


def test_without_a_minute_there_is_no_rate_even_with_an_injury():
    for injuries in (0, 1):
        rate = hourly_rate(injuries, 0)
        assert (rate.value, rate.low, rate.high, rate.why) == (None, None, None, "no minutes")
    with pytest.raises(ValueError, match="0 or more"):
        hourly_rate(-1, 60)
