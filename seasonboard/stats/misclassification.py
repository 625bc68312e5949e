"""Bias analysis of wear that was not written down: what a ratio may be when some of it was worn."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.ratios import Strata
from seasonboard.stats.special import Floats, float_columns

METHOD = "probabilistic bias analysis, specificity 1"
SENSITIVITY = (8.0, 2.0)
"""Beta distribution of the share of worn guards that were written down: 0.80, half 0.72 to 0.89."""

DRAWS = 2000
SEED = 267
"""The same seed gives the same numbers."""


@dataclass(frozen=True, slots=True)
class OwnersBare:
    """Of each stratum, what guard owners have among the bare: injuries, and all exposures."""

    injuries: Sequence[float]
    exposures: Sequence[float]


def missed_share(worn_share: Floats | float, sensitivity: Floats) -> Floats:
    """Return the share of owners without a row who wore their guard all the same.

    With a recorded worn share q and sensitivity Se, p = min(q / Se, 1) wore it; among those without
    a row that is (p - q) / (1 - q).
    """
    q = np.asarray(worn_share, dtype=np.float64)
    worn = np.minimum(q / sensitivity, 1)
    return np.where(q < 1, (worn - q) / np.maximum(1 - q, 1e-300), 0.0)


def bias_analysis(
    strata: Strata,
    owners: OwnersBare,
    *,
    level: float = 0.95,
    sensitivity: tuple[float, float] = SENSITIVITY,
    seed: int = SEED,
) -> Estimate:
    """Return the ratio as it may be if worn guards were not always written down.

    No guard that is on record was off (specificity 1). The share on record is drawn from a Beta
    distribution, for the injured and the uninjured apart; injuries are flipped by chance, exposures
    moved as expected, and the error of the ratio is added. Value and limits are quantiles of the
    draws; a limit is None where the draws reach 0 or beyond every number.

    Raises:
        ValueError: The columns differ in length.

    Source: Fox, Lash & Greenland (2005), Int J Epidemiol 34, 1370-1376.
    """
    a, b, t1, t0, hurt, exposed = float_columns(
        *(strata.injuries_guarded, strata.injuries_unguarded),
        *(strata.exposures_guarded, strata.exposures_unguarded),
        *(owners.injuries, owners.exposures),
    )
    if not exposed.sum():
        return Estimate(None, level=level, method=METHOD, why="no guard owner was exposed bare")
    random = np.random.default_rng(seed)
    share = random.beta(*sensitivity, size=(2, DRAWS))
    injured = missed_share(_worn(a, hurt), share[0])
    uninjured = missed_share(_worn(t1 - a, exposed - hurt), share[1])
    flipped = random.binomial(hurt.astype(np.int64), injured[:, None])
    moved = flipped + uninjured[:, None] * (exposed - hurt)
    logs, errors = _log_ratios(a + flipped, b - flipped, t1 + moved, t0 - moved)
    logs += errors * random.standard_normal(DRAWS)
    logs = logs[~np.isnan(logs)]
    if not len(logs):
        return Estimate(None, level=level, method=METHOD, why="no draw gives a ratio")
    tail = (1 - level) / 2
    cuts = np.quantile(logs, [0.5, tail, 1 - tail], method="closest_observation")
    value, low, high = (float(np.exp(cut)) if np.isfinite(cut) else None for cut in cuts)
    why = "" if None not in {value, low, high} else "some draws leave a group without an injury"
    return Estimate(value, low, high, level, METHOD, why)


def _worn(worn: Floats, bare: Floats) -> float:
    both = float(worn.sum() + bare.sum())
    return float(worn.sum()) / both if both else 0.0


def _log_ratios(a: Floats, b: Floats, t1: Floats, t0: Floats) -> tuple[Floats, Floats]:
    """Return the log of the Mantel-Haenszel ratio of each row of strata, and its error."""
    every = np.maximum(t1 + t0, 1e-300)
    above, under = (a * t0 / every).sum(axis=1), (b * t1 / every).sum(axis=1)
    spread = ((a + b) * t1 * t0 / every**2).sum(axis=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        errors = np.sqrt(spread / (above * under))
        return np.log(above / under), np.where(np.isfinite(errors), errors, 0.0)
