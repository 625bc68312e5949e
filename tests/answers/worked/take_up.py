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
        WornWeek(date(2026, 9, 14), ClusteredShare(None, level=0.9, why="nothing was counted")),
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
