"""Which counts to hide so that no guarded one can be worked out."""

import math
from collections.abc import Sequence

import numpy as np

from seasonboard.disclosure.count_table import THRESHOLD, CountTable
from seasonboard.disclosure.reconstruction import (
    SECONDS,
    component,
    disclosed,
    is_disclosed,
    sum_rows,
)


def hidden_counts(table: CountTable) -> frozenset[str]:
    """Return the counts to hide; with one goes everything that is worked out from it.

    Among them are counts that are not shown themselves: what tells a range of them goes. First the
    guarded ones. Then, for each that could still be worked out, what tells a range of counts linked
    with it, where that is enough; else the cheapest others that let it reach what it must, nothing
    shown being changed: small values before large, parts before totals, never a 0. Where nothing
    protects a count, all that sums link with it is hidden. The same table gives the same counts.

    Source: secondary suppression by one attacker after another: Fischetti & Salazar (2000),
    Networks 36, 205-226; Hundepool et al. (2012), Statistical Disclosure Control, section 4.2.
    """
    hidden = {name for name in table.cells if table.is_guarded(name)}
    while True:
        more: set[str] = set()
        for name in disclosed(table, hidden):
            if is_disclosed(table, hidden | more, name):
                ways = (_ranges, _partners, _all_linked)
                more |= next(filter(None, (way(table, name, hidden | more) for way in ways)), set())
        if more <= hidden:
            return frozenset(hidden)
        hidden |= more


def _ranges(table: CountTable, name: str, hidden: set[str]) -> set[str]:
    """Return the counts of which a range is told, where no range told is enough for one."""
    linked = set(component(table, table.shown - hidden, name))
    told = (linked & table.ranges.keys()) - hidden
    return told if told and not is_disclosed(table, hidden | told, name) else set()


def _all_linked(table: CountTable, name: str, hidden: set[str]) -> set[str]:
    return set(component(table, (), name)) - hidden


def _partners(table: CountTable, name: str, hidden: set[str]) -> set[str]:
    """Return the cheapest counts whose hiding lets one reach what it must."""
    cells = component(table, (), name)
    free = {cell for cell in cells if cell in hidden or cell not in table.shown}
    for far in (4 * THRESHOLD, 400 * THRESHOLD):
        moved = _moved(table, name, cells, free=free, hidden=hidden, far=far)
        if moved:
            return moved - free
    return set()


def _costs(table: CountTable, cells: Sequence[str], free: set[str]) -> "np.ndarray":
    """Return what hiding each costs: its value, more for totals, the later of equals more."""
    totals = {total for total, _ in table.sums}
    largest = 1 + max(table.cells[cell] for cell in cells)
    return np.array(
        [
            0.0
            if cell in free
            else (1 + table.cells[cell]) / largest
            + len(cells) * (cell in totals)
            + 1e-4 * number / len(cells)
            for number, cell in enumerate(cells)
        ]
    )


def _room(table: CountTable, hidden: set[str], cell: str, far: int) -> tuple[float, float]:
    """Return by how much a count may move down and up for a reader who may not be told it."""
    value = table.cells[cell]
    if cell in table.shown and cell not in hidden and not value:
        return 0.0, 0.0
    low, high = table.least(cell), None
    if cell in table.ranges and cell not in hidden:
        low, high = table.ranges[cell]
    return max(low - value, -far), min(math.inf if high is None else high - value, far)


def _moved(  # noqa: PLR0913 - one program, all by name
    table: CountTable,
    name: str,
    cells: Sequence[str],
    *,
    free: set[str],
    hidden: set[str],
    far: int,
) -> set[str]:
    """Return the counts that move in the cheapest change that lifts one of them and keeps all sums.

    Each may move by a whole number, no further than `far`; one that moves must be hidden, which
    costs. Empty: it cannot be done.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp

    size, place = len(cells), cells.index(name)
    low, high = (
        np.array(side)
        for side in zip(*(_room(table, hidden, cell, far) for cell in cells), strict=True)
    )
    rise = table.reach(name) - table.cells[name]
    if high[place] < rise:
        return set()
    low[place] = rise
    rows, _ = sum_rows(table, cells)
    one = np.eye(size)
    limits = np.block([[one, -one * high], [-one, one * low]])
    sums = np.hstack([rows, np.zeros_like(rows)])
    constraints = [LinearConstraint(limits, -math.inf, 0)]
    constraints += [LinearConstraint(sums, 0, 0)] if len(rows) else []
    solution = milp(
        np.concatenate([np.zeros(size), _costs(table, cells, free)]),
        integrality=np.ones(2 * size),
        bounds=Bounds(np.concatenate([low, np.zeros(size)]), np.concatenate([high, np.ones(size)])),
        constraints=constraints,
        options={"time_limit": SECONDS, "mip_rel_gap": 0.0},
    )
    if solution.x is None:
        return set()
    return {c for c, moved in zip(cells, solution.x[:size], strict=True) if round(moved)}
