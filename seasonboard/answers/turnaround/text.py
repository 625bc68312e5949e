"""The Turnaround answer as text to read in a terminal, and as CSV for a spreadsheet."""

from seasonboard.answers import words
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.answers.turnaround.parts import (
    Ready,
    StageTime,
    TurnaroundAnswer,
    TurnaroundGroup,
    Week,
)
from seasonboard.answers.turnaround.words import limits, plain_number
from seasonboard.stats.waiting_times import WaitQuantile

_WEEKS_SHOWN = 12
_CSV = (
    "group",
    "orders",
    "finished",
    "open",
    "cancelled",
    "median",
    "median_low",
    "median_high",
    "p80",
    "p80_low",
    "p80_high",
    "p95",
    "p95_low",
    "p95_high",
    "ready_share",
    "ready_low",
    "ready_high",
    "ready_orders",
    "unit",
)


def turnaround_text(answer: TurnaroundAnswer) -> str:
    """Return the Turnaround answer as lines of text."""
    if not answer.whole.orders:
        return page(answer.summary, [])
    unit = str(answer.options.unit).replace("-", " ")
    heads = ("group", "orders", str(answer.options.end), "open", "cancelled", "half within")
    limit = words.level_words(answer.summary.scope)
    groups = answer.groups if answer.options.by is None else (*answer.groups, answer.whole)
    return page(
        answer.summary,
        [
            f"From {answer.options.start} to {answer.options.end}, in {unit}:",
            *table(
                (*heads, limit, "four in five", "19 in 20", "ready for next game"),
                [_group_row(group) for group in groups],
            ),
            "",
            "Where the time goes, from a stage to the next one recorded:",
            *table(
                ("stage", "orders", "half within", limit, "waiting now", "then"),
                [_stage_row(step) for step in answer.whole.stages],
            ),
            *_weeks(answer, limit),
            *_together(answer),
        ],
    )


def _group_row(group: TurnaroundGroup) -> tuple[str, ...]:
    counts = (group.orders, group.curve.finished, group.curve.open, group.curve.cancelled)
    return (
        group.name,
        *(words.whole(count) for count in counts),
        _value(group.median),
        limits(group.median),
        _value(group.p80),
        _value(group.p95),
        _ready(group.ready),
    )


def _value(found: WaitQuantile) -> str:
    return "not reached" if found.value is None else plain_number(found.value)


def _ready(ready: Ready) -> str:
    share = ready.share
    if share.share is None or share.low is None or share.high is None:
        return "–"
    shown = f"{words.percent(share.share)} ({share.low * 100:.0f} to {share.high * 100:.0f})"
    return f"{shown} of {words.whole(share.trials)}"


def _stage_row(step: StageTime) -> tuple[str, ...]:
    return (
        step.stage,
        words.whole(step.orders),
        _value(step.median),
        limits(step.median),
        words.whole(step.waiting),
        " or ".join(step.next_stages),
    )


def _weeks(answer: TurnaroundAnswer, limit: str) -> list[str]:
    shown = answer.weeks[-_WEEKS_SHOWN:]
    chart = answer.chart
    summary = f"No limits for weeks: {answer.chart_why}."
    if chart is not None and chart.low is not None and chart.high is not None:
        summary = (
            f"Weeks vary about {plain_number(chart.centre)}, within "
            f"{plain_number(max(chart.low, 0.0))} to {plain_number(chart.high)}; a week outside "
            "is marked."
        )
    return [
        "",
        f"By week of the beginning (the last {len(shown)}):",
        *table(("week of", "orders", "half within", limit, ""), [_week_row(w) for w in shown]),
        *prose(summary),
    ]


def _week_row(week: Week) -> tuple[str, ...]:
    note = "outside the limits" if week.is_outside else week.why
    value = _value(week.median)
    return (week.monday.isoformat(), words.whole(week.orders), value, limits(week.median), note)


def _together(answer: TurnaroundAnswer) -> list[str]:
    both = answer.whole.together
    if both.requests == answer.whole.orders:
        return []
    return [
        "",
        *prose(
            f"Guards of one athlete begun on one day, taken as one request that is done when its "
            f"last guard is: {words.plural(both.requests, 'request')}, {words.whole(both.open)} "
            f"open, half within {_value(both.median)} ({limits(both.median)})."
        ),
    ]


def turnaround_csv(answer: TurnaroundAnswer) -> str:
    """Return the groups as CSV, unrounded; empty where nothing is known."""
    rows = [
        (
            group.name,
            group.orders,
            group.curve.finished,
            group.curve.open,
            group.curve.cancelled,
            *(
                number
                for found in (group.median, group.p80, group.p95)
                for number in (found.value, found.low, found.high)
            ),
            group.ready.share.share,
            group.ready.share.low,
            group.ready.share.high,
            group.ready.share.trials,
            str(answer.options.unit),
        )
        for group in answer.groups
    ]
    return as_csv(_CSV, rows)
