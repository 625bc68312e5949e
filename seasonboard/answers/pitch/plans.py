"""The two plans of printing: what each makes of the prints asked for, keeps and costs."""

import math
from collections.abc import Mapping, Sequence
from functools import partial

import numpy as np
import polars as pl

from seasonboard.answers import words
from seasonboard.answers.pitch.ahead import DAYS, Inputs, input_value, sessions_each, simulated
from seasonboard.answers.pitch.inputs import (
    GUARDS_EACH,
    LATER,
    PRINT_HOURS,
    REMADE,
    SEASON,
    TAKES,
    WORN_IN,
)
from seasonboard.answers.pitch.options import Fees, PitchOptions, PrintWay
from seasonboard.answers.pitch.parts import Choice, Effect, PlanAhead, ServedWork, TeamAhead
from seasonboard.stats.absence_duration import AbsenceLaw, Floats
from seasonboard.stats.prints_ahead import (
    DAY_HOURS,
    WEEK_HOURS,
    Demand,
    MadeAhead,
    Printing,
    PrintsAhead,
    Share,
    made_ahead,
)
from seasonboard.stats.season_ahead import SeasonAhead, Spread, spread

_MONTH_WEEKS = 365.25 / 12 / 7
_FASTER_DAYS = 2.0
"""Days by which the median guard comes earlier for a plan to be called faster."""
_CHEAPER = 0.05


def share_of(inputs: Inputs, name: str) -> Share:
    """Return an input that is a share, with how far it may be off."""
    one = inputs[name]
    return Share(input_value(inputs, name), one.low, one.high)


def demand_of(
    options: PitchOptions,
    inputs: Inputs,
    teams: Sequence[TeamAhead],
    parts: pl.DataFrame,
    making: pl.DataFrame,
) -> Demand:
    """Return what the planned teams ask to be printed."""
    each, remade = (input_value(inputs, name) for name in (GUARDS_EACH, REMADE))
    worn = sessions_each(teams, parts) * input_value(inputs, WORN_IN)
    return Demand(
        sum(team.athletes for team in teams),
        share_of(inputs, TAKES),
        each,
        remade,
        input_value(inputs, LATER) * worn,
        input_value(inputs, SEASON),
        options.scan_before,
        options.scan_weeks,
        _usual_days(making, inputs[PRINT_HOURS].value or 0.0),
    )


def _usual_days(making: pl.DataFrame, hours: float) -> float:
    if making.is_empty():
        return hours / DAY_HOURS
    middle = making.sort("hours").filter(pl.col("orders").cum_sum() >= making["orders"].sum() / 2)
    return (float(middle["hours"][0]) + hours) / DAY_HOURS


def printing_of(
    way: PrintWay, options: PitchOptions, hours: float | None, busiest: float, making: pl.DataFrame
) -> tuple[Printing | None, int | None, float | None]:
    """Return how a plan prints, its printers, and the prints a week it can make.

    `busiest` is what the busiest week asks for: what is not given is proposed for it.
    """
    own = making.filter(pl.col("plan") == way.value)
    rows = own if len(own) else making
    outside = (
        tuple(map(float, rows["hours"].to_list())),
        tuple(map(float, rows["orders"].to_list())),
    )
    if way is PrintWay.WEEKLY:
        most = options.prints_per_week or max(1.0, math.ceil(busiest))
        return Printing(1, WEEK_HOURS / most, hours or 0.0, *outside), None, most
    if not hours:
        return None, options.printers, None
    a_week = options.printer_hours or WEEK_HOURS
    printers = options.printers or max(1, math.ceil(busiest * hours / a_week))
    held = hours * WEEK_HOURS / a_week
    return Printing(printers, held, held, *outside), printers, printers * a_week / hours


def plan_ahead(  # noqa: PLR0913 - what a plan is made of
    way: PrintWay,
    options: PitchOptions,
    *,
    inputs: Inputs,
    teams: Sequence[TeamAhead],
    demand: Demand,
    prints: PrintsAhead,
    making: pl.DataFrame,
    effect: Effect,
    absence: AbsenceLaw | None,
    in_sessions: float,
    served: Mapping[PrintWay, ServedWork],
) -> PlanAhead:
    """Return what one plan makes of the prints that are asked for."""
    hours, busiest = inputs[PRINT_HOURS].value, prints.busiest_week.median
    printing, printers, capacity = printing_of(way, options, hours, busiest, making)
    made = None if printing is None else made_ahead(prints, demand, printing, seed=options.seed)
    covered = np.zeros(1) if made is None else made.covered
    guarded = _guarded(covered, share_of(inputs, WORN_IN), options)
    days = demand.weeks * DAYS
    ahead = simulated(
        teams, effect, guarded, absence, in_sessions=in_sessions, days=days, seed=options.seed
    )
    months = max(1, math.ceil((demand.weeks + demand.scan_before) / _MONTH_WEEKS - 1e-9))
    total, kept, why = _cost(options.fees(way), months, prints, ahead)
    if made is None:
        why = "how many hours a print takes is not known"
    asked: float | None = options.prints_per_week
    needed: Spread | None = prints.busiest_week
    if way is PrintWay.PRINTER:
        asked, needed = options.printers, prints.busiest_week.times(hours) if hours else None
    hours_a_week = options.printer_hours if printers else None
    return PlanAhead(
        *(way, asked is not None, printers, hours_a_week, capacity, needed, made),
        *(served.get(way), float(guarded.mean()), ahead, options.fees(way), months),
        *(total, kept, why),
    )


def _guarded(covered: Floats, worn: Share, options: PitchOptions) -> Floats:
    """Return the share of exposures that would be guarded, one for each simulated season."""
    random = np.random.default_rng([options.seed, 13])
    each = np.resize(covered, options.seasons) * worn.drawn(options.seasons, random)
    guarded: Floats = np.clip(each, 0.0, 1.0)
    return guarded


def _cost(
    fees: Fees, months: int, prints: PrintsAhead, ahead: SeasonAhead | None
) -> tuple[Spread | None, Spread | None, str]:
    """Return all fees of the season and those for a game kept: of guards, remakes are free."""
    if not fees.is_told:
        return None, None, "no fee was given"
    fixed = (fees.setup or 0.0) + months * (fees.monthly or 0.0)
    total = spread(fixed + (fees.per_print or 0.0) * prints.guards_each)
    kept = None if ahead is None else ahead.games_kept
    if ahead is None or kept is None or ahead.games_kept_each is None:
        return total, None, "the games kept are not known"
    if kept.low_95 <= 0:
        return total, None, "the 95 % range of games kept reaches down to 0"
    return total, spread(total.median / np.maximum(ahead.games_kept_each, 1e-9)), ""


def choice_of(plans: Sequence[PlanAhead]) -> Choice:
    """Return the plan that is clearly better, and why; or why neither is.

    One that works off its queue before one that does not; then the faster and not dearer one; then
    the cheaper and not slower one.
    """
    if any(plan.made is None or plan.made.turnaround_days is None for plan in plans):
        return Choice(None, "Neither plan is recommended: how long a guard takes is not known.")
    short = [plan for plan in plans if not plan.holds]
    return _by_demand(plans, short) if short else _by_days_and_fees(plans)


def _by_demand(plans: Sequence[PlanAhead], short: Sequence[PlanAhead]) -> Choice:
    if len(short) == len(plans):
        return Choice(None, "Neither plan is recommended: neither can hold the demand.")
    why = f"{_opening(short[0])} cannot hold the demand: {queue_words(short[0])}."
    return Choice(next(plan.way for plan in plans if plan.holds), why)


def _by_days_and_fees(plans: Sequence[PlanAhead]) -> Choice:
    slow, fast = sorted(plans, key=partial(_days), reverse=True)
    days = _days(slow) - _days(fast)
    cheaper = _cheaper(plans)
    if days >= _FASTER_DAYS and cheaper in {None, fast}:
        saved = words.plural(round(days), "day")
        return Choice(fast.way, f"With {fast.way.words} the median guard comes {saved} earlier.")
    if days < _FASTER_DAYS and cheaper is not None:
        why = f"{_opening(cheaper)} costs less, and guards come about as soon."
        return Choice(cheaper.way, why)
    if cheaper is None:
        return Choice(None, "Neither plan is clearly better: guards come about as soon.")
    return Choice(
        None, "One plan is faster, the other costs less: which counts more is theirs to say."
    )


def _opening(plan: PlanAhead) -> str:
    return plan.way.words[:1].upper() + plan.way.words[1:]


def _days(plan: PlanAhead) -> float:
    made: MadeAhead | None = plan.made
    return 0.0 if made is None or made.turnaround_days is None else made.turnaround_days.median


def _cheaper(plans: Sequence[PlanAhead]) -> PlanAhead | None:
    """Return the plan that costs clearly less; None where neither does, or no fee is told."""
    if any(plan.total is None for plan in plans):
        return None
    low, high = sorted(plans, key=lambda plan: plan.total.median if plan.total else 0.0)
    least, most = (plan.total.median if plan.total else 0.0 for plan in (low, high))
    return low if least < most * (1 - _CHEAPER) else None


def queue_words(plan: PlanAhead) -> str:
    """Return what happens to the queue: `the queue grows from week 1 and …`."""
    if plan.made is None:
        return "the queue is not known"
    queue = plan.made.queue
    if queue.grows_from is None:
        return "no queue grows"
    longest = words.plural(round(queue.longest), "print")
    text = f"the queue grows from week {queue.grows_from} to {longest}"
    if queue.left_over >= 1:
        left = words.plural(round(queue.left_over), "print")
        return f"{text}; at the season's end {left} still wait"
    return f"{text} and is worked off in week {queue.clears_in}"
