"""Who can play the next games, and what is on its way: the parts of the meeting sheet."""

from seasonboard.answers import words
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.orders.report import ORDERS, late_lines
from seasonboard.answers.roster.athletes_table import ATHLETES
from seasonboard.answers.roster.parts import ATTENTION, NextGame, RosterAnswer
from seasonboard.answers.roster.words import STRIP_KEY, game_words
from seasonboard.documents.described import document_table, workbook_table
from seasonboard.documents.model import Paragraph, Part, Points, Table
from seasonboard.documents.week.tables import more_words

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


def roster_sheet(answer: RosterAnswer) -> Table:
    """Return every athlete, for the workbook."""
    return workbook_table(ATHLETES, answer, "roster, all", f"Every athlete. {STRIP_KEY}")


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
            note=more_words(len(answer.orders) - most),
        )
        parts.append(table)
    rules = tuple(f"{line}." for line in late_lines(answer))
    return (*parts, Points(rules)) if rules else tuple(parts)


def order_sheet(answer: OrdersAnswer) -> Table:
    """Return every open order, unrounded, for the workbook."""
    return workbook_table(ORDERS, answer, "open orders, all", "Every open order")
