"""The sentences of the Pitch answer: what can be promised, how surely, what to keep in mind."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, pooling_caveat
from seasonboard.answers.pitch.options import EffectLimits
from seasonboard.answers.pitch.parts import (
    LEAST,
    ONE_IN,
    Basis,
    Effect,
    Input,
    PitchAnswer,
    PlanAhead,
    Swing,
    TeamAhead,
)
from seasonboard.answers.pitch.plans import queue_words
from seasonboard.scope import ScopeValues
from seasonboard.stats.season_ahead import Spread

INTERVAL_WORDS: Mapping[EffectLimits, str] = {
    EffectLimits.ORDINARY: "confidence interval",
    EffectLimits.PEEK_PROOF: "peek-proof confidence interval",
}


def summary(answer: PitchAnswer, scope_values: ScopeValues) -> PitchAnswer:
    """Return the answer with its sentence and its caveats."""
    sentence = " ".join(line for _, line in sayings(answer))
    caveats = tuple(_caveats(answer, scope_values))
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


def sayings(answer: PitchAnswer) -> list[tuple[str, str]]:
    """Return what can be said aloud: each a figure in a few letters, and its sentences.

    What happens without guards, what guards would keep, what that takes.
    """
    if not answer.prospect.teams:
        return [
            (
                "–",
                "Nothing to promise yet: no team is served from which to take a department's "
                "size. Give the prospect's teams (--teams FILE).",
            )
        ]
    return [_without(answer), *_with(answer), _takes(answer)]


def _without(answer: PitchAnswer) -> tuple[str, str]:
    whose = "of the prospect" if answer.is_given else "like those served"
    teams = words.plural(len(answer.planned), "team")
    opening = f"One season of {teams} {whose}, {words.plural(answer.athletes, 'athlete')}."
    ahead, sites = answer.ahead, words.sites_word(answer.sites)
    if ahead is None:
        return "–", f"{opening} How many injuries to {sites} to expect is not known for any team."
    hurt = counted(ahead.injuries.median, "injury", "injuries")
    text = f"{opening} Without guards expect {hurt} to {sites} (80 %: {range_80(ahead.injuries)})."
    if ahead.games_missed is None:
        return hurt, f"{text} What they cost in games is not known."
    missed = counted(ahead.games_missed.median, "game missed", "games missed")
    return hurt, f"{text} They cost {missed} (80 %: {range_80(ahead.games_missed)})."


def _with(answer: PitchAnswer) -> list[tuple[str, str]]:
    ahead, effect = answer.ahead, answer.effect
    if ahead is None:
        return []
    if effect.ratio is None:
        text = f"No effect of a guard is shown yet ({effect.why}): promise no game kept."
        if effect.ratio_needed is not None:
            text += (
                f" To keep one game missed in {ONE_IN}, guarded sites would have to be hurt at "
                f"most {words.ratio(effect.ratio_needed)} times as often as bare ones."
            )
        return [("no number", text)]
    kept = ahead.games_kept
    if kept is None:
        return []
    games = counted(kept.median, "game", "games")
    text = f"Guards as planned keep {games} in the median season (80 %: {range_80(kept)})."
    if kept.low_95 < 0:
        text += " From games lost to games kept anything is possible: promise no number."
    elif kept.low_95 == 0:
        text += " It may be none: promise no number."
    return [(f"{games} kept", text)]


def _takes(answer: PitchAnswer) -> tuple[str, str]:
    prints, plan = answer.prints, answer.shown
    number = counted(prints.prints.median, "print", "prints")
    text = f"It takes {number}, {count(prints.busiest_week.median)} of them in the busiest week."
    if plan.made is None or plan.made.turnaround_days is None:
        return number, f"{text} How long a guard takes is not known."
    days = words.plural(round(plan.made.turnaround_days.median), "day")
    text += f" With {plan_words(plan)} the median guard is fitted in {days}."
    if plan.made.queue.grows_from is not None:
        text += f" There {queue_words(plan)}."
    return number, text


def plan_words(plan: PlanAhead) -> str:
    """Return what makes the prints: `2 printers in their building`, `at most 12 prints a week`."""
    if plan.printers is None:
        most = "" if plan.capacity is None else f"at most {words.duration(plan.capacity)} "
        return f"{most}prints a week" if most else plan.way.words
    hours = f", {plan.printer_hours:g} hours a week" if plan.printer_hours else ""
    return f"{words.plural(plan.printers, 'printer')} in their building{hours}"


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
            f"The effect is the same-session ratio with its {INTERVAL_WORDS[answer.effect.limits]}"
            ": what was recorded of those who chose a guard, not a trial. It is taken to hold in "
            "every team and at every site alike."
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
    caveats += [
        f"With {plan.way.words} the plan cannot hold the demand: {queue_words(plan)}."
        for plan in answer.plans
        if plan.made is not None and not plan.holds
    ]
    caveats += answer.prospect.notes
    return caveats


def _of_baselines(teams: Sequence[TeamAhead]) -> list[str]:
    used = {team.baseline.basis for team in teams}
    caveats = []
    if Basis.PUBLISHED in used:
        caveats.append(
            "Published rates are of many colleges: one department may be further from them than "
            "the ranges say. Rate and share may be of different years; each is named."
        )
    if Basis.SERVED in used:
        names = ", ".join(t.name for t in teams if t.baseline.basis is Basis.SERVED)
        caveats.append(
            f"Of the sport of {names} no team is served: all teams served stand for it, with a "
            "wide range."
        )
    if not any(team.baseline.own is not None for team in teams):
        caveats.append("Last season's injuries at these sites, if given, would say most.")
    return caveats
