"""The page of the Remakes screen, drawn from its answer."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.remakes.report import GROUPS, outside_words
from seasonboard.answers.remakes.words import bare_line, chains_line, life_line
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.layout.tables import Head, column, heading, row_line
from seasonboard.ui.pictures.marks import bar, share_line

if TYPE_CHECKING:
    from seasonboard.answers.remakes.groups import RemakeGroup
    from seasonboard.answers.remakes.parts import RemakeMonth, RemakesAnswer
    from seasonboard.stats.control_charts import ControlLimits

_AXIS = 24
_KEY = "■ share ├─┤ confidence interval ┊ control limits of its size ▲ outside"


def remakes_page(answer: "RemakesAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, shares by group and month, reasons, chains, what to keep in mind."""
    blocks = page_parts.opening(
        answer.summary, paper, card="remakes/remake share", opens=Opens(What.REMADE)
    )
    summary, share = answer.summary, "remakes/remake share"
    sections: list[Section] = []
    if answer.whole.fitted:
        sections += [partial(draw, answer) for draw in (_groups, _reasons, _months, _further)]
    sections += [
        lambda half: page_parts.left_out(summary, half, card=share, opens=Opens(What.REMADE)),
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
        blocks.append(Block(lines, name=name, card=f"remakes/{card}", opens=Opens(What.REMADE)))
    return blocks


def _most(answer: "RemakesAnswer") -> float:
    """Return where the axis of shares ends: a round share above most intervals."""
    highs = [group.share.high or 0.0 for group in answer.shown_groups if not group.is_small]
    highest = max(highs, default=0.0)
    return next((most for most in (0.1, 0.2, 0.3, 0.5) if highest <= most), 1.0)


def _groups(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    most = _most(answer)
    heads = (
        column(GROUPS.field("group"), 13, answer, grows=True, cell=_marked_name),
        column(GROUPS.field("fitted"), 6),
        column(GROUPS.field("remakes"), 6),
        column(GROUPS.field("share"), 6),
        Head(f"0 to {most * 100:.0f} %", _AXIS, cell=partial(_picture, most=most)),
        column(GROUPS.field("within.share"), 7, answer),
        column(GROUPS.field("replacements"), 8, least=79),
    )
    head = heading(heads, paper)
    rows = [
        Block(
            (row_line(heads, group, paper),),
            name=f"group {group.group}",
            card="remakes/remake limits",
            opens=Opens(What.REMADE),
            heading=head,
        )
        for group in answer.shown_groups
    ]
    key = Block(paragraph(_KEY, paper.width, paper.ink.quiet))
    return [GAP, *pictured([Block((head,)), *rows, key])]


def _marked_name(group: "RemakeGroup") -> str:
    return f"▲ {group.group}" if group.control_limits.is_outside else group.group


def _picture(group: "RemakeGroup", most: float) -> str:
    share, limits = group.share, _bounds(group.control_limits)
    return share_line(share.value, (share.low, share.high), _AXIS, limits=limits, most=most)


def _bounds(limits: "ControlLimits") -> tuple[float, float] | None:
    return None if limits.low is None or limits.high is None else (limits.low, limits.high)


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
                opens=Opens(What.REMADE, reason.reason),
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
            opens=Opens(What.REMADE),
        )
        for month in answer.months
    ]
    window = answer.options.window
    return [title(f"Remade within {window} days, by month of fitting", paper), *months]


def _month(month: "RemakeMonth", paper: Paper) -> Text:
    text = Text(f" {month.month:%b %Y}  {month.remakes:>3} of {month.fitted:>3}  ")
    limits = _bounds(month.control_limits)
    text.append(share_line(month.share, (None, None), _AXIS, limits=limits, most=0.5))
    outside = outside_words(month)
    text.append(f"  ▲ {outside}" if outside else "", paper.ink.strong)
    text.truncate(paper.width)
    return text
