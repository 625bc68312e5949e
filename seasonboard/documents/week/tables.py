"""The tables of the meeting sheet: who can play, what is on its way, and the items of the Week."""

from collections.abc import Mapping

from seasonboard.answers import words
from seasonboard.answers.capacity.parts import CapacityAnswer
from seasonboard.answers.capacity.report import QUEUE
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.orders.report import ORDERS, late_lines
from seasonboard.answers.roster.athletes_table import ATHLETES
from seasonboard.answers.roster.parts import ATTENTION, NextGame, RosterAnswer
from seasonboard.answers.roster.words import STRIP_KEY, game_words
from seasonboard.answers.week.parts import WeekItem
from seasonboard.documents.described import document_table
from seasonboard.documents.model import Paragraph, Part, Points, Table

_ON_PAPER: Mapping[str, tuple[str, ...]] = {
    "played": ("team", "games", "game_share", "practices", "practice_share", "unrecorded"),
    "injuries": ("name", "team", "area", "side", "worn", "state", "known_on"),
    "returns": ("name", "team", "area", "side", "days_lost", "returned_on"),
    "remakes": ("name", "team", "kind", "counts_as", "reason", "on"),
    "offers": ("name", "team", "kind", "answer", "reason", "offered_on"),
    "change": ("name", "team", "kind", "stage", "until", "meanwhile", "game_on"),
    "games": ("team", "played_on", "at", "label", "guards", "limited", "out"),
    "decisions": ("text", "department_name", "due_on", "state"),
    "decided": ("text", "department_name", "what", "due_on", "done_on"),
}
"""Of each item the fields on paper, in their order; the workbook has all of them."""

MOST_ROWS = 12
"""Rows of an item on paper, unless asked otherwise."""

MOST_ORDERS = 20
"""Open orders on paper, unless more are late: late ones are all there."""

_NOTHING_TO_DO = ATTENTION[-1]


def roster_parts(answer: RosterAnswer) -> tuple[Part, ...]:
    """Return, team by team, who needs a look, then the names of the others."""
    listed = [game for game in answer.next_games if game.is_listed]
    parts = [part for game in listed for part in _team(answer, game)]
    return (Paragraph(answer.summary.answer), *parts)


def _team(answer: RosterAnswer, game: NextGame) -> list[Part]:
    athletes = [a for a in answer.athletes if (a.team, a.season) == (game.team, game.season)]
    needy = [athlete for athlete in athletes if athlete.attention != _NOTHING_TO_DO]
    rest = [athlete.name for athlete in athletes if athlete.attention == _NOTHING_TO_DO]
    caption = f"{game.team}, {game.team_name}: {game_words(game)}; {game.rostered} rostered"
    parts: list[Part] = []
    if needy:
        table = document_table(
            *(ATHLETES, answer, game.team, caption),
            only=("name", "position", "strip", "state", "guards", "needs"),
            headings={"name": "athlete", "strip": "last sessions", "needs": "needed"},
            rows=needy,
            note=STRIP_KEY,
            marks="strip",
        )
        parts.append(table)
    if rest:
        opening = f"{words.whole(len(rest))} with full part and nothing to do"
        opening += ":" if needy else f" ({caption}):"
        parts.append(Paragraph(" · ".join(rest), opening))
    return parts


def order_parts(answer: OrdersAnswer) -> tuple[Part, ...]:
    """Return the open orders, the most pressing first, and when an order is late."""
    parts: list[Part] = [Paragraph(answer.summary.answer)]
    if answer.orders:
        most = max(MOST_ORDERS, len(answer.late))
        table = document_table(
            *(ORDERS, answer, "open orders", "Open orders, the most pressing first"),
            only=(
                *("name", "team", "kind", "guard", "stage", "age_days", "game"),
                *("chance_by_next_game", "attention"),
            ),
            headings={
                "kind": "guard",
                "guard": "key",
                "age_days": "days old",
                "chance_by_next_game": "there by then",
                "attention": "state",
            },
            rows=answer.orders[:most],
            note=_more(len(answer.orders) - most),
        )
        parts.append(table)
    rules = tuple(f"{line}." for line in late_lines(answer))
    return (*parts, Points(rules)) if rules else tuple(parts)


def print_parts(answer: CapacityAnswer) -> tuple[Part, ...]:
    """Return the queues in sentences, and the prints in the order to agree on."""
    said = Paragraph(answer.summary.answer)
    if not answer.in_queue:
        return (said,)
    table = document_table(
        *(QUEUE, answer, "prints", "Prints in the order to agree on; nothing is ordered or sent"),
        only=(
            *("department", "place", "asked_place", "guard", "name", "kind", "rule", "game_on"),
            *("print_by", "over_at"),
        ),
        headings={"guard": "key", "kind": "guard"},
        rows=answer.in_queue[:MOST_ORDERS],
        note=_more(len(answer.in_queue) - MOST_ORDERS),
    )
    return (said, table)


def _more(count: int) -> str:
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
        note=_more(len(item.rows) - most),
    )
