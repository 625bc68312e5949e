"""The page of the Turnaround screen, drawn from its answer."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.sparkline import sparkline
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.format import short
from seasonboard.ui.layout.tables import Head, heading, line
from seasonboard.ui.pictures.control_chart import ChartPoint, control_chart
from seasonboard.ui.turnaround.waiting_curve import wait_picture

if TYPE_CHECKING:
    from seasonboard.answers.turnaround.parts import (
        StageTime,
        TurnaroundAnswer,
        TurnaroundGroup,
        Week,
    )
    from seasonboard.stats.waiting_times import WaitQuantile

_LIMITS = 14


def turnaround_page(answer: "TurnaroundAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, curve, groups, stages, weeks, what to keep in mind."""
    unit = answer.options.unit.value.replace("-", " ")
    picture = wait_picture(answer.whole.curve, unit, paper)
    blocks = [
        *page_parts.opening(answer.summary, paper, card="turnaround/turnaround", opens="orders"),
        GAP,
    ]
    if picture:
        told = Text(" share not yet there, by age; open orders count too", style=paper.ink.quiet)
        curve = Block((told, *picture), name="curve", card="turnaround/turnaround", opens="orders")
        blocks += pictured([curve])
    summary = answer.summary
    sections: tuple[Section, ...] = (
        lambda half: _groups(answer, unit, half),
        lambda half: _stages(answer.whole.stages, unit, half),
        lambda half: _weeks(answer, unit, half),
        lambda half: page_parts.left_out(
            summary, half, card="turnaround/set aside", opens="orders"
        ),
        lambda half: page_parts.caveats(summary, half, card="turnaround/turnaround"),
    )
    return [*blocks, *in_columns(sections, paper)]


def quantile_words(found: "WaitQuantile") -> str:
    """Return a time with its limits: `9 (8–11)`; `not reached`."""
    if found.value is None:
        return "not reached"
    if found.low is None and found.high is None:
        return short(found.value)
    low = "–" if found.low is None else short(found.low)
    high = "…" if found.high is None else short(found.high)
    return f"{short(found.value)} ({low}–{high})"


def _groups(answer: "TurnaroundAnswer", unit: str, paper: Paper) -> list[Block]:
    by = "all" if answer.options.by is None else answer.options.by.value.replace("-", " ")
    heads = (
        Head(by, 14, grows=True),
        Head("orders", 6, is_number=True),
        Head("open", 5, is_number=True),
        Head(f"half, {unit}", _LIMITS, is_number=True),
        Head("80 %", 11, is_number=True),
        Head("95 %", 11, is_number=True, least=100),
        Head("by next game", 13, is_number=True),
    )
    head = heading(heads, paper)
    groups = () if answer.options.by is None else answer.groups
    rows = [(group, f"group {group.key}", f"group:{group.key}") for group in groups]
    rows.append((answer.whole, "all orders", "orders"))
    return [title("How long it takes", paper), Block((head,))] + [
        Block(
            (line(heads, _group(group), paper),),
            name=name,
            card="turnaround/turnaround",
            opens=opens,
            heading=head,
        )
        for group, name, opens in rows
    ]


def _group(group: "TurnaroundGroup") -> tuple[str, ...]:
    return (
        group.name,
        words.whole(group.orders),
        words.whole(group.curve.open),
        quantile_words(group.median),
        quantile_words(group.p80),
        quantile_words(group.p95),
        words.share_words(group.ready.share),
    )


def _stages(stages: Sequence["StageTime"], unit: str, paper: Paper) -> list[Block]:
    if not stages:
        return []
    heads = (
        Head("from", 11),
        Head("to", 22, grows=True),
        Head("orders", 6, is_number=True),
        Head("there now", 9, is_number=True),
        Head(f"half, {unit}", 18, is_number=True),
    )
    head = heading(heads, paper)
    rows = [title("Where the time goes", paper), Block((head,))]
    for stage in stages:
        cells = (
            stage.stage,
            ", ".join(stage.next_stages[:2]),
            words.whole(stage.orders),
            words.whole(stage.waiting),
            quantile_words(stage.median),
        )
        rows.append(
            Block(
                (line(heads, cells, paper),),
                name=f"stage {stage.stage}",
                card="turnaround/stage by stage",
                opens="orders",
                heading=head,
            )
        )
    return rows


def _point(week: "Week", low: float, high: float) -> ChartPoint:
    label = f"{week.monday.day} {week.monday:%b}"
    return ChartPoint(
        label,
        week.median.value,
        low,
        high,
        is_outside=week.is_outside,
        is_counted=week.is_charted,
    )


def _trend_line(weeks: Sequence["Week"], unit: str) -> Text:
    values = [week.median.value for week in weeks]
    first, last = weeks[0].monday, weeks[-1].monday
    line = f" {first.day} {first:%b} {sparkline(values, floor=0)} {last.day} {last:%b}"
    told = [value for value in values if value is not None]
    if told:
        line += f"   {short(min(told))} to {short(max(told))} {unit}"
    return Text(line)


def _weeks(answer: "TurnaroundAnswer", unit: str, paper: Paper) -> list[Block]:
    if not answer.weeks:
        return []
    chart = answer.chart
    if chart is None or chart.centre is None or chart.low is None or chart.high is None:
        lines = [_trend_line(answer.weeks, unit)]
        summary = f"No limits: {answer.chart_why}."
    else:
        low = max(0.0, chart.low)
        points = [_point(week, low, chart.high) for week in answer.weeks]
        lines = control_chart(points, chart.centre, paper)
        summary = f"Weeks lie around {short(chart.centre)} {unit}, by chance {short(low)} to "
        summary += f"{short(chart.high)}."
        beyond = [f"{w.monday.day} {w.monday:%b}" for w in answer.weeks if w.is_outside]
        summary += f" Beyond: {', '.join(beyond)}." if beyond else " None lies beyond."
    lines += paragraph(summary, paper.width, paper.ink.quiet)
    return [
        title("Week by week, by the week of the request", paper),
        Block(tuple(lines), name="weeks", card="turnaround/week by week", opens="orders"),
    ]
