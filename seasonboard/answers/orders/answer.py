"""What is on its way, and will it be there in time? Every open order, the most pressing first."""

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, LeftOut, Summary
from seasonboard.answers.orders.comparable import ENOUGH, like_params
from seasonboard.answers.orders.open_orders import late_rules, open_orders
from seasonboard.answers.orders.order_times import order_params
from seasonboard.answers.orders.parts import Attention, OpenOrder, OrdersAnswer
from seasonboard.answers.questions import ORDERS
from seasonboard.answers.reader import Reader
from seasonboard.scope import Scope, ScopeValues


def orders(reader: Reader, scope: Scope, known: ScopeValues) -> OrdersAnswer:
    """Return every open order of the scope with its stages, its next game and its chance.

    Raises:
        StoreError: The store could not be read.
    """
    rows, like, unstaged = read_orders(reader, scope)
    found = open_orders(rows, like, scope)
    states = dict(rows.group_by("state").len().iter_rows())
    return OrdersAnswer(
        summary=Summary(
            question=ORDERS.asks,
            answer=_sentence(found, len(rows), known),
            caveats=tuple(_caveats(found)),
            left_out=tuple(unstaged_left_out(unstaged)),
            scope=scope,
        ),
        as_of=scope.through,
        orders=found,
        known=len(rows),
        fitted=states.get("fitted", 0),
        cancelled=states.get("cancelled", 0),
        retired=states.get("retired", 0),
        late_after=late_rules(rows, like),
    )


def read_orders(reader: Reader, scope: Scope) -> tuple[pl.DataFrame, pl.DataFrame, pl.DataFrame]:
    """Return orders, like orders of all departments, and guards without a stage.

    Raises:
        StoreError: The store could not be read.
    """
    like, rows, unstaged = reader.read_each(
        [
            ("orders/like", like_params(scope)),
            ("orders/orders", order_params(scope)),
            ("orders/unstaged", order_params(scope)),
        ]
    )
    return rows, like, unstaged


def unstaged_left_out(unstaged: pl.DataFrame) -> list[LeftOut]:
    """Return what is said about guards of which no stage is recorded."""
    count = int(unstaged["guards"][0])
    return [LeftOut("guards", "no stage of theirs is recorded", count)] if count else []


def _sentence(found: tuple[OpenOrder, ...], known: int, what: ScopeValues) -> str:
    if not known:
        why = "nothing is recorded" if what.is_empty else "no stage of a guard is recorded here"
        return f"No orders to look at: {why} by that day."
    if not found:
        over = "the only order is" if known == 1 else f"all {words.whole(known)} orders are"
        return f"Nothing is on its way: {over} fitted, retired or cancelled."
    late = [o for o in found if o.is_late]
    number = words.whole(len(late)) if late else "none"
    text = f"{words.plural(len(found), 'order')} on the way, {number} of them late"
    text += f"{_oldest(late)}." if late else "."
    with_game = [o for o in found if o.chance is not None and o.chance.share is not None]
    if with_game:
        expected = sum(o.chance.share or 0.0 for o in with_game if o.chance)
        text += (
            f" Of {words.whole(len(with_game))} with a game ahead about "
            f"{words.number(expected, digits=0)} can be expected to be fitted by then."
        )
    else:
        text += " No chance can be told for any of them."
    return text


def _oldest(late: list[OpenOrder]) -> str:
    oldest = max(late, key=lambda o: (o.age_days, o.guard))
    return f" (the oldest, {oldest.guard}, is {words.plural(oldest.age_days, 'day')} old)"


def _caveats(found: tuple[OpenOrder, ...]) -> list[str]:
    caveats = [CAUTION]
    if not found:
        return caveats
    caveats.append(
        "Late means open for longer than four in five orders of its department take, open orders "
        "counted up to their age."
    )
    caveats.append(
        "A chance is that of like orders which had already waited as long; it knows nothing of "
        "this one but its age, department, kind and scan method, not even its stage."
    )
    thin = sum(o.chance is not None and o.chance.orders < ENOUGH for o in found)
    if thin:
        caveats.append(
            f"For {words.plural(thin, 'order')} fewer than {ENOUGH} orders of any kind had waited "
            "as long: the chance rests on little."
        )
    worn = sum(o.attention is Attention.WORN for o in found)
    if worn:
        caveats.append(
            f"{words.plural(worn, 'open order')} recorded as worn already: their fitting was "
            "probably not recorded."
        )
    return caveats
