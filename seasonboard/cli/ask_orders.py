"""`seasonboard ask orders`."""

import click

from seasonboard.answers.orders.cards import ORDERS_CARDS
from seasonboard.answers.orders.json import orders_json
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.orders.text import orders_csv, orders_text
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope


@click.command("orders")
@answers(ORDERS_CARDS.values())
def ask_orders(board: StoreAnswers, scope: Scope) -> Told[OrdersAnswer]:
    """Say what is on its way, and whether it will be there in time.

    Every open order, the most pressing first. Guards of both purposes and all sessions count.

    JSON: as_of; known, open, fitted, cancelled, retired, late (counts of orders); late_after
    [{department, days, orders, likeness}]; orders [{guard, athlete, name, team, department, plan,
    kind, side, purpose, scan_method, remake_of, stages [{stage, reached_at}], stage, stage_days,
    age (calendar days), age_hours, late, late_after_days, attention, next_game {session,
    starts_at, on, label, days_ahead} or null, chance_by_next_game, chance_low, chance_high,
    chance_is_least, like_orders, likeness, why, exposures, exposures_bare, exposures_worn}];
    answer, caveats, left_out, scope.
    """
    answer = board.orders(scope)
    return Told(answer, orders_json, orders_text, orders_csv)
