"""How follow-up ends, on the Games screen: shares of each cause, and counts of the rest."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.games.follow_up_tables import ENDS, Ended
from seasonboard.ui.layout.blocks import Block, Paper, item, paragraph, title
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.layout.tables import Head, column, heading, row_line

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer, Group
    from seasonboard.stats.competing import Incidence

_SHARES = {True: (29, 38), False: (52, 61)}
"""Cells between which the shares of the guarded stand, and those of the bare."""


def follow_up_ends(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the share of sites that each cause has ended by the horizon, for both groups."""
    guarded, bare = answer.incidence
    until = "" if answer.horizon is None else f" by {answer.horizon}"
    blocks = [title(f"How follow-up ends: share of sites{until}", paper)]
    groups = (("guarded", guarded), ("bare", bare))
    blocks += [_not_known(name, incidence, paper) for name, incidence in groups if incidence.why]
    if all(incidence.why for _, incidence in groups):
        return blocks
    heads = (
        column(ENDS.field("what"), 27, heading=""),
        column(ENDS.field("guarded.share"), 9),
        column(ENDS.field("guarded.interval"), 13, answer),
        column(ENDS.field("bare.share"), 8),
        column(ENDS.field("bare.interval"), 13, answer),
    )
    return [
        *(*blocks, Block((_in_colours(heading(heads, paper), paper),))),
        *(_row(ended, heads, paper) for ended in ENDS.rows(answer) or ()),
        *_late(groups, paper),
    ]


def _row(ended: Ended, heads: Sequence[Head], paper: Paper) -> Block:
    text = row_line(heads, ended, paper)
    text.stylize(paper.ink.quiet, _SHARES[True][0])
    line = _in_colours(text, paper)
    return Block((line,), name=f"ends {ended.what}", card="other ends", opens=Opens(What.ATHLETES))


def _in_colours(text: Text, paper: Paper) -> Text:
    for is_guarded, (start, end) in _SHARES.items():
        text.stylize(paper.ink.group(guarded=is_guarded), start, end)
    return text


def _not_known(name: str, incidence: "Incidence", paper: Paper) -> Block:
    lines = item(f"{name:<7}", f"not known: {incidence.why}", paper)
    return Block(lines, name=f"ends {name}", card="other ends", opens=Opens(What.ATHLETES))


def _late(groups: Sequence[tuple[str, "Incidence"]], paper: Paper) -> list[Block]:
    """Say from when a group's shares are counted when that is not from the first tick on."""
    late = [
        f"{name}: of those still followed at {incidence.start}"
        for name, incidence in groups
        if incidence.start is not None and incidence.start > 1
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
    counts = "; ".join(f"{words.whole(ending.count)} {ending.why}" for ending in group.endings)
    sites = words.plural(group.sites, "site")
    athletes = words.plural(group.athletes, "athlete")
    text = f"{counts or 'none'} (of {sites} of {athletes})"
    return Block(
        item(f"{word:<7}", text, paper),
        name=f"endings {word}",
        card="curve",
        opens=Opens(What.ATHLETES),
    )
