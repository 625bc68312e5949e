"""Random stores, as the figures of one kind of guard that a release is made of, week by week.

Counts are of departments by sport and sex, of orders by plan, and of steps of take-up, with curves
of two groups. A later week has more of everything, now and then less, as records are corrected.
"""

from dataclasses import dataclass, field
from datetime import date, timedelta
from types import SimpleNamespace

import numpy as np
import polars as pl

from seasonboard.answers.take_up.parts import STEPS
from seasonboard.releases.block import Block
from seasonboard.releases.draft import Draft
from seasonboard.releases.injuries import declare_arms, declare_curves
from seasonboard.releases.work import (
    declare_making,
    declare_remakes,
    declare_take_up,
    declare_turnaround,
)

CUTS = (("soccer", "women"), ("soccer", "men"), ("lacrosse", "women"))
PLANS = ("onsite printer", "weekly allotment")
COLUMNS = ("guarded", "bare", "guarded_exposures", "bare_exposures")
FIRST = date(2026, 9, 1)


@dataclass
class Store:
    """Counts that grow: injuries by department and cut, orders by plan, steps, ticks of curves.

    Of the orders some are `lacking` a stage, so that nobody knows how long they took.
    """

    random: np.random.Generator
    injuries: dict[tuple[str, str, str], list[int]] = field(default_factory=dict)
    orders: dict[str, list[int]] = field(default_factory=dict)
    lacking: dict[str, int] = field(default_factory=dict)
    steps: list[int] = field(default_factory=list)
    ticks: dict[str, list[list[int]]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Draw the first weeks; a department lacks a team now and then."""
        departments = [f"D{n}" for n in range(self.random.integers(1, 6))]
        for department in departments:
            for cut in CUTS:
                if self.random.random() < 0.8:
                    self.injuries[department, *cut] = self.drawn(12, 20, 3000, 5000)
        self.injuries.setdefault((departments[0], *CUTS[0]), [1, 1, 100, 100])
        self.orders = {plan: self.chain(60, 3) for plan in PLANS[: self.random.integers(1, 3)]}
        self.lacking = {plan: int(self.random.integers(0, 15)) for plan in self.orders}
        self.steps = self.chain(200, len(STEPS))
        self.ticks = {arm: self.curve() for arm in ("guarded", "bare")}

    def drawn(self, *most: int) -> list[int]:
        return [int(self.random.integers(0, high)) for high in most]

    def chain(self, most: int, length: int) -> list[int]:
        """Draw counts of which each lies within the one before."""
        counts = [int(self.random.integers(0, most))]
        while len(counts) < length:
            left = int(self.random.integers(0, 15)) if self.random.random() < 0.7 else 0
            counts.append(max(counts[-1] - left, 0))
        return counts

    def curve(self) -> list[list[int]]:
        """Draw at each tick who leaves and who is injured."""
        return [self.drawn(8, 3) for _ in range(30)]

    def grow(self) -> None:
        """Record another while: much or a little, of some; now and then records are corrected."""
        small = self.random.random() < 0.4
        sign = -1 if self.random.random() < 0.15 else 1
        for counts in self.injuries.values():
            if self.random.random() < 0.4:
                more = [self.more(small=small) for _ in counts]
                counts[0] = max(counts[0] + sign * more[0], 0)
                counts[1] = max(counts[1] + sign * more[1], 0)
                counts[2:] = counts[2] + 5 * more[2], counts[3] + 5 * more[3]
        for counts in (*self.orders.values(), self.steps):
            if self.random.random() < 0.5:
                more = [self.more(small=small) for _ in counts]
                counts[:] = [count + sum(more[n:]) for n, count in enumerate(counts)]
        for plan, count in self.lacking.items():
            self.lacking[plan] = max(count + int(self.random.integers(-3, 4)), 0)
        if self.random.random() < 0.2:
            self.ticks = {arm: self.curve() for arm in self.ticks}

    def more(self, *, small: bool) -> int:
        """Draw by how much a count grows: where not by a little, by nothing or by many."""
        if small:
            return int(self.random.integers(0, 15))
        return int(self.random.choice([0, 0, 11, 12, 15, 30]))

    def block(self, key: str, week: int, agreed: frozenset[str]) -> Block:
        """Return the figures as the program would release them, were nothing out yet."""
        draft = Draft(agreed)
        rows = [(*who, *counts) for who, counts in self.injuries.items()]
        schema = ("department", "sport", "sex", *COLUMNS)
        declare_turnaround(draft, self._timed(), pl.DataFrame({"plan": [], "departments": []}))
        declare_making(draft, self._making())
        declare_remakes(draft, self._remade())
        declare_take_up(draft, self._taken())
        declare_arms(draft, pl.DataFrame(rows, schema=schema, orient="row"))
        declare_curves(draft, self._followed())
        masked, figures = draft.masked()
        day = FIRST + timedelta(weeks=week)
        departments = len({department for department, *_ in self.injuries})
        return Block("shin", key, day, day, departments, masked, figures)

    def _timed(self) -> SimpleNamespace:
        whole = [sum(counts) for counts in zip(*self.orders.values(), strict=True)]
        groups = [_orders(plan, counts) for plan, counts in self.orders.items()]
        return SimpleNamespace(whole=_orders("", whole), groups=groups)

    def _making(self) -> pl.DataFrame:
        rows = [
            (plan, 100.0 + 10 * hour, 1)
            for plan, (orders, *_) in self.orders.items()
            for hour in range(max(orders - self.lacking[plan], 0))
        ]
        return pl.DataFrame(rows, schema=("plan", "hours", "orders"), orient="row")

    def _remade(self) -> SimpleNamespace:
        fitted = sum(counts[1] for counts in self.orders.values())
        share = 0.0 if not fitted else min(1.0, self.steps[-1] % 20 / fitted)
        whole = SimpleNamespace(fitted=fitted, within=SimpleNamespace(value=share))
        return SimpleNamespace(whole=whole, options=SimpleNamespace(window=30))

    def _taken(self) -> SimpleNamespace:
        steps = {
            name: SimpleNamespace(step=name, count=count, without_before=0)
            for name, count in zip(STEPS, self.steps, strict=True)
        }
        worn = SimpleNamespace(trials=1000, successes=500)
        return SimpleNamespace(whole=SimpleNamespace(step=steps.get, worn=worn))

    def _followed(self) -> SimpleNamespace:
        arms = {arm: _curve(ticks) for arm, ticks in self.ticks.items()}
        return SimpleNamespace(
            start=1,
            options=SimpleNamespace(clock=SimpleNamespace(value="games")),
            guarded=arms["guarded"],
            unguarded=arms["bare"],
        )


def _orders(plan: str, counts: list[int]) -> SimpleNamespace:
    orders, decided, ready = counts
    unknown = SimpleNamespace(value=None, low=None, high=None)
    return SimpleNamespace(
        key=plan,
        orders=orders,
        curve=SimpleNamespace(points=()),
        ready=SimpleNamespace(share=SimpleNamespace(trials=decided, successes=ready)),
        **dict.fromkeys(("median", "p80", "p95"), unknown),
    )


def _curve(ticks: list[list[int]]) -> SimpleNamespace:
    """Return a product-limit curve of those who are left."""
    at_risk, share, points = sum(map(sum, ticks)) + 15, 1.0, []
    for tick, (left, injured) in enumerate(ticks, start=1):
        share *= 1 - injured / at_risk
        points.append(SimpleNamespace(tick=tick, at_risk=at_risk, injuries=injured, survival=share))
        at_risk -= left + injured
    injuries = sum(injured for _, injured in ticks)
    return SimpleNamespace(injuries=injuries, compared=SimpleNamespace(points=points))
