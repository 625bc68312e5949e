"""How long does a guard take? Time between two stages, with open orders counted."""

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import LeftOut, Summary
from seasonboard.answers.orders.answer import read_orders, unstaged_left_out
from seasonboard.answers.orders.open_orders import open_orders
from seasonboard.answers.orders.order_times import MAKING, Unit
from seasonboard.answers.questions import TURNAROUND
from seasonboard.answers.reader import Reader
from seasonboard.answers.turnaround.groups import set_aside, turnaround_groups
from seasonboard.answers.turnaround.holidays import public_holidays
from seasonboard.answers.turnaround.order_durations import next_stages
from seasonboard.answers.turnaround.parts import (
    TurnaroundAnswer,
    TurnaroundGroup,
    TurnaroundOptions,
)
from seasonboard.answers.turnaround.weeks import by_week
from seasonboard.answers.turnaround.words import finished_caveat, sentence, unit_caveat
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues
from seasonboard.terms import Stage


def turnaround(
    reader: Reader, scope: Scope, known: ScopeValues, options: TurnaroundOptions | None = None
) -> TurnaroundAnswer:
    """Return the time between two stages, by group, stage by stage and week by week.

    Raises:
        ScopeError: The stages are not in order, or holidays do not go with the unit or are not
            known.
        StoreError: The store could not be read.
    """
    asked = _checked(options or TurnaroundOptions(), known)
    rows, like, unstaged = read_orders(reader, scope)
    whole, parts = turnaround_groups(rows, asked, level=scope.level)
    groups = parts or (whole,)
    weeks, chart, chart_why = by_week(rows, asked, whole, scope.through)
    return TurnaroundAnswer(
        summary=Summary(
            question=TURNAROUND.asks,
            answer=sentence(whole, groups, asked, scope),
            caveats=tuple(_caveats(rows, whole, asked)),
            left_out=(*_left_out(rows, asked), *unstaged_left_out(unstaged)),
            scope=scope,
        ),
        options=asked,
        whole=whole,
        groups=groups,
        weeks=weeks,
        chart=chart,
        chart_why=chart_why,
        open_orders=open_orders(rows, like, scope),
    )


def _checked(options: TurnaroundOptions, known: ScopeValues) -> TurnaroundOptions:
    if options.start not in MAKING or options.end not in MAKING:
        raise ScopeError(
            "An order that is cancelled has no turnaround.",
            f"Name two of {', '.join(MAKING)}.",
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
    if known.first_day is None or known.last_day is None:
        return options
    years = range(known.first_day.year - 1, known.last_day.year + 1)
    days = public_holidays(options.holidays_of, years)
    return TurnaroundOptions(
        options.start, options.end, options.unit, options.by, days, options.holidays_of
    )


def _left_out(rows: pl.DataFrame, options: TurnaroundOptions) -> list[LeftOut]:
    found = [LeftOut("orders", why, count) for why, count in set_aside(rows, options)]
    backwards = int(next_stages(rows.with_columns(group_key=pl.lit("")))["is_backwards"].sum())
    if backwards:
        why = "the next stage is stamped before the stage itself"
        found.append(LeftOut("times in a stage", why, backwards))
    return found


def _caveats(rows: pl.DataFrame, whole: TurnaroundGroup, options: TurnaroundOptions) -> list[str]:
    if not whole.orders:
        return []
    caveats = [
        "Open orders count up to their age. Cancelled ones leave at that time: the figures are of "
        "orders still wanted. Of all orders begun, cancelled ones included, the shares by age are "
        "in the curve."
    ]
    caveats.append(unit_caveat(options))
    caveats += finished_caveat(whole, options)
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
