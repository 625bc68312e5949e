"""What exposures lead one to expect, at rates that are a product of the levels' factors."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.indirect_standardisation import STRENGTH, MultiplicativeRates
from tests.stats.laws import law

SPORTS = {"soccer": 1.0, "rugby": 2.5, "tennis": 0.4}
SETTINGS = {"practice": 1.0, "game": 4.0}
BLOCKS = {0: 1.6, 1: 1.0, 2: 0.8}


def planted(exposures: float) -> tuple[list[tuple[object, ...]], list[float], list[float]]:
    """Cells whose injuries are exactly those of planted factors, with uneven exposures."""
    cells = list(product(SPORTS, SETTINGS, BLOCKS))
    exposed = [exposures * (1 + k % 5) for k in range(len(cells))]
    hurt = [
        0.003 * SPORTS[sport] * SETTINGS[setting] * BLOCKS[block] * t
        for (sport, setting, block), t in zip(cells, exposed, strict=True)
    ]
    return cells, hurt, exposed


def test_planted_multiplicative_rates_are_found_again():
    cells, hurt, exposed = planted(1e7)
    rates = MultiplicativeRates(cells, hurt, exposed)
    for cell, injuries, t in zip(cells, hurt, exposed, strict=True):
        assert rates.rate(cell) == pytest.approx(injuries / t, rel=1e-3)


def test_with_chance_in_the_counts_they_are_found_nearly():
    cells, hurt, exposed = planted(20_000)
    seen = np.random.default_rng(11).poisson(hurt)
    rates = MultiplicativeRates(cells, seen.tolist(), exposed)
    for cell, injuries, t in zip(cells, hurt, exposed, strict=True):
        assert rates.rate(cell) == pytest.approx(injuries / t, rel=0.1)


def test_a_cell_never_seen_borrows_from_its_levels():
    cells, hurt, exposed = planted(1e7)
    k = cells.index(("rugby", "game", 2))
    rates = MultiplicativeRates(
        cells[:k] + cells[k + 1 :], hurt[:k] + hurt[k + 1 :], exposed[:k] + exposed[k + 1 :]
    )
    assert rates.rate(cells[k]) == pytest.approx(hurt[k] / exposed[k], rel=2e-3)


def test_a_level_never_seen_counts_as_average():
    """A new sport has the rate that the sports have, everything else being equal."""
    cells = [("soccer", "game"), ("soccer", "practice"), ("rugby", "game"), ("rugby", "practice")]
    rates = MultiplicativeRates(cells, [400, 100, 400, 100], [1000, 1000, 1000, 1000])
    for setting in ("game", "practice"):
        assert rates.rate(("curling", setting)) == pytest.approx(
            rates.rate(("soccer", setting)), rel=1e-3
        )
    assert rates.rate(("curling", "nowhere")) == pytest.approx(0.25, rel=1e-2)


def test_no_rate_is_zero_even_without_an_injury():
    none = MultiplicativeRates([("a",), ("b",)], [0, 0], [100, 900])
    assert 0 < none.rate(("a",)) < 1 / 100
    some = MultiplicativeRates([("a",), ("b",)], [0, 30], [500, 500])
    assert 0 < some.rate(("a",)) < some.rate(("b",)) / 10


def test_a_single_level_is_drawn_toward_the_mean_as_said():
    """One description: (injuries + 1) / (expected + 1) times the overall rate, by hand."""
    rates = MultiplicativeRates([("a",), ("b",)], [9, 1], [100, 300])
    mean = (10 + STRENGTH / 2) / 400
    assert rates.rate(("a",)) == pytest.approx(mean * 10 / (100 * mean + 1))
    assert rates.rate(("b",)) == pytest.approx(mean * 2 / (300 * mean + 1))


def test_a_level_may_be_anything_also_nothing():
    """Position groups are not always recorded; None is a level like any other."""
    rates = MultiplicativeRates([(None, 1), ("back", 1)], [50, 10], [1000, 1000])
    assert rates.rate((None, 1)) > 3 * rates.rate(("back", 1))


counts = st.lists(
    st.tuples(st.integers(0, 3), st.integers(0, 2), st.integers(0, 20), st.integers(1, 5000)),
    min_size=1,
    max_size=15,
)


@law
@given(counts, st.randoms(use_true_random=False))
def test_rates_are_above_zero_and_order_and_names_do_not_matter(rows, chance):
    shuffled = [(f"sport {x}", y + 10, d, t) for x, y, d, t in rows]
    chance.shuffle(shuffled)
    one, other = (
        MultiplicativeRates([r[:2] for r in own], [r[2] for r in own], [r[3] for r in own])
        for own in (rows, shuffled)
    )
    for x, y, _, _ in rows:
        assert one.rate((x, y)) > 0
        assert one.rate((x, y)) == pytest.approx(other.rate((f"sport {x}", y + 10)), rel=1e-6)


@law
@given(counts)
def test_each_level_expects_what_it_saw_but_for_the_drawing_toward_the_mean(rows):
    """Where the turns have settled, expected = seen + 1 − factor, level by level."""
    rates = MultiplicativeRates([r[:2] for r in rows], [r[2] for r in rows], [r[3] for r in rows])
    for own, (levels, factors) in enumerate(zip(rates._levels, rates._factors, strict=True)):
        for level, k in levels.items():
            alike = [r for r in rows if r[own] == level]
            expected = sum(rates.rate(r[:2]) * r[3] for r in alike)
            seen = sum(r[2] for r in alike)
            assert expected == pytest.approx(seen + STRENGTH * (1 - factors[k]), abs=1e-3)
