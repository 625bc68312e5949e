"""The numbers of the Games screen that stand as sentences, and how follow-up ends."""

from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.games.follow_up_tables import ENDS, Ended
from seasonboard.answers.games.words import (
    WITHIN,
    log_rank_words,
    one_mix_words,
    quantile_words,
)
from seasonboard.ui.layout.blocks import GAP, INJURIES, Block, Opens, Paper, What, item, note, title
from seasonboard.ui.layout.tables import column, columns, heading, table_blocks

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer
    from seasonboard.stats.recurrent import MeanCumulative

_WIDTHS = {"guarded.share": 9, "guarded.interval": 13, "bare.share": 8, "bare.interval": 13}
_SHARES = {True: (29, 38), False: (52, 61)}
"""Cells between which the shares of the guarded stand, and those of the bare."""
_ATHLETES, _ENDS = Opens(What.ATHLETES), "other ends"


def numbers(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return what holds at one mix, then what holds as played, a line each."""
    guarded, bare = answer.groups
    level = words.level_words(answer.summary.scope)
    medians = [quantile_words(group.median) for group in (guarded, bare)]
    means = [
        mean.why if mean.value is None else words.number(mean.value)
        for mean in (guarded.restricted_mean, bare.restricted_mean)
    ]
    stretch = "" if answer.horizon is None else f", to {answer.horizon}"
    within = log_rank_words(answer.log_rank_stratified)
    plain = f"log-rank {log_rank_words(answer.log_rank)}"
    lines = (
        ("one mix", "restricted mean", one_mix_words(answer)),
        ("log-rank", "log-rank", f"within {WITHIN}: {within}"),
        (f"mean{stretch}", "as played", f"as played: guarded {means[0]}; bare {means[1]}; {plain}"),
        ("median", "median", f"as played: guarded {medians[0]}; bare {medians[1]}"),
        ("repeats", "repeats", _repeats(answer, level)),
    )
    blocks = (
        Block(item(f"{name:<12}", text, paper), card, card, INJURIES) for name, card, text in lines
    )
    return [GAP, *blocks]


def _repeats(answer: "GamesAnswer", level: str) -> str:
    """Return the mean injuries per site of both groups at the horizon, repeats counted."""
    until = "" if answer.horizon is None else f" to {answer.horizon}"
    guarded, bare = (_mean(repeats, answer.horizon) for repeats in answer.repeats)
    return (
        f"as played, mean injuries per site{until}, repeats counted: guarded {guarded}; "
        f"bare {bare}; {level} limits"
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


def follow_up_ends(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the share of sites that each cause has ended by the horizon, for both groups."""
    until = "" if answer.horizon is None else f" by {answer.horizon}"
    blocks = [title(f"How follow-up ends: share of sites{until}", paper)]
    groups = dict(zip(("guarded", "bare"), answer.incidence, strict=True))
    blocks += [
        Block(item(f"{name:<7}", f"not known: {one.why}", paper), f"ends {name}", _ENDS, _ATHLETES)
        for name, one in groups.items()
        if one.why
    ]
    if all(one.why for one in groups.values()):
        return blocks
    heads = (column(ENDS.field("what"), 27, heading=""), *columns(ENDS, answer, **_WIDTHS))

    def in_colours(text: Text) -> Text:
        for is_guarded, (start, end) in _SHARES.items():
            text.stylize(paper.ink.group(guarded=is_guarded), start, end)
        return text

    def lines(_: Ended, line: Text) -> tuple[Text]:
        line.stylize(paper.ink.quiet, _SHARES[True][0])
        return (in_colours(line),)

    table = table_blocks(
        heads,
        ENDS.rows(answer) or (),
        paper,
        lambda ended: (f"ends {ended.what}", _ENDS, _ATHLETES),
        above=(in_colours(heading(heads, paper)),),
        lines=lines,
        stays=False,
    )
    late = "; ".join(
        f"{name}: of those still followed at {one.start}"
        for name, one in groups.items()
        if one.start is not None and one.start > 1
    )
    return [*blocks, *table, *([Block(note(late, paper))] if late else [])]


def endings(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return why follow-up ended without an injury that counts, in counts."""
    blocks = [title("Follow-up ended without an injury that counts", paper)]
    for group in answer.groups:
        word = "guarded" if group.name == "guarded" else "bare"
        counts = "; ".join(f"{words.whole(ending.count)} {ending.why}" for ending in group.endings)
        sites, athletes = words.plural(group.sites, "site"), words.plural(group.athletes, "athlete")
        text = f"{counts or 'none'} (of {sites} of {athletes})"
        blocks.append(Block(item(f"{word:<7}", text, paper), f"endings {word}", "curve", _ATHLETES))
    return blocks
