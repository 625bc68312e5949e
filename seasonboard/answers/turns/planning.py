"""A draw of turns before it is frozen: who waits, in which strata, for how many weeks."""

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import LeftOut
from seasonboard.answers.questions import TURNAROUND
from seasonboard.answers.reader import Reader, asked_of
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turns.answer import NEVER, RESEARCH
from seasonboard.entries import Entry
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues
from seasonboard.stats.drawn_turns import draw_turns
from seasonboard.terms import Stage, nearest

ORDER_COMES = "The order is drawn when it is written, not before, and is frozen then."
_MOST = 2**31 - 1
_NO_GROUP = "position not recorded"


@dataclass(frozen=True, slots=True)
class DrawOptions:
    """How turns are drawn.

    Of `board_number` and `no_board_reason` one is given before anything is frozen. `starts_on` is
    the first day of week 1: the Monday after the draw where None. `ready_days` None is the past
    median of the department, `prints_per_week` None its plan. `leave_out` are athletes whose need
    is medical. `draw` is the key of the draw.
    """

    seed: int
    draw: str
    board_number: str = ""
    no_board_reason: str = ""
    prints_per_week: int | None = None
    starts_on: date | None = None
    ready_days: float | None = None
    leave_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawPlan:
    """What would be drawn; the order itself is not in it."""

    options: DrawOptions
    drawn_on: date
    starts_on: date
    department: str
    prints_per_week: int
    ready_days: float
    ready_from: str
    waiting: tuple[Mapping[str, Any], ...]
    not_drawn: tuple[LeftOut, ...]

    @property
    def weeks(self) -> int:
        """Return the weeks of printing."""
        return math.ceil(len(self.waiting) / self.prints_per_week)

    @property
    def strata(self) -> Mapping[tuple[str, str], int]:
        """Return how many wait in each stratum: team and position group, and guard kind."""
        return Counter((one["stratum"], one["kind"]) for one in self.waiting)

    @property
    def board(self) -> str:
        """Return what the review board said, or why none was asked; empty while neither is."""
        given = self.options
        if given.board_number:
            return f"review board: {given.board_number}"
        return f"no review board needed: {given.no_board_reason}" if given.no_board_reason else ""

    def sentences(self) -> tuple[str, ...]:
        """Return the plan in sentences."""
        guards = words.plural(len(self.waiting), "guard")
        injured = sum(one["earlier_injury"] == "yes" for one in self.waiting)
        start = f"{self.starts_on:%a} {self.starts_on.day} {self.starts_on:%b %Y}"
        return (
            f"Draw {self.options.draw}, {self.department}: {guards} wait in "
            f"{words.plural(len(self.strata), 'stratum', 'strata')}; seed {self.options.seed}.",
            f"{words.whole(self.prints_per_week)} a week from {start}: "
            f"{words.plural(self.weeks, 'week')} of printing.",
            f"A guard is taken to be ready {self.ready_days:.3g} days after its turn "
            f"({self.ready_from}).",
            f"{words.whole(injured)} of them were hurt at the site before.",
            *(f"Not drawn, {one.why}: {words.whole(one.count)}." for one in self.not_drawn),
            RESEARCH,
            f"{self.board[:1].upper()}{self.board[1:]}." if self.board else NO_BOARD,
            f"{NEVER} {ORDER_COMES}",
        )

    def entry(self) -> Entry:
        """Draw the order, and return it as rows to be written."""
        given = self.options
        strata = [f"{one['stratum']} · {one['kind']}" for one in self.waiting]
        turns = draw_turns(strata, prints_per_week=self.prints_per_week, seed=given.seed)
        of_draw = {
            "draw": given.draw,
            "drawn_on": self.drawn_on.isoformat(),
            "starts_on": self.starts_on.isoformat(),
            "prints_per_week": str(self.prints_per_week),
            "ready_days": f"{self.ready_days:.12g}",
            "seed": str(given.seed),
            "board_number": given.board_number or None,
            "no_board_reason": given.no_board_reason or None,
        }
        own = ("athlete", "kind", "side", "stratum", "earlier_injury")
        rows = [
            {**of_draw, **{name: one[name] for name in own}}
            | {"turn": str(turn.turn), "week": str(turn.week)}
            for one, turn in zip(self.waiting, turns, strict=True)
        ]
        label = f"draw {given.draw}, {words.plural(len(rows), 'turn')}, {self.board}"
        return Entry(label, {"turns": rows})


NO_BOARD = (
    "Not frozen yet: give the number of the review board, or say why none is needed, before it is."
)


def plan_draw(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: DrawOptions
) -> DrawPlan:
    """Return the plan of a draw on the scope's last day, of one department.

    Raises:
        ScopeError: Nobody waits, a number is out of range, or more departments than one are meant.
        StoreError: The store could not be read.
    """
    starts_on = options.starts_on or _next_monday(scope.through)
    _refuse(options, scope, starts_on)
    _refuse_known(reader, options.draw)
    (rows,) = reader.read_each(asked_of(scope, "draw/waiting"))
    known = set(rows["athlete"])
    for athlete in options.leave_out:
        if athlete not in known:
            near = nearest(athlete, sorted(known))
            hint = f"Did you mean “{near}”?" if near else "Leave out athletes who accepted a guard."
            raise ScopeError(f"“{athlete}” is no athlete who accepted a guard here.", hint)
    out = pl.col("athlete").is_in(list(options.leave_out)) & pl.col("set_aside").is_null()
    named = pl.when(out).then(pl.lit("left out by name: medical need")).otherwise("set_aside")
    group = pl.col("position_group").fill_null(_NO_GROUP)
    rows = rows.with_columns(
        set_aside=named,
        stratum=pl.concat_str("team", group, separator=" · "),
        earlier_injury=pl.when("earlier_injury").then(pl.lit("yes")).otherwise(pl.lit("no")),
    )
    waiting = rows.filter(pl.col("set_aside").is_null())
    not_drawn = tuple(
        LeftOut("athletes", why, count)
        for why, count in rows.drop_nulls("set_aside")
        .group_by("set_aside")
        .len()
        .sort("len", "set_aside", descending=[True, False])
        .iter_rows()
    )
    department = _department(waiting, not_drawn)
    own = replace(scope, departments=(department,))
    ready, ready_from = _ready(reader, own, scope_values, options)
    return DrawPlan(
        options, scope.through, starts_on, department,
        _prints(waiting, department, options), ready, ready_from,
        tuple(waiting.iter_rows(named=True)), not_drawn,
    )  # fmt: skip


def _next_monday(day: date) -> date:
    return day + timedelta(days=7 - day.weekday())


def _refuse(options: DrawOptions, scope: Scope, starts_on: date) -> None:
    if options.prints_per_week is not None and not 1 <= options.prints_per_week <= _MOST:
        what = f"Nobody's turn comes at {options.prints_per_week} prints a week."
        raise ScopeError(what, "Give the guards that can be made a week, 1 or more.")
    if not 0 <= options.seed <= _MOST:
        what = f"The seed {options.seed} is not from 0 to {_MOST:,}."
        raise ScopeError(what, "Give another whole number, or none.")
    if options.ready_days is not None and not 0 <= options.ready_days <= 1000:
        what = f"{options.ready_days:g} days from the turn to the guard are not from 0 to 1,000."
        raise ScopeError(what, "Give the days from the print to the fitting.")
    if starts_on < scope.through:
        what = f"Week 1 begins on {starts_on}, before the day of the draw, {scope.through}."
        raise ScopeError(what, "Turns are drawn before the first print: name a later day.")
    if options.board_number and options.no_board_reason:
        what = "A number of the review board and a reason why none is needed exclude each other."
        raise ScopeError(what, "Give one of the two.")


def _refuse_known(reader: Reader, draw: str) -> None:
    drawn = reader.read("draw/draws").filter(draw=draw)
    if drawn.height:
        what = f"There is a draw {draw} already, of {drawn['drawn_on'][0]}, and it is frozen."
        raise ScopeError(what, "Draw under another key those who wait by now.")


def _department(waiting: pl.DataFrame, not_drawn: tuple[LeftOut, ...]) -> str:
    if waiting.is_empty():
        why = "; ".join(f"{one.why}: {one.count}" for one in not_drawn)
        why = f"Not drawn: {why}." if why else "No offer of a preventive guard was accepted."
        raise ScopeError("Nobody waits for a preventive guard here.", why)
    departments = sorted(set(waiting["department"]))
    if len(departments) > 1:
        listed = ", ".join(departments)
        what = f"A draw is of one department; here wait athletes of {len(departments)}: {listed}."
        raise ScopeError(what, "Name one with --department, and draw for each.")
    return str(departments[0])


def _prints(waiting: pl.DataFrame, department: str, options: DrawOptions) -> int:
    prints = options.prints_per_week or waiting["prints_per_week"][0]
    if not prints:
        what = f"No prints a week are recorded for {department}."
        raise ScopeError(what, "Say how many guards can be made a week.")
    return int(prints)


def _ready(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: DrawOptions
) -> tuple[float, str]:
    """Return the days from the turn to the fitted guard, and where they are from."""
    if options.ready_days is not None:
        return options.ready_days, "as given"
    whole = Scope(scope.through, departments=scope.departments, kinds=scope_values.all_kinds)
    asked = TurnaroundOptions(start=Stage.PRINTED, end=Stage.FITTED)
    group = TURNAROUND.answer()(reader, whole, scope_values, asked).whole
    if group.median.value is None:
        what = "How long a guard takes from the print to the fitting is not known here."
        raise ScopeError(what, "No past order tells: say how many days it takes.")
    orders = words.plural(group.finished_only.finished, "order")
    return group.median.value, f"the median from print to fitting of {orders}"
