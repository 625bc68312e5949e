"""Two curves with all that is read from them, and how follow-up ended; no figure like another."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.compare.verdict import Judged
from seasonboard.answers.games.beside_curves import EverNever, PerGame
from seasonboard.answers.games.parts import Clock, Ending, GamesAnswer, GamesOptions, Group
from seasonboard.scope import Scope
from seasonboard.stats.competing import CauseCurve, Incidence, SharePoint
from seasonboard.stats.direct_standardisation import Standardised, StandardPoint
from seasonboard.stats.estimate import Quantile
from seasonboard.stats.log_rank import LogRank
from seasonboard.stats.ratios import Strata, mantel_haenszel
from seasonboard.stats.recurrent import MeanCumulative, MeanPoint
from seasonboard.stats.survival import Curve, CurvePoint, RestrictedMean


def curve(*points, why=""):
    return Curve(points, points[0].tick if points else None, 5, 0.9, why)


def quantile(share, value, low, high, why=""):
    return Quantile(value, low, high, 0.9, "", why, share=share)


def mean(value, horizon, start, error, *limits, method="", why=""):
    low, high = limits or (None, None)
    return RestrictedMean(
        value, low, high, 0.9, method, why, horizon=horizon, start=start, std_error=error
    )


GUARDED = Group(
    name="guarded", athletes=31, sites=62, ticks=410, injuries=9, left=53,
    endings=(Ending("left the roster", 20), Ending("no further session yet", 33)),
    curve=curve(
        CurvePoint(2, 60, 3, 59, 4, 0.95, 0.025, 0.85, 0.98, thin=False),
        CurvePoint(3, 55, 6, 1, 49, 0.85, None, None, None, thin=True),
    ),
    compared=curve(CurvePoint(2, 58, 2, 57, 7, 0.96, 0.02, 0.84, 0.99, thin=False)),
    median=quantile(0.5, 12, 8, None, "no upper limit yet"),
    quartiles=(quantile(0.25, 5, 4, 6), quantile(0.75, None, 17, None, "not reached")),
    restricted_mean=mean(6.5, 9, 2, 0.125),
)  # fmt: skip
BARE = Group(
    name="unguarded", athletes=28, sites=56, ticks=380, injuries=14, left=42,
    endings=(Ending("put a guard on", 42),), curve=curve(why="never 5 at risk at once"),
    compared=curve(
        CurvePoint(2, 50, 1, 47, 5, 0.92, 0.03, 0.83, 0.97, thin=False),
        CurvePoint(3, 44, 8, 6, 36, 0.75, 0.05, 0.65, 0.86, thin=False),
    ),
    median=quantile(0.5, None, None, None, "not reached"),
    quartiles=(quantile(0.25, None, None, None, "too few"), quantile(0.75, 21, 19, 23)),
    restricted_mean=mean(None, None, None, None, why="no stretch to compare"),
)  # fmt: skip


def incidence(n):
    hurt = (SharePoint(2, 61, 1, 0.03 * n, None, 0.01 * n, 0.06 * n),)
    gone = (SharePoint(2, 61, 2, 0.05 * n, None, None, None),)
    free = (SharePoint(2, 61, 3, 1 - 0.08 * n, None, None, None),)
    return Incidence((CauseCurve("injury", hurt), CauseCurve("left", gone)), free, 2, 5, 0.9)


ANSWER = GamesAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20), level=0.9)),
    options=GamesOptions(Clock.SESSIONS, min_at_risk=5, naive=True),
    guarded=GUARDED,
    unguarded=BARE,
    start=2,
    horizon=9,
    judged=Judged("a verdict", mantel_haenszel(Strata([3], [4], [50], [60]), level=0.9)),
    log_rank=LogRank(9, 11.5, 5.25, 3.75, 1, 0.051, 2, "few injuries"),
    log_rank_stratified=LogRank(8, 10.5, 4.25, None, 3, None, 6, "no stratum tells"),
    one_mix=Standardised(
        start=1,
        horizon=7,
        guarded=(StandardPoint(4, 57, 5, 0.91, 0.035, 0.82, 0.94),),
        unguarded=(StandardPoint(4, 48, 7, 0.81, None, None, None),),
        mean_guarded=mean(6.25, 7, 1, 0.1),
        mean_unguarded=mean(5.75, 7, 1, 0.2),
        difference=mean(1.25, 8, 3, 0.375, 0.5, 2.0, method="at one mix", why="one is rarely seen"),
    ),
    incidence=(incidence(1), incidence(2)),
    repeats=(
        MeanCumulative(
            (
                MeanPoint(3, 54, 4, 0.115, 0.045, 0.055, 0.215),
                MeanPoint(4, 52, 2, 0.135, None, None, None),
            ),
            *(62, 2, 5, 0.9),
        ),
        MeanCumulative((MeanPoint(5, 45, 10, 0.225, None, None, None),), 56, 2, 5, 0.9),
    ),
    ever_never=EverNever(
        curve(CurvePoint(6, 40, 0, 1, 2, 0.87, None, None, None, thin=False)),
        curve(CurvePoint(6, 30, 0, 3, 4, None, None, None, None, thin=False)),
    ),
    per_game=(PerGame("soccer", "women", "forward", 120, 80, 31.25, 110, 67.5),),
)
