"""The page of the Take-up screen: the steps as bars, worn week by week, reasons for declining."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.sparkline import sparkline
from seasonboard.answers.take_up.parts import STEPS
from seasonboard.answers.take_up.report import BREAKS, GROUPS, REASONS, beside_step
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, item, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.layout.tables import column, heading, row_line
from seasonboard.ui.take_up.step_bars import StepBar, step_bar

if TYPE_CHECKING:
    from seasonboard.answers.take_up.parts import Step, TakeUpAnswer, TakeUpGroup


def take_up_page(answer: "TakeUpAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, steps, groups, worn by week, reasons, what to keep in mind."""
    opening = page_parts.opening(
        answer.summary, paper, card="take_up/take-up steps", opens=Opens(What.TAKE_UP)
    )
    summary, card = answer.summary, "take_up/take-up left out"
    sections: tuple[Section, ...] = (
        lambda half: _weeks(answer.whole, half),
        *_groups(answer),
        lambda half: _reasons(answer, half),
        lambda half: _breaks(answer, half),
        lambda half: page_parts.left_out(summary, half, card=card, opens=Opens(What.TAKE_UP)),
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
        bar = StepBar(step.step, step.count, _of_before(step), beside_step(step, answer.whole))
        blocks.append(
            Block(
                step_bar(bar, eligible, paper),
                name=f"step {step.step}",
                card="take_up/take-up steps",
                opens=Opens(What.TAKE_UP),
            )
        )
    return blocks


def _of_before(step: "Step") -> str:
    if not step.of_before.has_interval:
        return ""
    return f"{words.share_words(step.of_before)} of the step before"


def _weeks(group: "TakeUpGroup", paper: Paper) -> list[Block]:
    if not group.weeks:
        return []
    shares = [week.worn.value for week in group.weeks]
    first, last = group.weeks[0].week, group.weeks[-1].week
    text = f" {first.day} {first:%b} {sparkline(shares, floor=0)} {last.day} {last:%b}"
    if counted := [share for share in shares if share is not None]:
        text += f"   {words.percent(min(counted))} to {words.percent(max(counted))}"
    return [
        title(f"Worn, of sessions taken part in: {words.share_words(group.worn)}", paper),
        Block((Text(text),), name="worn", card="take_up/worn share", opens=Opens(What.TAKE_UP)),
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
        column(GROUPS.field("group"), 14, heading=name, grows=True),
        *(column(GROUPS.field(step), 8) for step in STEPS),
        column(GROUPS.field("worn_words"), 14),
    )
    head = heading(heads, paper)
    return [
        title(f"By {name}", paper),
        Block((head,)),
        *(
            Block(
                (row_line(heads, group, paper),),
                name=f"{name} {group.group}",
                card="take_up/take-up steps",
                opens=Opens(What.TAKE_UP),
                heading=head,
            )
            for group in groups
        ),
    ]


def _reasons(answer: "TakeUpAnswer", paper: Paper) -> list[Block]:
    if not answer.reasons:
        return []
    count, reason = REASONS.field("count"), REASONS.field("reason")
    return [
        title("Declined or undecided, and why", paper),
        *(
            Block(
                item(count.read(one).rjust(4), f"{one.answer}: {reason.read(one)}", paper),
                name=f"reason {one.answer} {one.reason or ''}",
                card="take_up/declining",
                opens=Opens(What.TAKE_UP),
            )
            for one in answer.reasons
        ),
    ]


def _breaks(answer: "TakeUpAnswer", paper: Paper) -> list[Block]:
    breaks = [one for one in answer.breaks if one.athletes]
    if not breaks:
        return []
    athletes = BREAKS.field("athletes")
    return [
        title("Out of the order of the steps", paper),
        *(
            Block(
                item(athletes.read(one).rjust(4), one.what, paper),
                name=f"break {one.what}",
                card="take_up/take-up steps",
                opens=Opens(What.TAKE_UP),
            )
            for one in breaks
        ),
    ]
