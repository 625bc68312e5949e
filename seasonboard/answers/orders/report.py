"""The Orders answer described: every figure once, for text, JSON, CSV, pages and documents."""

from seasonboard.answers import words
from seasonboard.answers.fields import Field, Group, Kind, Privacy, Table, for_people, of, why
from seasonboard.answers.orders.comparable import LateAfter
from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.report import Report

NEXT_GAME = (
    Field("session", of("session"), "key of the game"),
    Field("starts_at", of("starts_at"), "its start", Kind.INSTANT),
    Field("on", of("on"), "its day in the department", Kind.DAY),
    Field("label", of("label"), "its label", privacy=Privacy.FREE_TEXT, optional=True),
    Field("days_ahead", of("days_ahead"), "days from the last day known", Kind.COUNT),
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
    """Return why no chance is known of an order; empty where one is."""
    return order.why or (order.chance.why if order.chance else "")


def _late(order: OpenOrder) -> bool | None:
    return None if order.late_after.days is None else order.is_late


def _why(order: OpenOrder) -> str:
    late = f"late: {order.late_after.why}" if order.late_after.days is None else ""
    return "; ".join(filter(None, (why_no_chance(order), late)))


CHANCE = (
    Field(
        *("chance_by_next_game", of("chance.value"), "chance to be fitted by then, 0 to 1"),
        kind=Kind.SHARE,
        heading="by then",
        show=chance_words,
    ),
    Field("chance_low", of("chance.low"), "lower limit of its confidence interval", Kind.SHARE),
    Field("chance_high", of("chance.high"), "upper limit of its confidence interval", Kind.SHARE),
    Field("chance_is_least", of("chance.is_least"), "whether it is a lower bound", Kind.FLAG),
    Field(
        *("comparable_orders", of("chance.orders"), "orders that the chance rests on", Kind.COUNT),
        heading="comparable",
    ),
    Field("likeness", of("likeness"), "what makes those orders comparable"),
    why(_why, in_csv=True),
)

ORDERS = Table.described(
    "orders",
    "an open order, the most pressing first",
    Field("guard", of("guard"), "key of the guard", heading="guard", privacy=Privacy.KEY),
    Field("athlete", of("athlete"), "key of the athlete", privacy=Privacy.KEY),
    Field("name", of("name"), "of the athlete", heading="athlete", privacy=Privacy.NAME),
    Field("team", of("team"), "key of the team"),
    Field("department", of("department"), "key of the department"),
    Field("plan", of("plan"), "plan of the department"),
    Field(*("kind", of("kind"), "guard kind"), heading="kind", show=guard_words),
    Field("side", of("side"), "left, right, both or midline"),
    Field("purpose", of("purpose"), "preventive or return"),
    Field("scan_method", of("scan_method"), "scanner or phone", optional=True),
    Field(
        *("remake_of", of("remake_of"), "guard that it replaces"),
        privacy=Privacy.KEY,
        optional=True,
    ),
    Table.described(
        "stages",
        "stages reached, in their order",
        Field("stage", of("stage"), "stage of the making"),
        Field("reached_at", of("reached_at"), "when it was reached", Kind.INSTANT),
    ),
    Field("stage", of("stage"), "stage reached last", heading="stage"),
    Field(
        *("stage_days", of("stage_days"), "days since it was reached", Kind.COUNT),
        heading="days in it",
    ),
    Field(
        *("age_days", of("age_days"), "calendar days since the request", Kind.COUNT), heading="age"
    ),
    Field(
        *("age_working_days", of("age_working_days"), "working days since the request"),
        kind=Kind.COUNT,
    ),
    Field("age_hours", of("age_hours"), "hours since the request", Kind.TENTHS),
    Field("late", _late, "whether it is late", Kind.FLAG),
    Field(
        *("late_after_days", of("late_after.days"), "days after which it is late"),
        kind=Kind.DURATION,
        optional=True,
    ),
    Field("attention", of("attention"), "what it needs", heading=""),
    Group("next_game", of("next_game"), NEXT_GAME, "of its team; null: none is ahead"),
    for_people("game", "next game", game_words),
    *CHANCE,
    Field("exposures", of("exposures"), "sessions taken part in since", Kind.COUNT),
    Field(
        *("exposures_bare", of("bare"), "those with a site of it uncovered", Kind.COUNT),
        heading="bare",
        show=lambda order: f"{order.bare} of {order.exposures}",
    ),
    Field("exposures_worn", of("worn"), "those in which it was worn", Kind.COUNT),
    reading=(
        *("guard", "name", "kind", "stage", "stage_days", "age_days", "game"),
        *("chance_by_next_game", "comparable_orders", "exposures_bare", "attention"),
    ),
)

LATE_AFTER = Table.described(
    "late_after",
    "a department, and when an order of it is late",
    Field("department", of("department"), "key of the department"),
    Field("days", of("days"), "days after which an order of it is late", Kind.DURATION),
    Field("orders", of("orders"), "orders that the days rest on", Kind.COUNT),
    Field("likeness", of("likeness"), "which orders those are"),
    why(of("why")),
)


def late_lines(answer: OrdersAnswer) -> list[str]:
    """Return when an order of each department is late, a line each."""
    return [late_words(rule) for rule in answer.late_after]


REPORT = Report(
    (
        Field("as_of", of("as_of"), "the last day known", Kind.DAY),
        Field("known", of("known"), "orders of the scope", Kind.COUNT),
        Field("open", lambda answer: len(answer.orders), "of them open", Kind.COUNT),
        Field("fitted", of("fitted"), "of them fitted", Kind.COUNT),
        Field("cancelled", of("cancelled"), "of them cancelled", Kind.COUNT),
        Field("retired", of("retired"), "of them retired with no fitting recorded", Kind.COUNT),
        Field("late", lambda answer: len(answer.late), "open orders that are late", Kind.COUNT),
        LATE_AFTER,
        ORDERS,
    ),
    csv=ORDERS,
    text=(ORDERS, late_lines),
)
