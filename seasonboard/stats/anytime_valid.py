"""A ratio that may be looked at every week: confidence sequence and anytime evidence.

Injuries are taken in calendar order. In a session with n1 guarded and n0 bare sites at risk and m
injuries, the number of guarded ones follows Fisher's noncentral hypergeometric distribution with
odds θ. The likelihood ratio of any θ against a supposed one is a martingale when the supposed one
holds, whatever number of looks is taken; so is its mean over a fixed grid of θ. A supposed ratio
is refused once that mean reaches 1 / α (Ville's inequality), and what is never refused is the
confidence sequence.
"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.special import Floats, check_level

MIXTURE = "mixture of likelihood ratios, valid at every look"

PRIOR_SPREAD = 0.7
"""Standard deviation of the log ratios of the mixture: most weight between a fourth and four."""

_GRID: Floats = np.linspace(-2.8, 2.8, 113)
_WEIGHTS: Floats = np.exp(-((_GRID / PRIOR_SPREAD) ** 2) / 2)
_LOG_WEIGHTS: Floats = np.log(_WEIGHTS / _WEIGHTS.sum())
_WIDEST = 12.0
_CLOSE = 1e-12
_STEPS = 200


@dataclass(frozen=True, slots=True)
class RiskSet:
    """One session (and stratum) with injuries: who was at risk, and who was hurt."""

    at_risk_guarded: int
    at_risk_unguarded: int
    injuries_guarded: int
    injuries_unguarded: int

    @property
    def injuries(self) -> int:
        """Return the injuries of both groups."""
        return self.injuries_guarded + self.injuries_unguarded

    @property
    def is_informative(self) -> bool:
        """Say whether both groups were at risk, and some but not all were hurt."""
        at_risk = self.at_risk_guarded + self.at_risk_unguarded
        both = self.at_risk_guarded > 0 and self.at_risk_unguarded > 0
        return both and 0 < self.injuries < at_risk


@dataclass(frozen=True, slots=True, kw_only=True)
class AnytimeValid(Estimate):
    """Ratio, confidence sequence and anytime evidence after the injuries seen so far.

    They are valid at every look. The evidence (an e-process, in the language of its source) speaks
    against a ratio of 1: under it, it reaches 20 at any time in at most one season of twenty.
    """

    anytime_evidence: float = 1.0
    injuries: int = 0


def anytime_valid(sets: Sequence[RiskSet], *, level: float = 0.95) -> AnytimeValid:
    """Return the confidence sequence and anytime evidence after all the risk sets given.

    The order of the sets does not matter; those with only one group at risk tell nothing.

    Raises:
        ValueError: A risk set has more injuries than sites at risk, or `level` is off.

    Source: ter Schure, Pérez-Ortiz, Ly & Grünwald (2024), New Engl J Stat Data Sci 2, 190-214;
    Darling & Robbins (1967), PNAS 58, 66-68, for mixtures; McCullagh & Nelder (1989), section 7.3,
    for the noncentral hypergeometric distribution.
    """
    check_level(level)
    for s in sets:
        is_fine = 0 <= s.injuries_guarded <= s.at_risk_guarded
        if not (is_fine and 0 <= s.injuries_unguarded <= s.at_risk_unguarded):
            raise ValueError(f"more injuries than sites at risk, or fewer than 0: {s}")
    telling = [s for s in sets if s.is_informative]
    if not telling:
        return AnytimeValid(None, level=level, why="no injury where both groups were at risk")
    likelihood = _Likelihood(telling)
    logs = likelihood.at(_GRID) + _LOG_WEIGHTS
    top = float(logs.max())
    mixed = top + math.log(float(np.exp(logs - top).sum()))
    anytime_evidence = math.exp(min(mixed - likelihood.here(0.0).value, 700.0))
    bar = mixed - math.log(1 / (1 - level))
    guarded = sum(s.injuries_guarded for s in telling)
    least = sum(max(0, s.injuries - s.at_risk_unguarded) for s in telling)
    most = sum(min(s.injuries, s.at_risk_guarded) for s in telling)
    best = _highest(likelihood) if least < guarded < most else None
    low = 0.0 if guarded == least else _limit(likelihood, bar, best, side=-1.0)
    high = None if guarded == most else _limit(likelihood, bar, best, side=1.0)
    ratio = 0.0 if guarded == least else None if best is None else math.exp(best)
    why = _why(guarded - least, most - guarded, low, high)
    return AnytimeValid(
        *(ratio, low, high, level, MIXTURE, why),
        anytime_evidence=anytime_evidence,
        injuries=sum(s.injuries for s in telling),
    )


def anytime_valid_trace(
    looks: Sequence[Sequence[RiskSet]], *, level: float = 0.95
) -> tuple[AnytimeValid, ...]:
    """Return the state after each look; `looks` holds the risk sets new at each."""
    seen: list[RiskSet] = []
    states = []
    for new in looks:
        seen += new
        states.append(anytime_valid(seen, level=level))
    return tuple(states)


class _Here(NamedTuple):
    """The log likelihood at one place, and how it goes on from there."""

    value: float
    slope: float
    bend: float


class _Likelihood:
    """Log likelihood of the guarded injuries as a function of the log ratio."""

    def __init__(self, sets: Sequence[RiskSet]) -> None:
        self._guarded = float(sum(s.injuries_guarded for s in sets))
        counts = Counter((s.at_risk_guarded, s.at_risk_unguarded, s.injuries) for s in sets)
        single = np.array([(n1, n0, c) for (n1, n0, m), c in counts.items() if m == 1], float)
        self._single = single.reshape(-1, 3)
        self._several = [(_choices(n1, n0, m), c) for (n1, n0, m), c in counts.items() if m > 1]

    def at(self, log_ratios: Floats) -> Floats:
        """Return the log likelihood, up to a constant, at each log ratio."""
        n1, n0, times = self._single.T
        total: Floats = self._guarded * log_ratios
        if len(times):
            theta = np.exp(log_ratios)[:, None]
            total = total - (times * np.log(theta * n1 + n0)).sum(axis=1)
        for (counts, logs), times_seen in self._several:
            terms = logs + counts * log_ratios[:, None]
            top = terms.max(axis=1)
            total = total - times_seen * (top + np.log(np.exp(terms - top[:, None]).sum(axis=1)))
        return total

    def here(self, log_ratio: float) -> _Here:
        """Return the log likelihood at one log ratio, its slope and its bend."""
        n1, n0, times = self._single.T
        theta = math.exp(log_ratio)
        whole = theta * n1 + n0
        share = theta * n1 / whole
        value = self._guarded * log_ratio - float(times @ np.log(whole))
        slope = self._guarded - float(times @ share)
        bend = -float(times @ (share * (1 - share)))
        for (counts, logs), times_seen in self._several:
            terms = logs + counts * log_ratio
            top = float(terms.max())
            chances = np.exp(terms - top)
            total = float(chances.sum())
            mean = float(counts @ chances) / total
            value -= times_seen * (top + math.log(total))
            slope -= times_seen * mean
            bend -= times_seen * (float(counts**2 @ chances) / total - mean**2)
        return _Here(value, slope, bend)


def _why(above_least: int, below_most: int, low: float | None, high: float | None) -> str:
    if high is None:
        whole = ": every injury that tells was guarded" if below_most == 0 else ""
        return f"no upper limit yet{whole}"
    if above_least == 0:
        return "no guarded injury that tells"
    return "no lower limit yet" if low is None else ""


def _choices(n1: int, n0: int, m: int) -> tuple[Floats, Floats]:
    """Return the possible guarded counts of m injuries and the logs of their ways."""
    counts = np.arange(max(0, m - n0), min(m, n1) + 1)
    logs = [_log_ways(n1, int(k)) + _log_ways(n0, m - int(k)) for k in counts]
    return counts.astype(float), np.array(logs)


def _log_ways(n: int, k: int) -> float:
    return math.lgamma(n + 1) - math.lgamma(k + 1) - math.lgamma(n - k + 1)


def _highest(likelihood: _Likelihood) -> float:
    """Return the log ratio of the highest likelihood: Newton's steps, kept between two sides."""
    low, high, at = -_WIDEST, _WIDEST, 0.0
    for _ in range(_STEPS):
        _, slope, bend = likelihood.here(at)
        low, high = (at, high) if slope > 0 else (low, at)
        after = at - slope / bend if bend < 0 else math.inf
        if not low < after < high:
            after = (low + high) / 2
        if abs(after - at) < _CLOSE:
            return after
        at = after
    return at


def _limit(likelihood: _Likelihood, bar: float, best: float | None, *, side: float) -> float | None:
    """Return the ratio on one side at which the likelihood falls to `bar`, if it does.

    The likelihood is concave: from outside Newton's steps come nearer and never cross.
    """
    at = side * _WIDEST
    if likelihood.here(at).value > bar:
        return None
    if best is not None:
        value, _, bend = likelihood.here(best)
        near = best + side * 1.2 * math.sqrt(max(0.0, 2 * (bar - value) / bend)) if bend else at
        if abs(near) < _WIDEST and likelihood.here(near).value <= bar:
            at = near
    for _ in range(_STEPS):
        value, slope, _ = likelihood.here(at)
        step = (value - bar) / slope
        at -= step
        if abs(step) < _CLOSE:
            break
    return math.exp(at)
