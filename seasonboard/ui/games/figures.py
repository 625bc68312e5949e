"""The numbers of the Games screen that stand as sentences."""

from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.answers.games.words import (
    difference_words,
    log_rank_words,
    one_mix_words,
    quantile_words,
)
from seasonboard.ui.layout.blocks import GAP, Block, Paper, item
from seasonboard.ui.layout.opens import Opens, What

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer
    from seasonboard.stats.recurrent import MeanCumulative


def numbers(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return medians, means, test, repeats and the curves at one mix, a line each."""
    guarded, bare = answer.groups
    level = words.level_words(answer.summary.scope)
    medians = [quantile_words(group.median) for group in (guarded, bare)]
    means = [
        mean.why if mean.value is None else words.number(mean.value)
        for mean in (guarded.restricted_mean, bare.restricted_mean)
    ]
    stretch = "" if answer.horizon is None else f", to {answer.horizon}"
    is_mixed = answer.one_mix is not None and not answer.one_mix.why
    lines = (
        ("median", "median", f"guarded {medians[0]}; bare {medians[1]}"),
        (
            f"mean{stretch}",
            "restricted mean",
            f"guarded {means[0]}; bare {means[1]}; "
            + difference_words(answer.restricted_mean_difference, level),
        ),
        ("one mix", "one mix", one_mix_words(answer) + ("; a shows the curves" * is_mixed)),
        ("repeats", "repeats", _repeats(answer, level)),
        (
            "log-rank",
            "log-rank",
            f"{log_rank_words(answer.log_rank)}; within sport, sex and position group "
            + log_rank_words(answer.log_rank_stratified),
        ),
    )
    return [
        GAP,
        *(
            Block(
                item(f"{name:<12}", text, paper), name=card, card=card, opens=Opens(What.INJURIES)
            )
            for name, card, text in lines
        ),
    ]


def _repeats(answer: "GamesAnswer", level: str) -> str:
    """Return the mean injuries per site of both groups at the horizon, repeats counted."""
    until = "" if answer.horizon is None else f" to {answer.horizon}"
    guarded, bare = (_mean(repeats, answer.horizon) for repeats in answer.repeats)
    return (
        f"mean injuries per site{until}, repeats counted: guarded {guarded}; bare {bare}; "
        f"{level} limits"
    )


def _mean(repeats: "MeanCumulative", horizon: int | None) -> str:
    points = [
        p for p in repeats.points if p.mean is not None and (horizon is None or p.tick <= horizon)
    ]
    if not points or repeats.start is None:
        return f"not known ({repeats.why or 'too few at risk by then'})"
    point = points[-1]
    since = f", from {repeats.start} on" if repeats.start > 1 else ""
    if point.low is None or point.high is None:
        return f"{words.number(point.mean, digits=3)} (no limits yet{since})"
    limits = f"{words.number(point.low, digits=3)} to {words.number(point.high, digits=3)}"
    return f"{words.number(point.mean, digits=3)} ({limits}{since})"
