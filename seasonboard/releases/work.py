"""The figures on work of one kind of guard: orders by plan, turnaround, remakes, take-up, wear."""

from collections.abc import Sequence

import polars as pl

from seasonboard.answers.pitch import inputs
from seasonboard.answers.pitch.parts import Input
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.take_up import parts as steps
from seasonboard.answers.take_up.parts import TakeUpAnswer
from seasonboard.answers.turnaround.groups import TurnaroundGroup
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.disclosure.coarse_curve import CoarsePoint, Tick, coarse_points
from seasonboard.disclosure.count_table import THRESHOLD
from seasonboard.releases.block import Figure
from seasonboard.releases.draft import Draft

ORDERS, FITTED, REMADE = "orders", "fitted guards", "remade guards"
DECIDED, READY = "orders of which it is decided", "orders ready for the next game"
STILL_OPEN = "still open"
TIMES = {"median": 0.5, "p80": 0.8, "p95": 0.95}
"""Times of a turnaround, each with the share of orders that are done within it."""
WORN_SESSIONS, FITTED_SESSIONS = "sessions in which one was worn", "sessions with a guard fitted"
MAKING = "hours besides printing"
DEPARTMENTS = "departments"
NO_PLAN = "plan not recorded"


def step_name(step: str) -> str:
    """Return the name of a step's count."""
    is_asked = step in {steps.ELIGIBLE, steps.OFFERED}
    return f"athletes {step}" if is_asked else f"athletes with a guard {step}"


def declare_turnaround(draft: Draft, timed: TurnaroundAnswer, plans: pl.DataFrame) -> None:
    """Declare orders by plan and how long they took; `plans` are rows of `releases/plans`."""
    table, groups = draft.table, [("", timed.whole)]
    groups += [(f", {group.key or NO_PLAN}", group) for group in timed.groups]
    for cut, group in groups:
        whole = table.show(f"{ORDERS}{cut}", group.orders)
        _times(draft, whole, cut, group)
        _waiting(draft, whole, cut, group)
        decided = table.show(f"{DECIDED}{cut}", group.ready.share.trials)
        ready = table.show(f"{READY}{cut}", group.ready.share.successes)
        table.within(decided, [ready])
        if group.ready.share.trials <= group.orders:
            table.within(whole, [decided])
    for name in (ORDERS, DECIDED, READY) if timed.groups else ():
        table.adds_up(name, [f"{name}{cut}" for cut, _ in groups[1:]])
    for plan, departments in plans.iter_rows():
        draft.figure(Figure(f"{DEPARTMENTS}, {plan or NO_PLAN}", departments))


def _times(draft: Draft, whole: str, cut: str, group: TurnaroundGroup) -> None:
    for name, share in TIMES.items():
        estimate = getattr(group, name)
        if group.orders * min(share, 1 - share) >= THRESHOLD - 1e-9 and estimate.value is not None:
            limits = (estimate.value, estimate.low, estimate.high)
            draft.figure(Figure.rounded(f"{name}{cut}", limits), whole)


def _waiting(draft: Draft, whole: str, cut: str, group: TurnaroundGroup) -> None:
    points = order_points(group)
    names = []
    for point in points[1:]:
        name = draft.table.unpublished(f"{ORDERS}{cut}, up to day {point.at:g}", point.events)
        draft.table.bounded(name, *point.event_range())
        names.append(name)
    if names:
        draft.table.within(whole, names)
    for point in points:
        draft.figure(Figure(f"{STILL_OPEN}{cut}, {point.at:g}", point.share), whole, *names)


def order_points(group: TurnaroundGroup) -> tuple[CoarsePoint, ...]:
    """Return the points of a curve of open orders that may be told."""
    points = group.curve.points
    ticks = [Tick(one.time, one.at_risk, one.finished, one.waiting) for one in points]
    return coarse_points(ticks, THRESHOLD)


def declare_remakes(draft: Draft, remade: RemakesAnswer) -> None:
    """Declare fitted guards and those remade soon; recent guards count as far as they are known."""
    whole = remade.whole
    fitted = draft.table.show(FITTED, whole.fitted)
    again = min(whole.fitted, round(whole.fitted * (whole.within.value or 0.0)))
    draft.table.within(fitted, [draft.table.show(REMADE, again)])
    if whole.fitted <= draft.table.cells[ORDERS]:
        draft.table.within(ORDERS, [fitted])
    draft.figure(Figure("days of a remake", remade.options.window))


def declare_take_up(draft: Draft, taken: TakeUpAnswer) -> None:
    """Declare who reached which step, and in how many sessions a fitted guard was worn."""
    table, before = draft.table, ""
    for step in (taken.whole.step(name) for name in steps.STEPS):
        cell = table.show(step_name(step.step), step.count)
        through = cell
        if before and step.without_before:
            beside = f"{cell}, not {before} before"
            through = table.within(cell, [table.unpublished(beside, step.without_before)])
        if before and table.cells[through] <= table.cells[step_name(before)]:
            table.within(step_name(before), [through])
        before = step.step
    worn = taken.whole.worn
    table.show(FITTED_SESSIONS, worn.trials)
    table.within(FITTED_SESSIONS, [table.show(WORN_SESSIONS, worn.successes)])
    if table.cells[step_name(steps.FITTED)] <= table.cells[FITTED]:
        table.within(FITTED, [step_name(steps.FITTED)])


def declare_inputs(
    draft: Draft,
    listed: Sequence[Input],
    taken: TakeUpAnswer,
    remade: RemakesAnswer,
    prints: pl.DataFrame,
) -> None:
    """Declare the numbers that a plan of a season rests on, with their limits in few digits."""
    sessions = draft.table.show("sessions a guard was worn in", remade.whole.sessions_worn)
    later_each = next((one.value for one in listed if one.name == inputs.LATER), None)
    later = draft.table.show(
        "prints asked for later", round((later_each or 0.0) * remade.whole.sessions_worn)
    )
    athletes, guards, timed, _ = prints.row(0)
    first = draft.table.show("athletes with a first guard", athletes)
    all_first = draft.table.show("first guards", guards)
    if guards >= athletes:
        draft.table.within(all_first, [first])
    hours = draft.rests_on_enough("prints with their hours", timed, 2 * THRESHOLD)
    wearers = "athletes with a guard and a session since"
    people = draft.rests_on_enough(wearers, taken.whole.worn.clusters)
    fitted, worn_by = step_name(steps.FITTED), step_name(steps.WORN)
    rests_on = {
        inputs.TAKES: (*_takers(draft, taken), step_name(steps.ACCEPTED), fitted, worn_by),
        inputs.WORN_IN: (FITTED_SESSIONS, WORN_SESSIONS, people),
        inputs.GUARDS_EACH: (first, all_first),
        inputs.REMADE: (FITTED, REMADE),
        inputs.LATER: (FITTED, REMADE, sessions, later),
        inputs.PRINT_HOURS: (hours,),
        inputs.SEASON: (),
    }
    for one in listed:
        if one.source.startswith(inputs.OWN) and one.value is not None:
            digits = 1 if one.name in {inputs.PRINT_HOURS, inputs.SEASON} else 2
            digits = 4 if one.name == inputs.LATER else digits
            figure = Figure.rounded(one.name, (one.value, one.low, one.high), digits, one.unit)
            draft.figure(figure, *rests_on[one.name])


def _takers(draft: Draft, taken: TakeUpAnswer) -> tuple[str, str]:
    """Declare who would accept and wear a guard, of the teams that were offered some."""
    groups = [g for g in (taken.groups or (taken.whole,)) if g.step(steps.OFFERED).count]
    eligible = sum(group.step(steps.ELIGIBLE).count for group in groups)
    accepted = sum(group.step(steps.ACCEPTED).count for group in groups)
    share = taken.whole.step(steps.WORN).of_before.value or 0.0
    asked = draft.table.show("athletes of teams that were offered guards", eligible)
    take = draft.table.show("athletes who accept and wear one", round(accepted * share))
    draft.table.within(asked, [take])
    if eligible <= draft.table.cells[step_name(steps.ELIGIBLE)]:
        draft.table.within(step_name(steps.ELIGIBLE), [asked])
    return asked, take


def declare_making(draft: Draft, making: pl.DataFrame) -> None:
    """Declare the hours orders take besides printing, in equal parts: of all, of each plan."""
    whole = making.group_by("hours").agg(pl.sum("orders"))
    by_plan = making.drop_nulls("plan").partition_by("plan", as_dict=True)
    for cut, rows in ("", whole), *((f", {plan}", rows) for (plan,), rows in by_plan.items()):
        hours, weights = (rows.sort("hours")[name].to_list() for name in ("hours", "orders"))
        behind = f"orders with all their stages{cut}"
        draft.in_parts(f"{MAKING}{cut}", behind, hours, weights, sum(weights))


def declare_teams(draft: Draft, served: pl.DataFrame, parts: pl.DataFrame) -> None:
    """Declare the usual size and season of a team, and the share of it that takes part.

    The size is told in steps of five; shares of the thousands of places of a season in percent.
    """
    columns = ("sport", "sex", "athletes", "games", "practices")
    for sport, sex, athletes, games, practices in served.select(columns).iter_rows():
        if athletes >= THRESHOLD:
            cut = f"{sport}, {sex}"
            draft.figure(Figure(f"team, {cut}", 5 * round(athletes / 5)))
            draft.figure(Figure(f"games, {cut}", round(games)))
            draft.figure(Figure(f"practices, {cut}", round(practices)))
    for sport, setting, _, places, took_part in parts.iter_rows():
        if places >= 100:
            draft.figure(Figure(f"taking part, {sport}, {setting}", round(took_part / places, 2)))
