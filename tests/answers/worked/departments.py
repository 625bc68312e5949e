"""Two departments: one with every figure, no two of them alike; of the other nothing is known."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.departments.parts import (
    Allotment,
    Available,
    DepartmentRow,
    DepartmentsAnswer,
    Trends,
)
from seasonboard.scope import Scope
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion

WEEKS = (date(2026, 9, 7), date(2026, 9, 14), date(2026, 9, 21))
NORTH = DepartmentRow(
    department="N",
    name="North College",
    plan="weekly allotment",
    open=15,
    late=4,
    turnaround=Estimate(12.5, 11.0, 14.0),
    ready=Proportion(0.5, 0.375, 0.625, successes=16, trials=32),
    remakes=Proportion(0.1, 0.05, 0.2, successes=3, trials=30),
    allotment=Allotment(10, date(2026, 9, 8), 7, 0.7, 0.8, 2, 6, ""),
    available=Available(28, 450, 500, 21, 0.9),
    available_before=Available(27, 430, 490, 22, 0.88),
    worn=ClusteredShare(0.75, 0.7, 0.78, successes=300, trials=400, clusters=40),
    overdue=5,
    trends=Trends(WEEKS, (9.0, 13.0, 11.0), (1.0, 0.0, 2.0), (0.92, 0.86, 0.9), (0.66, 0.77, 0.69)),
    attention=("4 orders late, of 15 open.", "5 decisions overdue."),
)
NOTHING = "nothing was counted"
SOUTH = DepartmentRow(
    department="S",
    name="South State",
    plan="onsite printer",
    open=1,
    late=0,
    turnaround=Estimate(None, why="there are no orders"),
    ready=Proportion(None, why=NOTHING),
    remakes=Proportion(None, why=NOTHING),
    allotment=Allotment(None, None, None, None, None, 8, 9, "it prints on its own printer"),
    available=Available(0, 11, 0, 12, None, "no attendance is recorded"),
    available_before=Available(0, 13, 0, 14, None, "no attendance was recorded"),
    worn=ClusteredShare(None, why=NOTHING),
    overdue=0,
    trends=Trends(WEEKS, (None,) * 3, (0.0, 1.0, 0.0), (None,) * 3, (None,) * 3),
)
ANSWER = DepartmentsAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20))),
    departments=(NORTH, SOUTH),
)
OBJECT = {
    "departments": [
        {
            "department": "N",
            "name": "North College",
            "plan": "weekly allotment",
            "open": 15,
            "late": 4,
            "turnaround": {"median": 12.5, "low": 11.0, "high": 14.0, "unit": "days"},
            "ready_for_next_game": {
                "share": 0.5,
                "low": 0.375,
                "high": 0.625,
                "count": 16,
                "orders": 32,
            },
            "remakes": {"share": 0.1, "low": 0.05, "high": 0.2, "count": 3, "fitted": 30},
            "allotment": {
                "prints_per_week": 10,
                "week": "2026-09-08",
                "week_prints": 7,
                "week_used": 0.7,
                "used": 0.8,
                "weeks_over": 2,
                "queue": 6,
            },
            "availability": {
                "sessions": 28,
                "available": 450,
                "recorded": 500,
                "not_known": 21,
                "share": 0.9,
            },
            "availability_before": {
                "sessions": 27,
                "available": 430,
                "recorded": 490,
                "not_known": 22,
                "share": 0.88,
            },
            "worn_share": {"share": 0.75, "low": 0.7, "high": 0.78, "count": 300, "sessions": 400},
            "overdue_decisions": 5,
            "trends": {
                "weeks": ["2026-09-07", "2026-09-14", "2026-09-21"],
                "turnaround": [9.0, 13.0, 11.0],
                "remakes": [1.0, 0.0, 2.0],
                "availability": [0.92, 0.86, 0.9],
                "worn": [0.66, 0.77, 0.69],
            },
            "attention": ["4 orders late, of 15 open.", "5 decisions overdue."],
        },
        {
            "department": "S",
            "name": "South State",
            "plan": "onsite printer",
            "open": 1,
            "late": 0,
            "turnaround": {
                "median": None,
                "low": None,
                "high": None,
                "unit": "days",
                "why": "there are no orders",
            },
            "ready_for_next_game": {
                "share": None,
                "low": None,
                "high": None,
                "count": 0,
                "orders": 0,
                "why": "nothing was counted",
            },
            "remakes": {
                "share": None,
                "low": None,
                "high": None,
                "count": 0,
                "fitted": 0,
                "why": "nothing was counted",
            },
            "allotment": {
                "prints_per_week": None,
                "week": None,
                "week_prints": None,
                "week_used": None,
                "used": None,
                "weeks_over": 8,
                "queue": 9,
                "why": "it prints on its own printer",
            },
            "availability": {
                "sessions": 0,
                "available": 11,
                "recorded": 0,
                "not_known": 12,
                "share": None,
                "why": "no attendance is recorded",
            },
            "availability_before": {
                "sessions": 0,
                "available": 13,
                "recorded": 0,
                "not_known": 14,
                "share": None,
                "why": "no attendance was recorded",
            },
            "worn_share": {
                "share": None,
                "low": None,
                "high": None,
                "count": 0,
                "sessions": 0,
                "why": "nothing was counted",
            },
            "overdue_decisions": 0,
            "trends": {
                "weeks": ["2026-09-07", "2026-09-14", "2026-09-21"],
                "turnaround": [None, None, None],
                "remakes": [0.0, 1.0, 0.0],
                "availability": [None, None, None],
                "worn": [None, None, None],
                "why": "null where nothing was recorded that week, or half are not done yet",
            },
            "attention": [],
        },
    ]
}
CSV = [
    "department,name,plan,open,late,turnaround_median,turnaround_low,turnaround_high,"
    "ready_for_next_game_share,ready_for_next_game_low,ready_for_next_game_high,"
    "ready_for_next_game_count,ready_for_next_game_orders,remakes_share,remakes_low,"
    "remakes_high,remakes_count,remakes_fitted,allotment_prints_per_week,allotment_week,"
    "allotment_week_prints,allotment_week_used,allotment_used,allotment_weeks_over,"
    "allotment_queue,availability_sessions,availability_available,availability_recorded,"
    "availability_not_known,availability_share,availability_before_sessions,"
    "availability_before_available,availability_before_recorded,availability_before_not_known,"
    "availability_before_share,worn_share,worn_share_low,worn_share_high,worn_share_count,"
    "worn_share_sessions,overdue_decisions,attention",
    "N,North College,weekly allotment,15,4,12.5,11.0,14.0,0.5,0.375,0.625,16,32,0.1,0.05,0.2,3,"
    "30,10,2026-09-08,7,0.7,0.8,2,6,28,450,500,21,0.9,27,430,490,22,0.88,0.75,0.7,0.78,300,400,"
    '5,"4 orders late, of 15 open. 5 decisions overdue."',
    "S,South State,onsite printer,1,0,,,,,,,0,0,,,,0,0,,,,,,8,9,0,11,0,12,,0,13,0,14,,,,,0,0,0,",
]
TEXT = [
    "department     open  late   median days  ready for game       remade  available       wo"
    "rn in  prints: last week, in all",
    "North College    15     4  12.5 (11–14)    50 % (38–62)  10 % (5–20)       90 %  75 % (7"
    "0–78)  7 of 10, 80 %",
    "South State       1     0   not reached               –            –          –         "
    "    –  it prints on its own printer",
    "",
    "by week from 2026-09-07  days  remakes  available  worn",
    "North College             ▁█▅      ▅▁█        █▁▆  ▁█▃",
    "South State               ···      ▁█▁        ···  ···",
    "",
    "North College: 4 orders late, of 15 open. 5 decisions overdue.",
]
