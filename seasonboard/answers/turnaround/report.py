"""The Turnaround answer described: every figure once, for text, JSON, CSV, pages and documents."""

from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.fields import (
    Field,
    Group,
    Kind,
    Table,
    estimate,
    for_people,
    interval,
    of,
    why,
)
from seasonboard.answers.layout import prose
from seasonboard.answers.orders.report import CHANCE, ORDERS
from seasonboard.answers.report import Report, table_text
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.answers.turnaround.words import time_limits
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion

OUTSIDE = "outside the control limits"
WEEKS_IN_TEXT = 12
"""Weeks that the text shows; JSON has all of them."""


def unit_words(answer: TurnaroundAnswer) -> str:
    """Return the unit of the times."""
    return answer.options.unit.value.replace("-", " ")


def _time(time: Estimate) -> str:
    return "not reached" if time.value is None else words.duration(time.value)


def _share_of_orders(share: Proportion) -> str:
    """Return a share with its interval and what it is of: `41 % (37 to 46) of 513`."""
    if share.value is None or share.low is None or share.high is None:
        return "–"
    limits = words.share_interval(share).removesuffix(" %")
    return f"{words.percent(share.value)} ({limits}) of {words.whole(share.trials)}"


def _duration(name: str, meaning: str, heading: str) -> Group:
    return estimate(name, of(name), meaning, kind=Kind.DURATION, heading=heading, show=_time)


def _median(meaning: str) -> tuple[Group | Field, ...]:
    """Describe a median: alone, its interval beside it, and both in one cell."""
    return (
        _duration("median", meaning, "median"),
        for_people(
            "median_interval",
            lambda answer: words.interval_words(answer.summary.scope),
            lambda row: time_limits(row.median),
        ),
        for_people(
            *("median_with_interval", lambda answer: f"median, {unit_words(answer)}"),
            *(lambda row: words.time_words(row.median), Kind.DURATION),
        ),
    )


def _percentile(name: str, percent: int) -> tuple[Group | Field, ...]:
    heading = f"{percent} % within"
    return (
        _duration(name, f"time within which {percent} % had finished", heading),
        for_people(
            *(f"{name}_with_interval", heading),
            *(lambda row: words.time_words(getattr(row, name)), Kind.DURATION),
        ),
    )


COUNTS = (
    Field("orders", of("orders"), "orders timed", Kind.COUNT, "orders"),
    Field(
        *("finished", of("curve.finished"), "of them that reached the second stage"),
        kind=Kind.COUNT,
        heading=lambda answer: str(answer.options.end),
    ),
    Field("open", of("curve.open"), "of them still open", Kind.COUNT, "open"),
    Field("cancelled", of("curve.cancelled"), "of them called off", Kind.COUNT, "cancelled"),
)

READY = Group.described(
    "ready_for_next_game",
    of("ready"),
    "orders fitted before the next game after the request",
    estimate(
        *("share", of("share"), "share fitted before the next game after the request"),
        kind=Kind.SHARE,
        is_flat=True,
        more=(
            Field("orders", of("trials"), "orders of which it is decided", Kind.COUNT),
            Field("ready", of("successes"), "of them fitted in time", Kind.COUNT),
        ),
        heading="ready for next game",
        show=_share_of_orders,
    ),
    Field("undecided", of("undecided"), "not fitted, that game still to come", Kind.COUNT),
    Field("cancelled", of("cancelled"), "called off before that game", Kind.COUNT),
    Field("no_game", of("no_game"), "without such a game", Kind.COUNT),
)

FINISHED_ONLY = Group.described(
    "finished_only",
    of("finished_only"),
    "the finished alone, which looks too short while orders are open",
    Field("finished", of("finished"), "orders that finished", Kind.COUNT),
    Field("mean", of("mean"), "their mean time", Kind.DURATION),
    Field("median", of("median"), "their median time", Kind.DURATION),
    Field("open_left_out", of("open_left_out"), "open orders left out", Kind.COUNT),
    Field(
        *("longest_open", of("longest_open"), "how long the oldest of these has waited"),
        kind=Kind.DURATION,
        optional=True,
    ),
    why(of("why")),
)

STAGES = Table.described(
    "stages",
    "a stage, and the time to the next one recorded",
    Field("stage", of("stage"), "stage that was reached", heading="stage"),
    Field(
        *("next_stages", of("next_stages"), "stages gone on to, the most frequent first"),
        heading="then",
        show=lambda step: " or ".join(step.next_stages),
    ),
    Field("orders", of("orders"), "orders that reached it", Kind.COUNT, "orders"),
    Field("finished", of("finished"), "of them that went on", Kind.COUNT),
    Field("waiting", of("waiting"), "of them in it now", Kind.COUNT, "waiting now"),
    Field("cancelled", of("cancelled"), "of them called off in it", Kind.COUNT),
    *_median("median time to the next stage, waiting ones counted up to now"),
    reading=("stage", "orders", "median.value", "median_interval", "waiting", "next_stages"),
)

CURVE = Table.described(
    "curve",
    "shares by age, open orders counted",
    Group.described(
        "",
        lambda pair: pair[0],
        "",
        Field("time", of("time"), "an age at which something happened", Kind.DURATION),
        Field("at_risk", of("at_risk"), "orders that old and not over", Kind.COUNT),
        Field("finished", of("finished"), "of them finished at it", Kind.COUNT),
        Field("cancelled", of("cancelled"), "of them called off at it", Kind.COUNT),
        Field("open", of("open"), "of them no older yet", Kind.COUNT),
        Field("waiting", of("waiting"), "share still waiting after it", Kind.SHARE),
        *interval(Kind.SHARE),
    ),
    Group.described(
        "",
        lambda pair: pair[1],
        "",
        Field("share_finished", of("finished"), "of all begun, finished", Kind.SHARE),
        Field("share_cancelled", of("cancelled"), "of all begun, called off", Kind.SHARE),
        Field("share_open", of("open"), "of all begun, still open", Kind.SHARE),
    ),
    rows=lambda group: zip(group.curve.points, group.shares, strict=True),
)

GROUPS = Table.described(
    "groups",
    "a group of orders; all orders where they are not grouped",
    Field("group", of("name"), "name of the group", heading="group"),
    Field("key", lambda group: group.key or None, "its key", optional=True),
    *COUNTS,
    *_median("time by which half had finished, open orders counted up to their age"),
    *_percentile("p80", 80),
    *_percentile("p95", 95),
    READY,
    for_people(
        "ready_with_interval",
        "by next game",
        lambda group: words.share_words(group.ready.share),
        Kind.SHARE,
    ),
    FINISHED_ONLY,
    Field("unit", of("unit"), "what times are counted in"),
    STAGES,
    CURVE,
    reading=(
        *("group", "orders", "finished", "open", "cancelled", "median.value", "median_interval"),
        *("p80.value", "p95.value", "ready_for_next_game.share"),
    ),
)
WHOLE_STAGES = replace(STAGES, rows=of("whole.stages"))
SHOWN_GROUPS = replace(GROUPS, rows=of("shown_groups"))
"""The groups, then all orders together: what people read."""


WEEKS = Table.described(
    "weeks",
    "a week in which orders began",
    Field("week", of("monday"), "Monday of the week in which they began", Kind.DAY, "week of"),
    Field("orders", of("orders"), "orders that began in it", Kind.COUNT, "orders"),
    Field("finished", of("finished"), "of them that finished", Kind.COUNT),
    *_median("median time of these, open ones counted up to their age"),
    Field("sets_limits", of("sets_limits"), "whether it sets the control limits", Kind.FLAG),
    Field("outside_limits", of("is_outside"), "whether it lies outside them", Kind.FLAG),
    for_people(
        "note",
        "",
        lambda week: OUTSIDE if week.is_outside else "" if week.sets_limits else week.why,
    ),
    why(of("why")),
    reading=("week", "orders", "median.value", "median_interval", "note"),
)

CONTROL_LIMITS = Group.described(
    "control_limits",
    of("chart"),
    "what the median of a week strays within by chance",
    Field("centre", of("centre"), "mean of the weekly medians", Kind.DURATION),
    Field("low", of("low"), "lower control limit of a weekly median", Kind.DURATION),
    Field("high", of("high"), "upper control limit of a weekly median", Kind.DURATION),
    why(of("why")),
)

TOGETHER = Group.described(
    "together",
    of("whole.together"),
    "guards that one athlete began on one day, as one request",
    Field("requests", of("requests"), "requests", Kind.COUNT),
    Field("complete", of("complete"), "of them complete", Kind.COUNT),
    Field("open", of("open"), "of them with a guard still open", Kind.COUNT),
    Field("cancelled", of("cancelled"), "of them called off", Kind.COUNT),
    estimate(
        *("median", of("median"), "median time, open ones counted up to their age"),
        kind=Kind.DURATION,
    ),
    Field(
        *("median_of_complete", of("complete_only.median"), "median of the complete alone"),
        kind=Kind.DURATION,
    ),
    why(of("complete_only.why")),
)


def _table_lines(answer: TurnaroundAnswer) -> list[str]:
    """Return groups, stages and the last weeks, each under a line that says what it is."""
    if not answer.whole.orders:
        return []
    options, last = answer.options, min(WEEKS_IN_TEXT, len(answer.weeks))
    weeks = replace(WEEKS, rows=lambda answer: answer.weeks[-WEEKS_IN_TEXT:])
    return [
        f"From {options.start} to {options.end}, in {unit_words(answer)}:",
        *(*table_text(SHOWN_GROUPS, answer), ""),
        "Where the time goes, from a stage to the next one recorded:",
        *(*table_text(WHOLE_STAGES, answer), ""),
        f"By week of the beginning (the last {last}):",
        *(*table_text(weeks, answer), *prose(_chart_sentence(answer))),
    ]


def _chart_sentence(answer: TurnaroundAnswer) -> str:
    chart = answer.chart
    if chart.low is None or chart.high is None:
        return f"No control limits for weeks: {chart.why}."
    return (
        f"Weeks vary about {words.duration(chart.centre)}, control limits "
        f"{words.duration(max(chart.low, 0.0))} to {words.duration(chart.high)}; a week outside "
        "is marked."
    )


def _together_line(answer: TurnaroundAnswer) -> str:
    both = answer.whole.together
    if both.requests == answer.whole.orders:
        return ""
    return (
        "Guards of one athlete begun on one day, taken as one request that is done when its last "
        f"guard is: {words.plural(both.requests, 'request')}, {words.whole(both.open)} open, "
        f"median {_time(both.median)} ({time_limits(both.median)})."
    )


OPEN_ORDERS = Table(
    "open_orders",
    of("open_orders"),
    ORDERS.only(
        *("guard", "athlete", "department", "age_days", "age_working_days", "age_hours", "stage"),
        *("next_game", *(one.name for one in CHANCE)),
    ),
    "an open order, the most pressing first",
)

REPORT = Report(
    (
        Field("from", of("options.start"), "first stage"),
        Field("to", of("options.end"), "second stage"),
        Field("unit", of("options.unit"), "what times are counted in"),
        Field("by", of("options.by"), "what the groups are; null: not grouped", optional=True),
        Field(
            *("holidays", lambda answer: answer.options.holidays_of or None),
            "whose public holidays are left out; null: none",
            optional=True,
        ),
        Group("", of("whole"), COUNTS),
        GROUPS,
        WHOLE_STAGES,
        TOGETHER,
        WEEKS,
        CONTROL_LIMITS,
        OPEN_ORDERS,
    ),
    csv=GROUPS,
    text=(_table_lines, _together_line),
)
