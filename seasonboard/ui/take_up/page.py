"""The page of the Take-up screen: the steps as bars, worn week by week, reasons for declining."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.take_up.parts import STEPS
from seasonboard.answers.take_up.report import BREAKS, GROUPS, REASONS, beside_step
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Opens, Paper, What, item, note, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.format import clean, fit, right
from seasonboard.ui.layout.tables import column, columns, table_blocks
from seasonboard.ui.pictures.marks import bar, trend_line

if TYPE_CHECKING:
    from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpGroup

_NAME, _COUNT, _BESIDE = 10, 6, 54
"""Cells of a step's name and count, and of all that stands beside its bar."""
_CARD, _OPENS = "take_up/take-up steps", Opens(What.TAKE_UP)


def take_up_page(answer: "TakeUpAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, steps, groups, worn by week, reasons, what to keep in mind."""
    by = answer.by.value.replace("-", " ")
    tables = {"kind": answer.kinds, by: answer.groups}
    sections: tuple[Section, ...] = (
        partial(_weeks, answer.whole),
        *(partial(_table, name, groups) for name, groups in tables.items() if groups),
        partial(_reasons, answer),
        partial(_breaks, answer),
        *page_parts.ends(answer.summary, "take_up/take-up left out", _OPENS, caveats_card=_CARD),
    )
    opening = page_parts.opening(answer.summary, paper, _CARD, _OPENS)
    return [*opening, GAP, *pictured(_steps(answer, paper)), *in_columns(sections, paper)]


def _steps(answer: "TakeUpAnswer", paper: Paper) -> list[Block]:
    eligible = answer.whole.steps[0].count
    blocks = []
    for step in answer.whole.steps:
        before = step.of_before
        share = f"{words.share_words(before)} of the step before" if before.has_interval else ""
        line = step_bar(step.step, step.count, eligible, share, paper)
        under = beside_step(step, answer.whole)
        lines = (line, *(note(under, paper, " " * (_NAME + _COUNT + 3)) if under else ()))
        blocks.append(Block(lines, f"step {step.step}", _CARD, _OPENS))
    return blocks


def step_bar(name: str, count: int, first: int, beside: str, paper: Paper) -> Text:
    """Return one step as a line: name, count, its share of the first step as a bar, and words."""
    text = Text(f" {fit(clean(name), _NAME)}{right(words.whole(count), _COUNT)}  ")
    room = max(6, min(24, paper.width - _BESIDE))
    text.append(bar(count / first if first else 0.0, room), paper.ink.guarded)
    text.append(f"  {clean(beside)}", paper.ink.quiet)
    text.truncate(paper.width)
    return text


def _weeks(group: "TakeUpGroup", paper: Paper) -> list[Block]:
    if not group.weeks:
        return []
    days, shares = [week.week for week in group.weeks], [week.worn.value for week in group.weeks]
    line = trend_line(days, shares, words.percent)
    return [
        title(f"Worn, of sessions taken part in: {words.share_words(group.worn)}", paper),
        Block((line,), "worn", "take_up/worn share", _OPENS),
    ]


def _table(name: str, groups: Sequence["TakeUpGroup"], paper: Paper) -> list[Block]:
    heads = (
        column(GROUPS.field("group"), 14, heading=name, grows=True),
        *columns(GROUPS, **dict.fromkeys(STEPS, 8), worn_words=14),
    )
    table = table_blocks(heads, groups, paper, lambda one: (f"{name} {one.group}", _CARD, _OPENS))
    return [title(f"By {name}", paper), *table]


def _reasons(answer: "TakeUpAnswer", paper: Paper) -> list[Block]:
    blocks = [title("Declined or undecided, and why", paper)]
    for one in answer.reasons:
        count, reason = REASONS.field("count").read(one), REASONS.field("reason").read(one)
        lines = item(count.rjust(4), f"{one.answer}: {reason}", paper)
        name = f"reason {one.answer} {one.reason or ''}"
        blocks.append(Block(lines, name, "take_up/declining", _OPENS))
    return blocks if answer.reasons else []


def _breaks(answer: "TakeUpAnswer", paper: Paper) -> list[Block]:
    breaks = [one for one in answer.breaks if one.athletes]
    blocks = [title("Out of the order of the steps", paper)]
    for one in breaks:
        lines = item(BREAKS.field("athletes").read(one).rjust(4), one.what, paper)
        blocks.append(Block(lines, f"break {one.what}", _CARD, _OPENS))
    return blocks if breaks else []
