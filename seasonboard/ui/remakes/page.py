"""The page of the Remakes screen, drawn from its answer."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.remakes.text import bare_line, chains_line, life_line
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.tables import Head, heading, line
from seasonboard.ui.pictures.marks import bar, share_line

if TYPE_CHECKING:
    from seasonboard.answers.remakes.parts import RemakeGroup, RemakeMonth, RemakesAnswer

_AXIS = 24
_KEY = "■ share ├─┤ limits ┊ where a group of that size lies by chance ▲ beyond"


def remakes_page(answer: "RemakesAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, shares by group and month, reasons, chains, what to keep in mind."""
    blocks = page_parts.opening(answer.summary, paper, card="remakes/remake share", opens="redone")
    summary, share = answer.summary, "remakes/remake share"
    sections: list[Section] = []
    if answer.whole.fitted:
        drawn = (_groups, _reasons, _months, _further)
        sections += [partial(each, answer) for each in drawn]
    sections += [
        lambda half: page_parts.left_out(summary, half, card=share, opens="redone"),
        lambda half: page_parts.caveats(summary, half, card=share),
    ]
    return [*blocks, *in_columns(sections, paper)]


def _further(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    """Return what else the guards that came back tell."""
    blocks = [title("Further", paper)]
    for name, card, text in (
        ("chains", "chains", chains_line(answer)),
        ("life", "guard life", life_line(answer)),
        ("bare", "bare waiting", bare_line(answer)),
    ):
        lines = paragraph(text, paper.width)
        blocks.append(Block(lines, name=name, card=f"remakes/{card}", opens="redone"))
    return blocks


def _most(answer: "RemakesAnswer") -> float:
    """Return where the axis of shares ends: a round share above most limits."""
    highs = [g.share.high or 0.0 for g in (*answer.groups, answer.whole) if not g.is_small]
    highest = max(highs, default=0.0)
    return next((most for most in (0.1, 0.2, 0.3, 0.5) if highest <= most), 1.0)


def _groups(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    most = _most(answer)
    heads = (
        Head(answer.options.by.value.replace("-", " "), 13, grows=True),
        Head("fitted", 6, is_number=True),
        Head("remade", 6, is_number=True),
        Head("share", 6, is_number=True),
        Head(f"0 to {most * 100:.0f} %", _AXIS),
        Head(f"in {answer.options.window} d", 7, is_number=True),
        Head("replaced", 8, is_number=True, least=79),
    )
    head = heading(heads, paper)
    rows = [
        Block(
            (line(heads, _cells(group, most), paper),),
            name=f"group {group.group}",
            card="remakes/remake limits",
            opens="redone",
            heading=head,
        )
        for group in (*answer.groups, answer.whole)
    ]
    key = Block(paragraph(_KEY, paper.width, paper.ink.quiet))
    return [GAP, *pictured([Block((head,)), *rows, key])]


def _cells(group: "RemakeGroup", most: float) -> tuple[str, ...]:
    limits = None
    if group.limit_low is not None and group.limit_high is not None:
        limits = (group.limit_low, group.limit_high)
    share = group.share
    mark = "▲ " if group.outside_limits else ""
    within = group.within.share
    return (
        mark + group.group,
        words.whole(group.fitted),
        words.whole(group.remakes),
        "–" if share.share is None else words.percent(share.share),
        share_line(share.share, (share.low, share.high), _AXIS, limits=limits, most=most),
        "–" if within is None else words.percent(within),
        words.whole(group.replacements),
    )


def _reasons(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    if not answer.reasons:
        return []
    blocks = [title("Reasons", paper)]
    for reason in answer.reasons:
        text = Text(f" {reason.reason:<16}{reason.count:>4}  ")
        text.append(bar(reason.share, 20), paper.ink.guarded)
        text.append(f"  {reason.counts_as}", paper.ink.quiet)
        blocks.append(
            Block(
                (text,),
                name=f"reason {reason.reason}",
                card="remakes/remake share",
                opens=f"redone:{reason.reason}",
            )
        )
    return blocks


def _months(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    if not answer.months:
        return []
    months = [
        Block(
            (_month(month, paper),),
            name=f"month {month.month}",
            card="remakes/remake months",
            opens="redone",
        )
        for month in answer.months
    ]
    window = answer.options.window
    return [title(f"Remade within {window} days, by month of fitting", paper), *months]


def _month(month: "RemakeMonth", paper: Paper) -> Text:
    limits = None if month.low is None or month.high is None else (month.low, month.high)
    text = Text(f" {month.month:%b %Y}  {month.remakes:>3} of {month.fitted:>3}  ")
    text.append(share_line(month.share, (None, None), _AXIS, limits=limits, most=0.5))
    text.append("  ▲ beyond its limits" if month.outside_limits else "", paper.ink.strong)
    text.truncate(paper.width)
    return text
