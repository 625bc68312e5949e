"""The Return answer in words."""

from collections.abc import Mapping, Sequence
from typing import Any

from seasonboard.answers import words
from seasonboard.answers.compare.verdict import (
    LESS,
    MORE,
    NO_LARGE,
    NONE_YET,
    NOTHING,
    TOO_FEW,
)
from seasonboard.answers.returns.parts import Contrast, GamesWorn, Wait
from seasonboard.scope import Outcome, Scope

_BACK = {
    TOO_FEW: "too few returns to tell",
    LESS: "with a return guard in hand athletes came back later",
    MORE: "with a return guard in hand athletes came back sooner",
}
_AGAIN = {
    LESS: "sites in a return guard were hurt again less often",
    MORE: "sites in a return guard were hurt again more often",
}
NOT_SAYABLE = "Return guards bring athletes back sooner, or keep them from being hurt again."
"""What counted games do not show, whatever their number."""


def returns_sentence(
    numbers: Mapping[str, Any], waits: Sequence[Wait], contrasts: Sequence[Contrast], scope: Scope
) -> str:
    """Return how soon athletes are back, in what guard, and what may be told of the two."""
    if not numbers["injuries"]:
        return "No injury that cost time is recorded at a site that guards in this scope cover."
    days, asked, in_time = waits[0].median, numbers["asked"], numbers["in_time"]
    injuries = words.plural(numbers["injuries"], "injury", "injuries")
    if days.value is None:
        half = f"Half of {injuries} that cost time are not back yet"
    else:
        limits = words.interval(days.low, days.high, words.duration)
        half = f"Half of {injuries} that cost time were back within {words.days(days.value)} out"
        half += f" ({words.level_words(scope)}: {limits})"
    guards = f"A return guard was asked for after {words.whole(asked.successes)}"
    if in_time.trials:
        came = words.whole(in_time.successes) if in_time.successes else "none"
        guards += f"; of {words.whole(in_time.trials)} fitted {came} came by the day of return"
    return f"{half}. {guards}. {contrast_words(contrasts[0])} {contrast_words(contrasts[1])}"


def verdict_words(one: Contrast) -> str:
    """Return a verdict by the rules of Compare, said of returns or of being hurt again."""
    return (_BACK if one.name == "back" else _AGAIN).get(one.verdict, one.verdict)


def contrast_words(one: Contrast) -> str:
    """Return a contrast in a sentence: the verdict first, then what it is of."""
    ratio, told = one.ratio, verdict_words(one)
    what = "Back with a guard in hand or without" if one.name == "back" else "Hurt there again"
    if one.verdict == NOTHING:
        return f"{what}: {told}."
    guarded, bare = map(words.whole, (ratio.injuries_guarded, ratio.injuries_unguarded))
    counts = f"{guarded} guarded, {bare} bare"
    if one.verdict == TOO_FEW or ratio.value is None:
        return f"{what}: {told} ({counts})."
    times = f"{words.ratio(ratio.value)} times ({words.interval(ratio.low, ratio.high)})"
    often = "as soon" if one.name == "back" else "as often"
    lead = what if one.verdict in {NO_LARGE, NONE_YET} else told[0].upper() + told[1:]
    rest = f", {told}" if one.verdict in {NO_LARGE, NONE_YET} else ""
    return f"{lead}: {times} {often}{rest}."


def caveats_of(scope: Scope) -> tuple[str, ...]:
    """Return what to keep in mind about returns."""
    again = "any injury" if scope.outcome is Outcome.ANY else "time-loss injuries"
    return (
        "The worse hurt are likelier to be given a guard: beside days out so far and the body "
        "area, nothing here allows for how bad an injury was.",
        "When like injuries were over is a count of the past. It predicts no return, and nobody's "
        "return is decided by it.",
        "The guard counts from the day it was fitted; who waits for one counts as bare until then. "
        f"Hurt again counts {again} to the site after the return, within the season.",
    )


def sayable(worn: Sequence[GamesWorn], scope: Scope) -> str:
    """Return what may be said of games in return guards: a count, nothing of protection."""
    games = sum(one.games for one in worn)
    if not games:
        return "No game in a return guard is recorded yet."
    athletes = words.plural(sum(one.athletes for one in worn), "athlete")
    places = words.plural(len(worn), "department")
    return (
        f"By {scope.through.day} {scope.through:%B %Y} {athletes} of {places} had played "
        f"{words.plural(games, 'game')} in a guard made for the return."
    )
