"""The chance that what waits in a stage comes to its end in time, from a model of its stages.

From a stage and the days spent in it, hazards are convolved along every path to the end, over the
open days ahead.

Source: Howard (1971), Dynamic Probabilistic Systems II, ch. 10 (convolution of stays). From memory.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.stage_model import DAYS, Bools, Floats, Ints, Path, StageModel, distinct

ENOUGH = 20
"""A group with so many stays of the stage that lasted as long is what a chance mostly rests on."""
OPEN_QUESTION = 0.05
"""With a larger part of the chance not known, only a lower bound is."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """What waits, as columns.

    Attributes:
        stage: Number of its stage.
        since: Days from the day the stage was reached to the first day ahead.
        waited: Last day of its stay that was seen through; −1: none.
        days: Days ahead until its end is wanted, that day being the last of them; 0: none.
        share: Part of that last day that still counts, 0 to 1.
        groups: Its group.
    """

    stage: Ints
    since: Ints
    waited: Ints
    days: Ints
    share: Floats
    groups: Sequence[Path]


@dataclass(frozen=True, slots=True)
class Forecasts:
    """The chance of each to come to the end in time, as columns.

    Where too much of it hangs on days of a stage of which nothing is known yet (`is_least`), it is
    what is left when these end nothing: 0 where no stay of its stage had lasted as long. `orders`
    are those that had, in the nearest group with enough: the one `depth` levels under the top.
    """

    chance: Floats
    is_least: Bools
    orders: Ints
    depth: Ints


@dataclass(frozen=True, slots=True)
class _Ahead:
    """The days ahead: hazards by node, passage and day, and the day each day's passages are seen.

    `seen_on` has one more day than are looked at, where everything later ends up.
    """

    passages: Sequence[tuple[int, int]]
    hazards: Floats
    seen_on: Ints
    stages: int

    def chances(self, waiting: Waiting, group: Ints) -> Floats:
        """Return the chance of each that waits."""
        ahead = len(self.seen_on) - 1
        days = np.minimum(waiting.days, ahead)
        ends = np.unique(np.concatenate((days - 1, days - 2)))
        ended = self._ended(ends)
        chance = np.zeros(len(group))
        for stage in np.unique(waiting.stage).tolist() if ahead else ():
            rows = np.flatnonzero(waiting.stage == stage)
            last = np.searchsorted(ends, np.stack((days[rows] - 2, days[rows] - 1)))
            chance[rows] = self._of_stage(waiting, rows, group[rows], ended, last)
        return chance

    def _passages(self, stage: int) -> list[tuple[int, int]]:
        pairs = enumerate(self.passages)
        return [(number, later) for number, (origin, later) in pairs if origin == stage]

    def _ended(self, ends: Ints) -> Floats:
        """Return the chance to have ended by node, stage, day it was reached, and last day.

        The last days are `ends`, days ahead from 0; by one before them nothing has ended.
        """
        nodes, ahead = len(self.hazards), len(self.seen_on) - 1
        ended = np.zeros((nodes, self.stages, ahead + 1, len(ends)))
        ended[:, -1, :ahead] = np.arange(ahead)[:, None] <= ends
        for stage in range(self.stages - 2, -1, -1):
            for number, left in self._densities(stage, self.hazards[:, :, :ahead]):
                later = ended[:, self.passages[number][1], self.seen_on[:ahead]]
                ended[:, stage, :ahead] += _shifted(left) @ later
        return ended

    def _densities(self, stage: int, hazards: Floats) -> list[tuple[int, Floats]]:
        """Return each passage out of a stage with its density by row and day."""
        own = self._passages(stage)
        if not own:
            return []
        stays = np.cumprod(1 - np.minimum(sum(hazards[:, n] for n, _ in own), 1.0), axis=1)
        before = np.concatenate((np.ones((len(stays), 1)), stays[:, :-1]), axis=1)
        return [(number, hazards[:, number] * before) for number, _ in own]

    def _of_stage(
        self, waiting: Waiting, rows: Ints, node: Ints, ended: Floats, last: Ints
    ) -> Floats:
        """Return the chance of `rows`, which wait in one stage; `last` are columns of `ended`."""
        ahead = len(self.seen_on) - 1
        since, waited, stage = (
            waiting.since[rows],
            waiting.waited[rows],
            int(waiting.stage[rows[0]]),
        )
        lasted = waited[:, None] + 1 + np.arange(int((ahead + since - waited).max()) - 1)
        hazards = self.hazards[node[:, None], :, np.clip(lasted, 0, DAYS - 1)].swapaxes(1, 2)
        hazards = hazards * (lasted >= 0)[:, None]  # a stay that begins later does not end before
        seen = self.seen_on[np.clip(lasted - since[:, None], 0, ahead)]
        chances = np.zeros((2, len(rows)))
        for number, density in self._densities(stage, hazards):
            later = self.passages[number][1]
            for which in range(2):
                by = ended[node[:, None], later, seen, last[which][:, None]]
                chances[which] += (density * by).sum(axis=1)
        share = waiting.share[rows]
        return np.asarray((1 - share) * chances[0] + share * chances[1])


def forecasts(model: StageModel, waiting: Waiting, is_open: Bools) -> Forecasts:
    """Return the chance of each that waits to come to the end by its day.

    Args:
        model: How long each stage lasts, and what follows.
        waiting: What waits.
        is_open: Of each day ahead, whether something is recorded on it; at most `DAYS` count.
    """
    paths, group = distinct(waiting.groups)
    node = np.array([model.node(path) for path in paths], dtype=np.int64)
    ahead = min(len(is_open), DAYS, int(waiting.days.max(initial=0)))
    seen_on = _next_open(is_open[:ahead])
    known = _Ahead(model.passages, model.hazards[node], seen_on, model.stages)
    chance = known.chances(waiting, group)
    is_least = np.zeros(len(chance), dtype=np.bool_)
    if (model.followed < DAYS).any():
        least = _followed(model, node, seen_on, hazard_after=0.0).chances(waiting, group)
        most = _followed(model, node, seen_on, hazard_after=1.0).chances(waiting, group)
        is_least = most - least > OPEN_QUESTION
        chance = np.where(is_least, least, chance)
    orders, depth = _basis(model, waiting, paths, group)
    unseen = (orders == 0) & (waiting.days > 0)  # no stay of its stage was followed for so long
    return Forecasts(np.where(unseen, 0.0, chance), is_least | unseen, orders, depth)


def _followed(model: StageModel, node: Ints, seen_on: Ints, *, hazard_after: float) -> _Ahead:
    """Return the days ahead with this hazard to end at once where nothing is known."""
    origin = np.array([stage for stage, _ in model.passages], dtype=np.int64)
    is_unknown = np.arange(DAYS) >= model.followed[:, None]
    hazards = np.where(is_unknown[origin], 0.0, model.hazards[node])
    shape = (len(node), model.stages - 1, DAYS)
    ends = np.broadcast_to(hazard_after * is_unknown[:-1], shape)
    last = model.stages - 1
    passages = (*model.passages, *((stage, last) for stage in range(last)))
    return _Ahead(passages, np.concatenate((hazards, ends), axis=1), seen_on, model.stages)


def _basis(
    model: StageModel, waiting: Waiting, paths: Sequence[Path], group: Ints
) -> tuple[Ints, Ints]:
    """Return how many orders each rests on, and how far under the top their group lies."""
    day = np.clip(waiting.waited + 1, 0, DAYS - 1)
    depth = np.zeros(len(day), dtype=np.int64)
    orders = model.at_risk[0, waiting.stage, day]
    for level in range(1, len(model.weights) + 1):
        node = np.array([model.node(path[:level]) for path in paths], dtype=np.int64)[group]
        seen = model.at_risk[node, waiting.stage, day]
        is_nearer = (seen >= ENOUGH) & (depth == level - 1)
        orders, depth = np.where(is_nearer, seen, orders), np.where(is_nearer, level, depth)
    return np.rint(orders).astype(np.int64), depth


def _shifted(left: Floats) -> Floats:
    """Return by row the matrix that moves a day on by the days left there: upper triangular."""
    days = left.shape[1]
    padded = np.concatenate((np.zeros((len(left), days)), left), axis=1)
    windows = np.lib.stride_tricks.sliding_window_view(padded, days, axis=1)
    return windows[:, days:0:-1]


def _next_open(is_open: Bools) -> Ints:
    """Return for each day ahead the first open one from it on, and one more: too late."""
    late = len(is_open)
    days = np.where(is_open, np.arange(late), late)
    return np.append(np.minimum.accumulate(days[::-1])[::-1], late).astype(np.int64)
