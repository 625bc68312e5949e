"""The page of the Turnaround screen, drawn from its answer."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.fields import Table
from seasonboard.answers.sparkline import sparkline
from seasonboard.answers.turnaround.report import GROUPS, STAGES, unit_words
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.layout.tables import Head, column, heading, row_line
from seasonboard.ui.pictures.control_chart import ChartPoint, control_chart
from seasonboard.ui.turnaround.waiting_curve import wait_picture

if TYPE_CHECKING:
    from seasonboard.answers.turnaround.parts import TurnaroundAnswer
    from seasonboard.answers.turnaround.weeks import Week


def turnaround_page(answer: "TurnaroundAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, curve, groups, stages, weeks, what to keep in mind."""
    unit = unit_words(answer)
    picture = wait_picture(answer.whole.curve, unit, paper)
    blocks = [
        *page_parts.opening(
            answer.summary, paper, card="turnaround/turnaround", opens=Opens(What.ORDERS)
        ),
        GAP,
    ]
    if picture:
        above = Text(" share not yet there, by age; open orders count too", style=paper.ink.quiet)
        curve = Block(
            (above, *picture), name="curve", card="turnaround/turnaround", opens=Opens(What.ORDERS)
        )
        blocks += pictured([curve])
    summary = answer.summary
    sections: tuple[Section, ...] = (
        lambda half: _groups(answer, half),
        lambda half: _stages(answer, half),
        lambda half: _weeks(answer, unit, half),
        lambda half: page_parts.left_out(
            summary, half, card="turnaround/set aside", opens=Opens(What.ORDERS)
        ),
        lambda half: page_parts.caveats(summary, half, card="turnaround/turnaround"),
    )
    return [*blocks, *in_columns(sections, paper)]


def _median(table: Table, answer: "TurnaroundAnswer", width: int) -> Head:
    """Return the column of a median, as wide as its heading with the unit at least."""
    field = table.field("median_with_interval")
    return column(field, max(width, len(field.heading_of(answer))), answer)


def _groups(answer: "TurnaroundAnswer", paper: Paper) -> list[Block]:
    by = "all" if answer.options.by is None else answer.options.by.value.replace("-", " ")
    heads = (
        column(GROUPS.field("group"), 14, heading=by, grows=True),
        column(GROUPS.field("orders"), 6),
        column(GROUPS.field("open"), 5),
        _median(GROUPS, answer, 14),
        column(GROUPS.field("p80_with_interval"), 11),
        column(GROUPS.field("p95_with_interval"), 11, least=100),
        column(GROUPS.field("ready_with_interval"), 13),
    )
    head = heading(heads, paper)
    rows = [title("How long it takes", paper), Block((head,))]
    for group in answer.shown_groups:
        is_whole = group is answer.whole
        rows.append(
            Block(
                (row_line(heads, group, paper),),
                name="all orders" if is_whole else f"group {group.key}",
                card="turnaround/turnaround",
                opens=Opens(What.ORDERS) if is_whole else Opens(What.GROUP, group.key),
                heading=head,
            )
        )
    return rows


def _stages(answer: "TurnaroundAnswer", paper: Paper) -> list[Block]:
    if not answer.whole.stages:
        return []
    heads = (
        column(STAGES.field("stage"), 11, heading="from"),
        column(STAGES.field("next_stages"), 22, heading="to", grows=True),
        column(STAGES.field("orders"), 6),
        column(STAGES.field("waiting"), 9, heading="there now"),
        _median(STAGES, answer, 18),
    )
    head = heading(heads, paper)
    rows = [title("Where the time goes", paper), Block((head,))]
    rows += [
        Block(
            (row_line(heads, stage, paper),),
            name=f"stage {stage.stage}",
            card="turnaround/stage by stage",
            opens=Opens(What.ORDERS),
            heading=head,
        )
        for stage in answer.whole.stages
    ]
    return rows


def _point(week: "Week", low: float, high: float) -> ChartPoint:
    label = f"{week.monday.day} {week.monday:%b}"
    return ChartPoint(
        label,
        week.median.value,
        low,
        high,
        is_outside=bool(week.is_outside),
        is_counted=week.sets_limits,
    )


def _trend_line(weeks: Sequence["Week"], unit: str) -> Text:
    values = [week.median.value for week in weeks]
    first, last = weeks[0].monday, weeks[-1].monday
    line = f" {first.day} {first:%b} {sparkline(values, floor=0)} {last.day} {last:%b}"
    reached = [value for value in values if value is not None]
    if reached:
        line += f"   {words.duration(min(reached))} to {words.duration(max(reached))} {unit}"
    return Text(line)


def _weeks(answer: "TurnaroundAnswer", unit: str, paper: Paper) -> list[Block]:
    if not answer.weeks:
        return []
    chart = answer.chart
    if chart.centre is None or chart.low is None or chart.high is None:
        lines = [_trend_line(answer.weeks, unit)]
        summary = f"No control limits: {chart.why}."
    else:
        low = max(0.0, chart.low)
        points = [_point(week, low, chart.high) for week in answer.weeks]
        lines = control_chart(points, chart.centre, paper)
        summary = (
            f"Weeks lie around {words.duration(chart.centre)} {unit}, by chance "
            f"{words.duration(low)} to {words.duration(chart.high)}."
        )
        beyond = [f"{w.monday.day} {w.monday:%b}" for w in answer.weeks if w.is_outside]
        summary += f" Beyond: {', '.join(beyond)}." if beyond else " None lies beyond."
    lines += paragraph(summary, paper.width, paper.ink.quiet)
    return [
        title("Week by week, by the week of the request", paper),
        Block(tuple(lines), name="weeks", card="turnaround/week by week", opens=Opens(What.ORDERS)),
    ]
