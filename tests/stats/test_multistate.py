"""Shares of states with passages either way: against R, against competing risks, and its laws."""

import csv

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.competing import CauseTick, cumulative_incidence
from seasonboard.stats.multistate import Stretch, state_shares
from tests.front_door import REFERENCE
from tests.stats.laws import law

STATES = ("out", "bare", "guarded", "hurt")


def athletes():
    """The 120 of `multistate_back.R`, by its formula."""
    for i in range(120):
        out, first = 1 + (i * 7) % 9, "bare" if i % 3 else "guarded"
        yield Stretch("out", 0, out, None if i % 10 == 9 else first)
        if i % 10 == 9:
            continue
        end = out + 1 + (i * 5) % 6
        after = ("bare", "guarded", "hurt", None)[(i * 3 + i // 7) % 4]
        after = None if after == first else after
        yield Stretch(first, out, end, after)
        if after in {"bare", "guarded"}:
            yield Stretch(after, end, end + 2 + (i * 11) % 5, None if i % 2 else "hurt")


def test_shares_are_those_of_r_and_errors_near_its_robust_ones():
    """R's errors are by the infinitesimal jackknife; these are Greenwood's, of the same size."""
    found = {point.tick: point for point in state_shares(list(athletes()), STATES)}
    with (REFERENCE / "multistate_back.csv").open(encoding="utf-8") as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    assert len(rows) == 18
    for row in rows:
        point = found.get(int(row["tick"])) or found[max(t for t in found if t < int(row["tick"]))]
        assert point.share == approx([float(row[state]) for state in STATES], abs=1e-8)
        for error, state in zip(point.std_error, STATES, strict=True):
            assert (error or 0) == approx(float(row[f"se_{state}"]), rel=0.12, abs=2e-3)


@law
@given(st.lists(st.tuples(st.integers(1, 6), st.sampled_from(["a", "b", None])), min_size=1))
def test_with_one_state_to_leave_it_is_the_cumulative_incidence_of_each_cause(ends):
    points = state_shares([Stretch("at risk", 0, *end) for end in ends], ("at risk", "a", "b"))
    ticks = [
        CauseTick(
            tick,
            sum(end >= tick for end, _ in ends),
            tuple(sum(end == (tick, cause) for end in ends) for cause in "ab"),
        )
        for tick in range(1, max(end for end, _ in ends) + 1)
    ]
    causes = cumulative_incidence(ticks, ("a", "b")).causes
    for point in points[1:]:
        for cause, share, error in zip(causes, point.share[1:], point.std_error[1:], strict=True):
            expected = next(p for p in cause.points if p.tick == point.tick)
            assert share == approx(expected.share, abs=1e-12)
            if expected.std_error is not None:
                assert error == approx(expected.std_error, abs=1e-12)


def test_some_may_begin_in_another_state_and_shares_add_up_to_one():
    points = state_shares([Stretch("out", 0, 2, "bare", 3), Stretch("bare", 0, 4, "hurt")], STATES)
    assert points[0].share == (0.75, 0.25, 0, 0)
    assert points[1].share == (0, 1, 0, 0)
    assert [sum(point.share) for point in points] == approx([1] * len(points))
    assert state_shares([], STATES) == ()


@pytest.mark.parametrize("wrong", [Stretch("away", 0, 1, None), Stretch("out", 1, 1, None)])
def test_what_is_no_stretch_is_refused(wrong):
    with pytest.raises(ValueError, match=r"not known: away|holds no tick"):
        state_shares([wrong], STATES)
