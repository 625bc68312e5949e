"""How a guard comes about: stage times, a weekly allotment's queue, remakes, cancelled orders."""

from dataclasses import dataclass, fields, replace

import numpy as np

from seasonboard.sample.draws import Bools, Draws, Ints
from seasonboard.sample.schedule import DAY, END
from seasonboard.sample.truth import truth

NEVER = 2**50
STAGES = (
    "requested",
    "scanned",
    "modelled",
    "printed",
    "finished",
    "shipped",
    "delivered",
    "fitted",
)
REQUESTED, SCANNED, MODELLED, PRINTED, FINISHED, SHIPPED, DELIVERED, FITTED = range(8)
REASONS = tuple(truth().remake_reason_shares)
# Median days between making and asking again, for each reason.
_LAGS = {
    "fit": 6.0,
    "damage": 30.0,
    "print fault": 10.0,
    "scan fault": 3.0,
    "lost": 35.0,
    "body change": 50.0,
    "worn out": 70.0,
}
_KEPT_UNTIL_NEXT = ("body change", "worn out")


@dataclass(frozen=True, slots=True)
class Orders:
    """Guards asked for, as columns. Instants are local minutes since 1970, or NEVER."""

    athlete: Ints
    kind: Ints
    side: Ints
    returning: Bools
    phone: Bools
    onsite: Bools
    department: Ints
    prints: Ints  # a week; 0 where there is a printer on site
    before: Ints  # the order this one replaces, or -1
    reason: Ints  # position in REASONS, or -1
    times: Ints  # one column for each stage
    retired: Ints
    cancelled: Ints

    def __len__(self) -> int:
        """How many orders."""
        return len(self.athlete)

    @property
    def fitted(self) -> Ints:
        """When fitted."""
        return self.times[:, FITTED]


def join(first: Orders, second: Orders) -> Orders:
    """All of both."""
    columns = {
        field.name: np.concatenate((getattr(first, field.name), getattr(second, field.name)))
        for field in fields(Orders)
    }
    return Orders(**columns)


def working_hours(instant: Ints, draws: Draws) -> Ints:
    """The same instant, or the next working morning when it falls at night or on a weekend."""
    day, minute = np.divmod(instant, DAY)
    late, early = minute > 18 * 60, minute < 8 * 60
    day = day + late
    weekday = (day + 3) % 7
    weekend = weekday >= 5
    day = day + np.where(weekend, 7 - weekday, 0)
    morning = 8 * 60 + draws.below(len(instant), 120)
    return day * DAY + np.where(late | early | weekend, morning, minute)


def follow_orders(orders: Orders, draws: Draws) -> Orders:
    """Take new orders (only `requested` is set) through their stages up to the last day."""
    count = len(orders)
    times = np.full((count, len(STAGES)), NEVER, dtype=np.int64)
    times[:, REQUESTED] = orders.times[:, REQUESTED]
    medians = np.array([2.0, 1.4, 0.8, 0.7, 0.5, 2.2, 1.3])
    for stage in range(SCANNED, FITTED + 1):
        before = times[:, stage - 1]
        if stage == FITTED:  # a printer on site ships nothing
            before = np.where(orders.onsite, times[:, FINISHED], before)
        median = np.full(count, medians[stage - 1])
        if stage == SCANNED:
            median = np.where(orders.phone, 1.0, median)
        lag = np.floor(draws.skewed(count, median, shape=2.2) * DAY).astype(np.int64) + 5
        times[:, stage] = working_hours(before + np.minimum(lag, 45 * DAY), draws)
        if stage == PRINTED:
            times[:, stage] = _queued(orders, times[:, MODELLED], times[:, stage])
    times[orders.onsite, SHIPPED] = NEVER
    times[orders.onsite, DELIVERED] = NEVER
    return _cut_short(replace(orders, times=times), draws)


def _queued(orders: Orders, ready: Ints, printed: Ints) -> Ints:
    """Printing waits until its department's weekly allotment has a place (first come first served).

    The place of the i-th order is the latest of ready_week(i - k * allotment) + k over k: a
    running maximum along every allotment-th order.
    """
    limited = np.flatnonzero(orders.prints > 0)
    order = limited[np.lexsort((ready[limited], orders.department[limited]))]
    department, prints = orders.department[order], orders.prints[order]
    starts = np.flatnonzero(np.r_[True, department[1:] != department[:-1]])
    place = np.arange(len(order)) - np.repeat(starts, np.diff(np.r_[starts, len(order)]))
    turn, lane = np.divmod(place, np.maximum(prints, 1))
    week = (ready[order] // DAY + 3) // 7
    by_lane = np.lexsort((turn, lane, department))
    block = (department * 1000 + lane)[by_lane] * 100_000
    slot = np.maximum.accumulate(block + (week - turn)[by_lane]) - block
    waits = np.empty(len(order), dtype=np.int64)
    waits[by_lane] = slot + turn[by_lane]
    monday = waits * 7 - 3
    hours = monday * DAY + 8 * 60 + (lane * 5 * DAY) // np.maximum(prints, 1)
    minute = np.minimum(hours % DAY, 17 * 60 + 30)
    result = printed.copy()
    result[order] = np.where(
        waits > week, np.maximum(hours - hours % DAY + minute, printed[order]), printed[order]
    )
    return result


def _cut_short(orders: Orders, draws: Draws) -> Orders:
    """Some orders are cancelled on the way; nothing is known after the last day."""
    count = len(orders)
    times = orders.times.copy()
    stopped = draws.chance(count, truth().cancelled_share)
    last_stage = draws.below(count, PRINTED)
    lag = np.floor(draws.skewed(count, 3.0, shape=2.0) * DAY).astype(np.int64) + 30
    at_stop = times[np.arange(count), last_stage]
    cancelled = np.where(stopped, working_hours(at_stop + np.minimum(lag, 30 * DAY), draws), NEVER)
    later = np.arange(len(STAGES))[None, :] > last_stage[:, None]
    times[stopped[:, None] & later] = NEVER
    times[times > END] = NEVER
    cancelled[cancelled > END] = NEVER
    return replace(orders, times=times, cancelled=cancelled)


def with_remakes(orders: Orders, draws: Draws, *, generations: int = 3) -> Orders:
    """Follow the orders, then those that replace them, and retire what is replaced."""
    everything = follow_orders(orders, draws)
    newest = 0
    for _ in range(generations):
        everything, newest = _remade(everything, newest, draws)
    count = len(everything)
    idle = draws.chance(count, 0.05) & (everything.retired == NEVER) & (everything.fitted < NEVER)
    lag = np.floor(draws.skewed(count, 40.0, shape=2.0) * DAY).astype(np.int64)
    given_up = working_hours(np.where(idle, everything.fitted, 0) + DAY + lag, draws)
    retired = np.where(idle & (given_up <= END), given_up, everything.retired)
    return replace(everything, retired=retired)


def _remade(everything: Orders, newest: int, draws: Draws) -> tuple[Orders, int]:
    """One more generation: replacements for orders from number `newest` on."""
    planted = truth()
    count = len(everything) - newest
    old = np.arange(newest, len(everything))
    share = np.where(
        everything.phone[old], planted.remake_share_phone, planted.remake_share_scanner
    )
    again = draws.chance(count, share) & (everything.fitted[old] < NEVER)
    reason = draws.pick(count, list(planted.remake_reason_shares.values()))
    median = np.array([_LAGS[name] for name in REASONS])[reason]
    lag = np.floor(draws.skewed(count, median, shape=2.2) * DAY).astype(np.int64) + 60
    fitted = np.where(again, everything.fitted[old], 0)
    asked = working_hours(fitted + np.minimum(lag, 200 * DAY), draws)
    again &= asked <= END
    old, reason, asked = old[again], reason[again], asked[again]
    columns = {field.name: getattr(everything, field.name)[old] for field in fields(Orders)}
    times = np.full((len(old), len(STAGES)), NEVER, dtype=np.int64)
    times[:, REQUESTED] = asked
    never = np.full(len(old), NEVER, dtype=np.int64)
    columns |= {
        "before": old, "reason": reason, "times": times, "retired": never, "cancelled": never,
        "phone": columns["phone"] & (reason != REASONS.index("scan fault")),
    }  # fmt: skip
    made = follow_orders(Orders(**columns), draws)
    retired = everything.retired.copy()
    kept = np.isin(reason, [REASONS.index(name) for name in _KEPT_UNTIL_NEXT])
    retired[old] = np.where(kept, made.fitted, asked)
    return join(replace(everything, retired=retired), made), len(everything)
