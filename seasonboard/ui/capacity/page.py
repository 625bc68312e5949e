"""The page of the Capacity screen: queues, the order to agree on, when to ask, what would help."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.capacity.parts import ReturnGuards
from seasonboard.answers.capacity.report import CHANGES, GAMES, LINES, PRINTERS, QUEUE
from seasonboard.answers.capacity.words import games_lines, still_in_time
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
from seasonboard.ui.layout.tables import Head, column, columns, table_blocks

if TYPE_CHECKING:
    from seasonboard.answers.capacity.parts import CapacityAnswer, CapacityChange, QueuedPrint

ORDER_CARD, ASK_CARD, CHANGE_CARD, PRINTER_CARD = (
    f"capacity/{name}" for name in ("print order", "ask by", "changes", "printers")
)
KEYS = {
    ReturnGuards.FIRST: "Return guards stand first; t lets them stand as others do.",
    ReturnGuards.AS_OTHERS: "Return guards stand as others do; t lets them stand first.",
}
KEY = "a agrees on this order: a decision a department, nothing is sent."
_WIDE = 118


def capacity_page(answer: "CapacityAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, queues, the order, games, changes, what to keep in mind."""
    summary, opens = answer.summary, Opens(What.TABLE, QUEUE.name)
    sections = (
        partial(_queues, answer),
        partial(_games, answer),
        partial(_changes, answer),
        partial(_printers, answer),
        *page_parts.ends(summary, ORDER_CARD, opens),
    )
    opening = page_parts.opening(summary, paper, ORDER_CARD, opens)
    return [*opening, GAP, *pictured(_order(answer, paper)), *in_columns(sections, paper)]


def _order(answer: "CapacityAnswer", paper: Paper) -> list[Block]:
    heads = (
        *columns(QUEUE, department=4, place=3, asked_place=5, guard=7),
        column(QUEUE.field("name"), 14, grows=True, most=26),
        column(QUEUE.field("kind"), 14),
        column(QUEUE.field("print_by"), 16),
        column(QUEUE.field("over_at"), 22, least=_WIDE),
        column(QUEUE.field("rule"), 20, least=_WIDE),
    )

    def lines(one: "QueuedPrint", line: Text) -> Iterator[Text]:
        if one.is_in_time is False:
            line.stylize(paper.ink.strong)
        yield line
        beside = (QUEUE.field("over_at").read(one), one.rule) if paper.width < _WIDE else ()
        words = [f"printed {beside[0]}" if one.over_at and beside else "", *beside[1:], one.note]
        if said := " · ".join(filter(None, words)):
            yield from note(said, paper, "     ")

    def stop(one: "QueuedPrint") -> tuple[str, str, Opens]:
        return f"print {one.guard}", ORDER_CARD, Opens(What.ATHLETE, one.athlete)

    table = table_blocks(heads, answer.in_queue, paper, stop, lines=lines)
    said = f"{KEYS[answer.options.returns]} {KEY}"
    return [*table, Block(tuple(note(said, paper)))] if table else []


def _queues(answer: "CapacityAnswer", paper: Paper) -> list[Block]:
    heads = (
        column(LINES.field("department"), 6, heading="for"),
        column(LINES.field("room"), 12, grows=True, most=34),
        *columns(LINES, queue=7, weeks_ahead=5, missed=11, bare=10),
        *(column(LINES.field(name), 10, least=96) for name in ("draw_costs", "weeks_over")),
        column(LINES.field("remade"), 7),
    )
    stop = partial(_stop, LINES.name, "department", ORDER_CARD)
    return [title("Queues", paper), *table_blocks(heads, answer.lines, paper, stop)]


def _games(answer: "CapacityAnswer", paper: Paper) -> list[Block]:
    heads: tuple[Head, ...] = (
        column(GAMES.field("team"), 9, grows=True, most=20),
        column(GAMES.field("starts_at"), 16),
        column(GAMES.field("ask_by"), 18),
        column(GAMES.field("chance_now"), 12),
    )
    stop = partial(_stop, GAMES.name, "session", ASK_CARD)
    said = Block(
        paragraph(games_lines(answer), paper.width), "games", ASK_CARD, Opens(What.TABLE, "games")
    )
    table = table_blocks(heads, still_in_time(answer), paper, stop)
    return [title("The last day to ask for a guard", paper), *table, said]


def _changes(answer: "CapacityAnswer", paper: Paper) -> list[Block]:
    heads = (
        column(CHANGES.field("department"), 6, heading="for"),
        column(CHANGES.field("change"), 22, grows=True, most=30),
        *columns(CHANGES, missed=19, days=13),
    )

    def lines(one: "CapacityChange", line: Text) -> Iterator[Text]:
        yield line
        if said := CHANGES.field("beside").read(one):
            yield from note(said, paper, "     ")

    def stop(one: "CapacityChange") -> tuple[str, str, Opens]:
        name = f"{CHANGES.name} {one.department} {one.change}"
        return name, CHANGE_CARD, Opens(What.TABLE, CHANGES.name)

    table = table_blocks(heads, answer.changes, paper, stop, lines=lines)
    return [title("What would change it, simulated from own past orders", paper), *table]


def _printers(answer: "CapacityAnswer", paper: Paper) -> list[Block]:
    heads = (
        column(PRINTERS.field("printer"), 12, grows=True, most=30),
        *columns(PRINTERS, department=6, hours_per_week=6, prints=6, hours=10, hours_share=5),
    )

    def lines(one: object, line: Text) -> Iterator[Text]:
        yield line
        if said := PRINTERS.field("note").read(one):
            yield from note(said, paper, "     ")

    stop = partial(_stop, PRINTERS.name, "printer", PRINTER_CARD)
    table = table_blocks(heads, answer.printers, paper, stop, lines=lines)
    return [title("Printers, last 28 days", paper), *table] if table else []


def _stop(table: str, key: str, card: str, row: object) -> tuple[str, str, Opens]:
    return f"{table} {getattr(row, key)}", card, Opens(What.TABLE, table)
