"""Recorded attendance of owners over others, beside statsmodels (Seabold & Perktold 2010).

The ratio is that of its `StratifiedTable` (Mantel-Haenszel, pooled risk ratio), the limits those of
its Poisson regression with cluster-robust errors by athlete (Zou 2004, Am J Epidemiol 159:702-706).
"""

import math

import numpy as np
import polars as pl
import pytest

from seasonboard.answers.compare.recording_checks import attendance_check

SHARES = {True: 0.9, False: 0.8}
Z = 1.959963984540054  # the 0.975 quantile of the standard normal distribution


def practices(*, athletes, strata, seed):
    """Return who is listed in each stratum, four times each; some forget more than others do."""
    draw = np.random.default_rng(seed)
    rows = []
    for athlete in range(athletes):
        is_owner = bool(athlete % 3 == 0)
        habit = np.clip(SHARES[is_owner] + draw.uniform(-0.15, 0.1), 0, 1)
        for stratum in range(strata):
            here = np.clip(habit - 0.05 * stratum, 0, 1)
            rows += [(stratum, athlete, is_owner, bool(draw.random() < here)) for _ in range(4)]
    columns = ("stratum", "athlete_no", "is_owner", "is_recorded")
    return pl.DataFrame(rows, columns, orient="row")


def poisson_by_athlete(rows):
    """Return ratio and limits of a Poisson regression on ownership and stratum."""
    from statsmodels import api

    strata = [rows["stratum"] == one for one in sorted(set(rows["stratum"]))]
    columns = np.column_stack([rows["is_owner"], *strata]).astype(float)
    model = api.GLM(rows["is_recorded"].cast(float).to_numpy(), columns, api.families.Poisson())
    by_athlete = {"groups": rows["athlete_no"].to_numpy(), "use_correction": False}
    fitted = model.fit(cov_type="cluster", cov_kwds=by_athlete)
    log, error = fitted.params[0], fitted.bse[0]
    return math.exp(log), math.exp(log - Z * error), math.exp(log + Z * error)


@pytest.mark.parametrize("seed", range(3))
def test_the_ratio_is_the_pooled_risk_ratio_of_stratified_tables(seed):
    from statsmodels.stats.contingency_tables import StratifiedTable

    rows = practices(athletes=40, strata=5, seed=seed)
    counts = rows.group_by("stratum", "is_owner").agg(
        recorded=pl.col("is_recorded").sum(), missing=(~pl.col("is_recorded")).sum()
    )
    tables = [
        counts.filter(stratum=one)
        .sort("is_owner", descending=True)["recorded", "missing"]
        .to_numpy()
        for one in range(5)
    ]
    pooled = StratifiedTable([table.astype(float) for table in tables]).riskratio_pooled
    assert attendance_check(rows, 0.95).ratio.value == pytest.approx(pooled, rel=1e-12)


@pytest.mark.parametrize(("strata", "within"), [(1, 1e-9), (4, 5e-3)])
def test_the_limits_are_those_of_poisson_regression_clustered_by_athlete(strata, within):
    """In one stratum to the last figures; in several both estimate one ratio, in two ways."""
    rows = practices(athletes=150, strata=strata, seed=7)
    found = attendance_check(rows, 0.95)
    ratio = found.ratio
    assert (ratio.value, ratio.low, ratio.high) == pytest.approx(
        poisson_by_athlete(rows), rel=within
    )
    assert found.rings, "a share of 0.9 against one of 0.8"
