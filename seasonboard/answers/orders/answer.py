"""What is on its way, and will it be there in time? Every open order, the most pressing first."""

from datetime import timedelta

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, LeftOut, Summary, rules_caveat
from seasonboard.answers.orders.forecast import forecaster
from seasonboard.answers.orders.graded import graded
from seasonboard.answers.orders.open_orders import (
    Attention,
    OpenOrder,
    expected_by_game,
    late_rules,
    late_words,
    open_orders,
)
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.orders.turns import in_turn
from seasonboard.answers.questions import ORDERS
from seasonboard.answers.reader import Reader, asked_of
from seasonboard.answers.turns.answer import turns as drawn_turns
from seasonboard.scope import Scope, ScopeValues

ORDER_QUESTIONS = ("orders/orders", "orders/histories", "orders/unstaged")
IN_TURN = "Those with a drawn turn that are not printed yet stand in the order drawn."


def orders(reader: Reader, scope: Scope, scope_values: ScopeValues) -> OrdersAnswer:
    """Return every open order of the scope with its stages, its next game and its chance."""
    asked = asked_of(scope, *ORDER_QUESTIONS, "orders/games")
    rows, histories, unstaged, games = reader.read_each(asked)
    waiting = open_orders(rows, histories, scope)
    turns = None
    if reader.read("draw/draws").height:
        (own,) = reader.read_each(asked_of(scope, "orders/turns"))
        waiting, turns = in_turn(waiting, own), drawn_turns(reader, scope, scope_values)
    until = scope.through + timedelta(days=1)
    states = dict(rows.group_by("state").len().iter_rows())
    sentence = _sentence(waiting, len(rows), scope_values)
    rules = rules_caveat(rows.filter(pl.col("state") == "open")["rule"])
    left_out, caveats = tuple(unstaged_left_out(unstaged)), (*_caveats(waiting), *rules)
    return OrdersAnswer(
        summary=Summary(ORDERS.asks, sentence, caveats, left_out, scope),
        as_of=scope.through,
        orders=waiting,
        known=len(rows),
        fitted=states.get("fitted", 0),
        cancelled=states.get("cancelled", 0),
        retired=states.get("retired", 0),
        late_after=late_rules(rows, histories),
        graded=graded(histories, games, until),
        borrowed=forecaster(histories, until).borrowed,
        turns=turns if turns and turns.turns else None,
    )


def read_orders(reader: Reader, scope: Scope) -> tuple[pl.DataFrame, pl.DataFrame, pl.DataFrame]:
    """Return orders, the histories of those of all departments, and guards without a stage."""
    rows, histories, unstaged = reader.read_each(asked_of(scope, *ORDER_QUESTIONS))
    return rows, histories, unstaged


def unstaged_left_out(unstaged: pl.DataFrame) -> list[LeftOut]:
    """Return what is said about guards of which no stage is recorded."""
    count = int(unstaged["guards"][0])
    return [LeftOut("guards", "no stage of theirs is recorded", count)] if count else []


def _sentence(waiting: tuple[OpenOrder, ...], count: int, scope_values: ScopeValues) -> str:
    if not count:
        is_empty = scope_values.is_empty
        why = "nothing is recorded" if is_empty else "no stage of a guard is recorded here"
        return f"No orders to look at: {why} by that day."
    if not waiting:
        over = "the only order is" if count == 1 else f"all {words.whole(count)} orders are"
        return f"Nothing is on its way: {over} fitted, retired or cancelled."
    text = f"{words.plural(len(waiting), 'order')} on the way, {late_words(waiting)}."
    if not any(order.chance for order in waiting):
        return f"{text} No chance can be told for any of them."
    return f"{text} {expected_by_game(waiting)}"


def _caveats(waiting: tuple[OpenOrder, ...]) -> list[str]:
    if not waiting:
        return [CAUTION]
    caveats = [
        CAUTION,
        *([IN_TURN] if any(order.turn is not None for order in waiting) else []),
        "Late means not there by the day it was promised for. Without one it is open for longer "
        "than four in five orders of its department take, open ones counted up to their age.",
        "A chance is told from the stage an order is in and the days in it, by what orders took "
        "from there before. It knows nothing else of this one.",
    ]
    bounds = sum(o.chance is not None and o.forecast is None for o in waiting)
    if bounds:
        caveats.append(
            f"For {words.plural(bounds, 'order')} too little was followed yet: at least so much is "
            "no forecast, carries no mark and is in no sum."
        )
    worn = sum(o.attention is Attention.WORN for o in waiting)
    if worn:
        caveats.append(
            f"{words.plural(worn, 'open order')} recorded as worn already: their fitting was "
            "probably not recorded."
        )
    return caveats
