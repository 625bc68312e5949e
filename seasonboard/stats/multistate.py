"""The share in each of several states by a tick, when passages between them go either way."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from seasonboard.stats.bounded_intervals import log_log_limits
from seasonboard.stats.special import Floats, two_sided

_EDGE = 1e-12


class Stretch(NamedTuple):
    """A stretch of ticks in one state: those after `entry` up to `leaving`; then `after`.

    `after` is the next state, or None where nothing more is known (censored). The first stretch of
    each begins after tick 0. `number` is how many such stretches there are.
    """

    state: str
    entry: int
    leaving: int
    after: str | None
    number: int = 1


@dataclass(frozen=True, slots=True)
class StatePoint:
    """One tick: the share in each state just after it; `at_risk` counts those followed there.

    Shares add up to 1. The standard error and limits of a share are None where it is 0 or 1.
    """

    tick: int
    share: tuple[float, ...]
    std_error: tuple[float | None, ...]
    low: tuple[float | None, ...]
    high: tuple[float | None, ...]
    at_risk: tuple[int, ...]


def state_shares(
    stretches: Sequence[Stretch], states: Sequence[str], *, level: float = 0.95
) -> tuple[StatePoint, ...]:
    """Return the Aalen-Johansen share of each state, from tick 0 to the last with a passage.

    Args:
        stretches: The stretches of all who are followed, none with `leaving` at or before `entry`.
        states: Every state, in the order of the shares; a state that none leaves ends everything.
        level: Confidence level of the log-log limits.

    Raises:
        ValueError: A state is not among `states`, or a stretch holds no tick.

    Source: Aalen & Johansen (1978), Scand J Stat 5, 141-150; Andersen, Borgan, Gill & Keiding
    (1993), Statistical Models Based on Counting Processes, section IV.4.1, for the variance of the
    product of (I + dA), multinomial within a tick.
    """
    place = {state: n for n, state in enumerate(states)}
    if wrong := {s for one in stretches for s in (one.state, one.after)} - {*states, None}:
        raise ValueError(f"states that are not known: {', '.join(sorted(map(str, wrong)))}")
    if any(one.leaving <= one.entry for one in stretches):
        raise ValueError("a stretch holds no tick")
    size = max((one.leaving for one in stretches), default=0) + 2
    come, passed = np.zeros((size, len(states))), np.zeros((size, len(states), len(states)))
    for one in stretches:
        here = place[one.state]
        come[one.entry + 1, here] += one.number
        come[one.leaving + 1, here] -= one.number
        if one.after is not None:
            passed[one.leaving, here, place[one.after]] += one.number
    at_risk = np.cumsum(come, axis=0)
    whole = come[1].clip(min=0).sum()
    if not whole:
        return ()
    share = come[1].clip(min=0) / whole
    spread = (np.diag(share) - np.outer(share, share)) / whole
    points = [_point(0, share, spread, at_risk[1], level)]
    for tick in np.flatnonzero(passed.any(axis=(1, 2))).tolist():
        share, spread = _pass(share, spread, at_risk[tick], passed[tick])
        points.append(_point(tick, share, spread, at_risk[tick], level))
    return tuple(points)


def _pass(share: Floats, spread: Floats, at_risk: Floats, passed: Floats) -> tuple[Floats, Floats]:
    """Return shares and their covariances after one tick."""
    rows = passed / np.maximum(at_risk, 1)[:, None]
    step = np.eye(len(share)) + rows - np.diag(rows.sum(axis=1))
    spread = step.T @ spread @ step
    for here in np.flatnonzero(passed.sum(axis=1)):
        chances = step[here]
        own = (np.diag(chances) - np.outer(chances, chances)) / at_risk[here]
        spread = spread + share[here] ** 2 * own
    return share @ step, spread


def _point(tick: int, share: Floats, spread: Floats, at_risk: Floats, level: float) -> StatePoint:
    z, limits = two_sided(level), []
    errors: list[float] = np.sqrt(np.maximum(np.diag(spread), 0.0)).tolist()
    for value, error in zip(share.tolist(), errors, strict=True):
        is_open = _EDGE < value < 1 - _EDGE and error > 0
        limits.append((error, *log_log_limits(value, error, z)) if is_open else (None, None, None))
    std_error, low, high = zip(*limits, strict=True)
    counts = tuple(int(n) for n in at_risk)
    return StatePoint(tick, tuple(share.tolist()), std_error, low, high, counts)
