"""Steps of nobody like another: one kind besides, two teams, two reasons, one break."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.take_up.parts import (
    Break,
    Reason,
    Step,
    TakeUpAnswer,
    TakeUpBy,
    TakeUpGroup,
    WornWeek,
)
from seasonboard.scope import Scope
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.proportions import Proportion

_FIRST = Proportion(None, why="the first step")
_FIRST_OBJECT = {"share": None, "low": None, "high": None, "why": "the first step"}


def _worn(share, low, high, *counts):
    worn, sessions, athletes = counts
    return ClusteredShare(share, low, high, 0.9, "", "", worn, sessions, athletes)


def _share(share, low, high):
    return Proportion(share, low, high, 0.9)


WHOLE = TakeUpGroup(
    group="all",
    steps=(
        Step("eligible", 64, _FIRST, _FIRST, 0),
        Step("offered", 48, _share(0.75, 0.625, 0.875), _share(0.76, 0.63, 0.88), 1),
        Step("accepted", 32, _share(0.66, 0.5, 0.8), _share(0.51, 0.39, 0.61), 2),
        Step("fitted", 16, _share(0.47, 0.3, 0.7), _share(0.26, 0.16, 0.36), 3),
        Step("worn", 8, _share(0.45, 0.25, 0.65), _share(0.125, 0.0625, 0.25), 4),
    ),
    declined=11,
    undecided=5,
    waiting=7,
    worn=_worn(0.5, 0.375, 0.6, 60, 120, 9),
    weeks=(
        WornWeek(date(2026, 9, 7), _worn(0.4, 0.2, 0.55, 18, 45, 6)),
        WornWeek(
            date(2026, 9, 14),
            ClusteredShare(None, level=0.9, why="nothing was counted"),
        ),
    ),
)


def _group(name, counts, declined, undecided, waiting, worn):
    names = ("eligible", "offered", "accepted", "fitted", "worn")
    steps = (Step(n, c, _FIRST, _FIRST, 0) for n, c in zip(names, counts, strict=True))
    return TakeUpGroup(name, tuple(steps), declined, undecided, waiting, worn, ())


SHIN = _group("shin", (63, 41, 31, 15, 10), 12, 13, 14, _worn(0.3, 0.1, 0.35, 30, 100, 17))
NORTH = _group("N-MSOC", (40, 30, 20, 19, 18), 21, 22, 23, _worn(0.9, 0.85, 0.95, 90, 101, 27))
ANSWER = TakeUpAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20), level=0.9)),
    by=TakeUpBy.TEAM,
    whole=WHOLE,
    kinds=(SHIN,),
    groups=(NORTH,),
    reasons=(Reason("declined", "too warm", 10), Reason("undecided", None, 6)),
    breaks=(Break("worn without being recorded as fitted", 28),),
)
OBJECT = {
    "by": "team",
    "group": "all",
    "steps": [
        {
            "step": "eligible",
            "athletes": 64,
            "of_before": _FIRST_OBJECT,
            "of_eligible": _FIRST_OBJECT,
            "without_before": 0,
        },
        {
            "step": "offered",
            "athletes": 48,
            "of_before": {"share": 0.75, "low": 0.625, "high": 0.875},
            "of_eligible": {"share": 0.76, "low": 0.63, "high": 0.88},
            "without_before": 1,
        },
        {
            "step": "accepted",
            "athletes": 32,
            "of_before": {"share": 0.66, "low": 0.5, "high": 0.8},
            "of_eligible": {"share": 0.51, "low": 0.39, "high": 0.61},
            "without_before": 2,
        },
        {
            "step": "fitted",
            "athletes": 16,
            "of_before": {"share": 0.47, "low": 0.3, "high": 0.7},
            "of_eligible": {"share": 0.26, "low": 0.16, "high": 0.36},
            "without_before": 3,
        },
        {
            "step": "worn",
            "athletes": 8,
            "of_before": {"share": 0.45, "low": 0.25, "high": 0.65},
            "of_eligible": {"share": 0.125, "low": 0.0625, "high": 0.25},
            "without_before": 4,
        },
    ],
    "declined": 11,
    "undecided": 5,
    "waiting": 7,
    "worn_share": {
        "share": 0.5,
        "low": 0.375,
        "high": 0.6,
        "worn": 60,
        "sessions": 120,
        "athletes": 9,
    },
    "weeks": [
        {
            "week": "2026-09-07",
            "share": 0.4,
            "low": 0.2,
            "high": 0.55,
            "worn": 18,
            "sessions": 45,
            "athletes": 6,
        },
        {
            "week": "2026-09-14",
            "share": None,
            "low": None,
            "high": None,
            "worn": 0,
            "sessions": 0,
            "athletes": 0,
            "why": "nothing was counted",
        },
    ],
    "kinds": [
        {
            "group": "shin",
            "steps": [
                {
                    "step": "eligible",
                    "athletes": 63,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
                {
                    "step": "offered",
                    "athletes": 41,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
                {
                    "step": "accepted",
                    "athletes": 31,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
                {
                    "step": "fitted",
                    "athletes": 15,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
                {
                    "step": "worn",
                    "athletes": 10,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
            ],
            "declined": 12,
            "undecided": 13,
            "waiting": 14,
            "worn_share": {
                "share": 0.3,
                "low": 0.1,
                "high": 0.35,
                "worn": 30,
                "sessions": 100,
                "athletes": 17,
            },
            "weeks": [],
        }
    ],
    "groups": [
        {
            "group": "N-MSOC",
            "steps": [
                {
                    "step": "eligible",
                    "athletes": 40,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
                {
                    "step": "offered",
                    "athletes": 30,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
                {
                    "step": "accepted",
                    "athletes": 20,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
                {
                    "step": "fitted",
                    "athletes": 19,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
                {
                    "step": "worn",
                    "athletes": 18,
                    "of_before": _FIRST_OBJECT,
                    "of_eligible": _FIRST_OBJECT,
                    "without_before": 0,
                },
            ],
            "declined": 21,
            "undecided": 22,
            "waiting": 23,
            "worn_share": {
                "share": 0.9,
                "low": 0.85,
                "high": 0.95,
                "worn": 90,
                "sessions": 101,
                "athletes": 27,
            },
            "weeks": [],
        }
    ],
    "reasons": [
        {"answer": "declined", "count": 10, "reason": "too warm"},
        {"answer": "undecided", "count": 6, "reason": None, "why": "none was recorded"},
    ],
    "out_of_order": [{"what": "worn without being recorded as fitted", "athletes": 28}],
}
CSV = [
    "by,group,eligible,offered,accepted,fitted,worn,declined,undecided,waiting,worn_share,"
    "worn_share_low,worn_share_high,worn_share_worn,worn_share_sessions,worn_share_athletes",
    "all,all,64,48,32,16,8,11,5,7,0.5,0.375,0.6,60,120,9",
    "kind,shin,63,41,31,15,10,12,13,14,0.3,0.1,0.35,30,100,17",
    "team,N-MSOC,40,30,20,19,18,21,22,23,0.9,0.85,0.95,90,101,27",
]
TEXT = [
    "step      athletes  of the step before  90 % interval  of the eligible  90 % interval",
    "eligible        64                   –              –                –              –",
    "offered         48                75 %     62 to 88 %             76 %     63 to 88 %  1"
    " without the step before",
    "accepted        32                66 %     50 to 80 %             51 %     39 to 61 %  1"
    "1 declined, 5 undecided; 2 without the step before",
    "fitted          16                47 %     30 to 70 %             26 %     16 to 36 %  7"
    " still waiting for a first guard; 3 without the step before",
    "worn             8                45 %     25 to 65 %             12 %      6 to 25 %  4"
    " without the step before",
    "",
    "kind  eligible  offered  accepted  fitted  worn  worn in  90 % interval  of sessions",
    "shin        63       41        31      15    10     30 %     10 to 35 %          100",
    "",
    "team    eligible  offered  accepted  fitted  worn  worn in  90 % interval  of sessions",
    "N-MSOC        40       30        20      19    18     90 %     85 to 95 %          101",
    "",
    "week from   worn in  90 % interval  of sessions  athletes",
    "2026-09-07     40 %     20 to 55 %           45         6",
    "2026-09-14        –              –            0         0",
    "",
    "answer     offers  reason",
    "declined       10  too warm",
    "undecided       6  no reason recorded",
    "",
    "Out of order, in athletes (counted above):",
    "     28  worn without being recorded as fitted",
]
