"""How follow-up ends, on the Games screen: shares of each cause, and counts of the rest."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui.layout.blocks import Block, Paper, item, paragraph, title
from seasonboard.ui.layout.format import MISSING, fit, right

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer, Group
    from seasonboard.stats.competing import Incidence, SharePoint

_CAUSE = 29
_SHARE, _LIMITS = 9, 14
_FOLLOWED = "none of these yet"


def follow_up_ends(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the share of sites that each cause has ended by the horizon, for both groups."""
    guarded, unguarded = answer.incidence
    until = "" if answer.horizon is None else f" by {answer.horizon}"
    blocks = [title(f"How follow-up ends: share of sites{until}", paper)]
    groups = (("guarded", guarded), ("bare", unguarded))
    blocks += [_not_known(name, found, paper) for name, found in groups if found.why]
    if all(found.why for _, found in groups):
        return blocks
    level = words.level_words(answer.summary.scope)
    head = Text(" " * _CAUSE)
    for name, _ in groups:
        style = paper.ink.group(guarded=name == "guarded")
        head.append(right(name, _SHARE), style).append(right(level, _LIMITS), paper.ink.quiet)
    blocks.append(Block((head,)))
    for one, other in zip(guarded.causes, unguarded.causes, strict=True):
        points = (_at(one.points, answer.horizon), _at(other.points, answer.horizon))
        blocks.append(_row(one.cause, points, paper))
    free = (_at(guarded.survival, answer.horizon), _at(unguarded.survival, answer.horizon))
    return [*blocks, _row(_FOLLOWED, free, paper), *_late(groups, paper)]


def _at(points: Sequence["SharePoint"], horizon: int | None) -> "SharePoint | None":
    """Return the last point up to the horizon that has a share."""
    known = [p for p in points if p.share is not None and (horizon is None or p.tick <= horizon)]
    return known[-1] if known else None


def _row(
    cause: str, points: tuple["SharePoint | None", "SharePoint | None"], paper: Paper
) -> Block:
    text = Text(fit(f" {cause}", _CAUSE))
    for is_guarded, point in zip((True, False), points, strict=True):
        share = MISSING if point is None or point.share is None else _percent(point.share)
        text.append(right(share, _SHARE), paper.ink.group(guarded=is_guarded))
        text.append(right(_limits(point), _LIMITS), paper.ink.quiet)
    return Block((text,), name=f"ends {cause}", card="other ends", opens="athletes")


def _percent(share: float) -> str:
    return f"{words.number(share * 100, digits=1)} %"


def _limits(point: "SharePoint | None") -> str:
    if point is None or point.low is None or point.high is None:
        return "no limits"
    low, high = (words.number(limit * 100, digits=1) for limit in (point.low, point.high))
    return f"{low}–{high}"


def _not_known(name: str, found: "Incidence", paper: Paper) -> Block:
    told = item(f"{name:<7}", f"not known: {found.why}", paper)
    return Block(told, name=f"ends {name}", card="other ends", opens="athletes")


def _late(groups: Sequence[tuple[str, "Incidence"]], paper: Paper) -> list[Block]:
    """Say from when a group's shares are counted when that is not from the first tick on."""
    late = [
        f"{name}: of those still followed at {found.start}"
        for name, found in groups
        if found.start is not None and found.start > 1
    ]
    return [Block(paragraph("; ".join(late), paper.width, paper.ink.quiet))] if late else []


def endings(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return why follow-up ended without an injury that counts, in counts."""
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
