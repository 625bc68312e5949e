"""The Games answer in words."""

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, pooling_caveat
from seasonboard.answers.compare.verdict import LESS, MORE, Judged, why_not_beside
from seasonboard.answers.games.parts import Clock, GamesAnswer, GamesOptions, Group
from seasonboard.scope import Scope, ScopeValues, View
from seasonboard.stats.direct_standardisation import Standardised
from seasonboard.stats.estimate import Quantile
from seasonboard.stats.log_rank import LogRank
from seasonboard.stats.survival import RestrictedMean

WORTH_NAMING = 0.15
"""A position group's share is named when it differs by this much between the curves."""

ONE_TICK = {
    Clock.GAMES: "game",
    Clock.SESSIONS: "session",
    Clock.SEASON_GAMES: "the team's game",
    Clock.PLAYS: "play",
    Clock.MINUTES: "minute",
}
TICKS = {
    Clock.GAMES: "games",
    Clock.SESSIONS: "sessions",
    Clock.SEASON_GAMES: "of the team's games",
    Clock.PLAYS: "plays",
    Clock.MINUTES: "minutes",
}

_IN = {**TICKS, Clock.SEASON_GAMES: "the team's games"}
WITHIN = "body area, sport, sex, position group, setting and fortnight"
"""The strata in words."""
AS_PLAYED = "as played, not of like athletes"
"""What is said of every curve, mean and test that is not at one mix."""


def games_sentence(  # noqa: PLR0913, PLR0917 - what the sentence rests on
    guarded: Group,
    unguarded: Group,
    mix: Standardised,
    judged: Judged,
    options: GamesOptions,
    sites: str,
) -> str:
    """Return the verdict of Compare, and the difference in games where it goes with it."""
    ticks = TICKS[options.clock]
    if not guarded.ticks and not unguarded.ticks:
        if options.clock.is_fine:
            return f"Nothing to follow: no {ticks} are recorded for any game in this scope."
        return f"Nothing to follow yet: nobody is recorded as playing {ticks} in this scope."
    if not guarded.ticks:
        opening = f"No guard counted here was worn in {_IN[options.clock]}"
        return _one_group(unguarded, opening, sites, ticks)
    if not unguarded.ticks:
        opening = f"Every exposure in {_IN[options.clock]} was guarded"
        return _one_group(guarded, opening, sites, ticks)
    gap = mix.difference
    opening = judged.verdict[0].upper() + judged.verdict[1:]
    if why := why_not_beside(judged, gap):
        return (
            f"{opening}. A difference in {_IN[options.clock]} before an injury cannot be told here "
            f"({why}): see Compare."
        )
    start, horizon = gap.start or 1, gap.horizon or 1
    one, other = (words.number(mean.value) for mean in (mix.mean_guarded, mix.mean_unguarded))
    text = (
        f"{opening}. Of {horizon - start + 1} {ticks} guarded {sites} went {one} before an injury, "
        f"bare ones of like athletes {other}: {_more_or_fewer(gap.value or 0.0)} "
        f"({from_to(gap.low, gap.high)})."
    )
    if judged.verdict in {LESS, MORE} and (gap.low or 0) <= 0 <= (gap.high or 0):
        text += f" By {_IN[options.clock]} alone this could be chance."
    if start > 1:
        tick = f"{ONE_TICK[options.clock]} {start}"
        text += f" Counted from {tick} on, among those uninjured until then."
    return text


def _more_or_fewer(gap: float) -> str:
    size = words.number(abs(gap))
    if size == words.number(0.0):
        return "as many"
    return f"{size} {'more' if gap > 0 else 'fewer'}"


def games_caveats(  # noqa: PLR0913, PLR0917 - what the caveats rest on
    frame: pl.DataFrame,
    guarded: Group,
    unguarded: Group,
    within: LogRank,
    clock: Clock,
    scope: Scope,
    scope_values: ScopeValues,
) -> list[str]:
    """Return what to keep in mind when reading the curves."""
    caveats = [CAUTION]
    if clock.is_fine:
        caveats.append(
            f"The clock counts the athlete's own {clock} in games. An injury is counted at the "
            "last of its game; a game without that record is not on the clock."
        )
    if scope.purpose is View.ALL:
        caveats.append("Puts preventive and return guards together: never the headline.")
    caveats += pooling_caveat(scope, scope_values)
    if guarded.ticks and unguarded.ticks:
        caveats.append(
            "The verdict is that of Compare. The difference is taken within "
            f"{WITHIN}: there {within.observed} guarded sites were hurt and "
            f"{words.number(within.expected, digits=1)} expected."
        )
    caveats += [*_late_start(guarded), *_late_start(unguarded), *_imbalance(frame)]
    if guarded.ticks and unguarded.ticks:
        caveats.append(
            "A site enters the guarded curve at the game in which a guard is first worn and leaves "
            "the bare one there. The curves describe what was worn, not what would have happened."
        )
    return caveats


def _late_start(group: Group) -> list[str]:
    curve, word = group.curve, "guarded" if group.name == "guarded" else "bare"
    if curve.start is None or curve.start <= curve.points[0].tick:
        return []
    return [
        f"Fewer than {curve.min_at_risk} {word} sites were at risk before tick {curve.start}: "
        "that curve starts there, among those uninjured until then."
    ]


def _imbalance(frame: pl.DataFrame) -> list[str]:
    """Name the position group whose share differs most between the two curves."""
    shares = (
        frame.filter(pl.col("position_group").is_not_null())
        .group_by("guarded", "position_group")
        .agg((pl.col("at_risk") * pl.col("width")).sum().alias("at_risk"))
        .with_columns(share=pl.col("at_risk") / pl.col("at_risk").sum().over("guarded"))
        .pivot("guarded", index="position_group", values="share")
    )
    if not {"true", "false"} <= set(shares.columns):
        return []
    gaps = shares.fill_null(0.0).with_columns(gap=(pl.col("true") - pl.col("false")).abs())
    widest = gaps.sort("gap", "position_group", descending=[True, False]).row(0, named=True)
    if widest["gap"] < WORTH_NAMING:
        return []
    return [
        "As played, the curves compare different mixes of athletes: position group "
        f"“{widest['position_group']}” makes up {words.percent(widest['true'])} of what is guarded "
        f"and {words.percent(widest['false'])} of what is bare."
    ]


def _one_group(group: Group, opening: str, sites: str, ticks: str) -> str:
    mean = group.restricted_mean
    name = f"guarded {sites}" if group.name == "guarded" else f"bare {sites}"
    if mean.value is None or mean.horizon is None or mean.start is None:
        hurt = words.plural(group.injuries, "injury", "injuries")
        return f"{opening}; {name}: {hurt} ({mean.why})."
    return (
        f"{opening}; {name} went {words.number(mean.value, digits=1)} of "
        f"{mean.horizon - mean.start + 1} {ticks} before an injury on average; "
        "there is nothing to compare with."
    )


def clock_word(answer: GamesAnswer) -> str:
    """Return what one tick is, in one word: `game`, `session`, `play`, `minute`."""
    clock = answer.options.clock
    return "game" if clock is Clock.SEASON_GAMES else ONE_TICK[clock]


def quantile_words(quantile: Quantile) -> str:
    """Return a quantile with its confidence interval, in words where they are not reached."""
    if quantile.value is None and quantile.low is None:
        return quantile.why
    value, low, high = (
        "not reached" if tick is None else f"{tick:g}"
        for tick in (quantile.value, quantile.low, quantile.high)
    )
    return f"{value} ({low} to {high})"


def difference_words(gap: RestrictedMean, level: str) -> str:
    """Return the difference of two means with its confidence interval, or why not known."""
    if gap.value is None:
        return f"difference not known: {gap.why}"
    limits = f"{words.number(gap.low)} to {words.number(gap.high)}"
    return f"difference {words.number(gap.value)} ({level}: {limits})"


def log_rank_words(test: LogRank) -> str:
    """Return a log-rank test, or why there is none."""
    if test.chi_square is None or test.p is None:
        return f"not known: {test.why}"
    p = "p < 0.001" if test.p < 0.001 else f"p {words.number(test.p, digits=3)}"
    return (
        f"χ² {words.number(test.chi_square)}, {p} ({test.observed} guarded hurt, "
        f"{words.number(test.expected, digits=1)} expected)"
    )


def one_mix_words(answer: GamesAnswer) -> str:
    """Return means and difference at the same mix of athletes, or why there are none."""
    mix = answer.one_mix
    if mix.why:
        return f"no curves at the same mix of athletes: {mix.why}"
    guarded, bare = (words.number(mean.value) for mean in (mix.mean_guarded, mix.mean_unguarded))
    level = words.level_words(answer.summary.scope)
    start = f" from {mix.start}" if mix.start and mix.start > 1 else ""
    return (
        f"at the same mix of athletes, mean{start} to {mix.horizon}: guarded {guarded}; "
        f"bare {bare}; {difference_words(mix.difference, level)}"
    )


def from_to(low: float | None, high: float | None) -> str:
    """Return the interval of a difference in words: `1.5 to 5.5 more`, `3.0 fewer to 2.3 more`."""
    if low is None or high is None:
        return "no limits yet"
    first, last = words.number(abs(low)), words.number(abs(high))
    if low >= 0:
        return f"{first} to {last} more"
    if high <= 0:
        return f"{last} to {first} fewer"
    return f"{first} fewer to {last} more"
