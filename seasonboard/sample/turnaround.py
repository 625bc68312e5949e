"""How a guard comes about: stage times, a weekly allotment's queue, remakes, cancelled orders."""

from dataclasses import dataclass, replace

import numpy as np

from seasonboard.sample.draws import Bools, Columns, Draws, Ints
from seasonboard.sample.schedule import DAY, END
from seasonboard.sample.truth import truth

NEVER = 2**50
STAGES = (
    *("requested", "scanned", "modelled", "printed"),
    *("finished", "shipped", "delivered", "fitted"),
)
REQUESTED, SCANNED, MODELLED, PRINTED, FINISHED, SHIPPED, DELIVERED, FITTED = range(8)
REASONS = tuple(truth().remake_reason_shares)
# Median days between making and asking again, in the order of REASONS.
_LAGS = np.array([6.0, 30.0, 10.0, 3.0, 35.0, 50.0, 70.0])
_KEPT_UNTIL_NEXT = ("body change", "worn out")


@dataclass(frozen=True, slots=True)
class Orders(Columns):
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

    @property
    def fitted(self) -> Ints:
        """When fitted."""
        return self.times[:, FITTED]


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
    times[orders.onsite, SHIPPED : DELIVERED + 1] = NEVER
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
    is_remade = draws.chance(count, share) & (everything.fitted[old] < NEVER)
    reason = draws.pick(count, list(planted.remake_reason_shares.values()))
    lag = np.floor(draws.skewed(count, _LAGS[reason], shape=2.2) * DAY).astype(np.int64) + 60
    fitted = np.where(is_remade, everything.fitted[old], 0)
    asked = working_hours(fitted + np.minimum(lag, 200 * DAY), draws)
    is_remade &= asked <= END
    old, reason, asked = old[is_remade], reason[is_remade], asked[is_remade]
    times = np.full((len(old), len(STAGES)), NEVER, dtype=np.int64)
    times[:, REQUESTED] = asked
    never = np.full(len(old), NEVER, dtype=np.int64)
    phone = everything.phone[old] & (reason != REASONS.index("scan fault"))
    again = replace(everything.keep(old), phone=phone, before=old, reason=reason, times=times)
    again = follow_orders(replace(again, retired=never, cancelled=never), draws)
    retired = everything.retired.copy()
    kept = np.isin(reason, [REASONS.index(name) for name in _KEPT_UNTIL_NEXT])
    retired[old] = np.where(kept, again.fitted, asked)
    return replace(everything, retired=retired).joined(again), len(everything)
