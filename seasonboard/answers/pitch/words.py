"""The sentences of the Pitch answer: what can be promised, how surely, what to keep in mind."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, pooling_caveat
from seasonboard.answers.pitch.parts import (
    LEAST,
    ONE_IN,
    Basis,
    Effect,
    EffectLimits,
    Input,
    PitchAnswer,
    Swing,
    TeamAhead,
)
from seasonboard.scope import ScopeValues
from seasonboard.stats.season_ahead import Spread

INTERVAL_WORDS: Mapping[EffectLimits, str] = {
    EffectLimits.BY_ATHLETE: "confidence interval by athlete",
    EffectLimits.PEEK_PROOF: "peek-proof confidence interval",
}


def summary(answer: PitchAnswer, scope_values: ScopeValues) -> PitchAnswer:
    """Return the answer with its sentence and its caveats."""
    sentence, caveats = _sentence(answer), tuple(_caveats(answer, scope_values))
    return replace(answer, summary=replace(answer.summary, answer=sentence, caveats=caveats))


def count(value: float) -> str:
    """Return a simulated number as a whole one, with a true minus sign: `−3`."""
    return words.whole(round(value))


def counted(value: float, one: str, many: str) -> str:
    """Return a simulated number as a whole one with its noun: `1 game`, `−3 games`."""
    text = count(value)
    return f"{text} {one if text in {'1', '−1'} else many}"


def range_95(spread: Spread) -> str:
    """Return the 95 % range: `3 to 17`."""
    return f"{count(spread.low_95)} to {count(spread.high_95)}"


def range_80(spread: Spread) -> str:
    """Return the 80 % range: `5 to 14`."""
    return f"{count(spread.low_80)} to {count(spread.high_80)}"


def input_words(one: Input) -> str:
    """Return the value of an input with its range and unit: `60 % (50 % to 70 %) of athletes`."""
    text = value_words(one.value, one.unit)
    if one.low is not None and one.high is not None and one.low != one.high:
        text += f" ({value_words(one.low, one.unit)} to {value_words(one.high, one.unit)})"
    return text if one.value is None or one.unit in one.name else f"{text} {one.unit}"


def value_words(value: float | None, unit: str) -> str:
    """Return a number in a unit: shares as percent, small rates with their digits."""
    if value is None:
        return "–"
    if unit.startswith("of "):
        return words.percent(value)
    return words.ratio(value) if value < 1 else words.number(value, digits=1).removesuffix(".0")


def _sentence(answer: PitchAnswer) -> str:
    if not answer.prospect.teams:
        return (
            "Nothing to promise yet: no team is served from which to take a department's size, and "
            "no teams were given (--teams FILE)."
        )
    return " ".join((_without(answer), *_with(answer), _prints(answer)))


def _without(answer: PitchAnswer) -> str:
    whose = "of the prospect" if answer.is_given else "like those served"
    teams = words.plural(len(answer.teams), "team")
    opening = f"One season of {teams} {whose}, {words.plural(answer.athletes, 'athlete')}:"
    ahead, sites = answer.ahead, words.sites_word(answer.sites)
    if ahead is None:
        return (
            f"{opening} how many injuries to {sites} to expect is not known for any team, so "
            "nothing about injuries or games can be promised."
        )
    teams_known = sum(team.injuries is not None for team in answer.teams)
    of = f" in {teams_known} of these teams (the others are not known)"
    of = "" if teams_known == len(answer.teams) else of
    text = (
        f"{opening} without guards expect "
        f"{counted(ahead.injuries.median, 'injury', 'injuries')} to {sites}{of} "
        f"(95 %: {range_95(ahead.injuries)})"
    )
    if ahead.games_missed is None:
        return f"{text}; what they cost in games is not known."
    missed = counted(ahead.games_missed.median, "game missed", "games missed")
    return f"{text} and {missed} ({range_95(ahead.games_missed)})."


def _with(answer: PitchAnswer) -> list[str]:
    ahead, effect = answer.ahead, answer.effect
    if ahead is None:
        return []
    if effect.ratio is None:
        text = f"No effect of a guard is shown yet ({effect.why}): promise no game kept."
        if effect.ratio_needed is None:
            return [text]
        return [
            f"{text} For one game missed in {ONE_IN} to be kept, guarded sites would have to be "
            f"hurt at most {words.ratio(effect.ratio_needed)} times as often as bare ones."
        ]
    kept = ahead.games_kept
    if kept is None:
        return []
    text = (
        f"With guards as planned the median is {counted(kept.median, 'game', 'games')} kept "
        f"(80 %: {range_80(kept)}; 95 %: {range_95(kept)})"
    )
    if kept.low_95 < 0:
        text += ": anything from games lost to games kept is possible, so promise no number"
    elif kept.low_95 == 0:
        text += ": the range goes down to 0, so promise no number"
    text += "."
    if ahead.visible is not None:
        text += (
            f" The chance that one season there shows a difference at all is "
            f"{words.percent(ahead.visible.chance)}."
        )
    return [text]


def _prints(answer: PitchAnswer) -> str:
    plan = answer.plan
    text = (
        f"It takes {counted(plan.ahead.prints.median, 'print', 'prints')}, "
        f"{count(plan.ahead.busiest_week.median)} in the busiest week"
    )
    turnaround = plan.ahead.turnaround_days
    if turnaround is None:
        return f"{text}."
    median = f"the median guard would be fitted within {turnaround.median:.0f} days"
    if plan.ahead.wait_hours is None:
        return f"{text}; {median} if no guard waits for a printer."
    return f"{text}; with {plan.made_by} {median}, 19 in 20 within {turnaround.p95:.0f}."


def swing_sentence(swings: Sequence[Swing], effect: Effect) -> str:
    """Return which input would change the games kept most, in one sentence."""
    if not swings:
        why = effect.why or "the games kept are not known"
        return f"What would change the games kept most is not known: {why}."
    widest = swings[0]
    low, high = (value_words(end, widest.unit) for end in (widest.low, widest.high))
    return (
        f"What would change the games kept most is the {widest.input}: {low} would keep "
        f"{count(widest.kept_at_low)} on average, {high} would keep {count(widest.kept_at_high)}."
    )


def _caveats(answer: PitchAnswer, scope_values: ScopeValues) -> list[str]:
    caveats = [CAUTION]
    if answer.effect.ratio is not None:
        caveats.append(
            "The effect is the same-session ratio with its "
            f"{INTERVAL_WORDS[answer.effect.limits]}: what was recorded of those who chose a "
            "guard, not a trial. It is taken to hold in every team and at every site alike."
        )
    caveats += pooling_caveat(answer.summary.scope, scope_values)
    caveats += _of_baselines(answer.teams)
    settings = [setting for team in answer.teams for setting in team.settings]
    if not all(setting.is_own_taking_part for setting in settings):
        caveats.append(
            "Where no own record says how many of a roster take part in a session, all are taken "
            "to: injuries there are counted high."
        )
    if answer.summary.scope.position_groups and any(not t.team.groups for t in answer.teams):
        caveats.append("Teams whose position groups are not told count with all their athletes.")
    guesses = [one.name for one in answer.inputs if one.source.startswith("assumed")]
    if guesses:
        caveats.append(f"Assumed, not recorded: {', '.join(guesses)}.")
    if answer.absence is not None and answer.absence.beyond > 0:
        caveats.append(
            "The longest absences are still open: games missed and kept are counted low."
        )
    elif answer.ahead is not None and answer.absence is None:
        caveats.append(f"Fewer than {LEAST} own injuries tell how long athletes are out.")
    if answer.plan.turnaround_why:
        caveats.append(f"Turnaround: {answer.plan.turnaround_why}.")
    caveats += answer.prospect.notes
    return caveats


def _of_baselines(teams: Sequence[TeamAhead]) -> list[str]:
    used = {setting.baseline.basis for team in teams for setting in team.settings}
    caveats = []
    if Basis.PUBLISHED in used:
        caveats.append(
            "Published rates are of many colleges: one department may be further from them than "
            "the ranges say. Rate and share may be of different years; each is named."
        )
    if Basis.OWN_BOTH in used:
        caveats.append(
            "Where games or practices alone have too few injuries, both have one rate: it fits a "
            "department with about as many practices for each game."
        )
    return caveats
