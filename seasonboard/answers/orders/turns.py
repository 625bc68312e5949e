"""Drawn turns among the open orders: those not printed yet stand in the order that was drawn."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import polars as pl

from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.terms import Stage

_BEFORE_PRINT = frozenset(map(str, (Stage.REQUESTED, Stage.SCANNED, Stage.MODELLED)))


def in_turn(waiting: Sequence[OpenOrder], turns: pl.DataFrame) -> tuple[OpenOrder, ...]:
    """Return open orders with their turns; those before the print follow the order drawn.

    Only they change places with each other, department by department: whoever was drawn keeps to
    the draw, and how pressing the others are stays in sight.

    Args:
        waiting: The open orders, the most pressing first.
        turns: Rows of `orders/turns`.
    """
    drawn = {row["guard"]: row for row in turns.iter_rows(named=True)}
    if not drawn:
        return tuple(waiting)
    told = [
        replace(one, draw=row["draw"], turn=row["turn"]) if (row := drawn.get(one.guard)) else one
        for one in waiting
    ]
    places: dict[str, list[int]] = {}
    for place, one in enumerate(told):
        if one.turn is not None and one.stage in _BEFORE_PRINT:
            places.setdefault(one.department, []).append(place)
    listed = list(told)

    def order_drawn(place: int) -> tuple[date, str, int]:
        row = drawn[told[place].guard]
        return row["turn_on"], row["draw"], row["turn"]

    for own in places.values():
        for place, origin in zip(own, sorted(own, key=order_drawn), strict=True):
            listed[place] = told[origin]
    return tuple(listed)
