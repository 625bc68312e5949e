"""The Orders answer as text to read in a terminal, and as CSV for a spreadsheet."""

from seasonboard.answers import words
from seasonboard.answers.layout import as_csv, page, table
from seasonboard.answers.orders.parts import OpenOrder, OrdersAnswer

_CSV = (
    "guard",
    "athlete",
    "name",
    "team",
    "department",
    "kind",
    "side",
    "purpose",
    "scan_method",
    "stage",
    "stage_days",
    "age_days",
    "attention",
    "late_after_days",
    "next_game",
    "next_game_at",
    "chance_by_next_game",
    "chance_low",
    "chance_high",
    "like_orders",
    "likeness",
    "exposures",
    "exposures_bare",
    "why",
)


def orders_text(answer: OrdersAnswer) -> str:
    """Return the Orders answer as lines of text."""
    heads = ("guard", "athlete", "kind", "stage", "days in it", "age", "next game", "by then")
    rows = [_row(order) for order in answer.orders]
    late = late_lines(answer)
    shown = table((*heads, "of like", "bare", ""), rows)
    return page(answer.summary, [*shown, *([""] if late and shown else []), *late])


def late_lines(answer: OrdersAnswer) -> list[str]:
    """Return when an order of each department is late, a line each."""
    return [
        f"{rule.department}: late after {words.number(rule.days, digits=0)} days "
        f"({rule.likeness}, {words.plural(rule.orders, 'order')})"
        for rule in answer.late_after
        if rule.days is not None
    ]


def _row(order: OpenOrder) -> tuple[str, ...]:
    game = order.next_game
    return (
        order.guard,
        order.name,
        f"{order.kind} {order.side}",
        order.stage,
        str(order.stage_days),
        str(order.age_days),
        f"{game.on:%a} {game.on.day} {game.on:%b}" if game else "none ahead",
        chance_words(order),
        "–" if order.chance is None else words.whole(order.chance.orders),
        f"{order.bare} of {order.exposures}",
        str(order.attention),
    )


def chance_words(order: OpenOrder) -> str:
    """Return the chance to be fitted by the next game: `38 %`, `at least 97 %`, a dash."""
    chance = order.chance
    if chance is None or chance.share is None:
        return "–"
    return f"{'at least ' if chance.is_least else ''}{words.percent(chance.share)}"


def orders_csv(answer: OrdersAnswer) -> str:
    """Return the open orders as CSV, unrounded; empty where nothing is known."""
    return as_csv(_CSV, [_cells(order) for order in answer.orders])


def _cells(order: OpenOrder) -> tuple[object, ...]:
    game, chance = order.next_game, order.chance
    return (
        order.guard,
        order.athlete,
        order.name,
        order.team,
        order.department,
        order.kind,
        order.side,
        order.purpose,
        order.scan_method,
        order.stage,
        order.stage_days,
        order.age_days,
        str(order.attention),
        order.late_after.days,
        game.session if game else None,
        game.starts_at.isoformat() if game else None,
        chance.share if chance else None,
        chance.low if chance else None,
        chance.high if chance else None,
        chance.orders if chance else None,
        order.likeness,
        order.exposures,
        order.bare,
        order.why,
    )
