"""What one more printer, one more print a week or a phone scan would change, from own history."""

from dataclasses import dataclass

import numpy as np
import polars as pl
from numpy.typing import NDArray

from seasonboard.answers.capacity.history import History
from seasonboard.answers.capacity.parts import WEEK_HOURS, CapacityChange
from seasonboard.answers.capacity.queue import Room
from seasonboard.stats.absence_duration import Floats
from seasonboard.stats.print_changes import PastOrders, Printers, print_change

LEAST_ORDERS = 20
"""Fewer whole past orders tell nothing of a season."""
SEED = 20261
PRINTER, PRINT, PHONE = "one more printer", "one more print a week", "phone scans, no visit"
NO_ROOM = "nothing prints now, so there is nothing to compare with"


@dataclass(frozen=True, slots=True)
class _Past:
    """Past orders of a department as numbers, and which of them were scanned by phone."""

    orders: PastOrders
    hours: Floats
    is_phone: NDArray[np.bool_]
    seen_days: float


def changes_of(
    department: str, history: History, room: Room, remakes_note: str
) -> tuple[CapacityChange, ...]:
    """Return what each change would do to a department, simulated from its past orders.

    `remakes_note` says what came back of scans by phone and by scanner.
    """
    rows = _whole(history.of(department))
    other = PRINTER if room.slot is None else PRINT
    why = room.why
    if not why and len(rows) < LEAST_ORDERS:
        why = f"fewer than {LEAST_ORDERS} past orders have asked, modelled, printed and fitted"
    if not why and not room.servers:
        why = NO_ROOM
    if why:
        return tuple(
            CapacityChange(department, change, len(rows), 0, None, None, "", why)
            for change in (other, PHONE)
        )
    past = _past(rows, history, room)
    now, before_phone = _printers(room, past), _by_phone(past)
    more = print_change(past.orders, now, _printers(_enlarged(room), past), seed=SEED)
    by_phone, phone_why = None, "" if before_phone is not None else _why_no_phone(past)
    if before_phone is not None:
        by_phone = print_change(past.orders, now, now, before=before_phone, seed=SEED)
    of = (len(rows), past.orders.weeks, past.seen_days)
    return (
        CapacityChange(department, other, *of, more, "", ""),
        CapacityChange(department, PHONE, *of, by_phone, remakes_note, phone_why),
    )


def _whole(rows: pl.DataFrame) -> pl.DataFrame:
    """Return orders with all four instants in their order."""
    return rows.filter(
        (pl.col("requested_at") <= pl.col("modelled_at"))
        & (pl.col("modelled_at") <= pl.col("printed_at"))
        & (pl.col("printed_at") <= pl.col("fitted_at"))
    )


def _enlarged(room: Room) -> Room:
    if room.slot is None:
        return Room((room.servers or 0) + 1, room.stretch)
    return Room(1, slot=WEEK_HOURS / (WEEK_HOURS / room.slot + 1))


def _printers(room: Room, past: _Past) -> Printers:
    return Printers(
        room.servers or 0, past.hours * room.stretch if room.slot is None else room.slot
    )


def _past(rows: pl.DataFrame, history: History, room: Room) -> _Past:
    asked = pl.col("requested_at")
    monday = asked.dt.truncate("1w")
    usual = pl.col("kind").replace_strict(
        history.print_hours, default=history.print_hours.get("", 0.0), return_dtype=pl.Float64
    )
    timed = rows.select(
        monday=monday,
        asked=_hours(asked - monday),
        before=_hours(pl.col("modelled_at") - asked),
        after=_hours(pl.col("fitted_at") - pl.col("printed_at")),
        hours=pl.coalesce(pl.when(pl.col("print_hours") > 0).then("print_hours"), usual),
        game=_hours(pl.col("first_game_at") - asked).fill_null(np.inf),
        took=_hours(pl.col("fitted_at") - asked),
        phone=pl.col("scan_method").eq_missing("phone"),
    )
    first = timed["monday"].min()
    week = (timed["monday"] - first).dt.total_days() // 7
    hours = timed["hours"].to_numpy()
    columns = {name: timed[name].to_numpy() for name in ("asked", "before", "after", "game")}
    past = PastOrders(
        weeks=int(week.max()) + 1,  # type: ignore[arg-type]
        week=week.to_numpy(),
        finish=hours * room.stretch,
        **columns,
    )
    seen = float(np.median(timed["took"].to_numpy())) / 24
    return _Past(past, hours, timed["phone"].to_numpy(), seen)


def _by_phone(past: _Past) -> Floats | None:
    """Return hours before the print if all were scanned by phone: others take those of a phone."""
    phones = past.orders.before[past.is_phone]
    if _why_no_phone(past):
        return None
    drawn = np.random.default_rng([SEED, 3]).choice(phones, len(past.is_phone))
    before: Floats = np.where(past.is_phone, past.orders.before, drawn)
    return before


def _why_no_phone(past: _Past) -> str:
    if past.is_phone.sum() < LEAST_ORDERS:
        return f"fewer than {LEAST_ORDERS} past orders were scanned by phone"
    return "all past orders were scanned by phone" if past.is_phone.all() else ""


def _hours(length: pl.Expr) -> pl.Expr:
    return length.dt.total_microseconds() / 3_600_000_000


def missed_words(change: CapacityChange) -> str:
    """Return what a change does to guards that miss their next game, of 100, with its range."""
    made = change.simulated
    if made is None or made.missed_change is None:
        return "–"
    ends = (made.missed_change.low_95, made.missed_change.high_95)
    mean, low, high = (f"{round(100 * end):+d}" for end in (made.missed_change.mean, *ends))
    return f"{mean} ({low} to {high})".replace("-", "−").replace("+0", "0")
