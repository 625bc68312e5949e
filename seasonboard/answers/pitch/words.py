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

LIMITS_WORDS: Mapping[EffectLimits, str] = {
    EffectLimits.BY_ATHLETE: "limits by athlete",
    EffectLimits.PEEK_PROOF: "peek-proof limits",
}


def summary(answer: PitchAnswer, known: ScopeValues) -> PitchAnswer:
    """Return the answer with its sentence and its caveats."""
    full = replace(answer.summary, answer=_sentence(answer), caveats=tuple(_caveats(answer, known)))
    return replace(answer, summary=full)


def count(value: float) -> str:
    """Return a simulated number as a whole one, with a true minus sign: `−3`."""
    text = f"{value:,.0f}".replace("-", "−")
    return "0" if text == "−0" else text


def counted(value: float, one: str, many: str) -> str:
    """Return a simulated number as a whole one with its noun: `1 game`, `−3 games`."""
    text = count(value)
    return f"{text} {one if text in {'1', '−1'} else many}"


def range_95(found: Spread) -> str:
    """Return the 95 % range: `3 to 17`."""
    return f"{count(found.low_95)} to {count(found.high_95)}"


def range_80(found: Spread) -> str:
    """Return the 80 % range: `5 to 14`."""
    return f"{count(found.low_80)} to {count(found.high_80)}"


def input_value(found: Input) -> str:
    """Return the value of an input with what is fitting for its unit."""
    return value_words(found.value, found.unit)


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
    known = sum(team.injuries is not None for team in answer.teams)
    of = (
        ""
        if known == len(answer.teams)
        else f" in {known} of these teams (the others are not known)"
    )
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
        f"With guards as planned {counted(kept.median, 'game', 'games')} kept in the middle "
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
    if plan.ahead.wait_hours is None:
        return (
            f"{text}; half of the guards would be fitted within {turnaround.median:.0f} days if "
            "no guard waits for a printer."
        )
    return (
        f"{text}; with {plan.made_by} half of the guards would be fitted within "
        f"{turnaround.median:.0f} days, 19 in 20 within {turnaround.p95:.0f}."
    )


def swing_sentence(swings: Sequence[Swing], inputs: Mapping[str, Input], effect: Effect) -> str:
    """Return which input would change the games kept most, in one sentence."""
    if not swings:
        why = effect.why or "the games kept are not known"
        return f"What would change the games kept most is not known: {why}."
    widest = swings[0]
    unit = inputs[widest.input].unit if widest.input in inputs else ""
    low, high = (value_words(end, unit) for end in (widest.low, widest.high))
    return (
        f"What would change the games kept most is the {widest.input}: {low} would keep "
        f"{count(widest.kept_at_low)} on average, {high} would keep {count(widest.kept_at_high)}."
    )


def _caveats(answer: PitchAnswer, known: ScopeValues) -> list[str]:
    caveats = [CAUTION]
    if answer.effect.ratio is not None:
        caveats.append(
            "The effect is the same-session ratio with its "
            f"{LIMITS_WORDS[answer.effect.limits]}: what was recorded of those who chose a guard, "
            "not a trial. It is taken to hold in every team and at every site alike."
        )
    caveats += pooling_caveat(answer.summary.scope, known)
    caveats += _of_baselines(answer.teams)
    if any(not each.is_own_taking_part for team in answer.teams for each in team.settings):
        caveats.append(
            "Where no own record says how many of a roster take part in a session, all are taken "
            "to: injuries there are counted high."
        )
    if answer.summary.scope.position_groups and any(not t.team.groups for t in answer.teams):
        caveats.append("Teams whose position groups are not told count with all their athletes.")
    guesses = [each.name for each in answer.inputs if each.source.startswith("assumed")]
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
    used = {each.baseline.basis for team in teams for each in team.settings}
    summary = []
    if Basis.PUBLISHED in used:
        summary.append(
            "Published rates are of many colleges: one department may be further from them than "
            "the ranges say. Rate and share may be of different years; each is named."
        )
    if Basis.OWN_BOTH in used:
        summary.append(
            "Where games or practices alone have too few injuries, both have one rate: it fits a "
            "department with about as many practices for each game."
        )
    return summary
