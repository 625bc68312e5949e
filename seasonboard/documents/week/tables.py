"""The items of the Week as tables of a document, typed."""

from collections.abc import Mapping

from seasonboard.answers import words
from seasonboard.answers.week.parts import WeekItem
from seasonboard.documents.described import document_table, workbook_table
from seasonboard.documents.model import Table

_ON_PAPER: Mapping[str, tuple[str, ...]] = {
    "played": ("team", "games", "game_share", "practices", "practice_share", "unrecorded"),
    "injuries": ("name", "team", "area", "side", "worn", "state", "known_on"),
    "returns": ("name", "team", "area", "side", "days_lost", "returned_on"),
    "remakes": ("name", "team", "kind", "counts_as", "reason", "on"),
    "offers": ("name", "team", "kind", "answer", "reason", "offered_on"),
    "games": ("team", "played_on", "at", "label", "guards", "limited", "out"),
    "decisions": ("text", "department_name", "due_on", "state"),
    "decided": ("text", "department_name", "what", "due_on", "done_on"),
}
"""Of each item the fields on paper, in their order; the workbook has all of them."""


MOST_ROWS = 12
"""Rows of an item on paper, unless asked otherwise."""


def more_words(count: int) -> str:
    """Return how many rows more there are in the workbook; empty without any."""
    return f"And {words.whole(count)} more: in the workbook." if count > 0 else ""


def paper_table(item: WeekItem, *, most: int = MOST_ROWS) -> Table | None:
    """Return the first rows of an item in the fields for paper; None where there are none."""
    names = _ON_PAPER.get(item.key, ())
    if not names or not item.rows:
        return None
    return document_table(
        *(item.table, item, item.key, f"{item.title}:"),
        only=names,
        rows=item.rows[:most],
        lead=item.sentence,
        note=more_words(len(item.rows) - most),
    )


def item_sheet(item: WeekItem) -> Table:
    """Return an item with every row and field."""
    caption = f"{item.title}:"
    return workbook_table(item.table, item, f"week {item.key}", caption, lead=item.sentence)
