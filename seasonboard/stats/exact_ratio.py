"""Exact limits for a rate ratio common to strata, given each stratum's total of injuries.

Given m injuries in a stratum with exposures T1 (guarded) and T0 (unguarded), the guarded ones are
binomial with share θT1 / (θT1 + T0). Their sum over strata is tested against its exact
distribution; one stratum alone gives the Clopper-Pearson limits turned into a ratio.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.special import check_level, log_choose

MOST_WORK = 250_000
"""Strata times injuries above which the exact limits are not worked out (500 strata with one
injury each): by then the large-sample limits agree with them, and the exact ones take long."""

_WIDEST = 60.0
_STEPS = 80


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
    merged = _merged(totals, exposure_ratios)
    if 0 < guarded < whole and len(merged) > 1 and len(merged) * whole > MOST_WORK:
        why = f"not worked out for {whole} injuries in {len(merged)} strata"
        return ExactRatio(None, None, None, None, None, None, why)
    tails = _Tails(guarded, merged)
    alpha = (1 - level) / 2

    def limit(tail: Callable[[float], float], *, rising: bool) -> float:
        return math.exp(_crossing(tail, alpha, rising=rising))

    no_low, no_high = guarded == 0, guarded == whole
    return ExactRatio(
        low=0.0 if no_low else limit(tails.at_least, rising=True),
        high=None if no_high else limit(tails.at_most, rising=False),
        p=min(1.0, 2 * min(tails.at_least(0.0), tails.at_most(0.0))),
        mid_p_low=0.0 if no_low else limit(tails.mid_above, rising=True),
        mid_p_high=None if no_high else limit(tails.mid_below, rising=False),
        mid_p=min(1.0, 2 * min(tails.mid_above(0.0), tails.mid_below(0.0))),
        why="no upper limit yet: every injury was guarded" if no_high else "",
    )


class _Tails:
    """Tail probabilities of the guarded sum, as functions of the log ratio."""

    def __init__(self, guarded: int, totals: dict[float, int]) -> None:
        self._guarded = guarded
        self._totals = np.array(list(totals.values()))
        self._logits = np.log(list(totals))
        self._single = self._logits[self._totals == 1]
        self._several = [
            _Binomial(total, math.log(ratio)) for ratio, total in totals.items() if total > 1
        ]
        self._seen: dict[float, tuple[float, float, float]] = {}

    def at_least(self, log_ratio: float) -> float:
        _, same, above = self._three(log_ratio)
        return same + above

    def at_most(self, log_ratio: float) -> float:
        below, same, _ = self._three(log_ratio)
        return below + same

    def mid_above(self, log_ratio: float) -> float:
        _, same, above = self._three(log_ratio)
        return same / 2 + above

    def mid_below(self, log_ratio: float) -> float:
        below, same, _ = self._three(log_ratio)
        return below + same / 2

    def _three(self, log_ratio: float) -> tuple[float, float, float]:
        """Return P(sum below), P(sum as observed) and P(sum above)."""
        if self._guarded in (0, int(self._totals.sum())):
            return self._only_way(log_ratio)
        if log_ratio not in self._seen:
            chances = np.ones(1)
            for stratum in self._several:
                chances = np.convolve(chances, stratum.chances(log_ratio))
            for share in 1 / (1 + np.exp(-(self._single + log_ratio))):
                longer = np.zeros(len(chances) + 1)
                longer[:-1] = chances * (1 - share)
                longer[1:] += chances * share
                chances = longer
            at = self._guarded
            self._seen[log_ratio] = (
                float(chances[:at].sum()),
                float(chances[at]),
                float(chances[at + 1 :].sum()),
            )
        return self._seen[log_ratio]

    def _only_way(self, log_ratio: float) -> tuple[float, float, float]:
        """None or all guarded can come about in one way, so there is nothing to convolve."""
        none = self._guarded == 0
        logits = self._logits + log_ratio
        same = math.exp(-float(self._totals @ np.logaddexp(0, logits if none else -logits)))
        return (0.0, same, 1 - same) if none else (1 - same, same, 0.0)


class _Binomial:
    """The guarded injuries of one stratum, given its total."""

    def __init__(self, total: int, log_exposure_ratio: float) -> None:
        self._counts = np.arange(total + 1)
        self._logit = log_exposure_ratio
        self._log_choose = log_choose(total)

    def chances(self, log_ratio: float) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
        """Return the chances of 0..total, the share being 1 / (1 + exp(−logit))."""
        logit = self._logit + log_ratio
        log_share = -math.log1p(math.exp(-logit))
        chances: np.ndarray[tuple[int], np.dtype[np.float64]] = np.exp(
            self._log_choose
            + self._counts * log_share
            + (len(self._counts) - 1 - self._counts) * (log_share - logit)
        )
        return chances


def _merged(totals: Sequence[int], ratios: Sequence[float]) -> dict[float, int]:
    """Put strata of one exposure ratio together: their sums are binomial too."""
    sums: dict[float, int] = {}
    for total, ratio in zip(totals, ratios, strict=True):
        if total:
            sums[ratio] = sums.get(ratio, 0) + total
    return sums


def _crossing(tail: Callable[[float], float], alpha: float, *, rising: bool) -> float:
    """Return the log ratio at which a monotone tail equals `alpha` (regula falsi, Illinois)."""
    sign = 1.0 if rising else -1.0
    low, high = -1.0, 1.0
    while sign * (tail(low) - alpha) > 0 and low > -_WIDEST:
        low *= 2
    while sign * (tail(high) - alpha) < 0 and high < _WIDEST:
        high *= 2
    log_alpha = math.log(alpha)

    def gap(at: float) -> float:
        return sign * (math.log(max(tail(at), 1e-300)) - log_alpha)

    at_low, at_high = gap(low), gap(high)
    last = 0
    for _ in range(_STEPS):
        middle = high - at_high * (high - low) / (at_high - at_low)
        found = gap(middle)
        if abs(found) < 1e-13 or high - low < 1e-13:
            return middle
        if found > 0:
            high, at_high = middle, found
            at_low = at_low / 2 if last == 1 else at_low
            last = 1
        else:
            low, at_low = middle, found
            at_high = at_high / 2 if last == -1 else at_high
            last = -1
    return (low + high) / 2
