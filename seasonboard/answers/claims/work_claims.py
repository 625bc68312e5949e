"""Claims about the making and wearing of guards: turnaround, remakes, worn share; and contact."""

from seasonboard.answers import words
from seasonboard.answers.claims.parts import (
    CONTACT,
    READY,
    REMADE,
    TURNAROUND,
    WORN,
    Claim,
    bracket,
    claim,
    too_few,
)
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.take_up.parts import TakeUpAnswer
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.answers.turnaround.words import in_units, time_limits
from seasonboard.scope import Scope
from seasonboard.stats.estimate import Estimate
from seasonboard.terms import Stage

CONTACT_LOW, CONTACT_HIGH = 0.60, 0.65
"""Share of its surface that a stock pad touches: figures of common practice, without a source."""

MOST_UNDECIDED = 0.1
"""For each decided order, undecided ones up to which the share ready is told: our own choice."""


def ready_claim(answer: TurnaroundAnswer) -> Claim | None:
    """Return what may be said of guards ready for the next game; None for other stages."""
    if answer.options.end is not Stage.FITTED or answer.options.start is not Stage.REQUESTED:
        return None
    scope, ready = answer.summary.scope, answer.whole.ready
    share = ready.share
    interval = _share_limits(share)
    missing = too_few("orders of which it is decided", share.trials)
    if ready.undecided > MOST_UNDECIDED * share.trials:
        waiting = words.plural(ready.undecided, "order")
        missing.append(f"the games that {waiting} still wait for: early ones are fitted first")
    return claim(
        topic=READY,
        may_say=f"{words.percent(share.value or 0)} of guards were fitted before the team's next "
        f"game after the request {bracket(scope, interval)}.",
        may_not_say="Most guards are fitted before the team's next game.",
        missing=missing,
        interval=_with_level(scope, interval) if share.value is not None else None,
        rests_on=f"{words.whole(share.successes)} of {words.plural(share.trials, 'order')}; not "
        "counted are those still open before that game, called off before it, or without one.",
        counts=(share.successes, share.trials - share.successes),
    )


def turnaround_claim(answer: TurnaroundAnswer) -> Claim:
    """Return what may be said of the middle turnaround: it needs both limits and 11 orders."""
    scope, whole, options = answer.summary.scope, answer.whole, answer.options
    median = whole.median
    start, end = str(options.start), str(options.end)
    missing = too_few("orders", whole.orders)
    if whole.orders and median.value is None:
        missing.append(f"half of the orders {end} ({median.why})")
    elif median.value is not None and (median.low is None or median.high is None):
        missing.append("limits on both sides of the middle")
    within = "–" if median.value is None else in_units(median.value, options.unit)
    return claim(
        topic=TURNAROUND,
        may_say=f"Half of the guards were {end} within {within} of being {start} "
        f"{bracket(scope, time_limits(median))}.",
        may_not_say=f"Half of the guards are {end} within days of being {start}.",
        missing=missing,
        interval=None if median.low is None else _with_level(scope, time_limits(median)),
        rests_on=f"{words.plural(whole.orders, 'order')}; open ones are counted up to their age, "
        "cancelled ones up to their end.",
        counts=(whole.orders,),
    )


def remade_claim(answer: RemakesAnswer) -> Claim:
    """Return what may be said of remakes: the share within some days, which recent guards join."""
    scope, whole, within = answer.summary.scope, answer.whole, answer.whole.within
    missing = too_few("fitted guards", whole.fitted)
    in_time = round(whole.fitted * (within.value or 0))
    if whole.fitted and (within.value is None or within.high is None):
        missing.append(f"guards followed for {within.days} days ({within.why or 'none so far'})")
    interval = _share_limits(within)
    return claim(
        topic=REMADE,
        may_say=f"{words.percent(within.value or 0)} of fitted guards were remade within "
        f"{within.days} days of fitting {bracket(scope, interval)}.",
        may_not_say="Few fitted guards have to be remade.",
        missing=missing,
        interval=_with_level(scope, interval) if within.value is not None else None,
        rests_on=f"{words.plural(whole.fitted, 'fitted guard')}, of which "
        f"{words.whole(whole.remakes)} were remade so far; recent ones count as far as they are "
        "known.",
        counts=(whole.remakes, whole.fitted - whole.remakes, in_time),
    )


def worn_claim(answer: TakeUpAnswer) -> Claim:
    """Return what may be said of wearing: it needs 11 athletes with a guard fitted."""
    scope, worn = answer.summary.scope, answer.whole.worn
    missing = too_few("athletes with a guard fitted", worn.clusters)
    if worn.clusters and worn.value is not None and worn.low is None:
        missing.append(f"limits ({worn.why})")
    interval = _share_limits(worn)
    return claim(
        topic=WORN,
        may_say=f"A fitted guard was worn in {words.percent(worn.value or 0)} of the sessions "
        f"taken part in {bracket(scope, interval)}.",
        may_not_say="Fitted guards are worn in most sessions.",
        missing=missing,
        interval=_with_level(scope, interval) if worn.low is not None else None,
        rests_on=f"{words.whole(worn.successes)} of {words.plural(worn.trials, 'session')} of "
        f"{words.plural(worn.clusters, 'athlete')}; the limits know that athletes differ.",
        counts=(worn.clusters, worn.successes, worn.trials - worn.successes),
    )


def contact_claim() -> Claim:
    """Return what may be said of contact: mechanics alone, never a number of injuries."""
    low, high = words.percent(CONTACT_LOW).removesuffix(" %"), words.percent(CONTACT_HIGH)
    return Claim(
        topic=CONTACT,
        sentence="At equal force the mean pressure under a pad goes as 1 / contact area: full "
        f"contact has {words.number(CONTACT_LOW)} to {words.number(CONTACT_HIGH)} of the mean "
        f"pressure of a stock pad that touches {low} to {high} of its surface. This is mechanics, "
        "and tells nothing about injuries.",
        is_supported=True,
        interval=None,
        missing=None,
        rests_on=f"Pressure = force / area. {low} to {high} are figures of common practice without "
        "a source; nothing of it was measured here.",
        is_for_outsiders=True,
    )


def _share_limits(share: Estimate) -> str:
    if share.low is None or share.high is None:
        return "no limits yet"
    return f"{words.percent(share.low)} to {words.percent(share.high)}"


def _with_level(scope: Scope, interval: str) -> str:
    return f"{words.level_words(scope)}: {interval}"
