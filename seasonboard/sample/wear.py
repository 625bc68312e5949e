"""Which guard was worn in which session."""

from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.sample.draws import Bools, Columns, Draws, Ints, spans
from seasonboard.sample.exposure import Attendance
from seasonboard.sample.guard_tables import guard_keys
from seasonboard.sample.truth import truth
from seasonboard.sample.turnaround import NEVER, Orders


@dataclass(frozen=True, slots=True)
class Wear(Columns):
    """One row for each guard and attendance row in which it was worn."""

    order: Ints
    row: Ints


@dataclass(frozen=True, slots=True)
class Recording:
    """How completely wear is recorded.

    Attributes:
        complete: Of each session, a place in `COMPLETE`.
        is_recorded: Of each row of wear, whether it is in the table.
        unworn: Guards in hand that are recorded as not worn.
    """

    complete: Ints
    is_recorded: Bools
    unworn: Wear


COMPLETE = ("yes", "no", None)
"""What a session says of its wear: recorded for everybody, not for everybody, nothing."""


def make_recording(
    wear: Wear, orders: Orders, attendance: Attendance, sessions: int, draws: Draws
) -> Recording:
    """Leave some wear unrecorded, by session alone: never by what was worn or who was hurt."""
    planted = truth()
    told = planted.wear_complete_share
    complete = draws.pick(sessions, (told, (1 - told) / 2, (1 - told) / 2))
    held = in_hand(orders, attendance)
    partial = complete[attendance.session[held.row]] != 0
    lost = draws.chance(len(held), planted.wear_row_missing_share) & partial
    rows = len(attendance)
    worn, place = wear.order * rows + wear.row, held.order * rows + held.row
    return Recording(
        complete, ~np.isin(worn, place[lost]), held.keep(partial & ~lost & ~np.isin(place, worn))
    )


def in_hand(orders: Orders, plan: Attendance) -> Wear:
    """Return each guard in hand in each attendance row of its athlete: fitted, not yet retired."""
    by_athlete = np.argsort(plan.athlete, kind="stable").astype(np.int64)
    athletes = int(max(plan.athlete.max(initial=0), orders.athlete.max(initial=0))) + 1
    sizes = np.bincount(plan.athlete, minlength=athletes)
    first = np.cumsum(sizes) - sizes
    place, order = spans(first[orders.athlete], sizes[orders.athlete])
    row = by_athlete[place]
    starts = plan.starts[row]
    there = (orders.fitted < NEVER)[order] & plan.took_part[row]
    there &= (starts > orders.fitted[order]) & (starts < orders.retired[order])
    return Wear(order[there], row[there])


def make_wear(orders: Orders, plan: Attendance, habits: Draws, draws: Draws) -> Wear:
    """Wear between fitting and retirement; by setting and habit only, never by risk.

    Args:
        orders: The guards.
        plan: Attendance, whose rows of full or limited part may have wear.
        habits: A fresh stream from which each athlete's habit comes, the same for all guards.
        draws: The stream for everything else.
    """
    planted = truth()
    there = in_hand(orders, plan)
    order, row = there.order, there.row
    athletes = int(max(plan.athlete.max(initial=0), orders.athlete.max(initial=0))) + 1
    habit = planted.worn_share_spread * (2.0 * habits.uniform(athletes)[orders.athlete] - 1.0)
    usual = np.where(plan.game[row], planted.worn_share_games, planted.worn_share_practices)
    share = np.clip(usual + habit[order], 0.05, 0.98)
    kept_in_a_bag = draws.chance(len(orders), planted.never_worn_share) & (orders.before < 0)
    kept_in_a_bag[orders.before[orders.before >= 0]] = False
    worn = draws.chance(len(order), share) & ~kept_in_a_bag[order]
    return Wear(order[worn], row[worn])


def wear_frame(
    wear: Wear, recording: Recording, orders: Orders, session_keys: pl.Series, draws: Draws
) -> pl.DataFrame:
    """The wear table: what was recorded of it; `session_keys` has each attendance row's session."""
    kept_on = pl.Series(["all", "part", None]).gather(draws.pick(len(wear), (0.74, 0.12, 0.14)))
    stays, unworn = recording.is_recorded, recording.unworn
    order, row = np.r_[wear.order[stays], unworn.order], np.r_[wear.row[stays], unworn.row]
    columns = {
        "session": session_keys.gather(row),
        "guard": guard_keys(orders).gather(order),
        "kept_on": kept_on.filter(pl.Series(stays)).extend_constant(None, len(unworn)),
        "worn": np.repeat(["yes", "no"], [int(stays.sum()), len(unworn)]),
    }
    return pl.DataFrame(columns).sort("session", "guard")
