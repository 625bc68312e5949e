"""Exact limits for a rate ratio common to strata, given each stratum's total of injuries.

Given m injuries in a stratum with exposures T1 (guarded) and T0 (unguarded), the guarded ones are
binomial with share θT1 / (θT1 + T0). Their sum over strata is tested against its exact
distribution; one stratum alone gives the Clopper-Pearson limits turned into a ratio.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property, partial

import numpy as np

from seasonboard.stats.special import Floats, check_level, log_choose

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


@dataclass(frozen=True)
class GuardedSum:
    """What exact limits are made from, as `exact_ratio` takes it; made when first asked for."""

    guarded: int
    totals: tuple[int, ...]
    exposure_ratios: tuple[float, ...]
    level: float

    @cached_property
    def exact(self) -> ExactRatio:
        """Return the exact limits; they take long, and few who want the ratio look at them."""
        return exact_ratio(self.guarded, self.totals, self.exposure_ratios, level=self.level)


def exact_ratio(
    guarded: int,
    totals: Sequence[int],
    exposure_ratios: Sequence[float],
    *,
    level: float = 0.95,
) -> ExactRatio:
    """Return exact and mid-P limits of the common ratio guarded / unguarded.

    `guarded` are the guarded injuries, summed over the strata; of each stratum, `totals` are the
    injuries of both groups, and `exposure_ratios` T1 / T0. The Clopper-Pearson type limits go with
    the doubled one-sided p, the mid-P limits with the doubled one-sided mid-P. All are None when no
    stratum holds an injury.

    Raises:
        ValueError: `guarded` is more than the total, or a ratio is not above 0.

    Source: Breslow & Day (1987), Statistical Methods in Cancer Research II, section 3.4 and 4.3;
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
    tails, alpha = _Tails(guarded, merged), (1 - level) / 2

    def limits_and_p(own: float) -> tuple[float, float | None, float]:
        """Count the observed sum itself in a tail by a weight: 1, or 1/2 for the mid-P."""
        above, below = partial(tails.above, own), partial(tails.below, own)
        low = 0.0 if guarded == 0 else math.exp(_crossing(above, alpha, rising=True))
        high = None if guarded == whole else math.exp(_crossing(below, alpha, rising=False))
        return low, high, min(1.0, 2 * min(above(0.0), below(0.0)))

    why = "no upper limit yet: every injury was guarded" if guarded == whole else ""
    return ExactRatio(*limits_and_p(1.0), *limits_and_p(0.5), why)


class _Tails:
    """Tail probabilities of the guarded sum, as functions of the log ratio."""

    def __init__(self, guarded: int, totals: dict[float, int]) -> None:
        self._guarded = guarded
        self._totals = np.array(list(totals.values()))
        self._logits = np.log(list(totals))
        self._single = self._logits[self._totals == 1]
        self._several = [
            (log_choose(total), math.log(ratio)) for ratio, total in totals.items() if total > 1
        ]
        self._seen: dict[float, tuple[float, float, float]] = {}

    def above(self, own: float, log_ratio: float) -> float:
        _, same, above = self._three(log_ratio)
        return own * same + above

    def below(self, own: float, log_ratio: float) -> float:
        below, same, _ = self._three(log_ratio)
        return below + own * same

    def _three(self, log_ratio: float) -> tuple[float, float, float]:
        """Return P(sum below), P(sum as observed) and P(sum above)."""
        if self._guarded in (0, int(self._totals.sum())):
            return self._only_way(log_ratio)
        if log_ratio not in self._seen:
            chances = np.ones(1)
            for logs, logit in self._several:
                chances = np.convolve(chances, _binomial(logs, logit + log_ratio))
            so_far, size = chances, len(chances)
            chances = np.zeros(size + len(self._single))
            chances[:size] = so_far
            for share in 1 / (1 + np.exp(-(self._single + log_ratio))):
                guarded = chances[:size] * share
                chances[:size] *= 1 - share
                chances[1 : size + 1] += guarded
                size += 1
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


def _binomial(log_choices: Floats, logit: float) -> Floats:
    """Return the chances of 0..total guarded injuries, the share being 1 / (1 + exp(−logit))."""
    counts = np.arange(len(log_choices))
    log_share = -math.log1p(math.exp(-logit))
    rest = (len(counts) - 1 - counts) * (log_share - logit)
    chances: Floats = np.exp(log_choices + counts * log_share + rest)
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
        at_middle = gap(middle)
        if abs(at_middle) < 1e-13 or high - low < 1e-13:
            return middle
        if at_middle > 0:
            high, at_high = middle, at_middle
            at_low = at_low / 2 if last == 1 else at_low
            last = 1
        else:
            low, at_low = middle, at_middle
            at_high = at_high / 2 if last == -1 else at_high
            last = -1
    return (low + high) / 2
