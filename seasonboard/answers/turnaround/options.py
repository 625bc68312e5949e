"""What the Turnaround answer is asked with."""

from dataclasses import dataclass
from datetime import date

from seasonboard.answers.options import option
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.orders.order_times import MAKING, Unit, read_stage
from seasonboard.terms import Stage


@dataclass(frozen=True, slots=True)
class TurnaroundOptions:
    """Between which stages, in which unit, grouped by what; holidays for working days.

    `holidays` are days that nobody works beside weekends, `holidays_of` says whose they are.
    """

    start: Stage = option(
        Stage.REQUESTED, "--from", f"First stage: {', '.join(MAKING)}.", parse=read_stage
    )
    end: Stage = option(Stage.FITTED, "--to", "Second stage, later in that row.", parse=read_stage)
    unit: Unit = option(Unit.DAYS, "--unit", "Elapsed hours, calendar days, or Mondays to Fridays.")
    by: OrdersBy | None = option(None, "--by", "Group the orders.")
    holidays: tuple[date, ...] = ()
    holidays_of: str = option(
        "",
        "--holidays",
        "Leave out of working days those of a file, a day a line, or the public holidays of US or "
        "US-NY (needs “holidays”).",
        metavar="FILE|COUNTRY[-PART]",
    )
