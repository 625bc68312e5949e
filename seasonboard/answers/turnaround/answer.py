"""How long does a guard take? Time between two stages, with open orders counted."""

from dataclasses import replace

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import LeftOut, Summary
from seasonboard.answers.orders.answer import read_orders, unstaged_left_out
from seasonboard.answers.orders.open_orders import open_orders
from seasonboard.answers.orders.order_times import MAKING, Unit
from seasonboard.answers.questions import TURNAROUND
from seasonboard.answers.reader import Reader
from seasonboard.answers.turnaround.groups import TurnaroundGroup, set_aside, turnaround_groups
from seasonboard.answers.turnaround.holidays import holidays_of
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.order_durations import next_stages
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.answers.turnaround.weeks import by_week
from seasonboard.answers.turnaround.words import finished_caveat, turnaround_sentence, unit_caveat
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues
from seasonboard.terms import Stage


def turnaround(
    reader: Reader,
    scope: Scope,
    scope_values: ScopeValues,
    options: TurnaroundOptions | None = None,
) -> TurnaroundAnswer:
    """Return the time between two stages, by group, stage by stage and week by week.

    Raises:
        ScopeError: The stages are not in order, or holidays do not go with the unit or are not
            known.
    """
    options = _checked(options or TurnaroundOptions(), scope_values)
    rows, histories, unstaged = read_orders(reader, scope)
    whole, parts = turnaround_groups(rows, options, level=scope.level)
    groups = parts or (whole,)
    weeks, chart = by_week(rows, options, whole, scope.through)
    sentence = turnaround_sentence(whole, groups, options, scope)
    left_out = (*_left_out(rows, options), *unstaged_left_out(unstaged))
    caveats = tuple(_caveats(rows, whole, options))
    summary = Summary(TURNAROUND.asks, sentence, caveats, left_out, scope)
    waiting = open_orders(rows, histories, scope)
    return TurnaroundAnswer(summary, options, whole, groups, weeks, chart, waiting)


def _checked(options: TurnaroundOptions, scope_values: ScopeValues) -> TurnaroundOptions:
    if options.start not in MAKING or options.end not in MAKING:
        raise ScopeError(
            "An order that is cancelled has no turnaround.", f"Name two of {', '.join(MAKING)}."
        )
    if MAKING.index(options.start) >= MAKING.index(options.end):
        raise ScopeError(
            f"“{options.end}” does not come after “{options.start}”.",
            f"The usual order is {', '.join(MAKING)}.",
        )
    if not options.holidays_of or options.holidays:
        return options
    if options.unit is not Unit.WORKING_DAYS:
        raise ScopeError("Holidays count only in working days.", "Add --unit working-days.")
    if scope_values.first_day is None or scope_values.last_day is None:
        return options
    years = range(scope_values.first_day.year - 1, scope_values.last_day.year + 1)
    return replace(options, holidays=holidays_of(options.holidays_of, years))


def _left_out(rows: pl.DataFrame, options: TurnaroundOptions) -> list[LeftOut]:
    left_out = [LeftOut("orders", why, count) for why, count in set_aside(rows, options)]
    backwards = int(next_stages(rows.with_columns(group_key=pl.lit("")))["is_backwards"].sum())
    if backwards:
        why = "the next stage is stamped before the stage itself"
        left_out.append(LeftOut("times in a stage", why, backwards))
    return left_out


def _caveats(rows: pl.DataFrame, whole: TurnaroundGroup, options: TurnaroundOptions) -> list[str]:
    if not whole.orders:
        return []
    caveats = [
        "Open orders count up to their age. Cancelled ones leave at that time: the figures are of "
        "orders still wanted. Of all orders begun, cancelled ones included, the shares by age are "
        "in the curve.",
        unit_caveat(options),
        *finished_caveat(whole, options),
    ]
    twice = int((rows["stamped_twice"] > 0).sum())
    if twice:
        caveats.append(
            f"{words.plural(twice, 'order')} with a stage stamped more than once: the first stamp "
            "counts."
        )
    if whole.ready.undecided and options.end is Stage.FITTED:
        caveats.append(
            f"{words.plural(whole.ready.undecided, 'open order')} not in the share ready for the "
            "next game: that game is still to come."
        )
    return caveats
