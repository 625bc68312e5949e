"""The page of the Departments screen: client by client, most in need of attention first."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.departments.report import DEPARTMENT_FIGURES
from seasonboard.answers.sparkline import sparkline
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Opens, Paper, What, item, note, pictured
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.format import clean, fit, short, wrap

if TYPE_CHECKING:
    from seasonboard.answers.departments.parts import Allotment, DepartmentRow, DepartmentsAnswer

_NAME = 15
_FIGURE = 24
_LEAST = 20
"""Cells beside a figure below which its words stand on a line of their own."""
_FIGURES, _ATTENTION = "departments/department figures", "departments/attention"


def departments_page(answer: "DepartmentsAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, each department with its trends, what to keep in mind."""
    summary, opens = answer.summary, Opens(What.DEPARTMENTS)
    sections: tuple[Section, ...] = (
        *(partial(_department, row) for row in answer.departments),
        *page_parts.ends(summary, _FIGURES, opens, caveats_card=_ATTENTION),
    )
    return [*page_parts.opening(summary, paper, _FIGURES, opens), *in_columns(sections, paper)]


def _department(row: "DepartmentRow", paper: Paper) -> list[Block]:
    allowed = row.allotment.prints_per_week
    plan = f"{row.plan}, {allowed} a week" if allowed else row.plan
    name = Text(f" {clean(row.name)}", style=paper.ink.strong)
    name.append(f"  {clean(plan)}", f"not bold {paper.ink.quiet}".strip())
    opens = Opens(What.DEPARTMENT, row.department)
    reasons = (line for reason in row.attention for line in item("!", reason, paper))
    blocks = [GAP, Block((name, *reasons), f"department {row.department}", _ATTENTION, opens)]
    for label, figure, values, beside in _figures(row):
        card = _FIGURES if values is None else "departments/department trends"
        lines = _figure(label, figure, values, beside, paper)
        blocks.append(Block(lines, f"{row.department} {label}", card, opens))
    return pictured(blocks)


def _figure(
    label: str, figure: str, values: Sequence[float | None] | None, beside: str, paper: Paper
) -> tuple[Text, ...]:
    """Return a figure's line; what has no room beside it goes on below."""
    text = Text(f"   {fit(label, _NAME)}{fit(figure, _FIGURE)}")
    if values is not None:
        text.append(sparkline(values), paper.ink.guarded)
        text.append("  ")
    room = paper.width - text.cell_len
    if room < _LEAST:
        return (text, *note(beside, paper, " " * (3 + _NAME)))
    indent = " " * text.cell_len
    first, *more = wrap(beside, room)
    text.append(first, paper.ink.quiet)
    return (text, *(Text(indent + line, style=paper.ink.quiet) for line in more))


def _span(values: Sequence[float | None], *, is_share: bool = False) -> str:
    """Return the least and the largest of a trend, which its letters stand between."""
    figures = [value for value in values if value is not None]
    if not figures:
        return "no week with a figure"
    low, high = min(figures), max(figures)
    if is_share:
        return f"by week, {low * 100:.0f} to {high * 100:.0f} %"
    return f"by week, {short(low)} to {short(high)}"


def _figures(row: "DepartmentRow") -> list[tuple[str, str, Sequence[float | None] | None, str]]:
    def read(name: str) -> str:
        return DEPARTMENT_FIGURES.field(name).read(row)

    trends = row.trends
    used = "–" if row.allotment.used is None else f"{read('allotment.used')} used"
    overdue = f", {words.plural(row.overdue, 'decision')} overdue" if row.overdue else ""
    ready = f"ready for the next game {read('ready_for_next_game.share')}{overdue}"
    turnaround = f"{read('turnaround.median')} days"
    remakes, available = read("remakes.share"), read("availability.share")
    span = _span(trends.availability, is_share=True)
    return [
        ("open orders", f"{read('open')}, {read('late')} late", None, ready),
        ("turnaround", turnaround, trends.turnaround, _span(trends.turnaround)),
        ("remakes", remakes, trends.remakes, _span(trends.remakes)),
        ("prints", used, None, _prints(row.allotment)),
        ("available", available, trends.availability, span),
        ("worn", read("worn_share.share"), trends.worn, _span(trends.worn, is_share=True)),
    ]


def _prints(allotment: "Allotment") -> str:
    waiting = f"{allotment.queue:,} waiting to be printed"
    if allotment.used is None:
        return f"{waiting}; {allotment.why}" if allotment.why else waiting
    return f"{waiting}; {words.plural(allotment.weeks_over, 'week')} over the plan"
