"""The page of the Orders screen: one line an order, on an axis of days."""

from collections.abc import Iterator, Sequence
from datetime import timedelta
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.orders.report import (
    BORROWED,
    GRADED_STAGES,
    ORDERS,
    graded_line,
    late_lines,
)
from seasonboard.answers.turns.report import TURNS
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import (
    GAP,
    Block,
    Opens,
    Paper,
    What,
    note,
    paragraph,
    pictured,
    title,
)
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.tables import Head, column, columns, fitted, heading, table_blocks
from seasonboard.ui.orders.day_axis import DayAxis, order_line

if TYPE_CHECKING:
    from seasonboard.answers.orders.forecast import Borrowed
    from seasonboard.answers.orders.graded import StageGrading
    from seasonboard.answers.orders.open_orders import OpenOrder
    from seasonboard.answers.orders.parts import OrdersAnswer
    from seasonboard.answers.turns.parts import Turn, TurnsAnswer

KEY = "r requested s scanned m modelled p printed f finished h shipped d delivered"
_LETTERS = dict(zip(KEY.split()[1::2], KEY.split()[::2], strict=True))
MARKS_KEY = "│ last day known · ◆ next game · ┄ still to come · ‹ began earlier"
_BACK, _AHEAD = 42, 14
"""Days shown before and after the last day known, at most."""
_PICTURE = 2
"""The column of the picture, which takes the room left."""
_MOST_TURNS = 12
"""Turns shown that come next; Enter opens all of them."""
TURNS_OPEN = Opens(What.TABLE, TURNS.name)
_GRADED = "orders/forecasts graded"
_CARD, _CHANCE, _ORDERS = "orders/open orders", "orders/chance by the next game", Opens(What.ORDERS)


def orders_page(answer: "OrdersAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, one line an open order, what to keep in mind."""
    summary = answer.summary
    sections = (
        partial(_turns, answer),
        partial(_late, answer),
        partial(_graded, answer),
        partial(_borrowed, answer),
        *page_parts.ends(summary, _CARD, _ORDERS, caveats_card=_CHANCE),
    )
    opening = page_parts.opening(summary, paper, _CARD, _ORDERS)
    return [*opening, GAP, *pictured(_table(answer, paper)), *in_columns(sections, paper)]


def _table(answer: "OrdersAnswer", paper: Paper) -> list[Block]:
    axis = _axis(answer)
    has_turns = any(order.turn is not None for order in answer.orders)
    turns = [column(ORDERS.field("turn"), 4, least=86)] if has_turns else []
    heads = (
        column(ORDERS.field("name"), 15, grows=True, most=26),
        column(ORDERS.field("kind"), 14, heading="guard"),
        Head("", 22, grows=True, most=110, cell=lambda one: _stages(one, axis, width, paper)),
        column(ORDERS.field("stage"), 9, heading="waits in"),
        *turns,
        column(ORDERS.field("age_days"), 4, heading="days"),
        column(ORDERS.field("chance_by_next_game"), 7, heading="by game"),
        column(ORDERS.field("attention"), 28, least=118),
    )
    widths = fitted(heads, paper)[1]
    width = widths[_PICTURE]
    before = 1 + sum(widths[number] + 1 for number in range(_PICTURE))
    dates = Text(" " * before, style=paper.ink.quiet).append(axis.dates(width))

    def lines(order: "OpenOrder", line: Text) -> Iterator[Text]:
        if order.is_late:
            line.stylize(paper.ink.strong)
        yield line
        if paper.width < 86 and order.turn is not None:
            yield Text(f"   turn {order.turn} of draw {order.draw}", style=paper.ink.quiet)
        if paper.width < 118 and order.attention.value != "on its way":
            yield Text(f"   {order.attention.value}", style=paper.ink.quiet)

    def stop(order: "OpenOrder") -> tuple[str, str, Opens]:
        return f"order {order.guard}", _CHANCE, Opens(What.ATHLETE, order.athlete)

    above = (heading(heads, paper), dates)
    table = table_blocks(heads, answer.orders, paper, stop, above=above, lines=lines)
    return [*table, Block((*note(KEY, paper), *note(MARKS_KEY, paper)))] if table else []


def _turns(answer: "OrdersAnswer", paper: Paper) -> list[Block]:
    """Return the drawn turns that come next, and what became of the others in a sentence."""
    if answer.turns is None:
        return []
    now = answer.turns.through
    due = [(t, answer.turns) for t in answer.turns.turns if t.state(now) in {"its turn", "waits"}]
    heads = (
        *columns(TURNS, draw=6, turn=5, week=5, turn_on=11),
        column(TURNS.field("name"), 15, grows=True, most=26),
        *columns(TURNS, making=14, state=10),
    )

    def stop(row: "tuple[Turn, TurnsAnswer]") -> tuple[str, str, Opens]:
        return f"turn {row[0].draw} {row[0].turn}", "turns/draw", TURNS_OPEN

    told = Block(
        paragraph(answer.turns.summary.answer, paper.width), "turns", "turns/draw", TURNS_OPEN
    )
    table = table_blocks(heads, due[:_MOST_TURNS], paper, stop)
    return [title("Drawn turns", paper), told, *table]


def _late(answer: "OrdersAnswer", paper: Paper) -> list[Block]:
    return [
        Block(paragraph(rule, paper.width), f"late {number}", "orders/late", _ORDERS)
        for number, rule in enumerate(late_lines(answer))
    ]


def _graded(answer: "OrdersAnswer", paper: Paper) -> list[Block]:
    """Return how forecasts of the past came out, as a sentence and by stage."""
    told = Block(paragraph(graded_line(answer), paper.width), "graded", _GRADED, _ORDERS)
    heads = columns(GRADED_STAGES, stage=11, forecasts=9, told=5, came=5, brier=6, base=6)

    def stop(row: "StageGrading") -> tuple[str, str, Opens]:
        return f"graded {row.stage}", _GRADED, _ORDERS

    return [told, *table_blocks(heads, answer.graded.stages, paper, stop)]


def _borrowed(answer: "OrdersAnswer", paper: Paper) -> list[Block]:
    """Return how much forecasts borrow where few orders are known, by stage."""
    heads = columns(BORROWED, stage=11, plan=7, department=13, kind=7)

    def stop(row: "Borrowed") -> tuple[str, str, Opens]:
        return f"borrowed {row.stage}", _CHANCE, _ORDERS

    return table_blocks(heads, answer.borrowed, paper, stop)


def _stages(order: "OpenOrder", axis: DayAxis, width: int, paper: Paper) -> Text:
    marks = [
        (_LETTERS.get(reached.stage, "?"), reached.reached_at.date()) for reached in order.stages
    ]
    game = order.next_game.on if order.next_game else None
    return order_line(axis, marks, game, width, paper.ink)


def _axis(answer: "OrdersAnswer") -> DayAxis:
    """Return the axis that holds the open orders and their games, within what is shown at most."""
    now = answer.as_of
    starts = [o.stages[0].reached_at.date() for o in answer.orders if o.stages]
    games = [o.next_game.on for o in answer.orders if o.next_game]
    first = max(min(starts, default=now), now - timedelta(days=_BACK))
    last = min(max(games, default=now), now + timedelta(days=_AHEAD))
    return DayAxis(first, now, max(last, now + timedelta(days=3)))
