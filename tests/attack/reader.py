"""One who reads every release and page, and works out what he can of counts of 1 to 10.

He knows what adds up to what, that counts are whole and not negative, that no 0 is hidden, what
curves tell of the injuries between two points and distributions of the orders behind them, and
which counts did not change from one release to the next, which no reader knows. From all of it he
solves for the least and the most of each count and each change, as a linear and then as an integer
program. None of the program's own reasoning is used here: the sums are written down anew.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from seasonboard.releases.block import Block

ARMS = ("guarded", "bare")
CHAINS = (
    ("orders", "orders of which it is decided", "orders ready for the next game"),
    ("orders", "fitted guards", "remade guards"),
    (
        "athletes eligible",
        "athletes offered",
        "athletes with a guard accepted",
        "athletes with a guard fitted",
        "athletes with a guard worn",
    ),
)
SUMMED = (
    *(f"{arm} {what}" for arm in ARMS for what in ("injuries", "exposures")),
    *CHAINS[0],
)

CUTS = (
    *(f"{sport}, {sex}" for sport in ("soccer", "lacrosse") for sex in ("women", "men")),
    *("onsite printer", "weekly allotment"),
)


class Reader:
    """Everything that went out, as equations; `tell` gives what follows."""

    def __init__(self, blocks: Sequence[Block]) -> None:
        """Read the blocks that went out, the same one once."""
        self.blocks = list({block.made_in: block for block in blocks}.values())
        self.place: dict[tuple[str, int | str], int] = {}
        self.rows: list[tuple[dict[int, int], float]] = []
        self.ends: dict[int, tuple[float, float]] = {}
        self.rests: list[tuple[str, dict[int, int], int]] = []
        for block in self.blocks:
            self.read(block)

    def variable(self, block: Block, name: str) -> int:
        """Return the unknown of a count, the same as long as the count does not change."""
        key = (name, block.masked.table.cells.get(name, block.made_in))
        return self.place.setdefault(key, len(self.place))

    def between(self, block: Block, name: str, low: float, high: float) -> None:
        place = self.variable(block, name)
        least, most = self.ends.get(place, (0.0, math.inf))
        self.ends[place] = max(least, low), min(most, high)

    def adds_up(self, block: Block, total: str, parts: Iterable[str]) -> None:
        row: dict[int, int] = {self.variable(block, total): -1}
        for part in parts:
            row[self.variable(block, part)] = row.get(self.variable(block, part), 0) + 1
        self.rows.append((row, 0.0))

    def read(self, block: Block) -> None:
        """Write down what one release tells."""
        table = block.masked.table
        for name in table.shown:
            count = block.count(name)
            low, high = (1.0, math.inf) if count is None else (count, count)
            self.between(block, name, low, high)
        for total in SUMMED:
            parts = [one for cut in CUTS if (one := f"{total}, {cut}") in table.cells]
            if parts:
                self.adds_up(block, total, parts)
        cuts = ["", *(name[6:] for name in table.shown if name.startswith("orders, "))]
        for chain in CHAINS:
            for cut in cuts if chain == CHAINS[0] else [""]:
                for whole, part in pairwise(f"{step}{cut}" for step in chain):
                    if table.cells.get(part, 0) <= table.cells.get(whole, 0):
                        self.adds_up(block, whole, [part, f"{whole} without {part}"])
        for arm in ARMS:
            self.read_curve(block, arm)
        staged = [self.read_parts(block, cut) for cut in cuts]
        if len(staged) > 1:
            self.adds_up(block, staged[0], staged[1:])

    def read_parts(self, block: Block, cut: str) -> str:
        """Write down what the parts of a distribution tell of the orders behind it."""
        staged = f"orders with all their stages{cut}"
        of = [part for part in block.cuts(f"hours besides printing{cut}") if "," not in part]
        if of:
            parts = len(of)
            most = math.inf if parts == 10 else 22 * parts + 21
            self.between(block, staged, 22 * parts, most)
        rest, cells = f"orders{cut} without {staged}", block.masked.table.cells
        self.adds_up(block, f"orders{cut}", [staged, rest])
        lacking = cells[f"orders{cut}"] - cells.get(staged, 0)
        if 0 < lacking < 11:
            self.rests.append((rest, {self.variable(block, rest): 1}, lacking))
        return staged

    def read_curve(self, block: Block, arm: str) -> None:
        """Write down who was at risk, and how many were hurt between two points."""
        told = [
            (float(at), figure.value)
            for at in block.cuts(f"not yet injured, {arm}")
            if (figure := block.figure(f"not yet injured, {arm}, {at}")) is not None
        ]
        for (first, before), (at, after) in pairwise(sorted(told)):
            names = [f"at risk, {arm}, {place:g}" for place in (first, at)]
            self.adds_up(block, names[0], [names[1], f"{names[0]} without {names[1]}"])
            at_risk = [block.count(name) for name in names]
            if None in at_risk or before is None or after is None:
                continue
            most, fewest = at_risk
            low, high = (1.0, 1.0) if first == min(told)[0] else (before - 0.005, before + 0.005)
            least = fewest * (1 - (after + 0.005) / low)
            upper = math.inf
            if after > 0.005 and most > 1:
                upper = math.log((after - 0.005) / high) / math.log(1 - 1 / most)
            hurt = f"{arm} injuries up to {at:g}"
            self.between(block, hurt, max(0.0, math.floor(least)), math.ceil(upper) + 1.0)

    def targets(self) -> Iterator[tuple[str, dict[int, int], int]]:
        """Give each count and change of 1 to 10: its name, of what unknowns, its value."""
        yield from self.rests
        for block in self.blocks:
            for name, value in block.masked.table.cells.items():
                if 0 < value < 11:
                    yield name, {self.variable(block, name): 1}, value
        for number, old in enumerate(self.blocks):
            for new in self.blocks[number + 1 :]:
                for name in old.masked.table.cells.keys() | new.masked.table.cells.keys():
                    now, then = (one.masked.table.cells.get(name, 0) for one in (new, old))
                    both = all(name in one.masked.table.cells for one in (new, old))
                    if both and 0 < abs(now - then) < 11:
                        row = {self.variable(new, name): 1, self.variable(old, name): -1}
                        yield f"change of {name}", row, now - then

    def recovered(self) -> list[str]:
        """Return the counts and changes of 1 to 10 that can be one number only."""
        targets = list(self.targets())
        size = len(self.place)
        matrix, right = np.zeros((len(self.rows), size)), np.zeros(len(self.rows))
        for number, (row, rest) in enumerate(self.rows):
            for place, times in row.items():
                matrix[number, place] = times
            right[number] = rest
        ends = [self.ends.get(place, (0.0, math.inf)) for place in range(size)]
        return [
            f"{name} = {value}"
            for name, row, value in targets
            if _is_one_number(row, value, matrix, right, ends)
        ]


def _is_one_number(
    row: dict[int, int],
    value: int,
    matrix: np.ndarray,
    right: np.ndarray,
    ends: Sequence[tuple[float, float]],
) -> bool:
    goal = np.zeros(len(ends))
    for place, times in row.items():
        goal[place] = times
    limits = []
    for sign in (1, -1):
        found = linprog(sign * goal, A_eq=matrix, b_eq=right, bounds=ends)
        if found.status in {3, 4}:
            return False  # no end on this side
        if found.status:
            raise AssertionError(f"the reader contradicts himself: {found.message}")
        limits.append(sign * found.fun)
    low, high = limits
    if not low - 1e-6 <= value <= high + 1e-6:
        raise AssertionError(f"the reader is wrong: {low} to {high}, not {value}")
    if high - low > 4:
        return False
    lows, highs = zip(*ends, strict=True)
    for sign, wrong in ((1, low), (-1, high)):
        found = milp(
            sign * goal,
            integrality=np.ones(len(ends)),
            bounds=Bounds(lows, highs),
            constraints=LinearConstraint(matrix, right, right),
        )
        limit = sign * wrong if found.fun is None else found.fun
        if round(sign * limit) != value:
            return False
    return True
