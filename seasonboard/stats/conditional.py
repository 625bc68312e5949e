"""Exact limits for a rate ratio common to strata, given each stratum's total of injuries.

Given m injuries in a stratum with exposures T1 (guarded) and T0 (unguarded), the guarded ones are
binomial with share θT1 / (θT1 + T0). Their sum over strata is tested against its exact
distribution; one stratum alone gives the Clopper-Pearson limits turned into a ratio.

Over θ the distributions of the sum are one exponential family: the chance of k is in proportion to
c(k) θᵏ. So the strata are convolved once, and every other ratio is reached by tilting.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonboard.stats.special import check_level, log_choose, two_sided

MOST_WORK = 250_000
"""Strata times injuries above which the exact limits are not worked out (500 strata with one
injury each): by then the large-sample limits agree with them, and the exact ones take long."""

_WIDEST = 60.0
_FURTHEST_START = 3.0
_STEPS = 200
_CLOSE = 1e-12
_TINY = 1e-300

_Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class ExactRatio:
    """Two exact intervals for one ratio, with two-sided p for a ratio of 1.

    A limit is None where the data set none (`why` says so): without guarded injuries the low
    limit is 0; without unguarded ones there is no upper limit yet.
    """

    low: float | None
    high: float | None
    p: float | None
    mid_p_low: float | None
    mid_p_high: float | None
    mid_p: float | None
    why: str = ""


def exact_ratio(
    guarded: int,
    totals: Sequence[int],
    exposure_ratios: Sequence[float],
    *,
    level: float = 0.95,
) -> ExactRatio:
    """Return exact and mid-P limits of the common ratio guarded / unguarded.

    Args:
        guarded: Guarded injuries, summed over the strata.
        totals: Injuries of each stratum, guarded and not.
        exposure_ratios: T1 / T0 of each stratum, above 0.
        level: Two-sided confidence level.

    Returns:
        Clopper-Pearson type limits with the doubled one-sided p, and mid-P limits with the
        doubled one-sided mid-P. All None when no stratum holds an injury.

    Raises:
        ValueError: `guarded` is more than the total, or a ratio is not above 0.

    References:
        Breslow & Day (1987), Statistical Methods in Cancer Research II, section 3.4 and 4.3;
        Lancaster (1961), J Am Stat Assoc 56, 223-234, for the mid-P.
    """
    check_level(level)
    whole = sum(totals)
    if not 0 <= guarded <= whole:
        raise ValueError(f"{guarded} guarded injuries of {whole}")
    if any(ratio <= 0 or not math.isfinite(ratio) for ratio in exposure_ratios):
        raise ValueError("every stratum needs exposures in both groups")
    if whole == 0:
        return ExactRatio(None, None, None, None, None, None, "no injuries where both were exposed")
    strata = _merged(totals, exposure_ratios)
    if guarded in {0, whole}:
        return _only_way(strata, level, none=guarded == 0)
    if len(strata.totals) > 1 and len(strata.totals) * whole > MOST_WORK:
        why = f"not worked out for {whole} injuries in {len(strata.totals)} strata"
        return ExactRatio(None, None, None, None, None, None, why)
    at_least, mid_above, at_most, mid_below = _Tails(guarded, strata, 0.0).at(np.zeros(4))[0]
    low, mid_low, high, mid_high = _limits(guarded, strata, level)
    return ExactRatio(
        low=low,
        high=high,
        p=min(1.0, 2 * float(min(at_least, at_most))),
        mid_p_low=mid_low,
        mid_p_high=mid_high,
        mid_p=min(1.0, 2 * float(min(mid_above, mid_below))),
    )


def crossings(
    gap: Callable[[_Floats], tuple[_Floats, _Floats]],
    start: _Floats,
    *,
    low: _Floats,
    high: _Floats,
    rising: NDArray[np.bool_],
) -> _Floats:
    """Return where monotone functions cross 0, all of them at once: Newton within brackets.

    Args:
        gap: Gives the functions' values and slopes, each at its own place.
        start: Where each search starts.
        low: Lower ends of the brackets; one that holds no crossing gives the end nearest to it.
        high: Upper ends.
        rising: Which of the functions rise.
    """
    at = start
    for _ in range(_STEPS):
        value, slope = gap(at)
        step = np.where(rising, -value, value) / np.maximum(np.abs(slope), _TINY)
        settled = np.abs(step) < _CLOSE
        if settled.all():
            return np.clip(at + step, low, high)
        low, high = np.where(step > 0, at, low), np.where(step > 0, high, at)
        to = np.where((at + step < low) | (at + step > high), (low + high) / 2, at + step)
        at = np.where(settled, at, to)
    return at


@dataclass(frozen=True, slots=True)
class _Strata:
    """Injuries of each stratum, and the log of T1 / T0."""

    totals: NDArray[np.int64]
    logits: _Floats


class _Tails:
    """Tail probabilities of the guarded sum, as functions of the log ratio.

    In this order: at least as many as observed, more (mid-P), at most as many, fewer (mid-P);
    mid-P counts half of the observed sum.
    """

    rising = np.array([True, True, False, False])

    def __init__(self, guarded: int, strata: _Strata, centre: float) -> None:
        """Convolve the strata at one log ratio; sums that underflow there are dropped."""
        chances = np.ones(1)
        for total, logit in zip(strata.totals.tolist(), strata.logits.tolist(), strict=True):
            chances = np.convolve(chances, _binomial(total, logit + centre))
        there = np.flatnonzero(chances)
        self._centre = centre
        self._logs = np.log(chances[there])
        self._beyond = (there - guarded).astype(float)
        above, same, below = self._beyond > 0, (self._beyond == 0) * 1.0, self._beyond < 0
        self._counted = np.stack([above + same, above + same / 2, below + same, below + same / 2])

    def at(self, log_ratios: _Floats) -> tuple[_Floats, _Floats]:
        """Return the four tails, each at its own log ratio, and the slopes of their logs."""
        terms = self._logs + (log_ratios - self._centre)[:, None] * self._beyond
        weights = np.exp(terms - terms.max(axis=1, keepdims=True))
        whole = weights.sum(axis=1)
        counted = weights * self._counted
        tails = counted.sum(axis=1)
        means = (counted * self._beyond).sum(axis=1) / np.maximum(tails, _TINY)
        return tails / whole, means - (weights * self._beyond).sum(axis=1) / whole


def _limits(guarded: int, strata: _Strata, level: float) -> list[float]:
    """Return the log ratios' limits as ratios, in the order of the tails."""
    centre, spread = _centre(guarded, strata)
    tails = _Tails(guarded, strata, centre)
    log_alpha = math.log((1 - level) / 2)

    def gap(log_ratios: _Floats) -> tuple[_Floats, _Floats]:
        found, slopes = tails.at(log_ratios)
        return np.log(np.maximum(found, _TINY)) - log_alpha, slopes

    reach = min(two_sided(level) / max(spread, _TINY), _FURTHEST_START)
    start = centre + np.where(tails.rising, -reach, reach)
    return _ratios(gap, start, tails.rising)


def _centre(guarded: int, strata: _Strata) -> tuple[float, float]:
    """Return the log ratio that expects the guarded sum, and the sum's spread there."""

    def gap(at: _Floats) -> tuple[_Floats, _Floats]:
        shares = 1 / (1 + np.exp(-np.maximum(strata.logits + at, -700.0)))
        expected = float((strata.totals * shares).sum())
        variance = float((strata.totals * shares * (1 - shares)).sum())
        return np.array([expected - guarded]), np.array([variance])

    wide = np.array([_WIDEST])
    share = guarded / int(strata.totals.sum())
    start = math.log(share / (1 - share)) - float(np.median(strata.logits))
    found = crossings(
        gap, np.clip([start], -wide, wide), low=-wide, high=wide, rising=np.array([True])
    )
    return float(found[0]), math.sqrt(float(gap(found)[1][0]))


def _only_way(strata: _Strata, level: float, *, none: bool) -> ExactRatio:
    """None or all guarded can come about in one way, so there is nothing to convolve."""
    alpha = (1 - level) / 2
    sign = 1.0 if none else -1.0

    def log_same(log_ratios: _Floats) -> tuple[_Floats, _Floats]:
        against = np.logaddexp(0, sign * (strata.logits + log_ratios[:, None]))
        shares = np.exp(sign * (strata.logits + log_ratios[:, None]) - against)
        slopes = -sign * (strata.totals * shares).sum(axis=1)
        return -(strata.totals * against).sum(axis=1), slopes

    def gap(log_ratios: _Floats) -> tuple[_Floats, _Floats]:
        logs, slopes = log_same(log_ratios)
        return logs - np.log([alpha, 2 * alpha]), slopes

    start = np.zeros(2) - float(np.median(strata.logits))
    limit, mid_limit = _ratios(gap, np.clip(start, -_WIDEST, _WIDEST), np.array([not none] * 2))
    same = math.exp(float(log_same(np.zeros(1))[0][0]))
    if none:
        return ExactRatio(0.0, limit, min(1.0, 2 * same), 0.0, mid_limit, same)
    why = "no upper limit yet: every injury was guarded"
    return ExactRatio(limit, None, min(1.0, 2 * same), mid_limit, None, same, why)


def _ratios(
    gap: Callable[[_Floats], tuple[_Floats, _Floats]], start: _Floats, rising: NDArray[np.bool_]
) -> list[float]:
    wide = np.full(len(start), _WIDEST)
    logs = crossings(gap, start, low=-wide, high=wide, rising=rising)
    return [math.exp(log) for log in logs.tolist()]


def _binomial(total: int, logit: float) -> _Floats:
    """Return the chances of 0..total, the share being 1 / (1 + exp(−logit))."""
    log_share = -float(np.logaddexp(0, -logit))
    counts = np.arange(total + 1)
    chances: _Floats = np.exp(
        log_choose(total) + counts * log_share + (total - counts) * (log_share - logit)
    )
    return chances


def _merged(totals: Sequence[int], ratios: Sequence[float]) -> _Strata:
    """Put strata of one exposure ratio together: their sums are binomial too."""
    sums: dict[float, int] = {}
    for total, ratio in zip(totals, ratios, strict=True):
        if total:
            sums[ratio] = sums.get(ratio, 0) + total
    return _Strata(np.array(list(sums.values())), np.log(list(sums)))
