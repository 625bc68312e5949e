"""Returns of nobody like another: two waits, two clocks, both contrasts, two out now."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.compare.verdict import LESS, TOO_FEW
from seasonboard.answers.returns.out_now import OutNow
from seasonboard.answers.returns.parts import (
    Contrast,
    GamesWorn,
    Recurrence,
    ReturnsAnswer,
    StateRow,
    Wait,
)
from seasonboard.scope import Scope
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.multistate import StatePoint
from seasonboard.stats.proportions import Proportion
from seasonboard.stats.rates import Rate
from seasonboard.stats.ratios import ChiSquare, RateRatio


def ratio(value, low, high, counts, informing, p):
    none = ChiSquare(None, None, None, "none")
    a, b, t1, t0 = counts
    return RateRatio(
        *(value, low, high, 0.9, "", "" if value else "no injury"),
        injuries_guarded=a,
        injuries_unguarded=b,
        exposures_guarded=t1,
        exposures_unguarded=t0,
        strata=9,
        informative_strata=8,
        informative_injuries=informing,
        p=p,
        std_error=None,
        guarded_sum=None,
        score=none,
        homogeneity=none,
    )


def point(tick, share, error, low, high, at_risk):
    return StatePoint(tick, share, error, low, high, at_risk)


def rate(injuries, exposures, value, low, high):
    return Rate(value, low, high, 0.9, "", injuries=injuries, exposures=exposures)


OUT = OutNow(
    *("I7", "A7", "Odalys Ryumilsan", "N-WSOC", "N", "knee", "left", date(2026, 9, 3), 17),
    alike=24,
    early_on=date(2026, 9, 24),
    half_on=date(2026, 9, 29),
    late_on=date(2026, 10, 8),
    why="",
    guard="G7",
    stage="printed",
    chance=0.625,
    is_least=True,
    chance_why="",
    game_on=date(2026, 9, 26),
    next_step="finish it",
)
UNTOLD = OutNow(
    *("I8", "A8", "Tevita Baerimdal", "N-MSOC", "M", "hand", "right", date(2026, 9, 18), 2),
    alike=3,
    early_on=None,
    half_on=None,
    late_on=None,
    why="fewer than 5 like injuries lasted as long",
    guard=None,
    stage="none asked for",
    chance=None,
    is_least=False,
    chance_why="",
    game_on=None,
    next_step="",
)
EPISODE = {
    "injury": "I7",
    "athlete": "A7",
    "name": "Odalys Ryumilsan",
    "team": "N-WSOC",
    "department": "N",
    "area": "knee",
    "side": "left",
    "occurred_on": date(2026, 9, 3),
    "returned_on": date(2026, 9, 15),
    "days_lost": 11,
    "games_missed": 4,
    "back_in": "guarded",
    "guard": "G7",
    "requested_on": date(2026, 9, 5),
    "fitted_on": date(2026, 9, 14),
    "called_off_on": date(2026, 9, 16),
    "game_on": date(2026, 9, 17),
    "again_on": date(2026, 9, 19),
}
STRATUM = {
    "area": "knee",
    "days_out": "8–28 days",
    "setting": "game",
    "fortnight": 2,
    "recurrence": "early",
    "injuries_guarded": 3,
    "exposures_guarded": 41,
    "injuries_unguarded": 5,
    "exposures_unguarded": 62,
    "not_counted": 7,
}
DAY = {
    "area": "hand",
    "day": 12,
    "injuries_guarded": 1,
    "exposures_guarded": 6,
    "injuries_unguarded": 2,
    "exposures_unguarded": 19,
}
_ERRORS = (0.01, 0.02, 0.03, None)
ANSWER = ReturnsAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20), level=0.9)),
    injuries=50,
    back=41,
    out=9,
    again=6,
    asked=Proportion(0.4, 0.3, 0.51, 0.9, successes=20, trials=50),
    in_time=Proportion(0.25, 0.1, 0.45, 0.9, successes=4, trials=16),
    waits=(
        Wait("days out", "days", 50, 41, 9, 0, Estimate(6, 5, 8, 0.9), Estimate(15, 12, 23, 0.9)),
        Wait(
            *("request to fitted", "games", 20, 16, 3, 1, Estimate(13, 11, 14, 0.9)),
            Estimate(None, 19, None, 0.9, why="not reached"),
        ),
    ),
    states=(
        StateRow(
            "games",
            point(
                *(0, (0.5, 0.3, 0.2, 0.0), _ERRORS, (0.4, 0.2, 0.1, None)),
                *((0.6, 0.4, 0.25, None), (25, 15, 10, 0)),
            ),
        ),
        StateRow(
            "days",
            point(
                *(90, (0.05, 0.55, 0.28, 0.12), (0.04, 0.05, 0.06, 0.07)),
                *((0.01, 0.45, 0.21, 0.06), (0.09, 0.65, 0.35, 0.19), (2, 20, 11, 0)),
            ),
        ),
    ),
    contrasts=(
        Contrast("back", ratio(0.8, 0.65, 0.95, (13, 149, 307, 1974), 102, 0.03), LESS),
        Contrast("again", ratio(1.25, 0.4, 3.5, (4, 5, 563, 2291), 8, 0.62), TOO_FEW),
    ),
    recurrences=(
        Recurrence("early", rate(3, 492, 6.1, 1.3, 17.8), rate(5, 1994, 2.5, 0.8, 5.9)),
        Recurrence("late", rate(1, 71, 14.1, 0.4, 78.5), rate(2, 297, 6.7, 0.9, 24.3)),
    ),
    games_worn=(GamesWorn("N", 42, 6, 7), GamesWorn("M", 151, 19, 20)),
    sayable="By 20 September 2026 25 athletes had played 193 games.",
    out_now=(OUT, UNTOLD),
    strata=(STRATUM,),
    days=(DAY,),
    episodes=(EPISODE,),
)
