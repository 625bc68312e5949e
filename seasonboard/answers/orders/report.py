"""The Orders answer described: every figure once, for text, JSON, CSV, pages and documents."""

from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.fields import Field, Group, Kind, Privacy, Table, for_people, of, why
from seasonboard.answers.orders.lateness import LateAfter
from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.report import Report

NEXT_GAME = (
    Field("session", "key of the game"),
    Field("starts_at", "its start", Kind.INSTANT),
    Field("on", "its day in the department", Kind.DAY),
    Field("label", "its label", privacy=Privacy.FREE_TEXT, optional=True),
    Field("days_ahead", "days from the last day known", Kind.COUNT),
)


def chance_words(order: OpenOrder) -> str:
    """Return the chance to be fitted by the next game: `38 %`, `≥ 97 %`, a dash."""
    chance = order.chance
    if chance is None or chance.value is None:
        return "–"
    return f"{'≥ ' if chance.is_least else ''}{words.percent(chance.value)}"


def game_words(order: OpenOrder) -> str:
    """Return the day of the next game: `Sat 14 Nov`, or that none is ahead."""
    game = order.next_game
    return f"{game.on:%a} {game.on.day} {game.on:%b}" if game else "none ahead"


def guard_words(order: OpenOrder) -> str:
    """Return what is being made: `shin left`, `chest`."""
    return order.kind if order.side == "midline" else f"{order.kind} {order.side}"


def late_words(rule: LateAfter) -> str:
    """Return when an order of a department is late."""
    if rule.days is None:
        return f"{rule.department}: no order is called late ({rule.why})"
    return (
        f"{rule.department}: late when open for more than {words.days(rule.days)} "
        f"({rule.likeness}, {words.plural(rule.orders, 'order')})"
    )


def why_no_chance(order: OpenOrder) -> str:
    """Return why no chance is known of an order, or only a lower bound; empty where one is."""
    return order.why


def _late(order: OpenOrder) -> bool | None:
    return order.is_late if order.is_late_told else None


def _late_count(answer: OrdersAnswer) -> int | None:
    is_told = not answer.orders or any(o.is_late_told for o in answer.orders)
    return len(answer.late) if is_told else None


def _why(order: OpenOrder) -> str:
    late = "" if order.is_late_told else f"late: {order.late_after.why}"
    return "; ".join(filter(None, (why_no_chance(order), late)))


CHANCE = (
    Field(
        "chance_by_next_game",
        "chance to be fitted by then, 0 to 1",
        Kind.SHARE,
        get=of("chance.value"),
        heading="by then",
        show=chance_words,
    ),
    Field("chance_low", "lower limit of its confidence interval", Kind.SHARE, get=of("chance.low")),
    Field(
        "chance_high", "upper limit of its confidence interval", Kind.SHARE, get=of("chance.high")
    ),
    Field("chance_is_least", "whether it is a lower bound", Kind.FLAG, get=of("chance.is_least")),
    Field(
        "comparable_orders",
        "orders that had been in its stage as long, which the chance rests on",
        Kind.COUNT,
        get=of("chance.orders"),
        heading="comparable",
    ),
    Field("likeness", "what makes those orders comparable", get=of("chance.likeness")),
    why(_why, in_csv=True),
)

ORDERS = Table.described(
    "orders",
    "an open order, the most pressing first",
    Field("guard", "key of the guard", heading="guard", privacy=Privacy.KEY),
    Field("athlete", "key of the athlete", privacy=Privacy.KEY),
    Field("name", "of the athlete", heading="athlete", privacy=Privacy.NAME),
    Field("team", "key of the team"),
    Field("department", "key of the department"),
    Field("plan", "plan of the department"),
    Field("kind", "guard kind", heading="kind", show=guard_words),
    Field("side", "left, right, both or midline"),
    Field("purpose", "preventive or return"),
    Field("scan_method", "scanner or phone", optional=True),
    Field("remake_of", "guard that it replaces", privacy=Privacy.KEY, optional=True),
    Table.described(
        "stages",
        "stages reached, in their order",
        Field("stage", "stage of the making"),
        Field("reached_at", "when it was reached", Kind.INSTANT),
    ),
    Field("stage", "stage reached last", heading="stage"),
    Field("stage_days", "days since it was reached", Kind.COUNT, heading="days in it"),
    Field("age_days", "calendar days since the request", Kind.COUNT, heading="age"),
    Field("age_working_days", "working days since the request", Kind.COUNT),
    Field("age_hours", "hours since the request", Kind.TENTHS, optional=True),
    Field(
        "promised_on",
        "day it was promised for",
        Kind.DAY,
        heading="promised",
        optional=True,
        when=lambda answer: any(order.promised_on for order in answer.orders),
    ),
    Field("late", "whether it is late", Kind.FLAG, get=_late),
    Field(
        "late_after_days",
        "days after which it is late",
        Kind.DURATION,
        get=of("late_after.days"),
        optional=True,
    ),
    Field("attention", "what it needs", heading=""),
    Field("draw", "draw that it has a turn in", optional=True),
    Field(
        "turn",
        "its place in the order drawn",
        Kind.COUNT,
        heading="turn",
        optional=True,
        when=lambda answer: any(order.turn is not None for order in answer.orders),
    ),
    Field("rule", "what the sport's rules say of it in games, as looked up"),
    Group("next_game", of("next_game"), NEXT_GAME, "of its team; null: none is ahead"),
    for_people("game", "next game", game_words),
    *CHANCE,
    Field("exposures", "sessions taken part in since", Kind.COUNT),
    Field(
        "exposures_bare",
        "those with a site of it uncovered",
        Kind.COUNT,
        get=of("bare"),
        heading="bare",
        show=lambda order: f"{order.bare} of {order.exposures}",
    ),
    Field("exposures_worn", "those in which it was worn", Kind.COUNT, get=of("worn")),
    reading=(
        *("guard", "name", "kind", "turn", "stage", "stage_days", "age_days", "promised_on"),
        "game",
        *("chance_by_next_game", "comparable_orders", "exposures_bare", "attention"),
    ),
)

LATE_AFTER = Table.described(
    "late_after",
    "a department, and when an order of it is late",
    Field("department", "key of the department"),
    Field("days", "days after which an order of it is late", Kind.DURATION),
    Field("orders", "orders that the days rest on", Kind.COUNT),
    Field("likeness", "which orders those are"),
    why(of("why")),
)


_GRADES = (
    Field("forecasts", "forecasts graded", Kind.COUNT, heading="forecasts"),
    Field("told", "mean chance told, 0 to 1", Kind.SHARE, heading="told"),
    Field("came", "share that came, 0 to 1", Kind.SHARE, heading="came"),
)
_SCORES = (
    Field(
        "brier", "mean squared difference of chance and outcome", Kind.THOUSANDTHS, heading="Brier"
    ),
    Field(
        "base", "the same of one who tells the share that came", Kind.THOUSANDTHS, heading="base"
    ),
    Field("reliability", "Murphy's reliability: 0 is best", Kind.THOUSANDTHS),
    Field("resolution", "Murphy's resolution: more is better", Kind.THOUSANDTHS),
    why(of("why")),
)
_NO_FORECAST = why(lambda group: "" if group.forecasts else "no forecast told so much")
GRADED_GROUPS = Table.described(
    "groups",
    "forecasts of the past by the chance told, all stages together",
    Field("low", "least chance, 0 to 1", Kind.SHARE),
    Field("high", "largest chance, not included but for the last", Kind.SHARE),
    *_GRADES,
    _NO_FORECAST,
    rows=of("all.groups"),
)
GRADED_STAGES = Table.described(
    "stages",
    "forecasts of the past by the stage the order was in",
    Field("stage", "stage it was in", heading="told while"),
    Group("", of("grading"), (*_GRADES, *_SCORES)),
    reading=("stage", "forecasts", "told", "came", "brier", "base"),
)
GRADED = Group.described(
    "graded",
    of("graded"),
    "what would have been told in past weeks, beside what came",
    Field("sentence", "the same in words"),
    Group("", of("all"), (*_GRADES, *_SCORES)),
    Field(
        "drift", "standard errors by which more came than was told in the last days", Kind.TENTHS
    ),
    Field("bounds", "lower bounds, which are not graded", Kind.COUNT),
    Field("called_off", "orders called off before the game, not graded", Kind.COUNT),
    GRADED_GROUPS,
    GRADED_STAGES,
)
GRADED_TABLE = replace(GRADED_STAGES, rows=of("graded.stages"))


def _weight(name: str, what: str, heading: str) -> Field:
    return Field(
        name,
        what,
        Kind.TENTHS,
        heading=heading,
        show=lambda one: f"{getattr(one, name):g}",
    )


BORROWED = Table.described(
    "borrowed",
    "a stage, and how many orders of the level above count as own ones where few are known",
    Field("stage", "stage it was in", heading="borrowed in"),
    _weight("plan", "orders of all that a plan borrows", "by plan"),
    _weight("department", "orders of its plan that a department borrows", "by department"),
    _weight("kind", "orders of its department that a kind borrows", "by kind"),
)


def graded_line(answer: OrdersAnswer) -> str:
    """Return how forecasts of the past came out."""
    return answer.graded.sentence


def late_lines(answer: OrdersAnswer) -> list[str]:
    """Return when an order of each department is late, a line each."""
    return [late_words(rule) for rule in answer.late_after]


REPORT = Report(
    (
        Field("as_of", "the last day known", Kind.DAY),
        Field("known", "orders of the scope", Kind.COUNT),
        Field("open", "of them open", Kind.COUNT, get=lambda answer: len(answer.orders)),
        Field("fitted", "of them fitted", Kind.COUNT),
        Field("cancelled", "of them cancelled", Kind.COUNT),
        Field("retired", "of them retired with no fitting recorded", Kind.COUNT),
        Field(
            "late",
            "open orders that are late; null: of none can it be told",
            Kind.COUNT,
            get=_late_count,
            optional=True,
        ),
        LATE_AFTER,
        ORDERS,
        GRADED,
        BORROWED,
    ),
    csv=ORDERS,
    text=(ORDERS, late_lines, graded_line, GRADED_TABLE, BORROWED),
)
