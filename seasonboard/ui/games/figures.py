"""The numbers of the Games screen that stand as sentences."""

from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.ui.layout.blocks import GAP, Block, Paper, item

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer
    from seasonboard.stats.estimate import Quantile
    from seasonboard.stats.log_rank import LogRank
    from seasonboard.stats.recurrent import MeanCumulative
    from seasonboard.stats.survival import RestrictedMean


def numbers(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return medians, means, test, repeats and the curves at one mix, a line each."""
    guarded, unguarded = answer.groups
    gap = answer.restricted_mean_difference
    level = words.level_words(answer.summary.scope)
    means = [
        words.number(group.restricted_mean.value, digits=2)
        if group.restricted_mean.value is not None
        else group.restricted_mean.why
        for group in (guarded, unguarded)
    ]
    stretch = "" if answer.horizon is None else f", to {answer.horizon}"
    lines = (
        (
            "median",
            "median",
            f"guarded {_quantile(guarded.median)}; bare {_quantile(unguarded.median)}",
        ),
        (
            f"mean{stretch}",
            "restricted mean",
            f"guarded {means[0]}; bare {means[1]}; {_difference(gap, level)}",
        ),
        ("one mix", "one mix", _one_mix(answer, level)),
        ("repeats", "repeats", _repeats(answer, level)),
        (
            "log-rank",
            "log-rank",
            f"{_log_rank(answer.log_rank)}; within sport, sex and position group "
            + _log_rank(answer.log_rank_stratified),
        ),
    )
    return [
        GAP,
        *(
            Block(item(f"{name:<12}", text, paper), name=card, card=card, opens="injuries")
            for name, card, text in lines
        ),
    ]


def _difference(gap: "RestrictedMean", level: str) -> str:
    if gap.value is None:
        return f"difference not known: {gap.why}"
    limits = f"{words.number(gap.low)} to {words.number(gap.high)}"
    return f"difference {words.number(gap.value)} ({level}: {limits})"


def _one_mix(answer: "GamesAnswer", level: str) -> str:
    """Return the difference at the same mix of athletes, or why there is none."""
    mix = answer.one_mix
    if mix is None:
        return "one kind of athlete only, or no stretch to compare: nothing to mix"
    if mix.why:
        return f"no curves at the same mix of athletes: {mix.why}"
    means = [words.number(mean.value) for mean in (mix.mean_guarded, mix.mean_unguarded)]
    return (
        f"at the same mix of athletes, mean to {mix.horizon}: guarded {means[0]}; bare "
        f"{means[1]}; {_difference(mix.difference, level)}; a shows the curves"
    )


def _repeats(answer: "GamesAnswer", level: str) -> str:
    """Return the mean injuries per site of both groups at the horizon, repeats counted."""
    until = "" if answer.horizon is None else f" to {answer.horizon}"
    guarded, unguarded = (_mean(found, answer.horizon) for found in answer.repeats)
    return (
        f"mean injuries per site{until}, repeats counted: guarded {guarded}; bare {unguarded}; "
        f"{level} limits"
    )


def _mean(found: "MeanCumulative", horizon: int | None) -> str:
    points = [
        p for p in found.points if p.mean is not None and (horizon is None or p.tick <= horizon)
    ]
    if not points or found.start is None:
        return f"not known ({found.why or 'too few at risk by then'})"
    point = points[-1]
    since = f", from {found.start} on" if found.start > 1 else ""
    if point.low is None or point.high is None:
        return f"{words.number(point.mean, digits=3)} (no limits yet{since})"
    limits = f"{words.number(point.low, digits=3)} to {words.number(point.high, digits=3)}"
    return f"{words.number(point.mean, digits=3)} ({limits}{since})"


def _quantile(quantile: "Quantile") -> str:
    """Return a median with its limits, in words where it or they are not reached."""
    if quantile.value is None and quantile.low is None:
        return quantile.why
    value = quantile.why if quantile.value is None else str(quantile.value)
    low, high = (
        "not reached" if limit is None else str(limit) for limit in (quantile.low, quantile.high)
    )
    return f"{value} ({low} to {high})"


def _log_rank(test: "LogRank") -> str:
    if test.chi_square is None:
        return f"not known: {test.why}"
    p = (
        "p < 0.001"
        if test.p is not None and test.p < 0.001
        else f"p {words.number(test.p, digits=3)}"
    )
    return (
        f"χ² {words.number(test.chi_square)}, {p} ({test.observed} guarded hurt, "
        f"{words.number(test.expected, digits=1)} expected)"
    )
