"""The Turnaround answer described: every figure once, for text, JSON, CSV, pages and documents."""

from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import estimate, interval
from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, of, why
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
    return words.time_words(time) if time.value is None else words.duration(time.value)


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
    Field("orders", "orders timed", Kind.COUNT, heading="orders"),
    Field(
        "finished",
        "of them that reached the second stage",
        Kind.COUNT,
        get=of("curve.finished"),
        heading=lambda answer: str(answer.options.end),
    ),
    Field("open", "of them still open", Kind.COUNT, get=of("curve.open"), heading="open"),
    Field(
        "cancelled",
        "of them called off",
        Kind.COUNT,
        get=of("curve.cancelled"),
        heading="cancelled",
    ),
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
            Field("orders", "orders of which it is decided", Kind.COUNT, get=of("trials")),
            Field("ready", "of them fitted in time", Kind.COUNT, get=of("successes")),
        ),
        heading="ready for next game",
        show=_share_of_orders,
    ),
    Field("undecided", "not fitted, that game still to come", Kind.COUNT),
    Field("cancelled", "called off before that game", Kind.COUNT),
    Field("no_game", "without such a game", Kind.COUNT),
)

FINISHED_ONLY = Group.described(
    "finished_only",
    of("finished_only"),
    "the finished alone, which looks too short while orders are open",
    Field("finished", "orders that finished", Kind.COUNT),
    Field("mean", "their mean time", Kind.DURATION),
    Field("median", "their median time", Kind.DURATION),
    Field("open_left_out", "open orders left out", Kind.COUNT),
    Field("longest_open", "how long the oldest of these has waited", Kind.DURATION, optional=True),
    why(of("why")),
)

STAGES = Table.described(
    "stages",
    "a stage, and the time to the next one recorded",
    Field("stage", "stage that was reached", heading="stage"),
    Field(
        "next_stages",
        "stages gone on to, the most frequent first",
        heading="then",
        show=lambda step: " or ".join(step.next_stages),
    ),
    Field("orders", "orders that reached it", Kind.COUNT, heading="orders"),
    Field("finished", "of them that went on", Kind.COUNT),
    Field("waiting", "of them in it now", Kind.COUNT, heading="waiting now"),
    Field("cancelled", "of them called off in it", Kind.COUNT),
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
        Field("time", "an age at which something happened", Kind.DURATION),
        Field("at_risk", "orders that old and not over", Kind.COUNT),
        Field("finished", "of them finished at it", Kind.COUNT),
        Field("cancelled", "of them called off at it", Kind.COUNT),
        Field("open", "of them no older yet", Kind.COUNT),
        Field("waiting", "share still waiting after it", Kind.SHARE),
        *interval(Kind.SHARE),
    ),
    Group.described(
        "",
        lambda pair: pair[1],
        "",
        Field("share_finished", "of all begun, finished", Kind.SHARE, get=of("finished")),
        Field("share_cancelled", "of all begun, called off", Kind.SHARE, get=of("cancelled")),
        Field("share_open", "of all begun, still open", Kind.SHARE, get=of("open")),
    ),
    rows=lambda group: zip(group.curve.points, group.shares, strict=True),
)

GROUPS = Table.described(
    "groups",
    "a group of orders; all orders where they are not grouped",
    Field("group", "name of the group", get=of("name"), heading="group"),
    Field("key", "its key", get=lambda group: group.key or None, optional=True),
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
    Field("unit", "what times are counted in"),
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
    Field(
        "week",
        "Monday of the week in which they began",
        Kind.DAY,
        get=of("monday"),
        heading="week of",
    ),
    Field("orders", "orders that began in it", Kind.COUNT, heading="orders"),
    Field("finished", "of them that finished", Kind.COUNT),
    *_median("median time of these, open ones counted up to their age"),
    Field("sets_limits", "whether it sets the control limits", Kind.FLAG),
    Field("outside_limits", "whether it lies outside them", Kind.FLAG, get=of("is_outside")),
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
    Field("centre", "mean of the weekly medians", Kind.DURATION),
    Field("low", "lower control limit of a weekly median", Kind.DURATION),
    Field("high", "upper control limit of a weekly median", Kind.DURATION),
    why(of("why")),
)

TOGETHER = Group.described(
    "together",
    of("whole.together"),
    "guards that one athlete began on one day, as one request",
    Field("requests", "requests", Kind.COUNT),
    Field("complete", "of them complete", Kind.COUNT),
    Field("open", "of them with a guard still open", Kind.COUNT),
    Field("cancelled", "of them called off", Kind.COUNT),
    estimate(
        *("median", of("median"), "median time, open ones counted up to their age"),
        kind=Kind.DURATION,
    ),
    Field(
        "median_of_complete",
        "median of the complete alone",
        Kind.DURATION,
        get=of("complete_only.median"),
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
        Field("from", "first stage", get=of("options.start")),
        Field("to", "second stage", get=of("options.end")),
        Field("unit", "what times are counted in", get=of("options.unit")),
        Field("by", "what the groups are; null: not grouped", get=of("options.by"), optional=True),
        Field(
            "holidays",
            "whose holidays are left out; null: none",
            get=lambda answer: answer.options.holidays_of or None,
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
