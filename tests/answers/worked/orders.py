"""Two open orders: one with a game ahead; of the other hardly anything is known."""

from datetime import UTC, date, datetime

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.forecast import Borrowed, Chance
from seasonboard.answers.orders.graded import Graded, StageGrading
from seasonboard.answers.orders.lateness import LateAfter
from seasonboard.answers.orders.open_orders import Attention, NextGame, OpenOrder, Reached
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.scope import Scope
from seasonboard.stats.forecast_grading import Grading, ToldGroup

USUAL = LateAfter("north", 16.5, 41, "same plan")
UNKNOWN = LateAfter("south", None, 7, "all orders", "fewer than 20 orders to tell it from")
AWAITED = OpenOrder(
    guard="G-1", athlete="A-1", name="Ada Lee", team="N-WSOC", department="north",
    department_name="North College", plan="onsite printer", kind="shin", side="left",
    purpose="return", scan_method="phone", remake_of="G-0",
    promised_on=date(2026, 9, 26),
    stages=(Reached("requested", datetime(2026, 9, 1, 8, tzinfo=UTC)),),
    stage="printed",
    stage_days=2,
    age_days=19,
    age_working_days=13,
    age_hours=471.25,
    next_game=NextGame(
        "N-G7", datetime(2026, 9, 24, 18, tzinfo=UTC), date(2026, 9, 24), "at the lake", 4
    ),
    chance=Chance(
        0.25, 0.125, 0.5, 0.95, "", "too little followed yet", 37, is_least=True,
        likeness="same department and kind",
    ),
    why="too little followed yet", exposures=11, bare=5, worn=3, late_after=USUAL,
    attention=Attention.ON_ITS_WAY, draw="T01", turn=17, rule="with covering",
)  # fmt: skip
BLANK = OpenOrder(
    guard="G-2", athlete="A-2", name="Bo Ray", team="S-MIH", department="south",
    department_name="South State", plan="weekly allotment", kind="chest", side="midline",
    purpose="preventive", scan_method=None, remake_of=None, promised_on=None, stages=(),
    stage="requested", stage_days=6, age_days=7, age_working_days=8, age_hours=90.5,
    next_game=None, chance=None,
    why="no game of the team is recorded ahead", exposures=10, bare=9, worn=0,
    late_after=UNKNOWN, attention=Attention.ON_ITS_WAY,
)  # fmt: skip
GROUPS = (ToldGroup(0.0, 0.5, 4, 0.375, 0.25), ToldGroup(0.5, 0.85, 12, 0.75, 0.8125),
          ToldGroup(0.85, 1.0, 0, None, None))  # fmt: skip
ALL = Grading(16, 0.65625, 0.671875, 0.09375, 0.22, 0.004, 0.13, GROUPS)
NONE = Grading(
    0, None, None, None, None, None, None, (), "no forecast of the past can be graded yet"
)
GRADED = Graded(ALL, (StageGrading("printed", ALL), StageGrading("shipped", NONE)), -2.5, 6, 1)
ANSWER = OrdersAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20))),
    as_of=date(2026, 9, 20), orders=(AWAITED, BLANK), known=30, fitted=20, cancelled=5, retired=3,
    late_after=(USUAL, UNKNOWN), graded=GRADED,
    borrowed=(Borrowed("printed", 5.0, 12.0, 200.0),),
)  # fmt: skip
