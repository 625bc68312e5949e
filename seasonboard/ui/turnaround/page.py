"""The page of the Turnaround screen, drawn from its answer."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.fields import Table
from seasonboard.answers.turnaround.report import GROUPS, STAGES, unit_words
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Opens, Paper, What, note, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import day
from seasonboard.ui.layout.tables import Head, column, columns, table_blocks
from seasonboard.ui.pictures.control_chart import ChartPoint, control_chart
from seasonboard.ui.pictures.marks import trend_line
from seasonboard.ui.turnaround.waiting_curve import group_picture, wait_picture

if TYPE_CHECKING:
    from seasonboard.answers.turnaround.parts import TurnaroundAnswer

_CARD, _ORDERS = "turnaround/turnaround", Opens(What.ORDERS)


def turnaround_page(answer: "TurnaroundAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, curve, groups, stages, weeks, what to keep in mind."""
    unit, summary = unit_words(answer), answer.summary
    picture = (
        wait_picture(answer.whole.curve, unit, paper)
        if answer.options.by is None
        else group_picture(answer.groups, unit, paper)
    )
    above = Text(" share not yet there, by age; open orders count too", style=paper.ink.quiet)
    curve = [Block((above, *picture), "curve", _CARD, _ORDERS)] if picture else []
    sections = (
        partial(_groups, answer),
        partial(_stages, answer),
        partial(_weeks, answer, unit),
        *page_parts.ends(summary, "turnaround/set aside", _ORDERS, caveats_card=_CARD),
    )
    opening = page_parts.opening(summary, paper, _CARD, _ORDERS)
    return [*opening, GAP, *pictured(curve), *in_columns(sections, paper)]


def _median(table: Table, answer: "TurnaroundAnswer", width: int) -> Head:
    """Return the column of a median, as wide as its heading with the unit at least."""
    field = table.field("median_with_interval")
    return column(field, max(width, len(field.heading_of(answer))), answer)


def _groups(answer: "TurnaroundAnswer", paper: Paper) -> list[Block]:
    by = "all" if answer.options.by is None else answer.options.by.value.replace("-", " ")
    heads = (
        column(GROUPS.field("group"), 14, heading=by, grows=True),
        *columns(GROUPS, orders=6, open=5),
        _median(GROUPS, answer, 14),
        column(GROUPS.field("p80_with_interval"), 11),
        column(GROUPS.field("p95_with_interval"), 11, least=100),
        column(GROUPS.field("ready_with_interval"), 13),
    )
    table = table_blocks(
        heads,
        answer.shown_groups,
        paper,
        lambda group: (
            ("all orders", _CARD, _ORDERS)
            if group is answer.whole
            else (f"group {group.key}", _CARD, Opens(What.GROUP, group.key))
        ),
    )
    return [title("How long it takes", paper), *table]


def _stages(answer: "TurnaroundAnswer", paper: Paper) -> list[Block]:
    heads = (
        column(STAGES.field("stage"), 11, heading="from"),
        column(STAGES.field("next_stages"), 22, heading="to", grows=True),
        column(STAGES.field("orders"), 6),
        column(STAGES.field("waiting"), 9, heading="there now"),
        _median(STAGES, answer, 18),
    )
    stages, card = answer.whole.stages, "turnaround/stage by stage"
    table = table_blocks(heads, stages, paper, lambda one: (f"stage {one.stage}", card, _ORDERS))
    return [title("Where the time goes", paper), *table] if table else []


def _weeks(answer: "TurnaroundAnswer", unit: str, paper: Paper) -> list[Block]:
    if not answer.weeks:
        return []
    chart, weeks = answer.chart, answer.weeks
    if chart.centre is None or chart.low is None or chart.high is None:
        days, medians = [w.monday for w in weeks], [w.median.value for w in weeks]
        lines = [trend_line(days, medians, words.duration, f" {unit}")]
        summary = f"No control limits: {chart.why}."
    else:
        low, high = max(0.0, chart.low), chart.high
        points = [
            ChartPoint(day(w.monday), w.median.value, low, high, bool(w.is_outside), w.sets_limits)
            for w in weeks
        ]
        lines = control_chart(points, chart.centre, paper)
        summary = (
            f"Weeks lie around {words.duration(chart.centre)} {unit}, by chance "
            f"{words.duration(low)} to {words.duration(high)}."
        )
        beyond = ", ".join(day(w.monday) for w in weeks if w.is_outside)
        summary += f" Beyond: {beyond}." if beyond else " None lies beyond."
    return [
        title("Week by week, by the week of the request", paper),
        Block((*lines, *note(summary, paper)), "weeks", "turnaround/week by week", _ORDERS),
    ]
