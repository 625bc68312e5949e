"""Control sites: by hand, against a plain count, and against the ratio of the studied sites."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.negative_control import ControlInjuries, control_ratio, corrected_ratio
from seasonboard.stats.ratios import Strata, mantel_haenszel
from tests.stats.laws import law

Row = tuple[int, int, int, int, int]
"""Injury, guarded and bare sites of its athlete, guarded and bare exposures of the stratum."""

ROWS = st.lists(
    st.tuples(
        st.integers(0, 5), st.integers(0, 2), st.integers(0, 2), st.integers(0, 9),
        st.integers(0, 9),
    )
)  # fmt: skip


def over(rows: list[Row], *, level: float = 0.95):
    return control_ratio(ControlInjuries(*(zip(*rows, strict=True) if rows else [()] * 5)),
                         level=level)  # fmt: skip


def test_four_injuries_by_hand():
    """A = 1·6/10 + 2·5/10 + 1·6/10 = 2.2, B = 2·4/10 + 1·4/10 = 1.2. Parts of A less ratio times
    parts of B: 1, 0.6 − 0.4·11/6, 0.6 and −0.8·11/6, squared and summed 3.4619; its root over 2.2
    is 0.8457."""
    rows = [(1, 0, 2, 4, 6), (2, 1, 1, 4, 6), (3, 2, 0, 5, 5), (4, 1, 0, 4, 6), (5, 1, 0, 4, 0)]
    parts = (1.0, 0.6 - 0.4 * 11 / 6, 0.6, -0.8 * 11 / 6)
    found = over(rows)
    assert found.value == pytest.approx(2.2 / 1.2)
    assert found.injuries == 4, "nobody was bare beside the fifth"
    assert found.std_error == pytest.approx(math.sqrt(sum(p**2 for p in parts)) / 2.2)
    assert math.log(found.high / found.value) == pytest.approx(1.959964 * found.std_error, rel=1e-6)
    assert found.is_quiet


@law
@given(ROWS)
def test_it_is_what_a_plain_count_gives(rows):
    parts: dict[int, list[float]] = {}
    for injury, a, b, t1, t0 in rows:
        if t1 and t0 and a + b:
            one = parts.setdefault(injury, [0.0, 0.0])
            one[0] += a * t0 / (t1 + t0)
            one[1] += b * t1 / (t1 + t0)
    above, under = (sum(one[i] for one in parts.values()) for i in (0, 1))
    found = over(rows)
    assert found.injuries == len(parts)
    if not above or not under:
        assert found.value is None
        assert found.why
        assert not found.is_quiet, "what is not known is not quiet"
        return
    spread = sum((x - above / under * y) ** 2 for x, y in parts.values())
    assert found.value == pytest.approx(above / under)
    assert found.std_error == pytest.approx(math.sqrt(spread) / above)


def test_one_injury_a_stratum_each_guarded_or_bare_has_the_mantel_haenszel_ratio():
    """The studied outcome is the special case in which the site hurt is the only one."""
    rng = np.random.default_rng(3)
    t1, t0 = rng.integers(1, 9, (2, 60)).tolist()
    a = (rng.random(60) < 0.4).astype(int).tolist()
    b = [1 - one for one in a]
    control = control_ratio(ControlInjuries(list(range(60)), a, b, t1, t0))
    headline = mantel_haenszel(Strata(a, b, t1, t0))
    assert control.value == pytest.approx(headline.value)
    assert control.std_error == pytest.approx(headline.std_error, rel=0.15)
    corrected = corrected_ratio(headline, control)
    assert corrected.value == pytest.approx(1)
    width = math.log(corrected.high / corrected.low) / (2 * 1.959964)
    assert width == pytest.approx(math.hypot(headline.std_error, control.std_error), rel=1e-6)


@pytest.mark.parametrize(
    ("rows", "why"),
    [
        ([], "no injury there"),
        ([(1, 2, 0, 3, 3)], "no bare injury"),
        ([(1, 0, 2, 3, 3)], "no guarded injury"),
        ([(1, 0, 2, 0, 3)], "both guarded and bare"),
    ],
)
def test_what_is_not_known_says_why_and_corrects_nothing(rows, why):
    found = over(rows)
    assert why in found.why
    headline = mantel_haenszel(Strata([1, 0, 1], [1, 1, 0], [5, 5, 5], [5, 5, 5]))
    assert corrected_ratio(headline, found).why == found.why
    few = mantel_haenszel(Strata([1], [1], [5], [5]))
    known = over([(1, 2, 0, 3, 3), (2, 0, 1, 3, 3)])
    assert "no large-sample interval" in corrected_ratio(few, known).why
