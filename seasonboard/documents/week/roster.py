"""Who can play the next games, and what is on its way: the parts of the meeting sheet."""

from seasonboard.answers import words
from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.orders.report import chance_words, late_lines
from seasonboard.answers.roster.parts import ATTENTION, NextGame, RosterAnswer, RosterAthlete
from seasonboard.answers.roster.words import (
    STRIP_KEY,
    game_words,
    guard_word,
    guards_words,
    state_word,
    strip_marks,
)
from seasonboard.documents.model import Column, Form, Paragraph, Part, Points, Table

MOST_ORDERS = 20
"""Open orders on paper, unless more are late: late ones are all there."""

_NOTHING_TO_DO = ATTENTION[-1]
_COLUMNS = (
    Column("athlete"),
    Column("position"),
    Column("last sessions"),
    Column("state"),
    Column("guards"),
    Column("needed"),
)
_MARKS = 2


def roster_parts(answer: RosterAnswer) -> tuple[Part, ...]:
    """Return, team by team, who needs a look, then the names of the others."""
    listed = [game for game in answer.next_games if game.is_listed]
    parts = [part for game in listed for part in _team(answer, game)]
    return (Paragraph(answer.summary.answer), *parts)


def _team(answer: RosterAnswer, game: NextGame) -> list[Part]:
    athletes = [a for a in answer.athletes if (a.team, a.season) == (game.team, game.season)]
    seen = [athlete for athlete in athletes if athlete.attention != _NOTHING_TO_DO]
    rest = [athlete.name for athlete in athletes if athlete.attention == _NOTHING_TO_DO]
    caption = f"{game.team}, {game.team_name}: {game_words(game)}; {game.rostered} rostered"
    parts: list[Part] = []
    if seen:
        rows = tuple(_row(athlete) for athlete in seen)
        parts.append(Table(game.team, caption, _COLUMNS, rows, note=STRIP_KEY, marks=_MARKS))
    if rest:
        opening = f"{words.whole(len(rest))} with full part and nothing to do"
        opening += ":" if seen else f" ({caption}):"
        parts.append(Paragraph(" · ".join(rest), opening))
    return parts


def _row(athlete: RosterAthlete) -> tuple[str | None, ...]:
    return (
        athlete.name,
        athlete.position,
        strip_marks(athlete),
        state_word(athlete),
        guards_words(athlete) or "none",
        " ".join(athlete.needs),
    )


def roster_sheet(answer: RosterAnswer) -> Table:
    """Return every athlete, for the workbook."""
    columns = (
        *(Column(heading) for heading in ("athlete", "name", "team", "season", "position")),
        *(Column(heading) for heading in ("state", "because", "guards", "needed", "attention")),
        Column("days lost", Form.COUNT),
        Column("taken part", Form.COUNT),
        Column("worn", Form.COUNT),
        Column("worn in", Form.SHARE),
        Column("next game"),
        Column("last sessions"),
    )
    rows = tuple(
        (
            *(a.athlete, a.name, a.team, a.season, a.position, a.status.value, a.because),
            guards_words(a),
            " ".join(a.needs),
            *(a.attention, a.days_lost, a.taken_part, a.worn, a.worn_share),
            a.next_game.played_on,
            strip_marks(a),
        )
        for a in answer.athletes
    )
    return Table("roster, all", f"Every athlete. {STRIP_KEY}", columns, rows)


def order_parts(answer: OrdersAnswer) -> tuple[Part, ...]:
    """Return the open orders, the most pressing first, and when an order is late."""
    parts: list[Part] = [Paragraph(answer.summary.answer)]
    if answer.orders:
        parts.append(_open_orders(answer))
    rules = tuple(f"{line}." for line in late_lines(answer))
    return (*parts, Points(rules)) if rules else tuple(parts)


def _open_orders(answer: OrdersAnswer) -> Table:
    most = max(MOST_ORDERS, len(answer.late))
    columns = (
        Column("athlete"),
        Column("team"),
        Column("guard"),
        Column("key"),
        Column("stage"),
        Column("days old", Form.COUNT),
        Column("next game"),
        Column("there by then"),
        Column("state"),
    )
    rest = len(answer.orders) - most
    return Table(
        "open orders",
        "Open orders, the most pressing first",
        columns,
        tuple(_order(order) for order in answer.orders[:most]),
        note=f"And {words.whole(rest)} more: in the workbook." if rest > 0 else "",
    )


def _order(order: OpenOrder) -> tuple[str | int | None, ...]:
    game = order.next_game
    return (
        order.name,
        order.team,
        guard_word(order.kind, order.side),
        order.guard,
        order.stage,
        order.age_days,
        f"{game.on:%a} {game.on.day} {game.on:%b}" if game else "none ahead",
        chance_words(order),
        order.attention.value,
    )


def order_sheet(answer: OrdersAnswer) -> Table:
    """Return every open order, unrounded, for the workbook."""
    columns = (
        *(Column(heading) for heading in ("guard", "athlete", "name", "team", "department")),
        *(Column(heading) for heading in ("kind", "side", "purpose", "stage", "state")),
        Column("days in it", Form.COUNT),
        Column("days old", Form.COUNT),
        Column("late after", Form.WHOLE),
        Column("next game"),
        Column("chance by then", Form.SHARE),
        Column("low", Form.SHARE),
        Column("high", Form.SHARE),
        Column("comparable orders", Form.COUNT),
        Column("alike in"),
        Column("why not known"),
    )
    rows = tuple(
        (
            *(o.guard, o.athlete, o.name, o.team, o.department, o.kind, o.side, o.purpose, o.stage),
            *(o.attention.value, o.stage_days, o.age_days, o.late_after.days),
            o.next_game.on if o.next_game else None,
            *((c.value, c.low, c.high, c.orders) if (c := o.chance) else (None,) * 4),
            *(o.likeness, o.why),
        )
        for o in answer.orders
    )
    return Table("open orders, all", "Every open order", columns, rows)
