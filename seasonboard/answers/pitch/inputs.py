"""The numbers a plan rests on, each with where it is from: own records, the asker, or a guess."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from statistics import median

import numpy as np
import polars as pl

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import HEADLINE
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.pitch.options import EffectLimits, PitchOptions
from seasonboard.answers.pitch.parts import (
    LEAST,
    ONE_IN,
    TAKE_UP,
    WEEKS,
    Effect,
    Input,
)
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.take_up.parts import (
    ACCEPTED,
    ELIGIBLE,
    FITTED,
    OFFERED,
    WORN,
    TakeUpAnswer,
)
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.stats.proportions import wilson
from seasonboard.stats.special import two_sided

TAKES = "take-up"
WORN_IN = "worn in"
GUARDS_EACH = "guards an athlete"
REMADE = "remade within 30 days"
LATER = "later prints"
PRINT_HOURS = "hours a print"
SEASON = "weeks of the season"
GIVEN, OWN, ASSUMED = "as asked", "own records", "assumed"
_NO_HOURS = "no print hours are recorded: give --hours-per-print"
_OFF_BY = 0.1
"""How far a share that is given or assumed is taken to be off, either way."""
_HABITS_DIFFER = 0.35
"""By how much departments differ in take-up and wear: standard deviation of log-odds (assumed).

Of a share of one half that is 9 points, of three quarters 7.
"""


def default_prospect(served: pl.DataFrame) -> Prospect:
    """Return a department like those served: one team of each sport and sex, of median size."""
    sizes = (pl.col("athletes", "games", "practices") + 0.5).floor().cast(pl.Int64)
    sized = served.select("sport", "sex", sizes).filter(
        (pl.col("athletes") > 0) & (pl.col("games") + pl.col("practices") > 0)
    )
    return Prospect(
        tuple(
            ProspectTeam(sport, sex, athletes, (), games, practices)
            for sport, sex, athletes, games, practices in sized.iter_rows()
        )
    )


def own_inputs(
    take_up: TakeUpAnswer, remakes: RemakesAnswer, frames: Mapping[str, pl.DataFrame]
) -> tuple[Input, ...]:
    """Return every input but the baseline, the effect and the absences, as own records give it."""
    return (
        _take_up(take_up),
        _worn(take_up),
        _guards_each(frames["pitch/prints"]),
        _remade(remakes),
        _later(remakes),
        _print_hours(frames["pitch/prints"]),
        _weeks(frames["pitch/served"]),
    )


def with_given(inputs: Sequence[Input], options: PitchOptions) -> tuple[Input, ...]:
    """Return the inputs, those that were given in the place of the others."""
    given = {}
    if options.take_up is not None:
        given[TAKES] = _about(TAKES, options.take_up, GIVEN)
    for name, value, unit in (
        (PRINT_HOURS, options.hours_per_print, "hours"),
        (SEASON, options.weeks, "weeks"),
    ):
        if value is not None:
            given[name] = Input(name, value, None, None, unit, GIVEN)
    return tuple(given.get(one.name, one) for one in inputs)


def assumed_inputs() -> tuple[Input, ...]:
    """Return every input as it is assumed where nothing is recorded."""
    few = f"{ASSUMED}: too little is recorded"
    return (
        _about(TAKES, TAKE_UP, few),
        Input(WORN_IN, 1.0, 1.0 - _OFF_BY, 1.0, "of sessions", few),
        Input(GUARDS_EACH, 1.0, 1.0, 1.0, "guards", few),
        Input(REMADE, 0.0, None, None, "of guards", few),
        Input(LATER, 0.0, None, None, "prints a session worn", few),
        Input(PRINT_HOURS, None, None, None, "hours", "none", _NO_HOURS),
        Input(SEASON, WEEKS, None, None, "weeks", few),
    )


def _take_up(answer: TakeUpAnswer) -> Input:
    """Accepted of all in teams that were offered guards, times worn of those fitted."""
    teams = [g for g in (answer.groups or (answer.whole,)) if g.step(OFFERED).count]
    eligible = sum(group.step(ELIGIBLE).count for group in teams)
    accepted = sum(group.step(ACCEPTED).count for group in teams)
    worn = answer.whole.step(WORN).of_before.value
    if eligible < LEAST or worn is None or answer.whole.step(FITTED).count < LEAST:
        why = f"fewer than {LEAST} athletes were offered or fitted with a guard"
        return _about(TAKES, TAKE_UP, f"{ASSUMED}: {why}")
    summary = (
        f"{OWN}: {_at_least(accepted)} of {words.whole(eligible)} accepted, "
        f"{words.percent(worn)} of those fitted wore it"
    )
    return recorded_share(TAKES, round(accepted * worn), eligible, "of athletes", summary)


def recorded_share(name: str, part: int, whole: int, unit: str, source: str) -> Input:
    """Return a share that was recorded, as far off as it may be in another department."""
    share = wilson(part, whole)
    low, high = share.low or 0.0, share.high or 1.0
    if share.value is None or not 0 < share.value < 1:
        return Input(name, share.value, low, high, unit, source)
    odds = math.log(share.value / (1 - share.value))
    ends = np.log([low / (1 - low), high / (1 - high)]) - odds
    reach = np.sqrt(ends**2 + (two_sided(0.95) * _HABITS_DIFFER) ** 2)
    near, far = 1 / (1 + np.exp(-(odds + np.array([-1, 1]) * reach)))
    return Input(name, share.value, float(near), float(far), unit, source)


def _at_least(count: int) -> str:
    """Return a count as an outsider may see it."""
    return words.whole(count) if count >= LEAST else f"fewer than {LEAST}"


def _about(name: str, share: float, source: str) -> Input:
    low, high = max(share - _OFF_BY, 0.0), min(share + _OFF_BY, 1.0)
    return Input(name, share, low, high, "of athletes", source)


def _worn(answer: TakeUpAnswer) -> Input:
    worn = answer.whole.worn
    unit = "of sessions"
    if worn.value is None or worn.trials < LEAST:
        summary = f"{ASSUMED}: no own record of how often guards are worn"
        return Input(WORN_IN, 1.0, 1.0 - _OFF_BY, 1.0, unit, summary)
    summary = f"{OWN}: {words.whole(worn.trials)} sessions with a guard fitted"
    return recorded_share(WORN_IN, worn.successes, worn.trials, unit, summary)


def _guards_each(prints: pl.DataFrame) -> Input:
    athletes, guards = prints.select("athletes", "guards").row(0)
    if athletes < LEAST or guards < athletes:
        few = f"{ASSUMED}: too few were fitted to tell"
        return Input(GUARDS_EACH, 1.0, 1.0, 1.0, "guards", few)
    summary = f"{OWN}: {words.whole(guards)} first guards for {words.whole(athletes)} athletes"
    return Input(GUARDS_EACH, guards / athletes, None, None, "guards", summary)


def _remade(answer: RemakesAnswer) -> Input:
    within, unit = answer.whole.within, "of guards"
    if within.value is None or answer.whole.fitted < LEAST:
        return Input(REMADE, 0.0, None, None, unit, f"{ASSUMED}: too few were fitted to tell")
    summary = f"{OWN}: {words.whole(answer.whole.fitted)} fitted guards"
    return Input(REMADE, within.value, within.low, within.high, unit, summary)


def _later(answer: RemakesAnswer) -> Input:
    """Guards asked for anew after the window, for every session worn."""
    whole, unit = answer.whole, "prints a session worn"
    if not whole.sessions_worn or whole.within.value is None or whole.fitted < LEAST:
        return Input(LATER, 0.0, None, None, unit, f"{ASSUMED}: too few were worn to tell")
    anew = whole.remakes + whole.replacements + whole.reason_not_recorded
    later = max(anew - whole.within.value * whole.fitted, 0.0)
    life = answer.life.value
    lasted = "not reached" if life is None else f"{life:.0f} sessions"
    summary = f"{OWN}: {words.whole(whole.sessions_worn)} sessions worn; median life {lasted}"
    return Input(LATER, later / whole.sessions_worn, None, None, unit, summary)


def _print_hours(prints: pl.DataFrame) -> Input:
    timed, hours = prints.select("timed", "print_hours").row(0)
    if hours is None:
        return Input(PRINT_HOURS, None, None, None, "hours", "none", _NO_HOURS)
    summary = f"{OWN}: median of {_at_least(timed)} prints"
    return Input(PRINT_HOURS, float(hours), None, None, "hours", summary)


def _weeks(served: pl.DataFrame) -> Input:
    rows = served.select("weeks", "team_seasons").iter_rows()
    lengths = [weeks for weeks, seasons in rows for _ in range(seasons)]
    if not lengths:
        return Input(SEASON, WEEKS, None, None, "weeks", f"{ASSUMED}: no season is recorded")
    summary = f"{OWN}: median of {words.plural(len(lengths), 'team season')}"
    return Input(SEASON, float(median(lengths)), None, None, "weeks", summary)


def effect_of(answer: CompareAnswer, limits: EffectLimits) -> Effect:
    """Return the same-session ratio to plan with, or why there is none yet."""
    ratio = answer.comparison(HEADLINE).ratio
    counts = (ratio.injuries_guarded, ratio.injuries_unguarded)
    shown = [count if count >= LEAST else None for count in counts]
    if None in shown:
        groups = [name for name, n in zip(("guarded", "bare"), shown, strict=True) if n is None]
        why = f"fewer than {LEAST} injuries, {' and '.join(groups)}"
        return effect_between(limits, shown, (None,) * 4, why)
    return effect_between(limits, shown, _limits(answer, limits))


def effect_between(
    limits: EffectLimits,
    counts: Sequence[int | None],
    ratio: tuple[float | None, ...],
    why: str = "the same-session ratio has no limits yet",
) -> Effect:
    """Return the effect with a ratio, its limits and the standard error of its log, or why none."""
    value, low, high, std_error = ratio
    if value is None or std_error is None:
        return Effect(limits, counts[0], counts[1], None, None, None, None, None, why)
    return Effect(limits, counts[0], counts[1], value, low, high, std_error, None)


def with_needed(effect: Effect, guarded_share: float) -> Effect:
    """Return the effect with the ratio that would keep one game missed in ten."""
    needed = 1 - 1 / ONE_IN / guarded_share if guarded_share * ONE_IN >= 1 else None
    return replace(effect, ratio_needed=needed)


def _limits(answer: CompareAnswer, limits: EffectLimits) -> tuple[float | None, ...]:
    """Return ratio, low, high, and the standard error of its log that gives these limits."""
    headline = answer.comparison(HEADLINE)
    now = headline.ratio if limits is EffectLimits.ORDINARY else answer.watched.now
    return with_std_error(now.value, now.low, now.high, answer.summary.scope.level)


def with_std_error(
    value: float | None, low: float | None, high: float | None, level: float = 0.95
) -> tuple[float | None, ...]:
    """Return a ratio, its limits, and the standard error of its log that gives these limits."""
    if not value or not low or not high:
        return (None,) * 4
    return value, low, high, math.log(high / low) / (2 * two_sided(level))
