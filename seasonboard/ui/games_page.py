"""The page of the Games screen, drawn from its answer."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui import parts
from seasonboard.ui.blocks import GAP, Block, Paper, item, title
from seasonboard.ui.curves import at_risk_trend, survival_picture
from seasonboard.ui.format import right

if TYPE_CHECKING:
    from seasonboard.answers.games_parts import GamesAnswer, Group
    from seasonboard.stats.log_rank import LogRank
    from seasonboard.stats.survival import CurvePoint, Quantile

_COLUMNS = (("at risk", 8), ("hurt", 6), ("in", 6), ("left", 6), ("uninjured", 10))
_TICK = 6
LEAST_PICTURE, MOST_PICTURE = 12, 28
ROOMY = Paper(100, 28)
"""Paper of this size and more gets a second picture."""


def games_page(answer: "GamesAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, options, curves, numbers, ticks, and what to keep in mind."""
    opening = parts.opening(answer.said, paper, card="restricted mean", opens="injuries")
    options = Block(options_lines(answer, paper))
    used = sum(len(block.lines) for block in (*opening, options))
    height = min(MOST_PICTURE, max(LEAST_PICTURE, paper.height - used))
    picture = survival_picture(answer, Paper(paper.width, height, paper.ink))
    return [
        *opening,
        options,
        Block(tuple(picture), name="curves", card="curve", opens="injuries"),
        *_numbers(answer, paper),
        *_at_risk(answer, paper),
        *_ticks(answer, paper),
        *_endings(answer, paper),
        *parts.left_out(answer.said, paper),
        *parts.caveats(answer.said, paper, card="curve"),
    ]


def options_lines(answer: "GamesAnswer", paper: Paper) -> tuple[Text, ...]:
    """Return how it was asked, each with the key that changes it."""
    options = answer.options
    horizon = "none yet" if answer.horizon is None else str(answer.horizon)
    if options.horizon is None and answer.horizon is not None:
        horizon += " (both still large)"
    said = (
        ("k", "clock", options.clock.value.replace("-", " ")),
        ("n", "at risk", f"{words.whole(options.min_at_risk)} or more"),
        ("h", "horizon", horizon),
    )
    lines = [Text(" ", style=paper.ink.quiet)]
    for key, name, value in said:
        part = Text.assemble((key, "bold"), f" {name} {value}")
        has_text = lines[-1].cell_len > 1
        if has_text and lines[-1].cell_len + part.cell_len + 3 > paper.width:
            lines.append(Text(" ", style=paper.ink.quiet))
        elif has_text:
            lines[-1].append(" · ")
        lines[-1].append_text(part)
    return tuple(lines)


def _numbers(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    guarded, unguarded = answer.groups
    gap = answer.restricted_mean_difference
    level = words.level_words(answer.said.scope)
    means = [
        words.number(group.restricted_mean.mean, digits=2)
        if group.restricted_mean.mean is not None
        else group.restricted_mean.why
        for group in (guarded, unguarded)
    ]
    if gap.difference is None:
        told = f"difference not known: {gap.why}"
    else:
        limits = f"{words.number(gap.low)} to {words.number(gap.high)}"
        told = f"difference {words.number(gap.difference)} ({level}: {limits})"
    stretch = "" if answer.horizon is None else f", to {answer.horizon}"
    lines = (
        (
            "median",
            "median",
            f"guarded {_quantile(guarded.median)}; bare {_quantile(unguarded.median)}",
        ),
        (f"mean{stretch}", "restricted mean", f"guarded {means[0]}; bare {means[1]}; {told}"),
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


def _at_risk(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the course of the numbers at risk, where there is room for a second picture."""
    if paper.width < ROOMY.width or paper.height < ROOMY.height:
        return []
    lines = at_risk_trend(answer, paper)
    return (
        [GAP, Block(tuple(lines), name="at risk", card="curve", opens="injuries")] if lines else []
    )


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


def _ticks(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    guarded, unguarded = (
        {point.tick: point for point in group.compared.points} for group in answer.groups
    )
    clock = "session" if answer.options.clock.value == "sessions" else "game"
    head = Text(right(clock, _TICK), style=paper.ink.quiet)
    groups = Text(" " * _TICK)
    wide = sum(cells for _, cells in _COLUMNS)
    for name in ("guarded", "bare"):
        groups.append(right(f"── {name}", wide), paper.ink.group(guarded=name == "guarded"))
        for heading, cells in _COLUMNS:
            head.append(right(heading, cells))
    rows = []
    for tick in sorted({*guarded, *unguarded}):
        text = Text(right(str(tick), _TICK))
        for is_guarded, points in ((True, guarded), (False, unguarded)):
            text.append(_point(points.get(tick)), paper.ink.group(guarded=is_guarded))
        rows.append(
            Block((text,), name=f"tick {tick}", card="curve", opens=f"tick:{tick}", heading=head)
        )
    if not rows:
        return []
    return [title(f"{clock.capitalize()} by {clock}", paper), Block((groups, head)), *rows]


def _point(point: "CurvePoint | None") -> str:
    if point is None:
        return "".join(right("–", cells) for _, cells in _COLUMNS)
    share = "–" if point.survival is None else f"{words.number(point.survival * 100, digits=1)} %"
    counts = (point.at_risk, point.injuries, point.entered, point.left)
    figures = (*(words.whole(count) for count in counts), share)
    pairs = zip(figures, _COLUMNS, strict=True)
    return "".join(right(figure, cells) for figure, (_, cells) in pairs)


def _endings(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    blocks = [title("Follow-up ended without an injury that counts", paper)]
    for group in answer.groups:
        blocks += [_ending(group, paper)]
    return blocks


def _ending(group: "Group", paper: Paper) -> Block:
    word = "guarded" if group.name == "guarded" else "bare"
    told = "; ".join(f"{words.whole(ending.count)} {ending.why}" for ending in group.endings)
    sites = words.plural(group.sites, "site")
    athletes = words.plural(group.athletes, "athlete")
    text = f"{told or 'none'} (of {sites} of {athletes})"
    return Block(
        item(f"{word:<7}", text, paper), name=f"endings {word}", card="curve", opens="athletes"
    )
