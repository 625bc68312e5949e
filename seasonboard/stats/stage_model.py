"""How long something stays in each stage, and which stage follows: a multistate waiting-time model.

Days are calendar days. A stay in a stage ends in one of the later stages, or is still going on, or
was called off (both are censored: it lasted at least so long). The hazard of each passage is
counted day by day of the stay (a semi-Markov process, nonparametric). On closed days nothing is
recorded: a passage due on one is seen on the next open day, so that its day is known only to lie
after the open day before (interval-censored, shared out by the self-consistent hazard).

Groups stand in a tree, such as all orders, a plan, a department, a kind in it. A sparse group
borrows from the one above: `(passages + weight x hazard above) / (at risk + weight)`, the mean of a
Dirichlet law. The weight of each level and stage is the one under which what was seen is likeliest
(empirical Bayes). Days that few stays reach share one hazard.

Sources: Aalen & Johansen (1978), Scand J Stat 5, 141-150 (hazards of each passage); Turnbull
(1976), J R Stat Soc B 38, 290-295 (self-consistency); Carlin & Louis (2000), Bayes and Empirical
Bayes Methods for Data Analysis, sec. 3.3 (the weight). From memory.
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Path = tuple[Hashable, ...]
"""A group as the names from the tree's top to it; `()` is everything."""

DAYS = 60
"""Days looked at one by one; what lasts longer goes on with the hazard of the last."""
FEW_AT_RISK, FEW_PASSAGES = 10, 5
"""From the day on that fewer stays of all groups reach, or with fewer passages to come, the days
share one hazard, which falls with the square root of the day."""
LEAST_PASSAGES = 10
"""With fewer passages out of a stage, how long it lasts is not known."""
_WEIGHTS = (0.5, 2.0, 5.0, 12.0, 30.0, 75.0, 200.0, 1000.0)
_ROUNDS = 3


@dataclass(frozen=True, slots=True)
class Stays:
    """Stays in a stage, as columns of one length.

    Attributes:
        stage: Number of the stage, from 0.
        after: Number of the later stage it ended in; −1: still going on, or called off.
        least: First day of the stay, from 0, on which it can have ended: `most`, unless closed days
            lie between.
        most: Day of the stay on which it ended; of others the last that was seen through. −1: none.
        group: Position in `groups`.
        groups: The groups, each a path of the same length.
    """

    stage: Ints
    after: Ints
    least: Ints
    most: Ints
    group: Ints
    groups: Sequence[Path]


@dataclass(frozen=True, slots=True)
class StageModel:
    """Hazards of every passage by group and day of the stay.

    Attributes:
        nodes: Position of each group of the tree in the first axis of the arrays.
        passages: The passages seen, as (stage, later stage).
        hazards: By node, passage and day.
        at_risk: By node, stage and day.
        followed: By stage, the first day from which nothing is known of it.
        weights: By level under the top and stage: so many stays of the group above count as own.
    """

    nodes: Mapping[Path, int]
    passages: tuple[tuple[int, int], ...]
    hazards: Floats
    at_risk: Floats
    followed: Ints
    weights: Floats

    @property
    def stages(self) -> int:
        """Return how many stages there are."""
        return len(self.followed)

    def node(self, path: Path) -> int:
        """Return the position of a group, or of the nearest above it that has a history."""
        depths = range(len(path), -1, -1)
        return next(self.nodes[path[:k]] for k in depths if path[:k] in self.nodes)


def stage_model(stays: Stays, stages: int) -> StageModel:
    """Estimate how long each stage lasts and what follows it, by group.

    Args:
        stays: What was seen; at least one group.
        stages: How many stages there are; the last one is the end.

    Raises:
        ValueError: The columns differ in length, or a stage follows that is not a later one.
    """
    _check(stays, stages)
    passed = stays.after >= 0
    codes = np.unique(stays.stage[passed] * stages + stays.after[passed]).tolist()
    passages = tuple(divmod(code, stages) for code in codes)
    depth = max((len(path) for path in stays.groups), default=0)
    tree = [distinct([path[:level] for path in stays.groups])[0] for level in range(depth + 1)]
    nodes = {path: number for number, path in enumerate(path for row in tree for path in row)}
    if not stays.groups:
        tree, nodes = [[()]], {(): 0}
    at_risk, gone = _counts(_shared_out(stays), nodes, passages, stages)
    origin = np.array([stage for stage, _ in passages], dtype=np.int64)
    hazards = np.zeros(gone.shape)
    hazards[0] = _top(at_risk[0], gone[0], origin)
    weights = np.zeros((len(tree) - 1, stages))
    for level, row in enumerate(tree[1:]):
        own = np.array([nodes[path] for path in row])
        above = hazards[[nodes[path[:-1]] for path in row]]
        for stage in np.unique(origin).tolist():
            out = np.flatnonzero(origin == stage)
            risk, seen, usual = at_risk[own, stage], gone[np.ix_(own, out)], above[:, out]
            weight = weights[level, stage] = _weight(risk, seen, usual)
            pooled = (seen + weight * usual) / (risk[:, None] + weight)
            hazards[np.ix_(own, out)] = pooled
    followed = _followed(at_risk[0], gone[0], origin, stages)
    return StageModel(nodes, passages, hazards, at_risk, followed, weights)


def _check(stays: Stays, stages: int) -> None:
    columns = (stays.stage, stays.after, stays.least, stays.most, stays.group)
    if len({len(column) for column in columns}) != 1:
        raise ValueError("the columns of stays differ in length")
    passed = stays.after >= 0
    if (stays.after[passed] <= stays.stage[passed]).any() or (stays.after >= stages).any():
        raise ValueError("a stay ends in a later stage, or in none")


@dataclass(frozen=True, slots=True)
class _Days:
    """Stays with a row for each day on which they can have ended, and the share of that day."""

    stage: Ints
    after: Ints
    day: Ints
    group: Ints
    groups: Sequence[Path]
    share: Floats


def _shared_out(stays: Stays) -> _Days:
    """Return stays with the days that closed days leave open, by the self-consistent hazard."""
    least = np.minimum(np.where(stays.after >= 0, stays.least, stays.most), DAYS - 1)
    most = np.minimum(stays.most, DAYS - 1)
    is_seen = most >= 0
    width = np.where(is_seen, most - np.maximum(least, 0) + 1, 0)
    row = np.repeat(np.arange(len(width)), width)
    day = np.maximum(least, 0)[row] + np.arange(len(row)) - np.repeat(width.cumsum() - width, width)
    stage = stays.stage[row]
    share = 1 / width[row]
    passed = stays.after[row] >= 0
    stages = int(stage.max(initial=0)) + 1
    for _ in range(_ROUNDS if (width > 1).any() else 0):
        counts = np.zeros((2, stages, DAYS))
        np.add.at(counts[0], (stage, day), share)
        np.add.at(counts[1], (stage[passed], day[passed]), share[passed])
        risk = counts[0, :, ::-1].cumsum(axis=1)[:, ::-1]
        hazard = counts[1] / np.maximum(risk, 1e-9)
        stays_on = np.cumprod(1 - np.minimum(hazard, 1.0), axis=1)
        before = np.concatenate((np.ones((stages, 1)), stays_on[:, :-1]), axis=1)
        density = (hazard * before)[stage, day] + 1e-12
        total = np.bincount(row, density, minlength=len(width))[row]
        share = density / total
    return _Days(stage, stays.after[row], day, stays.group[row], stays.groups, share)


def _counts(
    days: _Days, nodes: Mapping[Path, int], passages: Sequence[tuple[int, int]], stages: int
) -> tuple[Floats, Floats]:
    """Return who was at risk by node, stage and day, and passages by node, passage and day."""
    number = np.full((stages, stages), -1)
    for position, pair in enumerate(passages):
        number[pair] = position
    passed = days.after >= 0
    kind = number[days.stage[passed], days.after[passed]]
    risk = np.zeros((len(nodes), stages, DAYS))
    gone = np.zeros((len(nodes), len(passages), DAYS))
    depth = max((len(path) for path in days.groups), default=-1)
    for level in range(depth + 1):
        at = np.array([nodes[path[:level]] for path in days.groups], dtype=np.int64)[days.group]
        np.add.at(risk, (at, days.stage, days.day), days.share)
        np.add.at(gone, (at[passed], kind, days.day[passed]), days.share[passed])
    return risk[:, :, ::-1].cumsum(axis=2)[:, :, ::-1], gone


def _top(at_risk: Floats, gone: Floats, origin: Ints) -> Floats:
    """Return the hazards of all groups together; the days that few stays reach share one."""
    hazards = gone / np.maximum(at_risk[origin], 1e-9)
    for stage in np.unique(origin).tolist():
        own = origin == stage
        risk, passed = at_risk[stage], gone[own]
        to_come = passed.sum(axis=0)[::-1].cumsum()[::-1]
        reached = int(((risk >= FEW_AT_RISK) & (to_come >= FEW_PASSAGES)).sum())
        begin = max(
            reached - 1, 0
        )  # the last day reached has its part in what those after it share
        falling = ((begin + 1) / np.arange(begin + 1, DAYS + 1)) ** 0.5
        expected = (risk[begin:] * falling).sum() + 1
        shared = (passed[:, begin:].sum(axis=1) + 0.5 / own.sum()) / expected
        hazards[own, reached:] = (shared[:, None] * falling)[:, reached - begin :]
    return hazards


def _weight(at_risk: Floats, gone: Floats, above: Floats) -> float:
    """Return the weight of the group above under which the passages out of a stage are likeliest.

    Each day of each group is a Dirichlet-multinomial count: which passage, or none.
    """
    from scipy.special import gammaln

    group, day = np.nonzero(at_risk > 1e-9)
    n = at_risk[group, day]
    seen = gone[group, :, day].T
    seen = np.maximum(np.concatenate((seen, [n - seen.sum(axis=0)])), 0.0)
    usual = np.clip(above[group, :, day].T, 1e-5, 1.0)
    usual = np.concatenate((usual, [np.clip(1 - usual.sum(axis=0), 1e-5, 1.0)]))
    usual /= usual.sum(axis=0)
    matters = seen > 0
    seen, usual = seen[matters], usual[matters]
    likely = [
        float((gammaln(seen + w * usual) - gammaln(w * usual)).sum())
        + float((gammaln(w) - gammaln(n + w)).sum())
        for w in _WEIGHTS
    ]
    return _WEIGHTS[int(np.argmax(likely))]


def _followed(at_risk: Floats, gone: Floats, origin: Ints, stages: int) -> Ints:
    """Return by stage the first day from which nothing is known of it, DAYS where all is."""
    followed = np.zeros(stages, dtype=np.int64)
    for stage in np.unique(origin).tolist():
        risk, passed = at_risk[stage], gone[origin == stage].sum(axis=0)
        if passed.sum() < LEAST_PASSAGES:
            continue
        still = float(np.prod(1 - np.minimum(passed / np.maximum(risk, 1e-9), 1.0)))
        followed[stage] = DAYS if still <= 0.5 else int((risk > 1e-9).sum())
    return followed


def distinct(paths: Sequence[Path]) -> tuple[list[Path], Ints]:
    """Return each path once, and of every one its position among them."""
    number: dict[Path, int] = {}
    group = [number.setdefault(path, len(number)) for path in paths]
    return list(number), np.array(group, dtype=np.int64)
