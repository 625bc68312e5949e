"""Limits that know that injuries of one athlete belong together."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.clustered_ratio import AthleteCells, ClusteredRatio, clustered_ratio
from seasonboard.stats.ratios import Strata, mantel_haenszel
from tests.front_door import reference_rows
from tests.stats.laws import law

Cell = tuple[int, int, float, float, float, float]
"""Stratum, athlete, guarded and unguarded injuries, guarded and unguarded exposures."""


def over(cells: list[Cell], *, level: float = 0.95) -> ClusteredRatio:
    columns = zip(*cells, strict=True) if cells else [()] * 6
    return clustered_ratio(AthleteCells(*columns), level=level)


def ratio_over(cells: list[Cell]) -> float | None:
    """Return the Mantel-Haenszel ratio of the same cells."""
    strata: dict[int, np.ndarray] = {}
    for stratum, _, *values in cells:
        strata[stratum] = strata.get(stratum, 0) + np.array(values, dtype=float)
    return mantel_haenszel(Strata(*zip(*strata.values(), strict=True))).value


@pytest.fixture(scope="module")
def subjects() -> list[Cell]:
    """Seizures of 59 subjects, each four periods with treatment (guarded) or with placebo."""
    return [
        (1, int(r["subject"]), int(r["events"]), 0, 1, 0)
        if r["trt"] != "placebo"
        else (1, int(r["subject"]), 0, int(r["events"]), 0, 1)
        for r in reference_rows("epil_clustered_counts.csv")
    ]


def test_seizures_of_59_subjects(subjects):
    """Thall & Vail 1990: log ratio −0.075087, cluster-robust error 0.353884 (no small-sample
    factor), as statsmodels and the closed form have it; a naive error would be 0.045318."""
    found = over(subjects)
    totals = [sum(cell[k] for cell in subjects) for k in (2, 3, 4, 5)]
    assert totals == [987, 961, 124, 112]
    assert found.athletes == 59
    assert found.std_error == pytest.approx(0.353884, abs=1e-6)
    centre = (math.log(found.low) + math.log(found.high)) / 2
    assert centre == pytest.approx(-0.075087, abs=1e-6)
    assert math.log(found.high / found.low) == pytest.approx(2 * 1.959964 * 0.353884, abs=1e-5)
    naive = math.sqrt(1 / 987 + 1 / 961)
    assert naive == pytest.approx(0.045318, abs=1e-6)
    assert found.std_error > 7 * naive


def test_the_closed_form_of_two_separate_arms(subjects):
    """Per arm the squares of (injuries − rate × exposures), summed, over the square of the sum."""
    variance = 0.0
    for hurt, exposed in ((2, 4), (3, 5)):
        rate = sum(c[hurt] for c in subjects) / sum(c[exposed] for c in subjects)
        beyond: dict[int, float] = {}
        for cell in subjects:
            beyond[cell[1]] = beyond.get(cell[1], 0.0) + cell[hurt] - rate * cell[exposed]
        variance += sum(v**2 for v in beyond.values()) / sum(c[hurt] for c in subjects) ** 2
    assert over(subjects).std_error == pytest.approx(math.sqrt(variance), rel=1e-12)


def test_a_single_stratum_is_poisson_regression_with_clustered_errors():
    """Uneven exposures, athletes in both groups: the same as statsmodels' sandwich."""
    from statsmodels import api

    chance = np.random.default_rng(3)
    athletes = 40
    frail = chance.gamma(2.0, 0.5, athletes)
    guarded, bare = chance.integers(0, 40, athletes), chance.integers(1, 40, athletes)
    a, b = chance.poisson(0.05 * frail * guarded), chance.poisson(0.08 * frail * bare)
    found = over([(1, k, a[k], b[k], guarded[k], bare[k]) for k in range(athletes)])
    exposures = np.concatenate((guarded, bare))
    seen = exposures > 0
    model = api.GLM(
        np.concatenate((a, b))[seen],
        np.column_stack((np.ones(2 * athletes), np.repeat((1.0, 0.0), athletes)))[seen],
        family=api.families.Poisson(),
        offset=np.log(exposures[seen]),
    )
    groups = np.tile(np.arange(athletes), 2)[seen]
    fitted = model.fit(
        cov_type="cluster",
        cov_kwds={"groups": groups, "use_correction": False, "df_correction": False},
    )
    assert found.std_error == pytest.approx(fitted.bse[1], rel=1e-7)
    assert math.sqrt(found.low * found.high) == pytest.approx(math.exp(fitted.params[1]), rel=1e-7)


def test_two_strata_by_hand():
    """One athlete in both strata, one in each alone; the ratio is 1.5 / 1."""
    cells = [(1, 1, 1, 0, 10, 0), (1, 2, 1, 1, 10, 20), (2, 1, 0, 1, 5, 5), (2, 3, 1, 0, 5, 5)]
    above, under = 2 * 20 / 40 + 1 * 10 / 20, 1 * 20 / 40 + 1 * 10 / 20
    theta = above / under
    base = [3 / (theta * 20 + 20), 2 / (theta * 10 + 10)]
    added = [
        0.5 * (1 - theta * base[0] * 10)
        + 0.5 * (0 - theta * base[1] * 5)
        - theta * 0.5 * (1 - base[1] * 5),
        0.5 * (1 - theta * base[0] * 10) - theta * 0.5 * (1 - base[0] * 20),
        0.5 * (1 - theta * base[1] * 5) - theta * 0.5 * (0 - base[1] * 5),
    ]
    assert sum(added) == pytest.approx(0, abs=1e-12)
    found = over(cells)
    assert found.athletes == 3
    assert found.std_error == pytest.approx(math.sqrt(sum(u * u for u in added)) / above)
    assert math.sqrt(found.low * found.high) == pytest.approx(theta)


def test_every_exposure_an_athlete_of_its_own_gives_nearly_the_model_error():
    """Independent injuries, rare: the spread between athletes is then Poisson's own."""
    cells: list[Cell] = [(1, k, int(k < 30), 0, 1, 0) for k in range(4000)]
    cells += [(1, k, 0, int(k < 4060), 0, 1) for k in range(4000, 8000)]
    model = mantel_haenszel(Strata([30], [60], [4000], [4000]))
    assert over(cells).std_error == pytest.approx(math.sqrt(1 / 30 + 1 / 60), rel=0.01)
    assert ratio_over(cells) == pytest.approx(model.value)


def test_injuries_gathered_in_few_athletes_widen_the_limits():
    spread: list[Cell] = [(1, k, 1, 0, 10, 0) if k < 12 else (1, k, 0, 1, 0, 10) for k in range(24)]
    spread += [(1, k, 0, 0, 10, 10) for k in range(24, 40)]
    heaped: list[Cell] = [
        (1, k, 6 * (k < 2), 0, 10, 0) if k < 12 else (1, k, 0, 6 * (k < 14), 0, 10)
        for k in range(24)
    ]
    heaped += [(1, k, 0, 0, 10, 10) for k in range(24, 40)]
    assert ratio_over(spread) == pytest.approx(ratio_over(heaped))
    assert over(heaped).std_error > 1.5 * over(spread).std_error


@pytest.mark.parametrize(
    "cells",
    [
        [], [(1, 1, 0, 0, 10, 10)], [(1, 1, 2, 0, 10, 10), (1, 2, 1, 0, 10, 10)],
        [(1, 1, 0, 2, 10, 10), (1, 2, 0, 1, 10, 10)], [(1, 1, 3, 0, 10, 0), (2, 2, 0, 4, 0, 10)],
    ],
)  # fmt: skip
def test_without_injuries_on_both_sides_of_shared_strata_there_are_words(cells):
    found = over(cells)
    assert (found.low, found.high, found.std_error) == (None, None, None)
    assert found.why == "no injury in one of the groups where both were exposed"
    assert found.athletes == len({cell[1] for cell in cells})


def test_a_single_athlete_has_no_spread_whatever_rounding_leaves():
    """Sums that are 0 on paper may be 1e-17 in a computer; that is no interval."""
    alone = [(k, 5, k % 3 + 1, 1, 7.3 + k, 11.1 * k + 1) for k in range(9)]
    for cells in (alone, [*alone, (99, 6, 0, 3, 0, 10)]):
        found = over(cells)
        assert (found.low, found.std_error, found.why) == (
            None,
            None,
            "a single athlete informs it",
        )


def test_athletes_who_are_all_alike_have_no_spread_either():
    found = over([(1, k, 1, 1, 10, 20) for k in range(6)])
    assert (found.low, found.high, found.why) == (None, None, "the athletes do not differ")


cell = st.tuples(
    st.integers(0, 4), st.integers(0, 6), st.integers(0, 3), st.integers(0, 3), st.integers(1, 50),
    st.integers(1, 50),
)  # fmt: skip
tables = st.lists(cell, min_size=2, max_size=20)


def same(one: ClusteredRatio, other: ClusteredRatio) -> None:
    assert (one.why, one.athletes) == (other.why, other.athletes)
    for value, known in (
        (one.low, other.low),
        (one.high, other.high),
        (one.std_error, other.std_error),
    ):
        assert value == (None if known is None else pytest.approx(known, rel=1e-6))


@law
@given(tables, st.randoms(use_true_random=False))
def test_neither_names_nor_order_nor_split_rows_matter(cells, chance):
    renamed = [(900 - 7 * s, 13 * i + 5, *rest) for s, i, *rest in cells]
    split = [(s, i, a, 0, t1, 0) for s, i, a, _, t1, _ in renamed]
    split += [(s, i, 0, b, 0, t0) for s, i, _, b, _, t0 in renamed]
    chance.shuffle(split)
    same(over(cells), over(split))


@law
@given(tables)
def test_the_limits_lie_evenly_about_the_mantel_haenszel_ratio(cells):
    found = over(cells)
    if found.low is not None:
        assert math.sqrt(found.low * found.high) == pytest.approx(ratio_over(cells))
        assert over(cells, level=0.5).low >= found.low


@law
@given(tables)
def test_swapping_the_groups_turns_the_limits_upside_down(cells):
    found = over(cells)
    swapped = over([(s, i, b, a, t0, t1) for s, i, a, b, t1, t0 in cells])
    assert found.why == swapped.why
    if found.low is not None:
        assert found.low * swapped.high == pytest.approx(1, rel=1e-6)


@law
@given(tables, st.floats(1e-4, 1e4))
def test_the_unit_of_exposure_does_not_matter(cells, unit):
    """Exposures may be expected injuries, far below 1."""
    same(over(cells), over([(*c[:4], c[4] * unit, c[5] * unit) for c in cells]))
