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


def ends(n):
    return {
        "median": n + 0.25,
        "mean": n + 0.5,
        "low_80": n - 1.25,
        "high_80": n + 2.25,
        "low_95": n - 3.25,
        "high_95": n + 4.25,
    }


def csv_ends(n):
    return ",".join(str(value) for value in ends(n).values())


RATE = Baseline(
    *("game", Basis.PUBLISHED, 1.5, 1.25, 1.75, 801, 802, 0.3, 803.0),
    "published, games: a source",
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
    options=PitchOptions(seasons=900, seed=77),
    prospect=Prospect((SOCCER.team, RUGBY.team)),
    is_given=True,
    sites=("lower leg", "ankle"),
    sites_per_athlete=4,
    athletes=56,
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
)

_NO_RATE = {
    **dict.fromkeys(("rate", "low", "high", "injuries", "exposures", "share")),
    "source": "none",
    "why": "too few injuries",
}
OBJECT = {
    "seasons": 900,
    "seed": 77,
    "is_given": True,
    "athletes": 56,
    "areas": ["lower leg", "ankle"],
    "sites_per_athlete": 4,
    "teams": [
        {
            "sport": "soccer",
            "sex": "women",
            "athletes": 26,
            "groups": [{"group": "keeper", "athletes": 3}, {"group": "field", "athletes": 24}],
            "games": 22,
            "practices": 66,
            "injuries": 6.5,
            "games_missed": 13.75,
            "settings": [
                {
                    "setting": "game",
                    "sessions": 21,
                    "taking_part": 0.75,
                    "is_own_taking_part": True,
                    "exposures": 409.5,
                    "injuries": 6.25,
                    "baseline": {
                        "setting": "game",
                        "basis": "published",
                        "rate": 1.5,
                        "low": 1.25,
                        "high": 1.75,
                        "injuries": 801,
                        "exposures": 802,
                        "share": 0.3,
                        "source": "published, games: a source",
                    },
                }
            ],
        },
        {
            "sport": "rugby",
            "sex": "men",
            "athletes": 30,
            "groups": [],
            "games": 10,
            "practices": 41,
            "injuries": None,
            "games_missed": None,
            "settings": [
                {
                    "setting": "practice",
                    "sessions": 40,
                    "taking_part": 1.0,
                    "is_own_taking_part": False,
                    "exposures": 1230.0,
                    "injuries": None,
                    "baseline": {"setting": "practice", "basis": "not known", **_NO_RATE},
                    "why": "too few injuries",
                }
            ],
            "why": "no rate is known",
        },
    ],
    "inputs": [
        {
            "name": "take-up",
            "value": 0.6,
            "low": 0.5,
            "high": 0.7,
            "unit": "of athletes",
            "source": "as asked",
        },
        {
            "name": "hours a print",
            "value": None,
            "low": None,
            "high": None,
            "unit": "hours",
            "source": "none",
            "why": "no hours are recorded",
        },
    ],
    "guarded_share": 0.21,
    "effect": {
        "limits": "peek-proof",
        "injuries_guarded": 14,
        "injuries_unguarded": 49,
        "ratio": 0.59,
        "low": 0.31,
        "high": 1.13,
        "std_error": 0.375,
        "ratio_needed": 0.52,
    },
    "absence": {"injuries": 71, "still_open": 5, "mean_days": 6.0},
    "season": {
        "injuries": ends(110),
        "injuries_with": ends(120),
        "averted": ends(70),
        "games_missed": ends(130),
        "games_missed_with": ends(140),
        "games_kept": ends(150),
        "days_lost": ends(160),
        "days_kept": ends(170),
        "visible_difference": {"chance": 0.14, "fewer": 0.115, "more": 0.025},
    },
    "prints": {
        "made_by": "an allotment of 12 prints a week",
        "week_capacity": 12.0,
        "hours_per_print": 8.75,
        "needed_per_week": 80,
        "first": ends(210),
        "remakes": ends(220),
        "later": ends(230),
        "all": ends(240),
        "busiest_week": ends(280),
        "hours": ends(290),
        "busiest_hours": ends(300),
        "by_week": [{"week": 1, **ends(260)}, {"week": 2, **ends(270)}],
        "wait_hours": {"median": 240.0, "p80": 480.0, "p95": 720.0},
        "turnaround_days": {"median": 44.0, "p80": 63.0, "p95": 75.0},
    },
    "cost": {
        "price": 85.0,
        "guards": ends(310),
        "total": ends(320),
        "per_game_kept": ends(330),
    },
    "sensitivity": [
        {
            "input": "effect",
            "unit": "",
            "low": 0.31,
            "high": 1.13,
            "kept_at_low": 5.25,
            "kept_at_high": -1.25,
        },
        {
            "input": "take-up",
            "unit": "of athletes",
            "low": 0.5,
            "high": 0.7,
            "kept_at_low": 2.5,
            "kept_at_high": 3.5,
        },
    ],
    "sensitivity_sentence": "The effect would change it most.",
    "contact": "Mechanics alone.",
    "claims": [
        {
            "topic": "ready",
            "sentence": "Guards were ready.",
            "is_supported": True,
            "interval": "32 % to 45 %",
            "missing": None,
            "rests_on": "90 orders",
            "is_for_outsiders": False,
            "why": "nothing is missing",
        },
        {
            "topic": "hurt",
            "sentence": "Guarded ones were hurt less.",
            "is_supported": False,
            "interval": None,
            "missing": "more injuries",
            "rests_on": "3",
            "is_for_outsiders": False,
            "why": "nothing is known of it",
        },
    ],
}
CSV = [
    "part,figure,median,mean,low_80,high_80,low_95,high_95",
    f"season,injuries,{csv_ends(110)}",
    f"season,injuries_with,{csv_ends(120)}",
    f"season,averted,{csv_ends(70)}",
    f"season,games_missed,{csv_ends(130)}",
    f"season,games_missed_with,{csv_ends(140)}",
    f"season,games_kept,{csv_ends(150)}",
    f"season,days_lost,{csv_ends(160)}",
    f"season,days_kept,{csv_ends(170)}",
    f"prints,first,{csv_ends(210)}",
    f"prints,remakes,{csv_ends(220)}",
    f"prints,later,{csv_ends(230)}",
    f"prints,all,{csv_ends(240)}",
    f"prints,busiest_week,{csv_ends(280)}",
    f"prints,hours,{csv_ends(290)}",
    f"prints,busiest_hours,{csv_ends(300)}",
    f"week 1,all,{csv_ends(260)}",
    f"week 2,all,{csv_ends(270)}",
    f"cost,total,{csv_ends(320)}",
    f"cost,per_game_kept,{csv_ends(330)}",
    "team: women's soccer,injuries,,6.5,,,,",
    "team: women's soccer,games_missed,,13.75,,,,",
    "team: men's rugby,injuries,,,,,,",
    "team: men's rugby,games_missed,,,,,,",
]
TEXT = """
in one season                    median  80 % of seasons  95 % of seasons
injuries without guards             110       109 to 112       107 to 114
injuries with guards                120       119 to 122       117 to 124
injuries averted                     70         69 to 72         67 to 74
games missed without guards         130       129 to 132       127 to 134
games missed with guards            140       139 to 142       137 to 144
games kept                          150       149 to 152       147 to 154
days lost in the season without     160       159 to 162       157 to 164
days kept                           170       169 to 172       167 to 174

The effect:
  ratio: 0.59 times as often hurt in the same sessions (95 % peek-proof confidence interval:
    0.31 to 1.13); 14 guarded and 49 bare injuries
  guarded: 21 % of exposures: athletes with a guard × the season left once it is fitted ×
    sessions worn
  visible: 14 % of seasons there would show a difference: fewer injuries with guards 12 %, more
    2 %

team            athletes  games  practices  injuries  missed  rests on
women's soccer        26     22         66       6.5    13.8  published
men's rugby           30     10         41         –       –  not known

prints                      median  80 % of seasons  95 % of seasons
first guards                   210       209 to 212       207 to 214
remakes within 30 days         220       219 to 222       217 to 224
later prints                   230       229 to 232       227 to 234
all prints                     240       239 to 242       237 to 244
prints in the busiest week     280       279 to 282       277 to 284
printer hours                  290       289 to 292       287 to 294
printer hours in that week     300       299 to 302       297 to 304

Prints and cost:
  made by: an allotment of 12 prints a week: 12 a week; 80 prints a week would hold the busiest
    week of 19 in 20 seasons
  takes: from requested to fitted a median of 44 days, 80 % within 63, 95 % within 75; of it a
    first guard waits for its print a median of 10 days, 80 % within 20, 95 % within 30
  cost: at 85 a guard, remakes free: 320 in all (95 %: 317 to 324); a game kept costs 330 (80 %:
    329 to 332; 95 %: 327 to 334)

The effect would change it most.
one at a time  low end  high end  games kept at low  at high
effect            0.31       1.1                5.2     −1.2
take-up           50 %      70 %                2.5      3.5

What the plan rests on:
  take-up: 60 % (50 % to 70 %) of athletes; as asked
  hours a print: –; no hours are recorded

Published rates used:
  women's soccer, published, games: a source

May be said:
  + Guards were ready.

May not be said yet:
  – Guarded ones were hurt less. Missing: more injuries.
""".strip().splitlines()
