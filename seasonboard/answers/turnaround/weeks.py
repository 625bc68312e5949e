"""Turnaround week by week: of the orders that began in a week, the median with open ones counted.

Weekly medians of finished orders would make every late order vanish from its week, and make the
last weeks look quick, since only their quick orders are done. So a week is the week of the
beginning, and its median is Kaplan-Meier's. It sets limits only when its last order was followed
for as long as four in five orders take: then a slow week would have shown as well.
"""

from dataclasses import dataclass, replace
from datetime import date, timedelta

import polars as pl

from seasonboard.answers.orders.order_times import Unit, between, curve_of, local_days, timed
from seasonboard.answers.turnaround.groups import TurnaroundGroup
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.stats.control_charts import IndividualsChart, individuals_chart
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.waiting_times import wait_quantile
from seasonboard.stats.working_time import working_days

MIN_ORDERS = 3
"""A week with fewer orders sets no limits."""
MIN_WEEKS = 4
"""With fewer weeks there are no control limits."""


@dataclass(frozen=True, slots=True)
class Week:
    """Orders that began in one ISO week (`monday`), open ones counted up to their age.

    Weeks that set the control limits were reached, and are old enough that a slow one would show.
    `is_outside` is None, with `why`, where a week is not held against them.
    """

    monday: date
    orders: int
    finished: int
    median: Estimate
    sets_limits: bool = False
    is_outside: bool | None = None
    why: str = ""


def by_week(
    orders: pl.DataFrame, options: TurnaroundOptions, whole: TurnaroundGroup, through: date
) -> tuple[tuple[Week, ...], IndividualsChart]:
    """Return the weeks in which orders began, and the control limits of their medians.

    Args:
        orders: Rows of `orders/orders`.
        options: Stages and unit.
        whole: All orders together: its 80th percentile says how old a week must be.
        through: The last day known.
    """
    sound = between(orders, options.start, options.end, options.unit).filter(
        pl.col("aside").is_null()
    )
    if sound.is_empty():
        return (), IndividualsChart(why="there are no orders")
    monday = local_days(sound, "from_at").dt.truncate("1w").alias("monday")
    rows = timed(sound, options.unit, options.holidays).with_columns(monday).sort("monday")
    weeks = []
    for (start,), part in rows.partition_by("monday", as_dict=True).items():
        curve = curve_of(part, whole.curve.level)
        week = Week(start, curve.orders, curve.finished, wait_quantile(curve))
        weeks.append(_charted(week, options, whole, through))
    charted = [w.median.value for w in weeks if w.sets_limits and w.median.value is not None]
    if len(charted) < MIN_WEEKS:
        why = f"fewer than {MIN_WEEKS} weeks are old enough, with {MIN_ORDERS} orders or more"
        return tuple(replace(w, why=w.why or why) for w in weeks), IndividualsChart(why=why)
    chart = individuals_chart(charted)
    flags = iter(chart.outside)
    return tuple(replace(w, is_outside=next(flags)) if w.sets_limits else w for w in weeks), chart


def _charted(week: Week, options: TurnaroundOptions, whole: TurnaroundGroup, through: date) -> Week:
    usual = whole.p80.value
    if usual is None:
        return replace(week, why="how long four in five orders take is not known yet")
    last = week.monday + timedelta(days=6)
    if last > through or _followed(last, through, options) < usual:
        return replace(week, why="too recent: a slow order would still be open")
    if week.orders < MIN_ORDERS:
        return replace(week, why=f"fewer than {MIN_ORDERS} orders")
    if week.median.value is None:
        return replace(week, why="half of its orders are not done although it is old enough")
    return replace(week, sets_limits=True)


def _followed(last: date, through: date, options: TurnaroundOptions) -> float:
    """Return how long an order of that day was followed, in the unit of the answer."""
    days = (through - last).days
    if options.unit is Unit.WORKING_DAYS:
        return float(working_days([last], [through], holidays=options.holidays)[0])
    return days * 24.0 if options.unit is Unit.HOURS else float(days)
