"""A pitch of two teams, one of them unknown."""

from datetime import date

import numpy as np

from seasonboard.answers.base import Summary
from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.pitch.parts import (
    Baseline,
    Basis,
    Cost,
    Effect,
    EffectLimits,
    Input,
    PitchAnswer,
    PitchOptions,
    PrintPlan,
    SettingAhead,
    Swing,
    TeamAhead,
)
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.scope import Scope
from seasonboard.stats.absence_duration import AbsenceLaw
from seasonboard.stats.prints_ahead import Percentiles, PrintsAhead, WeekAhead
from seasonboard.stats.season_ahead import SeasonAhead, Spread, Visible


def spread(n):
    return Spread(n + 0.25, n + 0.5, n - 1.25, n + 2.25, n - 3.25, n + 4.25)


RATE = Baseline(
    *("game", Basis.PUBLISHED, 1.5, 1.25, 1.75, 801, 802, 0.3, 803.0), "published, games: a source"
)
UNKNOWN = Baseline("practice", Basis.NOT_KNOWN, *(None,) * 7, "none", "too few injuries")
SOCCER = TeamAhead(
    ProspectTeam("soccer", "women", 27, (("keeper", 3), ("field", 24)), 22, 66),
    athletes=26,
    settings=(SettingAhead("game", 21, 0.75, True, 409.5, RATE, 6.25),),
    injuries=6.5,
    games_missed=13.75,
)
RUGBY = TeamAhead(
    ProspectTeam("rugby", "men", 31, (), 10, 41),
    athletes=30,
    settings=(SettingAhead("practice", 40, 1.0, False, 1230.0, UNKNOWN, None),),
    injuries=None,
    games_missed=None,
    why="no rate is known",
)
ANSWER = PitchAnswer(
    summary=Summary("What?", "This.", (), (), Scope(date(2027, 1, 30))),
    options=PitchOptions(seasons=900, seed=77), prospect=Prospect((SOCCER.team, RUGBY.team)),
    is_given=True, sites=("lower leg", "ankle"), sites_per_athlete=4, athletes=56,
    teams=(SOCCER, RUGBY),
    inputs=(
        Input("take-up", 0.6, 0.5, 0.7, "of athletes", "as asked"),
        Input("hours a print", None, None, None, "hours", "none", "no hours are recorded"),
    ),
    guarded_share=0.21,
    effect=Effect(EffectLimits.PEEK_PROOF, 14, 49, 0.59, 0.31, 1.13, 0.375, 0.52),
    absence=AbsenceLaw((3, 9), (0.5, 0.5), 71, 5, 0.0),
    ahead=SeasonAhead(
        *(900, spread(110), spread(130), spread(160), spread(120), spread(70), spread(140)),
        *(spread(150), spread(170), Visible(0.14, 0.115, 0.025)),
    ),
    plan=PrintPlan(
        made_by="an allotment of 12 prints a week",
        week_capacity=12.0,
        hours_per_print=8.75,
        ahead=PrintsAhead(
            *(900, spread(210), spread(220), spread(230), spread(240), spread(250)),
            by_week=(WeekAhead(1, spread(260)), WeekAhead(2, spread(270))),
            busiest_week=spread(280),
            wait_hours=Percentiles(240.0, 480.0, 720.0),
            turnaround_days=Percentiles(44.0, 63.0, 75.0),
            covered=np.zeros(1),
        ),
        hours=spread(290),
        busiest_hours=spread(300),
        needed_per_week=80,
    ),
    cost=Cost(85.0, spread(310), spread(320), spread(330)),
    swings=(
        Swing("effect", "", 0.31, 1.13, 5.25, -1.25),
        Swing("take-up", "of athletes", 0.5, 0.7, 2.5, 3.5),
    ),
    swing_sentence="The effect would change it most.",
    contact="Mechanics alone.",
    claims=(
        Claim("ready", "Guards were ready.", True, "32 % to 45 %", None, "90 orders", False),
        Claim("hurt", "Guarded ones were hurt less.", False, None, "more injuries", "3", False),
    ),
)  # fmt: skip
