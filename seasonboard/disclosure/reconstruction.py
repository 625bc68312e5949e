"""What a reader can work out of counts that are not shown, from sums and from what is shown.

The attacker's problem of cell suppression, by integer programming (HiGHS), for each component of
unknown counts that sums link. One that takes longer than `SECONDS` is taken as worked out, so that
the check errs to hiding.

Sources: Fischetti & Salazar (2000), Networks 36, 205-226; Hundepool et al. (2012), Statistical
Disclosure Control, section 4.2.2.
"""

import math
from collections.abc import Collection, Sequence

import numpy as np

from seasonboard.disclosure.count_table import CountTable

SECONDS = 1.0
"""The longest that one program may take."""


def disclosed(table: CountTable, hidden: Collection[str]) -> tuple[str, ...]:
    """Return the guarded counts that a reader can tell from one that may be shown.

    Safe is a count that, for all a reader knows, may be `table.reach`: no one can then tell it
    from a count of the threshold or more, and it has several values.
    """
    return tuple(name for name in table.cells if is_disclosed(table, hidden, name))


def is_disclosed(table: CountTable, hidden: Collection[str], name: str) -> bool:
    """Say whether a count is guarded, and a reader can tell it from one that may be shown."""
    if not table.is_guarded(name):
        return False
    most = highest(table, hidden, name, cap=max(table.reach(name), table.cells[name]))
    return most is None or most < table.reach(name)


def component(table: CountTable, known: Collection[str], name: str) -> list[str]:
    """Return the unknown counts that sums link with one, itself included, in a fixed order."""
    linked, size = {name}, 0
    sums = [[c for c in (total, *parts) if c not in known] for total, parts in table.sums]
    while len(linked) > size:
        size = len(linked)
        linked.update(*(one for one in sums if not linked.isdisjoint(one)))
    return [cell for cell in table.cells if cell in linked]


def sum_rows(table: CountTable, cells: Sequence[str]) -> "tuple[np.ndarray, np.ndarray]":
    """Return the sums that link some counts: a row of signs for each, and what the others leave."""
    place = {cell: number for number, cell in enumerate(cells)}
    rows, rests = [], []
    for total, parts in table.sums:
        if not place.keys().isdisjoint((total, *parts)):
            row, rest = np.zeros(len(cells)), 0
            for cell, sign in ((total, -1), *((part, 1) for part in parts)):
                if cell in place:
                    row[place[cell]] += sign
                else:
                    rest -= sign * table.cells[cell]
            rows.append(row)
            rests.append(rest)
    return np.array(rows).reshape(-1, len(cells)), np.array(rests, dtype=float)


def highest(
    table: CountTable, hidden: Collection[str], name: str, *, cap: float = math.inf
) -> int | None:
    """Return the highest value, up to `cap`, that a count can have for a reader.

    None: that took too long.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp

    known = table.shown - set(hidden)
    if name in known:
        return table.cells[name]
    cells = component(table, known, name)
    goal = np.array([-1.0 if cell == name else 0.0 for cell in cells])
    ends = [_ends(table, hidden, cell) for cell in cells]
    low, high = (np.array(side, dtype=float) for side in zip(*ends, strict=True))
    place = cells.index(name)
    high[place] = min(high[place], cap)
    rows, rests = sum_rows(table, cells)
    solution = milp(
        goal,
        integrality=np.ones(len(cells)),
        bounds=Bounds(low, high),
        constraints=LinearConstraint(rows, rests, rests) if len(rows) else (),
        options={"time_limit": SECONDS, "mip_rel_gap": 0.0},
    )
    return None if solution.x is None else round(solution.x[place])


def _ends(table: CountTable, hidden: Collection[str], cell: str) -> tuple[float, float]:
    if cell in table.ranges and cell not in hidden:
        low, high = table.ranges[cell]
        return low, math.inf if high is None else high
    return table.least(cell), math.inf
