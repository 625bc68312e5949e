"""In which order prints go, so that the fewest guards miss their next game."""

import heapq
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

MOST_TRIES = 4_000
"""Orders looked at while a list is improved; with more jobs fewer, so that time stays bounded."""
_MOST_WORK = 200_000


@dataclass(frozen=True, slots=True)
class PrintJob:
    """One print that waits. Times in hours from now.

    Attributes:
        ready: When it can begin; 0 or less: now.
        hours: How long it holds a printer, or the allotment.
        dues: When it must be over for each coming game, the next one first; none: no game.
        block: Those of a lower block go first.
        turn: Place in a drawn order within its block, which is kept; None: any place.
    """

    ready: float
    hours: float
    dues: tuple[float, ...]
    block: int = 0
    turn: int | None = None

    @property
    def due(self) -> float:
        """Return when it must be over for the next game."""
        return self.dues[0] if self.dues else math.inf


@dataclass(frozen=True, slots=True)
class PrintOrder:
    """An order of prints and what comes of it.

    Attributes:
        order: Numbers of the jobs, the first to print first.
        ends: When each job is over, in the order of the jobs; inf: never.
        missed: Jobs that miss their next game.
        bare: Games missed by all jobs together, as far as games are known.
        is_fewest: Whether no order within the same rules has fewer missed.
    """

    order: tuple[int, ...]
    ends: tuple[float, ...]
    missed: int
    bare: int
    is_fewest: bool = False

    @property
    def cost(self) -> tuple[int, int, float]:
        """Return what is to be small: missed next games, then games, then the sum of the ends."""
        return self.missed, self.bare, math.fsum(self.ends)


def in_order(jobs: Sequence[PrintJob], order: Sequence[int], printers: int) -> PrintOrder:
    """Return what comes of printing in an order.

    A printer that is free takes the first job of the list that is ready; it waits only where none
    is. Without a printer no print ends.

    Raises:
        ValueError: The order does not hold every job once, or a time is wrong.
    """
    if sorted(order) != list(range(len(jobs))):
        raise ValueError("an order holds every job once")
    if any(math.isnan(job.ready) or not job.hours >= 0 for job in jobs):
        raise ValueError("a job has a time to be ready at, and hours of 0 or more")
    ends = _ends(jobs, order, printers)
    pairs = [(end, job) for end, job in zip(ends, jobs, strict=True) if job.dues]
    missed = sum(end > job.due for end, job in pairs)
    bare = sum(end > due for end, job in pairs for due in job.dues)
    return PrintOrder(tuple(order), tuple(ends), missed, bare)


def _ends(jobs: Sequence[PrintJob], order: Sequence[int], printers: int) -> list[float]:
    ends = [math.inf] * len(jobs)
    if printers < 1:
        return ends
    free = [0.0] * printers
    coming = sorted((max(jobs[number].ready, 0.0), place) for place, number in enumerate(order))
    waiting: list[int] = []
    coming.reverse()
    at = 0.0
    while coming or waiting:
        at = max(at, free[0]) if waiting else max(free[0], coming[-1][0])
        while coming and coming[-1][0] <= at:
            heapq.heappush(waiting, coming.pop()[1])
        number = order[heapq.heappop(waiting)]
        ends[number] = at + jobs[number].hours
        heapq.heapreplace(free, ends[number])
    return ends


def moore_hodgson(hours: Sequence[float], dues: Sequence[float], start: float = 0.0) -> list[int]:
    """Return the order on one printer in which the fewest jobs are over after they are due.

    By due time; whenever one would be late, the longest so far is put behind all the others. Those
    put behind follow by due time. Every job is ready at `start`.

    Source: Moore (1968), Management Science 15, 102-109, with Hodgson's form of the algorithm.
    """
    kept: list[tuple[float, int]] = []  # the longest on top
    behind: list[int] = []
    clock = start
    by_due = sorted(range(len(hours)), key=lambda number: (dues[number], number))
    for number in by_due:
        heapq.heappush(kept, (-hours[number], -number))
        clock += hours[number]
        if clock > dues[number]:
            longest, dropped = heapq.heappop(kept)
            clock += longest
            behind.append(-dropped)
    late = set(behind)
    return [n for n in by_due if n not in late] + [n for n in by_due if n in late]


def best_order(jobs: Sequence[PrintJob], printers: int) -> PrintOrder:
    """Return an order by the rules: block after block, drawn turns as drawn, few missed.

    On one printer where all are ready no order within the rules has fewer missed (`is_fewest`).
    Else it is a list made by the same rule, improved by moving one job or swapping two while that
    makes it better; it may not be the best there is.

    Raises:
        ValueError: As `in_order`.
    """
    listed: list[int] = []
    clock = 0.0
    blocks = sorted(range(len(jobs)), key=lambda number: jobs[number].block)
    for _, members in groupby(blocks, key=lambda number: jobs[number].block):
        own = list(members)
        listed += _block_order(jobs, own, clock, max(printers, 1))
        clock += sum(jobs[number].hours for number in own) / max(printers, 1)
    found = _improved(jobs, in_order(jobs, listed, printers), printers)
    is_exact = printers == 1 and all(job.ready <= 0 for job in jobs)
    return replace(found, is_fewest=is_exact and not _is_mixed(jobs))


def _is_mixed(jobs: Sequence[PrintJob]) -> bool:
    """Say whether a block holds drawn turns beside others, which the exact rule does not know."""
    drawn = {job.block for job in jobs if job.turn is not None}
    return any(job.turn is None and job.block in drawn for job in jobs)


def _block_order(
    jobs: Sequence[PrintJob], own: Sequence[int], clock: float, printers: int
) -> list[int]:
    drawn = sorted((n for n in own if jobs[n].turn is not None), key=lambda n: jobs[n].turn or 0)
    free = [number for number in own if jobs[number].turn is None]
    order = moore_hodgson(
        [jobs[n].hours / printers for n in free], [jobs[n].due for n in free], clock
    )
    return [*drawn, *(free[place] for place in order)]


def _improved(jobs: Sequence[PrintJob], start: PrintOrder, printers: int) -> PrintOrder:
    """Move one job or swap two, within a block and not among drawn turns, while that is better."""
    best, tries = start, min(MOST_TRIES, _MOST_WORK // max(len(jobs), 1))
    moves: tuple[Callable[[list[int], int, int], None], ...] = (_moved, _swapped)
    is_better = printers > 0
    while is_better and tries > 0:
        is_better = False
        for here in range(len(jobs)):
            for there in range(len(jobs)):
                if here == there or not _may_change(jobs, best.order, here, there):
                    continue
                for move in moves:
                    listed = list(best.order)
                    move(listed, here, there)
                    tries -= 1
                    other = in_order(jobs, listed, printers)
                    if other.cost < best.cost:
                        best, is_better = other, True
                if tries <= 0:
                    return best
    return best


def _may_change(jobs: Sequence[PrintJob], order: Sequence[int], here: int, there: int) -> bool:
    """Say whether two places are of one block and hold no drawn turn between them."""
    low, high = sorted((here, there))
    if jobs[order[low]].block != jobs[order[high]].block:
        return False
    return all(jobs[number].turn is None for number in order[low : high + 1])


def _moved(listed: list[int], here: int, there: int) -> None:
    listed.insert(there, listed.pop(here))


def _swapped(listed: list[int], here: int, there: int) -> None:
    listed[here], listed[there] = listed[there], listed[here]
