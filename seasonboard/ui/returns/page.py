"""The page of the Return screen: a bar for each game since the injury, who is out, the way back."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.returns.out_now import out_words
from seasonboard.answers.returns.parts import STATES
from seasonboard.answers.returns.report import TABLES, shown_states
from seasonboard.answers.returns.words import NOT_SAYABLE
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import (
    GAP,
    Block,
    Opens,
    Paper,
    What,
    item,
    note,
    paragraph,
    pictured,
    title,
)
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.tables import column, table_blocks

if TYPE_CHECKING:
    from seasonboard.answers.fields import Table
    from seasonboard.answers.returns.parts import ReturnsAnswer, StateRow

MARKS = dict(zip(STATES, "○•●×", strict=True))
"""The mark of each state in a bar."""
_EPISODES = Opens(What.TABLE, "episodes")
_BESIDE, _WIDEST, _ROOMY = 44, 100, 110
"""Cells beside a bar for the game and the shares; the widest bar; where a table has room."""
_CONTRAST_CARDS = {"back": "returns/back sooner", "again": "returns/hurt again"}
_OPENED = {
    "back": "days",
    "again": "strata",
    "recurrences": "strata",
    "waits": "episodes",
    "states_read": "episodes",
}
"""The rows behind a line: by what it is of, else by its table, else the table itself."""
_TABLES = {
    "waits": ("The way back, and the guard's", "returns/waits"),
    "contrasts": ("Guarded against bare, alike athletes", "returns/hurt again"),
    "states_read": ("The states with time", "returns/states"),
    "recurrences": ("Hurt there again, by the time since the return", "returns/recurrences"),
    "games_worn": ("Games played in a return guard", "returns/games in a return guard"),
}


def returns_page(answer: "ReturnsAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, bars, who is out now, tables, what to keep in mind."""
    summary = answer.summary
    sections: tuple[Section, ...] = (
        *(partial(_table, answer, name, *about) for name, about in _TABLES.items()),
        partial(_sayable, answer),
        *page_parts.ends(summary, "returns/left out", _EPISODES, caveats_card="returns/back"),
    )
    opening = page_parts.opening(summary, paper, "returns/back", _EPISODES)
    return [
        *opening,
        GAP,
        *pictured(_bars(answer, paper)),
        *_out(answer, paper),
        *in_columns(sections, paper),
    ]


def _bars(answer: "ReturnsAnswer", paper: Paper) -> list[Block]:
    """Return the shares of the states after so many games as bars, with their key."""
    rows = [row for row in shown_states(answer) if row.clock == "games"]
    if not rows:
        return []
    width = min(_WIDEST, paper.width - _BESIDE)
    key = ", ".join(f"{mark} {state}" for state, mark in MARKS.items())
    blocks = [Block(note(f"After games of the team since the injury: {key}", paper))]
    for row in rows:
        line = Text(f" {row.point.tick:>5} ").append_text(state_bar(row, width, paper))
        shares = "  ".join(
            f"{MARKS[state]} {words.percent(share):>5}"
            for state, share in zip(STATES, row.point.share, strict=True)
        )
        line.append(f"  {shares}", paper.ink.quiet)
        name = f"games {row.point.tick}"
        blocks.append(Block((line,), name, "returns/states", _EPISODES))
    return blocks


def state_bar(row: "StateRow", width: int, paper: Paper) -> Text:
    """Return one bar of so many cells; each state ends where the shares up to it do."""
    inks = ("", paper.ink.bare, paper.ink.guarded, "bold")
    bar, begin, reached = Text(), 0, 0.0
    for state, share, ink in zip(STATES, row.point.share, inks, strict=True):
        reached += share
        end = round(reached * width)
        bar.append(MARKS[state] * (end - begin), ink)
        begin = end
    return bar


def _out(answer: "ReturnsAnswer", paper: Paper) -> list[Block]:
    """Return who is out now: a table where there is room, else some lines each."""
    heading, card = "Out now: a count of like injuries", "returns/out now"
    if paper.width >= _ROOMY:
        return _table(answer, "out_now", heading, card, paper)
    blocks = [
        Block(
            paragraph(
                "; ".join((f"{one.name}: {one.side} {one.area}, day {one.day}", *out_words(one))),
                paper.width,
            ),
            *(f"out {one.injury}", card, Opens(What.TABLE, "out_now")),
        )
        for one in answer.out_now
    ]
    return [title(heading, paper), *blocks] if blocks else []


def _table(
    answer: "ReturnsAnswer", name: str, heading: str, card: str, paper: Paper
) -> list[Block]:
    table: Table = TABLES[name]
    rows, fields = list(table.rows(answer) or ()), table.read_fields(answer)
    heads = []
    for one in fields:
        texts = (one.heading_of(answer), *(one.read(row) for row in rows))
        is_words = not one.kind.is_number
        most = min(44, max(map(len, texts)))
        heads.append(column(one, most, answer, grows=is_words, most=60, wraps=is_words))

    def stop(row: object) -> tuple[str, str, Opens]:
        own = getattr(row, "name", "") if name == "contrasts" else name
        key = f"{name} {' '.join(one.read(row) for one in fields[:3])}"
        return key, _CONTRAST_CARDS.get(own, card), Opens(What.TABLE, _OPENED.get(own, own))

    blocks = table_blocks(heads, rows, paper, stop)
    return [title(heading, paper), *blocks] if blocks else []


def _sayable(answer: "ReturnsAnswer", paper: Paper) -> list[Block]:
    card, opens = "returns/games in a return guard", Opens(What.TABLE, "games_worn")
    return [
        title("What may be said", paper),
        Block(item("may:", answer.sayable, paper), "sayable", card, opens),
        Block(item("may not:", NOT_SAYABLE, paper), "not sayable", card, opens),
    ]
