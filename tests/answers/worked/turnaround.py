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


def group_object(n: int) -> dict[str, Any]:
    """Return what JSON has of that group."""
    return {
        "group": f"group {n}",
        "key": f"key {n}",
        "orders": n + 1,
        "finished": n + 2,
        "open": n + 3,
        "cancelled": n + 4,
        "median": {"value": n + 5.5, "low": n + 4.5, "high": n + 6.5},
        "p80": {"value": n + 8.0, "low": n + 7.0, "high": n + 9.0},
        "p95": {"value": n + 15.0, "low": n + 14.0, "high": n + 16.0},
        "ready_for_next_game": {
            "share": 0.375,
            "low": 0.25,
            "high": 0.625,
            "orders": n + 31,
            "ready": n + 30,
            "undecided": n + 32,
            "cancelled": n + 33,
            "no_game": n + 34,
        },
        "finished_only": {
            "finished": n + 20,
            "mean": n + 21.5,
            "median": n + 22.5,
            "open_left_out": n + 23,
            "longest_open": n + 24.5,
        },
        "unit": "days",
        "stages": [stage_object(n)],
        "curve": [
            {
                "time": 3.5,
                "at_risk": 44,
                "finished": 11,
                "cancelled": 12,
                "open": 13,
                "waiting": 0.75,
                "low": 0.625,
                "high": 0.875,
                "share_finished": 0.25,
                "share_cancelled": 0.125,
                "share_open": 0.5,
            }
        ],
    }


def stage_object(n: int) -> dict[str, Any]:
    """Return what JSON has of the stage of that group."""
    return {
        "stage": "scanned",
        "next_stages": ["shipped", "fitted"],
        "orders": n + 40,
        "finished": n + 41,
        "waiting": n + 42,
        "cancelled": n + 43,
        "median": {
            "value": n + 2.5,
            "low": n + 1.5,
            "high": None,
            "why": "no upper limit yet",
        },
    }


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
NOT_REACHED_OBJECT = {"value": None, "low": None, "high": None, "why": NOT_REACHED.why}
OBJECT = {
    "from": "requested",
    "to": "printed",
    "unit": "days",
    "by": "printer",
    "holidays": "US",
    "orders": 1,
    "finished": 2,
    "open": 3,
    "cancelled": 4,
    "groups": [
        group_object(100),
        group_object(200)
        | {
            "median": NOT_REACHED_OBJECT,
            "p80": NOT_REACHED_OBJECT,
            "p95": NOT_REACHED_OBJECT,
            "ready_for_next_game": {
                "share": None,
                "low": None,
                "high": None,
                "orders": 0,
                "ready": 0,
                "undecided": 232,
                "cancelled": 233,
                "no_game": 234,
                "why": "nothing was counted",
            },
            "finished_only": {
                "finished": 0,
                "mean": None,
                "median": None,
                "open_left_out": 203,
                "longest_open": None,
                "why": "none has finished",
            },
            "stages": [],
        },
    ],
    "stages": [stage_object(0)],
    "together": {
        "requests": 50,
        "complete": 51,
        "open": 52,
        "cancelled": 53,
        "median": {"value": 54.5, "low": 53.5, "high": 55.5},
        "median_of_complete": 57.5,
    },
    "weeks": [
        {
            "week": "2026-09-07",
            "orders": 5,
            "finished": 4,
            "median": {"value": 6.5, "low": 6.0, "high": 7.0},
            "sets_limits": True,
            "outside_limits": True,
        },
        {
            "week": "2026-09-14",
            "orders": 3,
            "finished": 2,
            "median": NOT_REACHED_OBJECT,
            "sets_limits": False,
            "outside_limits": None,
            "why": RECENT,
        },
    ],
    "control_limits": {"centre": 6.25, "low": -1.5, "high": 14.0},
    "open_orders": [
        {
            "guard": "G-1",
            "athlete": "A-1",
            "department": "north",
            "stage": "printed",
            "age_days": 19,
            "age_working_days": 13,
            "age_hours": 471.25,
            "next_game": {
                "session": "N-G7",
                "starts_at": "2026-09-24T18:00:00+00:00",
                "on": "2026-09-24",
                "label": "at the lake",
                "days_ahead": 4,
            },
            "chance_by_next_game": 0.25,
            "chance_low": 0.125,
            "chance_high": 0.5,
            "chance_is_least": True,
            "comparable_orders": 37,
            "likeness": "same department and kind",
            "why": "followed to the end",
        }
    ],
}
CSV = [
    "group,key,orders,finished,open,cancelled,median,median_low,median_high,p80,p80_low,p80_high,"
    "p95,p95_low,p95_high,ready_for_next_game_share,ready_for_next_game_low,"
    "ready_for_next_game_high,ready_for_next_game_orders,ready_for_next_game_ready,"
    "ready_for_next_game_undecided,ready_for_next_game_cancelled,ready_for_next_game_no_game,"
    "finished_only_finished,finished_only_mean,finished_only_median,finished_only_open_left_out,"
    "finished_only_longest_open,unit",
    "group 100,key 100,101,102,103,104,105.5,104.5,106.5,108.0,107.0,109.0,"
    "115.0,114.0,116.0,0.375,0.25,0.625,131,130,132,133,134,120,121.5,122.5,123,124.5,days",
    "group 200,key 200,201,202,203,204,,,,,,,,,,,,,0,0,232,233,234,0,,,203,,days",
]
TEXT = [
    "From requested to printed, in days:",
    "group      orders  printed  open  cancelled       median  90 % interval  80 % within  95 "
    "% within     ready for next game",
    "group 100     101      102   103        104          106     104 to 106          108     "
    "     115  38 % (25 to 62) of 131",
    "group 200     201      202   203        204  not reached  no limits yet  not reached  "
    "not reached                       –",
    "group 0         1        2     3          4          5.5     4.5 to 6.5            8     "
    "      15   38 % (25 to 62) of 31",
    "",
    "Where the time goes, from a stage to the next one recorded:",
    "stage    orders  median               90 % interval  waiting now  then",
    "scanned      40     2.5  1.5 up, no upper limit yet           42  shipped or fitted",
    "",
    "By week of the beginning (the last 2):",
    "week of     orders       median  90 % interval",
    "2026-09-07       5          6.5         6 to 7  outside the control limits",
    "2026-09-14       3  not reached  no limits yet  too recent: a slow order would still be open",
    "Weeks vary about 6.2, control limits 0 to 14; a week outside is marked.",
    "",
    "Guards of one athlete begun on one day, taken as one request that is done when its last guard",
    "is: 50 requests, 52 open, median 54.5 (53.5 to 55.5).",
]
