"""The special functions, against values every statistics book prints."""

import math

import numpy as np
import pytest

from seasonboard.stats import special


def test_the_normal_quantile_of_a_95_percent_interval():
    assert special.two_sided(0.95) == pytest.approx(1.959964, abs=1e-6)
    assert special.two_sided(0.90) == pytest.approx(1.644854, abs=1e-6)


def test_normal_and_chi_square_tails_agree_with_each_other():
    """The square of a standard normal is a chi-square with one degree of freedom."""
    for z in (0.0, 0.5, 1.959964, 4.0, 10.0):
        assert special.normal_p(z) == pytest.approx(special.chi_square_p(z * z, 1), rel=1e-9)
        assert special.normal_p(-z) == special.normal_p(z)


@pytest.mark.parametrize(
    ("chi_square", "df", "p"),
    [(3.841459, 1, 0.05), (5.991465, 2, 0.05), (9.487729, 4, 0.05), (16.918978, 9, 0.05)],
)
def test_chi_square_tails_are_the_tabulated_ones(chi_square, df, p):
    assert special.chi_square_p(chi_square, df) == pytest.approx(p, abs=1e-7)


def test_log_binomial_coefficients_are_those_of_pascals_triangle():
    for total in (0, 1, 2, 7, 30):
        expected = [math.log(math.comb(total, k)) for k in range(total + 1)]
        assert np.allclose(special.log_choose(total), expected, atol=1e-11)


def test_a_gamma_without_shape_is_zero():
    assert special.gamma_quantile(0, 0.025) == 0
