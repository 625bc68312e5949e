"""Orders of two groups between two stages, a curve of one age, two weeks, one open order."""

from datetime import date
from typing import Any

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.turnaround.groups import Ready, RequestTimes, StageTime, TurnaroundGroup
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.answers.turnaround.weeks import Week
from seasonboard.scope import Scope
from seasonboard.stats.control_charts import IndividualsChart
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion
from seasonboard.stats.waiting_times import AgeShare, FinishedOnly, WaitCurve, WaitPoint
from seasonboard.terms import Stage
from tests.answers.worked.orders import AWAITED

POINT = WaitPoint(3.5, 44, 11, 12, 13, 0.75, 0.0625, 0.625, 0.875)
SHARE = AgeShare(3.5, 0.25, 0.2, 0.3, 0.125, 0.5)


def group(n: int, **others: Any) -> TurnaroundGroup:
    """Return a group all figures of which differ, by some number."""
    figures = {
        "curve": WaitCurve(n + 1, n + 2, n + 3, n + 4, (POINT,), 0.95),
        "median": Estimate(n + 5.5, n + 4.5, n + 6.5),
        "p80": Estimate(n + 8.0, n + 7.0, n + 9.0),
        "p95": Estimate(n + 15.0, n + 14.0, n + 16.0),
        "finished_only": FinishedOnly(n + 20, n + 21.5, n + 22.5, n + 23, n + 24.5),
        "ready": Ready(
            Proportion(0.375, 0.25, 0.625, successes=n + 30, trials=n + 31),
            undecided=n + 32,
            cancelled=n + 33,
            no_game=n + 34,
        ),
        "stages": (
            StageTime(
                *("scanned", ("shipped", "fitted"), n + 40, n + 41, n + 42, n + 43),
                Estimate(n + 2.5, n + 1.5, None, why="no upper limit yet"),
            ),
        ),
        "together": RequestTimes(
            *(n + 50, n + 51, n + 52, n + 53),
            Estimate(n + 54.5, n + 53.5, n + 55.5),
            FinishedOnly(n + 51, n + 56.5, n + 57.5, n + 58, None),
        ),
    }
    return TurnaroundGroup(f"key {n}", f"group {n}", "days", shares=(SHARE,), **figures | others)


RECENT = "too recent: a slow order would still be open"
NOT_REACHED = Estimate(None, why="not reached: 60 % were still waiting at the last")
UNKNOWN = {
    "median": NOT_REACHED,
    "p80": NOT_REACHED,
    "p95": NOT_REACHED,
    "finished_only": FinishedOnly(0, None, None, 203, None, "none has finished"),
    "ready": Ready(Proportion(None, why="nothing was counted"), 232, 233, 234),
    "stages": (),
}
ANSWER = TurnaroundAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20), level=0.9)),
    options=TurnaroundOptions(end=Stage.PRINTED, by=OrdersBy.PRINTER, holidays_of="US"),
    whole=group(0),
    groups=(group(100), group(200, **UNKNOWN)),
    weeks=(
        Week(date(2026, 9, 7), 5, 4, Estimate(6.5, 6.0, 7.0), True, True),
        Week(date(2026, 9, 14), 3, 2, NOT_REACHED, False, None, RECENT),
    ),
    chart=IndividualsChart(centre=6.25, low=-1.5, high=14.0),
    open_orders=(AWAITED,),
)
