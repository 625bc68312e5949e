"""The page of the Take-up screen: the steps as bars, worn week by week, reasons for declining."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.take_up.words import beside_step
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, item, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.tables import Head, heading, line
from seasonboard.ui.pictures.marks import trend
from seasonboard.ui.take_up.step_bars import StepBar, step_bar

if TYPE_CHECKING:
    from seasonboard.answers.take_up.parts import Step, TakeUpAnswer, TakeUpGroup


def take_up_page(answer: "TakeUpAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, steps, groups, worn by week, reasons, what to keep in mind."""
    opening = page_parts.opening(
        answer.summary, paper, card="take_up/take-up steps", opens="take-up"
    )
    summary, left = answer.summary, "take_up/take-up left out"
    sections: tuple[Section, ...] = (
        lambda half: _weeks(answer.whole, half),
        *_groups(answer),
        lambda half: _reasons(answer, half),
        lambda half: _breaks(answer, half),
        lambda half: page_parts.left_out(summary, half, card=left, opens="take-up"),
        lambda half: page_parts.caveats(summary, half, card="take_up/take-up steps"),
    )
    return [
        *opening,
        GAP,
        *pictured(_steps(answer, paper)),
        *in_columns(sections, paper),
    ]


def _steps(answer: "TakeUpAnswer", paper: Paper) -> list[Block]:
    eligible = answer.whole.steps[0].count
    blocks = []
    for step in answer.whole.steps:
        told = StepBar(step.step, step.count, _of_before(step), beside_step(step, answer.whole))
        blocks.append(
            Block(
                step_bar(told, eligible, paper),
                name=f"step {step.step}",
                card="take_up/take-up steps",
                opens="take-up",
            )
        )
    return blocks


def _of_before(step: "Step") -> str:
    share = step.of_before
    if share.share is None or share.low is None or share.high is None:
        return ""
    limits = f"{share.low * 100:.0f}–{share.high * 100:.0f}"
    return f"{words.percent(share.share)} ({limits}) of the step before"


def _weeks(group: "TakeUpGroup", paper: Paper) -> list[Block]:
    if not group.weeks:
        return []
    values = [week.worn.share for week in group.weeks]
    first, last = group.weeks[0].week, group.weeks[-1].week
    told = [value for value in values if value is not None]
    text = f" {first.day} {first:%b} {trend(values, floor=0)} {last.day} {last:%b}"
    if told:
        text += f"   {words.percent(min(told))} to {words.percent(max(told))}"
    return [
        title(f"Worn, of sessions taken part in: {words.share_words(group.worn)}", paper),
        Block((Text(text),), name="worn", card="take_up/worn share", opens="take-up"),
    ]


def _groups(answer: "TakeUpAnswer") -> list[Section]:
    """Return what draws the tables of the groups there are."""
    tables: list[Section] = []
    by = answer.by.value.replace("-", " ")
    for name, groups in (("kind", answer.kinds), (by, answer.groups)):
        if groups and not (name == "kind" and by == "kind" and groups is answer.kinds):
            tables.append(partial(_table, name, groups))
    return tables


def _table(name: str, groups: Sequence["TakeUpGroup"], paper: Paper) -> list[Block]:
    heads = (
        Head(name, 14, grows=True),
        *(Head(step.step, 8, is_number=True) for step in groups[0].steps),
        Head("worn share", 14, is_number=True),
    )
    head = heading(heads, paper)
    blocks = [title(f"By {name}", paper), Block((head,))]
    for group in groups:
        counts = [words.whole(step.count) for step in group.steps]
        blocks.append(
            Block(
                (line(heads, (group.group, *counts, words.share_words(group.worn)), paper),),
                name=f"{name} {group.group}",
                card="take_up/take-up steps",
                opens="take-up",
                heading=head,
            )
        )
    return blocks


def _reasons(answer: "TakeUpAnswer", paper: Paper) -> list[Block]:
    if not answer.reasons:
        return []
    return [
        title("Declined or undecided, and why", paper),
        *(
            Block(
                item(f"{r.count:>4}", f"{r.answer}: {r.reason or 'no reason recorded'}", paper),
                name=f"reason {r.answer} {r.reason}",
                card="take_up/declining",
                opens="take-up",
            )
            for r in answer.reasons
        ),
    ]


def _breaks(answer: "TakeUpAnswer", paper: Paper) -> list[Block]:
    told = [each for each in answer.breaks if each.athletes]
    if not told:
        return []
    return [
        title("Out of the order of the steps", paper),
        *(
            Block(
                item(f"{each.athletes:>4}", each.what, paper),
                name=f"break {each.what}",
                card="take_up/take-up steps",
                opens="take-up",
            )
            for each in told
        ),
    ]
