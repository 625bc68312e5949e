"""The page of the Orders screen: one line an order, on an axis of days."""

from collections.abc import Sequence
from datetime import timedelta
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.orders.report import ORDERS, late_lines
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.layout.tables import Head, column, fitted, heading, row_line
from seasonboard.ui.orders.day_axis import DayAxis, order_line

if TYPE_CHECKING:
    from seasonboard.answers.orders.open_orders import OpenOrder
    from seasonboard.answers.orders.parts import OrdersAnswer

_LETTERS = {
    "requested": "r",
    "scanned": "s",
    "modelled": "m",
    "printed": "p",
    "finished": "f",
    "shipped": "h",
    "delivered": "d",
}
KEY = "r requested s scanned m modelled p printed f finished h shipped d delivered"
MARKS_KEY = "│ last day known · ◆ next game · ┄ still to come · ‹ began earlier"
_BACK, _AHEAD = 42, 14
"""Days shown before and after the last day known, at most."""
_PICTURE = 22
_PICTURE_COLUMN = 2
_WIDEST = 110


def orders_page(answer: "OrdersAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, one line an open order, what to keep in mind."""
    axis = _axis(answer)
    heads: list[Head] = []

    def picture(order: "OpenOrder") -> Text:
        return _stages(order, axis, _width(heads, paper), paper)

    heads += (
        column(ORDERS.field("name"), 15, grows=True, most=26),
        column(ORDERS.field("kind"), 14, heading="guard"),
        Head("", _PICTURE, grows=True, most=_WIDEST, cell=picture),
        column(ORDERS.field("stage"), 9, heading="waits in"),
        column(ORDERS.field("age_days"), 4, heading="days"),
        column(ORDERS.field("chance_by_next_game"), 7, heading="by game"),
        column(ORDERS.field("attention"), 28, least=118),
    )
    head = heading(heads, paper)
    width = _width(heads, paper)
    before = 1 + sum(fitted(heads, paper)[1][number] + 1 for number in range(_PICTURE_COLUMN))
    dates = Text(" " * before, style=paper.ink.quiet).append(axis.dates(width))
    blocks = [
        *page_parts.opening(
            answer.summary, paper, card="orders/open orders", opens=Opens(What.ORDERS)
        ),
        GAP,
    ]
    if answer.orders:
        blocks += pictured([Block((head, dates))])
        blocks += pictured(_order(order, heads, paper) for order in answer.orders)
        keys = [paragraph(key, paper.width, paper.ink.quiet) for key in (KEY, MARKS_KEY)]
        blocks += pictured([Block((*keys[0], *keys[1]))])

    def late(paper: Paper) -> list[Block]:
        return [
            Block(
                paragraph(rule, paper.width),
                name=f"late {n}",
                card="orders/late",
                opens=Opens(What.ORDERS),
            )
            for n, rule in enumerate(late_lines(answer))
        ]

    summary, chance = answer.summary, "orders/chance by the next game"
    ends = (
        late,
        lambda half: page_parts.left_out(
            summary, half, card="orders/open orders", opens=Opens(What.ORDERS)
        ),
        lambda half: page_parts.caveats(summary, half, card=chance),
    )
    return [*blocks, *in_columns(ends, paper)]


def _width(heads: Sequence[Head], paper: Paper) -> int:
    """Return how wide the picture is: the column that takes the room left."""
    return fitted(heads, paper)[1][_PICTURE_COLUMN]


def _stages(order: "OpenOrder", axis: DayAxis, width: int, paper: Paper) -> Text:
    marks = [
        (_LETTERS.get(reached.stage, "?"), reached.reached_at.date()) for reached in order.stages
    ]
    game = order.next_game.on if order.next_game else None
    return order_line(axis, marks, game, width, paper.ink)


def _order(order: "OpenOrder", heads: Sequence[Head], paper: Paper) -> Block:
    text = row_line(heads, order, paper)
    if order.is_late:
        text.stylize(paper.ink.strong)
    lines = [text]
    if paper.width < 118 and order.attention.value != "on its way":
        lines.append(Text(f"   {order.attention.value}", style=paper.ink.quiet))
    return Block(
        tuple(lines),
        name=f"order {order.guard}",
        card="orders/chance by the next game",
        opens=Opens(What.ATHLETE, order.athlete),
        heading=heading(heads, paper),
    )


def _axis(answer: "OrdersAnswer") -> DayAxis:
    """Return the axis that holds the open orders and their games, within what is shown at most."""
    now = answer.as_of
    starts = [o.stages[0].reached_at.date() for o in answer.orders if o.stages]
    games = [o.next_game.on for o in answer.orders if o.next_game]
    first = max(min(starts, default=now), now - timedelta(days=_BACK))
    last = min(max(games, default=now), now + timedelta(days=_AHEAD))
    return DayAxis(first, now, max(last, now + timedelta(days=3)))
