"""Two claims about injuries: hurt less in the same sessions, and more games before an injury.

The rules are stricter than those of the screens, since a claim leaves the room without its caveats.
"""

from seasonboard.answers import words
from seasonboard.answers.claims.parts import GAMES, HURT, Claim, bracket, claim
from seasonboard.answers.claims.rules import CONDITION, ClaimWord, few, of_scope
from seasonboard.answers.compare.comparisons import CRUDE, HEADLINE, ORDER
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.compare.report import missing_words
from seasonboard.answers.compare.verdict import MORE, NO_LARGE, why_not_beside
from seasonboard.answers.games.parts import GamesAnswer
from seasonboard.answers.games.words import TICKS, from_to
from seasonboard.scope import Outcome, Scope, View
from seasonboard.stats.ratios import RateRatio
from seasonboard.stats.survival import RestrictedMean


def hurt_claim(answer: CompareAnswer, sites: str) -> Claim:
    """Return what may be said of injuries in the same sessions.

    “Less” is supported where it is claimed, by the rules of claims. “More” is where the verdict
    says so: what speaks against a guard needs no second proof. Both need guards of one purpose.
    """
    headline, crude = answer.comparison(HEADLINE).ratio, answer.comparison(CRUDE).ratio
    scope, word = answer.summary.scope, answer.claim.word
    limits = words.interval(headline.low, headline.high)
    is_more = answer.verdict == MORE
    if answer.claim.drawn is not None:
        return _drawn_claim(answer.claim.drawn, scope, sites)
    missing = of_scope(scope) if is_more else list(answer.claim.missing)
    if missing and answer.verdict != NO_LARGE:
        missing += _needed(answer)
    opening = "After an earlier injury, in" if scope.purpose is View.RETURN else "In"
    start = f"{opening} the same sessions guarded {sites} were hurt"
    return claim(
        topic=HURT,
        may_say=f"{start} {words.ratio(headline.value)} times as often as bare ones "
        f"{bracket(scope, limits)}{f', {CONDITION}' if word is ClaimWord.CONDITIONAL else ''}.",
        may_not_say=f"{start} {'more' if is_more else 'less'} often than bare ones.",
        missing=missing,
        interval=None
        if headline.low is None and headline.high is None
        else f"{words.level_words(scope)}: {limits}",
        rests_on=_ratio_rests_on(answer, headline, crude),
        counts=(crude.injuries_guarded, crude.injuries_unguarded),
    )


def _drawn_claim(ratio: RateRatio, scope: Scope, sites: str) -> Claim:
    """Return what drawn turns show: a claim about turns, whatever was worn, without a condition."""
    limits = words.interval(ratio.low, ratio.high)
    hurt = ratio.injuries_guarded, ratio.injuries_unguarded
    return claim(
        topic=HURT,
        may_say=f"Whose guard came first was drawn at random. Once it was their turn, athletes had "
        f"their {sites} hurt {words.ratio(ratio.value)} times as often as those still waiting "
        f"{bracket(scope, limits)}.",
        may_not_say="",
        missing=(),
        interval=f"{words.level_words(scope)}: {limits}",
        rests_on=f"{_plain(hurt[0])} of athletes whose turn had come, {_plain(hurt[1])} of those "
        "waiting, whether or not a guard was worn.",
        counts=hurt,
    )


def _plain(injuries: int) -> str:
    return words.plural(injuries, "injury", "injuries")


def games_claim(answer: GamesAnswer, sites: str) -> Claim:
    """Return what may be said of games before an injury.

    “More” is supported where the limits of the difference at one mix of athletes lie above 0, the
    verdict of Compare goes with it, and both groups have 11 injuries beside others alike; “fewer”
    where they lie below it and the verdict goes with that. Both need guards of one purpose.
    """
    scope, mix = answer.summary.scope, answer.one_mix
    found = mix.difference
    guarded, bare = (sum(p.injuries for p in points) for points in (mix.guarded, mix.unguarded))
    ticks = TICKS[answer.options.clock]
    against = why_not_beside(answer.judged, found)
    is_fewer = not against and found.high is not None and found.high < 0
    missing = of_scope(scope)
    if not is_fewer:
        missing += [*few(guarded, bare), *_more(found, against)]
    limits = from_to(found.low, found.high)
    opening = "After an earlier injury guarded" if scope.purpose is View.RETURN else "Guarded"
    start = f"{opening} {sites} went"
    gap = words.number(abs(found.value or 0.0))
    stretch = (found.horizon or 0) - (found.start or 1) + 1
    word = "fewer" if is_fewer else "more"
    return claim(
        topic=GAMES,
        may_say=f"{start} {gap} {word} of {stretch} {ticks} before an injury on average than bare "
        f"ones of like athletes {bracket(scope, limits)}.",
        may_not_say=f"{start} {word} {ticks} before an injury than bare ones.",
        missing=missing,
        interval=None if found.low is None else f"{words.level_words(scope)}: {limits}",
        rests_on=f"{_injuries(guarded, bare)} beside others alike; "
        f"{words.whole(answer.guarded.sites)} guarded and {words.whole(answer.unguarded.sites)} "
        "bare sites, followed by what was worn at each step, not by what would have happened.",
        counts=(guarded, bare, answer.guarded.injuries, answer.unguarded.injuries),
    )


def _needed(answer: CompareAnswer) -> list[str]:
    """Return how much more it takes at today's pace; nothing where none is known or needed."""
    need = answer.sample_size
    if not need.more_guarded:
        return []
    return [
        f"{missing_words(answer)}, would tell a ratio of {need.ratio:g} from 1 with "
        f"{words.percent(need.power)} power"
    ]


def _ratio_rests_on(answer: CompareAnswer, headline: RateRatio, crude: RateRatio) -> str:
    lost = " with time lost" if answer.summary.scope.outcome is Outcome.TIME_LOSS else ""
    text = (
        f"{_injuries(crude.injuries_guarded, crude.injuries_unguarded)}{lost}, in "
        f"{words.whole(crude.exposures_guarded)} and {words.whole(crude.exposures_unguarded)} "
        f"site-exposures; the ratio on {headline.informative_injuries} of them, in sessions in "
        "which both were exposed."
    )
    others = [
        f"{name} {words.ratio(ratio)}"
        for name in ORDER
        if name not in {HEADLINE, CRUDE}
        and (ratio := answer.comparison(name).ratio.value) is not None
    ]
    if others:
        text += f" Other comparisons: {', '.join(others)}."
    now = answer.watched.now
    if answer.controls.far.value is not None:
        far = answer.controls.far
        text += f" Far from the guard: {words.interval(far.low, far.high)}."
    if now.low is not None or now.high is not None:
        text += f" However often one looks: {words.interval(now.low, now.high)}."
    return text


def _injuries(guarded: int, bare: int) -> str:
    both = words.plural(bare, "bare injury", "bare injuries")
    return f"{words.whole(guarded)} guarded and {both}"


def _more(found: RestrictedMean, against: str) -> list[str]:
    """Return what is missing before “more games” may be said."""
    if found.value is None or against:
        return [f"a difference in games that goes with Compare ({found.why or against})"]
    if found.low is None or found.low <= 0:
        return [
            "a difference beyond chance: the limits "
            f"({from_to(found.low, found.high)}) still allow none"
        ]
    return []
