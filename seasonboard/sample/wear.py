"""Which guard was worn in which session."""

from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.sample.draws import Columns, Draws, Ints, spans
from seasonboard.sample.exposure import Attendance
from seasonboard.sample.guard_tables import guard_keys
from seasonboard.sample.truth import truth
from seasonboard.sample.turnaround import NEVER, Orders


@dataclass(frozen=True, slots=True)
class Wear(Columns):
    """One row for each guard and attendance row in which it was worn."""

    order: Ints
    row: Ints


def make_wear(orders: Orders, plan: Attendance, habits: Draws, draws: Draws) -> Wear:
    """Wear between fitting and retirement; by setting and habit only, never by risk.

    Args:
        orders: The guards.
        plan: Attendance, whose rows of full or limited part may have wear.
        habits: A fresh stream from which each athlete's habit comes, the same for all guards.
        draws: The stream for everything else.
    """
    planted = truth()
    by_athlete = np.argsort(plan.athlete, kind="stable").astype(np.int64)
    athletes = int(max(plan.athlete.max(initial=0), orders.athlete.max(initial=0))) + 1
    sizes = np.bincount(plan.athlete, minlength=athletes)
    first = np.cumsum(sizes) - sizes
    place, order = spans(first[orders.athlete], sizes[orders.athlete])
    row = by_athlete[place]
    starts = plan.starts[row]
    there = (orders.fitted < NEVER)[order] & plan.took_part[row]
    there &= (starts > orders.fitted[order]) & (starts < orders.retired[order])
    order, row = order[there], row[there]
    habit = planted.worn_share_spread * (2.0 * habits.uniform(athletes)[orders.athlete] - 1.0)
    usual = np.where(plan.game[row], planted.worn_share_games, planted.worn_share_practices)
    share = np.clip(usual + habit[order], 0.05, 0.98)
    kept_in_a_bag = draws.chance(len(orders), planted.never_worn_share) & (orders.before < 0)
    kept_in_a_bag[orders.before[orders.before >= 0]] = False
    worn = draws.chance(len(order), share) & ~kept_in_a_bag[order]
    return Wear(order[worn], row[worn])


def wear_frame(wear: Wear, orders: Orders, session_keys: pl.Series, draws: Draws) -> pl.DataFrame:
    """The wear table; `session_keys` has the session of each attendance row."""
    kept_on = draws.pick(len(wear), (0.74, 0.12, 0.14))
    columns = {
        "session": session_keys.gather(wear.row),
        "guard": guard_keys(orders).gather(wear.order),
        "kept_on": pl.Series(["all", "part", None]).gather(kept_on),
    }
    return pl.DataFrame(columns).sort("session", "guard")
