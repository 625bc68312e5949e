"""The multistate forecast: against R's Aalen-Johansen, by hand, and at its edges."""

from pathlib import Path

import numpy as np
import polars as pl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.stage_forecast import Waiting, forecasts
from seasonboard.stats.stage_model import DAYS, Stays, stage_model
from tests.stats.laws import law

REFERENCE = Path(__file__).parent.parent / "reference" / "multistate_aalen_johansen.csv"
OPEN = np.ones(DAYS, dtype=bool)


def stays(*rows, groups=((),)):
    """Return stays of (stage, after or None, day, group)."""
    columns = [np.array(column) for column in zip(*rows, strict=True)]
    stage, after, day, group = columns
    after = np.array([-1 if one is None else one for one in after], dtype=np.int64)
    return Stays(
        stage.astype(int), after, day.astype(int), day.astype(int), group.astype(int), groups
    )


def fresh(days, stage=0, waited=0, group=(), share=1.0):
    """Return one that came into a stage `waited + 1` days before the first day ahead."""
    one = lambda value: np.array([value])  # noqa: E731
    return Waiting(one(stage), one(waited + 1), one(waited), one(days), one(share), [group])


def chance(model, days, is_open=OPEN, **waiting):
    return float(forecasts(model, fresh(days, **waiting), is_open).chance[0])


def occupied(name):
    rows = pl.read_csv(REFERENCE, comment_prefix="#").filter(pl.col("set") == name)
    return list(rows.select("day", "b", "c").iter_rows())


def test_one_stage_with_two_ways_out_is_aalen_and_johansens():
    """Set A of R: 240 stays that end in b or c or are censored; here c is the end, then b."""
    number = np.arange(240)
    day = 1 + (number * 7) % 11 + (number % 3 == 0) * ((number * 5) % 4)
    after = np.array(["b", "b", "c", ""])[(number * 3 + number // 7) % 4]
    for end, at in (("c", 2), ("b", 1)):
        rows = [
            (0, None if to == "" else 2 if to == end else 1, when, 0)
            for to, when in zip(after, day, strict=True)
        ]
        model = stage_model(stays(*rows), 3)
        assert model.passages == ((0, 1), (0, 2))
        for row in occupied("A"):
            # b leads nowhere here, so that only what comes straight to the end has ended
            assert model_ended(model, row[0]) == approx(row[at], abs=1e-8)


def model_ended(model, day):
    """Return the chance to have ended by a day of the stay, straight from its stage."""
    density, still = 0.0, 1.0
    for hazards in model.hazards[0].T[: day + 1]:
        density += still * hazards[-1]
        still *= 1 - hazards.sum()
    return density


def test_stays_one_after_the_other_are_convolved_as_aalen_and_johansen_count_them():
    """Set B of R: every stay in a with every stay in b, and some that go straight to c."""
    rows = []
    for first in (2, 3, 5, 5):
        for second in (1, 2, 4):
            rows += [(0, 1, first, 0), (1, 2, second, 0)] * 20
    model = stage_model(stays(*rows, *[(0, 2, 4, 0)] * 60), 3)
    for day, _, ended in occupied("B"):
        assert chance(model, day) == approx(ended, abs=1e-8)
        assert chance(model, day + 1, share=0.0) == approx(ended, abs=1e-8)


def test_what_waits_already_is_told_from_its_days():
    """Stays of 2, 4, 8 days alike: after day 2 half end by day 4, after day 4 none before 8."""
    model = stage_model(stays(*[(0, 1, day, 0) for day in (2, 4, 8)] * 30), 2)
    assert chance(model, 2, waited=2) == approx(0.5)
    assert chance(model, 3, waited=4) == 0
    assert chance(model, 4, waited=4) == approx(1)


def test_closed_days_put_passages_off_to_the_next_open_one():
    model = stage_model(stays(*[(0, 1, 2, 0)] * 40), 2)
    closed = OPEN.copy()
    closed[[1, 2]] = False
    assert chance(model, 3, closed) == 0
    assert chance(model, 4, closed) == approx(1)


def test_a_passage_after_closed_days_may_have_been_due_on_any_of_them():
    """Most end on day 1; those seen on day 3 after two closed days are told apart by that."""
    rows = [(0, 1, 1, 0)] * 60 + [(0, 1, 3, 0)] * 20
    seen = stays(*rows)
    least = np.array([1] * 80)
    model = stage_model(Stays(seen.stage, seen.after, least, seen.most, seen.group, seen.groups), 2)
    assert model.hazards[0, 0, 1] > 0.98


def test_an_outlier_in_hand_has_a_chance_that_is_never_0():
    """Everybody else was fitted within five days; two waited sixty days once."""
    rows = [(0, 1, day, 0) for day in range(1, 6) for _ in range(40)] + [(0, 1, 59, 0)] * 2
    model = stage_model(stays(*rows), 2)
    for waited in (7, 20, 50, 200):
        assert 0.005 < chance(model, 4, waited=waited) < 0.9


def test_what_waits_for_longer_than_any_before_is_no_forecast():
    """Every stay was over by day 3: of one on day 5 nothing is known, and on day 3 one stay was."""
    model = stage_model(stays(*[(0, 1, 1 + number % 3, 0) for number in range(60)]), 2)
    longest, longer = (forecasts(model, fresh(4, waited=day), OPEN) for day in (2, 4))
    assert (bool(longest.is_least[0]), int(longest.orders[0])) == (False, 20)
    assert (bool(longer.is_least[0]), int(longer.orders[0]), float(longer.chance[0])) == (
        True,
        0,
        0,
    )


def test_too_little_followed_is_a_lower_bound():
    """Nine passed the stage ahead: nothing is known of it, so that only straight ways count."""
    passed = [(0, 1, 1, 0)] * 30 + [(0, 2, 1, 0)] * 30
    model = stage_model(stays(*passed, *[(1, 2, 1, 0)] * 9), 3)
    told = forecasts(model, fresh(5), OPEN)
    assert bool(told.is_least[0])
    assert told.chance[0] == approx(0.5)
    enough = forecasts(stage_model(stays(*passed, *[(1, 2, 1, 0)] * 10), 3), fresh(5), OPEN)
    assert not enough.is_least[0]
    assert enough.chance[0] > 0.99


def test_without_a_history_nothing_is_told():
    none = np.zeros(0, dtype=np.int64)
    model = stage_model(Stays(none, none, none, none, none, ()), 3)
    told = forecasts(model, fresh(5, group=("p", "d")), OPEN)
    assert (bool(told.is_least[0]), float(told.chance[0]), int(told.orders[0])) == (True, 0.0, 0)


def test_a_sparse_group_borrows_and_a_large_one_speaks_for_itself():
    groups = (("p", "quick"), ("p", "slow"), ("p", "new"))
    rows = [(0, 1, 1 + n % 3, 0) for n in range(300)] + [(0, 1, 8 + n % 3, 1) for n in range(300)]
    model = stage_model(stays(*rows, (0, 1, 9, 2), groups=groups), 2)
    quick, slow, new, unheard = (
        chance(model, 5, group=("p", name)) for name in ("quick", "slow", "new", "unheard of")
    )
    assert quick > 0.95
    assert slow < 0.05
    assert slow < new < quick
    assert unheard == approx(chance(model, 5, group=("p",)))
    told = forecasts(model, fresh(5, group=("p", "new")), OPEN)
    assert (int(told.depth[0]), int(told.orders[0])) == (1, 601), "one order is not enough"


@law
@given(
    st.lists(
        st.tuples(st.integers(0, 2), st.booleans(), st.integers(-1, 70), st.integers(0, 2)),
        min_size=1,
        max_size=120,
    ),
    st.integers(0, 70),
)
def test_a_chance_lies_from_0_to_1_and_rises_with_the_days(rows, waited):
    made = [(s, s + 1 if ended and day >= 0 else None, day, g) for s, ended, day, g in rows]
    model = stage_model(stays(*made, groups=(("a",), ("b",), ("c",))), 4)
    told = [
        forecasts(model, fresh(days, waited=waited, group=("a",)), OPEN) for days in (0, 3, 9, 40)
    ]
    chances = [float(one.chance[0]) for one in told if not one.is_least[0]]
    assert all(-1e-12 <= one <= 1 + 1e-9 for one in chances)
    assert chances == sorted(chances)


@pytest.mark.parametrize(
    ("rows", "why"), [([(1, 0, 1, 0)], "later stage"), ([(0, 5, 1, 0)], "later stage")]
)
def test_what_runs_backwards_is_refused(rows, why):
    with pytest.raises(ValueError, match=why):
        stage_model(stays(*rows), 3)
