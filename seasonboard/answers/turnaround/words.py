"""The sentences of the Turnaround answer, and its figures in words."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.orders.order_times import Unit
from seasonboard.answers.turnaround.groups import Ready, TurnaroundGroup
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.scope import Scope
from seasonboard.stats.estimate import Estimate
from seasonboard.terms import Stage

_SINGULAR = {Unit.HOURS: "hour", Unit.DAYS: "day", Unit.WORKING_DAYS: "working day"}


def in_units(value: float, unit: Unit) -> str:
    """Return a time with its unit: `9 days`, `1 working day`."""
    text = words.duration(value)
    return f"{text} {_SINGULAR[unit]}{'' if text == '1' else 's'}"


def time_limits(time: Estimate) -> str:
    """Return the confidence interval of a time: `8 to 10`, or what is not known of it."""
    return words.interval(time.low, time.high, words.duration)


def turnaround_sentence(
    whole: TurnaroundGroup,
    groups: Sequence[TurnaroundGroup],
    options: TurnaroundOptions,
    scope: Scope,
) -> str:
    """Return the answer as a person reads it aloud, with interval and what it counts."""
    start, end = str(options.start), str(options.end)
    if not whole.orders:
        return f"No turnaround to tell: no order of the scope was {start} by that day."
    counts = (
        f" {words.plural(whole.orders, 'order')}: {words.whole(whole.curve.finished)} {end}, "
        f"{words.whole(whole.curve.open)} open and counted up to their age, "
        f"{words.whole(whole.curve.cancelled)} cancelled."
    )
    ready = _ready(whole.ready, scope) if options.end is Stage.FITTED else ""
    return _opening(whole, options, scope) + counts + _spread(groups, options.unit) + ready


def _opening(whole: TurnaroundGroup, options: TurnaroundOptions, scope: Scope) -> str:
    start, end, unit = options.start, options.end, options.unit
    if whole.median.value is None:
        return f"Not half of the orders that were {start} are {end} yet ({whole.median.why})."
    text = (
        f"Half of the orders were {end} within {in_units(whole.median.value, unit)} of being "
        f"{start} ({words.level_words(scope)}: {time_limits(whole.median)})"
    )
    if whole.p80.value is None:
        return f"{text}; four in five are not {end} yet."
    text += f", four in five within {words.duration(whole.p80.value)}"
    if whole.is_small:
        return f"{text}; what 19 in 20 take cannot be told from {whole.orders}."
    if whole.p95.value is None:
        return f"{text}; 19 in 20 are not {end} yet."
    return f"{text}, 19 in 20 within {words.duration(whole.p95.value)}."


def _spread(groups: Sequence[TurnaroundGroup], unit: Unit) -> str:
    reached = [
        (group.median.value, group.name, group.median)
        for group in groups
        if group.median.value is not None and not group.is_small
    ]
    if len(reached) < 2:
        return ""
    ranked = sorted(reached, key=lambda group: group[:2])
    first, last = (
        f"{name}, {in_units(median, unit)} ({time_limits(time)})"
        for median, name, time in (ranked[0], ranked[-1])
    )
    return f" Shortest median: {first}; longest: {last}."


def _ready(ready: Ready, scope: Scope) -> str:
    share = ready.share
    if share.value is None or share.low is None or share.high is None:
        return ""
    return (
        f" {words.percent(share.value)} were fitted before the next game after the request "
        f"({words.level_words(scope)}: {words.percent(share.low)} to {words.percent(share.high)}; "
        f"{words.whole(share.successes)} of {words.whole(share.trials)})."
    )


def unit_caveat(options: TurnaroundOptions) -> str:
    """Return how time is counted."""
    if options.unit is Unit.HOURS:
        return "Hours are elapsed hours, also across a change of the clock."
    if options.unit is Unit.DAYS:
        return "Days are calendar days in the department's time zone; the day of the start is 0."
    if not options.holidays_of:
        return (
            "Working days are Mondays to Fridays in the department's time zone, the day of the "
            "start being 0; public holidays are counted as working days (leave them out with "
            "--holidays)."
        )
    return (
        "Working days are Mondays to Fridays in the department's time zone without the "
        f"{words.plural(len(options.holidays), 'holiday')} of {options.holidays_of}; the day of "
        "the start is 0."
    )


def finished_caveat(whole: TurnaroundGroup, options: TurnaroundOptions) -> list[str]:
    """Return the mean of the finished with what it leaves out; nothing without any."""
    alone, unit = whole.finished_only, options.unit
    if alone.mean is None or alone.median is None:
        return []
    text = (
        f"Of the {words.whole(alone.finished)} finished alone the mean is "
        f"{in_units(alone.mean, unit)}, the median {words.duration(alone.median)}"
    )
    if alone.longest_open is None:
        return [f"{text}; no order is open."]
    return [
        f"{text}: that leaves out {words.plural(alone.open_left_out, 'open order')}, the oldest "
        f"open for {in_units(alone.longest_open, unit)}, and looks too short."
    ]
