"""A pitch of two teams, one of them unknown."""

from datetime import date

import numpy as np

from seasonboard.answers.base import Summary
from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.pitch.options import EffectLimits, Fees, PitchOptions, PrintWay
from seasonboard.answers.pitch.parts import (
    Baseline,
    Basis,
    Choice,
    Effect,
    Input,
    PitchAnswer,
    PlanAhead,
    ServedWork,
    SettingAhead,
    Swing,
    TeamAhead,
)
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.scope import Scope
from seasonboard.stats.absence_duration import AbsenceLaw
from seasonboard.stats.prints_ahead import (
    MadeAhead,
    Percentiles,
    PrintsAhead,
    QueueAhead,
    WeekAhead,
)
from seasonboard.stats.season_ahead import SeasonAhead, Spread, Visible


def spread(n):
    return Spread(n + 0.25, n + 0.5, n - 1.25, n + 2.25, n - 3.25, n + 4.25)


PUBLISHED = Baseline(
    *(Basis.PUBLISHED, 5.25, 6.5, 4.25, 9.25, 18.0, 8, 0.35, 0.2), "published, games: a source"
)
UNKNOWN = Baseline(Basis.NOT_KNOWN, *(None,) * 7, 0.0, "none", "no rate is known")
SOCCER = TeamAhead(
    ProspectTeam("soccer", "women", 27, (("keeper", 3), ("field", 24)), 22, 66, 8, 12),
    athletes=26,
    settings=(SettingAhead("game", 21, 0.75, True, 409.5, 6.25),),
    baseline=PUBLISHED,
    injuries=6.5,
    games_missed=13.75,
)
RUGBY = TeamAhead(
    ProspectTeam("rugby", "men", 31, (), 10, 41),
    athletes=30,
    settings=(SettingAhead("practice", 40, 1.0, False, 1230.0, None),),
    baseline=UNKNOWN,
    injuries=None,
    games_missed=None,
    why="no rate is known",
)
NOTHING = np.zeros(1)
SEASON = SeasonAhead(
    *(900, spread(110), spread(130), spread(160), spread(120), spread(70), spread(140)),
    *(spread(150), spread(170), Visible(0.14, 0.115, 0.025)),
)
PRINTER = PlanAhead(
    *(PrintWay.PRINTER, True, 2, 60.0, 13.75, spread(300)),
    MadeAhead(
        QueueAhead(1, 36.0, 4, 0.0),
        *(Percentiles(10.5, 20.5, 30.5), Percentiles(44.5, 63.5, 75.5), 0.125, NOTHING),
    ),
    *(ServedWork(1, 91, 10.25, 14.25, 0.375), 0.21, SEASON),
    *(Fees(500.0, 90.0, 12.0, "USD"), 4, spread(320), spread(330)),
)
WEEKLY = PlanAhead(
    *(PrintWay.WEEKLY, False, None, None, 12.0, spread(280)),
    MadeAhead(QueueAhead(2, 55.0, None, 9.0), None, None, None, NOTHING),
    *(None, 0.17, None, Fees(None, None, None, ""), 4, None, None, "no fee was given"),
)
ANSWER = PitchAnswer(
    summary=Summary("What?", "This.", (), (), Scope(date(2027, 1, 30))),
    options=PitchOptions(seasons=900, seed=77), prospect=Prospect((SOCCER.team, RUGBY.team)),
    is_given=True, sites=("lower leg", "ankle"), sites_per_athlete=4,
    teams=(SOCCER, RUGBY),
    inputs=(
        Input("take-up", 0.6, 0.5, 0.7, "of athletes", "as asked"),
        Input("hours a print", None, None, None, "hours", "none", "no hours are recorded"),
    ),
    effect=Effect(EffectLimits.PEEK_PROOF, 14, 49, 0.59, 0.31, 1.13, 0.375, 0.52),
    absence=AbsenceLaw((3, 9), (0.5, 0.5), 71, 5, 0.0),
    prints=PrintsAhead(
        *(900, spread(210), spread(220), spread(230), spread(240), spread(250)),
        by_week=(WeekAhead(1, spread(260)), WeekAhead(2, spread(270))),
        busiest_week=spread(280),
        busiest_p95=283.5,
        asked=NOTHING, is_first=NOTHING, takers=NOTHING, guards_each=NOTHING,
    ),
    hours=spread(290),
    busiest_hours=spread(300),
    plans=(PRINTER, WEEKLY),
    choice=Choice(PrintWay.PRINTER, "It comes earlier."),
    swings=(
        Swing("effect", "", 0.31, 1.13, 5.25, -1.25),
        Swing("take-up", "of athletes", 0.5, 0.7, 2.5, 3.5),
    ),
    swing_sentence="The effect would change it most.",
    contact="Mechanics alone.",
    plays_per_game=10.0,
    claims=(
        Claim("ready", "Guards were ready.", True, "32 % to 45 %", None, "90 orders", False),
        Claim("hurt", "Guarded ones were hurt less.", False, None, "more injuries", "3", False),
    ),
)  # fmt: skip
