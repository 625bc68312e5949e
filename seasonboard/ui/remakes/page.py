"""The page of the Remakes screen, drawn from its answer."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.remakes.report import GROUPS, outside_words
from seasonboard.answers.remakes.words import asked_line, bare_line, chains_line, life_line
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import (
    GAP,
    Block,
    Opens,
    Paper,
    What,
    note,
    paragraph,
    pictured,
    title,
)
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.tables import Head, column, columns, table_blocks
from seasonboard.ui.pictures.marks import bar, share_line

if TYPE_CHECKING:
    from seasonboard.answers.remakes.groups import RemakeGroup
    from seasonboard.answers.remakes.parts import RemakesAnswer
    from seasonboard.stats.control_charts import ControlLimits

_AXIS = 24
_KEY = "■ share ├─┤ confidence interval ┊ control limits of its size ▲ outside"
_CARD, _OPENS = "remakes/remake share", Opens(What.REMADE)


def remakes_page(answer: "RemakesAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, shares by group and month, reasons, chains, what to keep in mind."""
    sections: list[Section] = []
    if answer.whole.fitted:
        sections += [partial(draw, answer) for draw in (_groups, _reasons, _months, _further)]
    sections += page_parts.ends(answer.summary, _CARD, _OPENS)
    opening = page_parts.opening(answer.summary, paper, _CARD, _OPENS)
    return [*opening, *in_columns(sections, paper)]


def _further(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    """Return what else the guards that came back tell."""
    further = (
        ("asked", "remakes asked for", asked_line(answer)),
        ("chains", "chains", chains_line(answer)),
        ("life", "guard life", life_line(answer)),
        ("bare", "bare waiting", bare_line(answer)),
    )
    blocks = (
        Block(paragraph(text, paper.width), name, f"remakes/{card}", _OPENS)
        for name, card, text in further
    )
    return [title("Further", paper), *blocks]


def _groups(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    highs = [group.share.high or 0.0 for group in answer.shown_groups if not group.is_small]
    highest = max(highs, default=0.0)
    most = next((most for most in (0.1, 0.2, 0.3, 0.5) if highest <= most), 1.0)
    heads = (
        column(GROUPS.field("group"), 13, answer, grows=True, cell=_marked_name),
        *columns(GROUPS, fitted=6, remakes=6, share=6),
        Head(f"0 to {most * 100:.0f} %", _AXIS, cell=partial(_picture, most=most)),
        column(GROUPS.field("within.share"), 7, answer),
        column(GROUPS.field("replacements"), 8, least=79),
    )
    groups, card = answer.shown_groups, "remakes/remake limits"
    table = table_blocks(heads, groups, paper, lambda one: (f"group {one.group}", card, _OPENS))
    return [GAP, *pictured([*table, Block(note(_KEY, paper))])]


def _marked_name(group: "RemakeGroup") -> str:
    return f"▲ {group.group}" if group.control_limits.is_outside else group.group


def _picture(group: "RemakeGroup", most: float) -> str:
    share, limits = group.share, _bounds(group.control_limits)
    return share_line(share.value, (share.low, share.high), _AXIS, limits=limits, most=most)


def _bounds(limits: "ControlLimits") -> tuple[float, float] | None:
    return None if limits.low is None or limits.high is None else (limits.low, limits.high)


def _reasons(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    blocks = [title("Reasons", paper)]
    for one in answer.reasons:
        text = Text(f" {one.reason:<16}{one.count:>4}  ")
        text.append(bar(one.share, 20), paper.ink.guarded)
        text.append(f"  {one.counts_as}", paper.ink.quiet)
        name, opens = f"reason {one.reason}", Opens(What.REMADE, one.reason)
        blocks.append(Block((text,), name, _CARD, opens))
    return blocks if answer.reasons else []


def _months(answer: "RemakesAnswer", paper: Paper) -> list[Block]:
    window = answer.options.window
    blocks = [title(f"Remade within {window} days, by month of fitting", paper)]
    for month in answer.months:
        text = Text(f" {month.month:%b %Y}  {month.remakes:>3} of {month.fitted:>3}  ")
        limits = _bounds(month.control_limits)
        text.append(share_line(month.share, (None, None), _AXIS, limits=limits, most=0.5))
        outside = outside_words(month)
        text.append(f"  ▲ {outside}" if outside else "", paper.ink.strong)
        text.truncate(paper.width)
        blocks.append(Block((text,), f"month {month.month}", "remakes/remake months", _OPENS))
    return blocks if answer.months else []
