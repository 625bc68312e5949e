"""Which counts to hide so that no small one can be worked out."""

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

import numpy as np

from seasonboard.disclosure.disclosure_risk import disclosed_cells, rings
from seasonboard.disclosure.feasible_ranges import SECONDS
from seasonboard.disclosure.published_figures import (
    CountRange,
    HiddenCount,
    PublishedItem,
    ShownCount,
)
from seasonboard.disclosure.release import Equation, Policy, Release


def cells_to_suppress(
    release: Release,
    policy: Policy = Policy(),  # noqa: B008 - frozen
    *,
    also: Collection[str] = (),
) -> frozenset[str]:
    """Return the cells to hide; with a cell goes everything that is worked out from it.

    Among them are small cells that do not stand in the document: what is worked out from them goes.

    First the small ones, and those of `also`. Then, for each that could still be worked out, the
    cheapest others that let it reach the threshold without changing anything shown: small values
    before large, parts before totals, never a zero (unless zeros are hidden too). The same release
    gives the same cells. Where nothing can protect a count, `disclosures` of the masked release
    still tells it.

    Source: secondary suppression by one attacker after another: Fischetti & Salazar (2000),
    Networks 36, 205-226; Hundepool et al. (2012), Statistical Disclosure Control, section 4.2.
    """
    hidden = {cell for cell, value in release.cells.items() if policy.is_small(value)}
    hidden.update(also)
    while True:
        more: set[str] = set()
        for cell in disclosed_cells(suppress(release, hidden), policy):
            more |= _partners(release, cell, hidden | more, policy)
        if not more:
            return frozenset(hidden)
        hidden |= more


def suppress(release: Release, hidden: set[str] | frozenset[str]) -> Release:
    """Return the release with cells hidden, and without what is worked out from them."""
    items: list[PublishedItem] = []
    for item in release.items:
        if hidden.isdisjoint(item.cells) or (isinstance(item, CountRange) and item.out_in):
            items.append(item)
        elif isinstance(item, ShownCount | HiddenCount):
            items.append(HiddenCount(item.cell))
    return replace(release, items=tuple(items))


def _partners(release: Release, cell: str, hidden: set[str], policy: Policy) -> set[str]:
    """Return the cheapest cells whose hiding lets a cell reach the threshold."""
    *_, reached = rings(cell, [equation.cells for equation in release.equations])
    equations = [one for one in release.equations if not reached.isdisjoint(one.cells)]
    cells = list(dict.fromkeys([cell, *(c for e in equations for c in e.cells)]))
    marked = {item.cell for item in release.items if isinstance(item, ShownCount | HiddenCount)}
    public = {c for item in release.items if not isinstance(item, HiddenCount) for c in item.cells}
    cost = _costs(release, cells, equations)
    free = {c for c in cells if c in hidden or c not in public}
    may = {c for c in cells if c in free or release.cells[c] >= policy.least_hidden}
    least = {c: min(policy.least_hidden, release.cells[c]) if c in marked else 0 for c in may}
    room = {c: (float(least[c] - release.cells[c]), math.inf) for c in may}
    for item in release.items:
        if isinstance(item, CountRange) and item.out_in and item.cell in room:
            low, high = room[item.cell]
            up = math.inf if item.high is None else item.high - release.cells[item.cell]
            room[item.cell] = max(low, item.low - release.cells[item.cell]), min(high, up)
    rise = policy.threshold - release.cells[cell]
    for reach in (4 * policy.threshold, 400 * policy.threshold):
        moved = _moved(cells, equations, (cell, rise), cost=cost, room=room, free=free, reach=reach)
        if moved:
            return {c for c in moved if c not in free}
    return set()


def _costs(
    release: Release, cells: Sequence[str], equations: Sequence[Equation]
) -> dict[str, float]:
    """Return what hiding each costs: its value, more for totals, the later of equals more."""
    totals = {cell for equation in equations for cell in equation.totals}
    largest = 1 + max(release.cells[cell] for cell in cells)
    return {
        cell: (1 + release.cells[cell]) / largest
        + (len(cells) if cell in totals else 0)
        + 1e-4 * number / len(cells)
        for number, cell in enumerate(cells)
    }


def _moved(  # noqa: PLR0913 - one program, all by name
    cells: Sequence[str],
    equations: Sequence[Equation],
    wish: tuple[str, int],
    *,
    cost: Mapping[str, float],
    room: Mapping[str, tuple[float, float]],
    free: set[str],
    reach: int,
) -> set[str]:
    """Return the cells that move in the cheapest change of the counts that lifts one of them.

    Each count may move by a whole number, within its `room` and no further than `reach`, so
    that all sums stay; a count that moves must be hidden, which costs. Empty: it cannot be done.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp

    size, place = len(cells), {cell: number for number, cell in enumerate(cells)}
    ends = np.array([room.get(c, (0.0, 0.0)) for c in cells])
    low, high = np.maximum(ends[:, 0], -reach), np.minimum(ends[:, 1], reach)
    sums = np.zeros((len(equations), 2 * size))
    for number, equation in enumerate(equations):
        for c, times in equation.terms:
            sums[number, place[c]] += times
    one = np.eye(size)
    limits = np.block([[one, -one * high], [-one, one * low]])
    paid = np.array([0.0 if c in free else cost[c] for c in cells])
    target, rise = wish
    if high[place[target]] < rise:
        return set()
    low[place[target]] = rise
    solution = milp(
        np.concatenate([np.zeros(size), paid]),
        integrality=np.ones(2 * size),
        bounds=Bounds(np.concatenate([low, np.zeros(size)]), np.concatenate([high, np.ones(size)])),
        constraints=[LinearConstraint(sums, 0, 0), LinearConstraint(limits, -math.inf, 0)],
        options={"time_limit": SECONDS, "mip_rel_gap": 0.0},
    )
    if solution.x is None:
        return set()
    return {c for c, moved in zip(cells, solution.x[:size], strict=True) if round(moved)}
