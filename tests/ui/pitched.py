"""A plan for the stand-in: small frames, and the real rules of the pitch."""

from functools import cache
from typing import TYPE_CHECKING

import polars as pl

from seasonboard.answers.claims.answer import claims
from seasonboard.answers.compare.answer import compare
from seasonboard.answers.pitch.answer import Evidence, basis_of, planned, refuse
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.answers.questions import REMAKES, TAKE_UP, TURNAROUND
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.take_up.parts import TakeUpAnswer
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.scope import Scope, ScopeValues
from tests.reused import ReusedStore

if TYPE_CHECKING:
    from tests.ui.stand_in import Frames

_RATES = ("department", "sport", "sex", "setting", "area", "sites", "injuries", "exposures")
_FRAMES = {
    "pitch/baseline": pl.DataFrame(
        [
            ("SW", "soccer", "women", setting, "lower leg", 2, injuries, exposures)
            for setting, injuries, exposures in (("game", 14, 900), ("practice", 12, 2500))
        ],
        schema=_RATES,
        orient="row",
    ),
    "games/per_game": pl.DataFrame({"with_plays": [40], "plays": [800]}),
    "pitch/absences": pl.DataFrame(
        {
            "days_lost": [3, 9, 30],
            "returned": [6, 8, 4],
            "still_open": [0, 0, 1],
            "in_sessions": [6, 7, 5],
        }
    ),
    "pitch/taking_part": pl.DataFrame(
        [("soccer", "game", 20, 520, 380), ("soccer", "practice", 60, 1560, 1400)],
        schema=("sport", "setting", "sessions", "places", "took_part"),
        orient="row",
    ),
    "pitch/served": pl.DataFrame(
        [
            ("lacrosse", "women", 1, 28.0, 16.0, 50.0, 14.0),
            ("soccer", "women", 2, 26.0, 20.0, 60.0, 15.0),
        ],
        schema=("sport", "sex", "team_seasons", "athletes", "games", "practices", "weeks"),
        orient="row",
    ),
    "pitch/making": pl.DataFrame(
        {"plan": ["weekly allotment"] * 3, "hours": [100, 200, 300], "orders": [10, 20, 5]}
    ),
    "releases/plans": pl.DataFrame({"plan": ["weekly allotment"], "departments": [2]}),
    "pitch/prints": pl.DataFrame(
        {"athletes": [30], "guards": [33], "timed": [33], "print_hours": [8.0]}
    ),
}


@cache
def of_nothing() -> tuple[TurnaroundAnswer, TakeUpAnswer, RemakesAnswer]:
    """What a store without a record says of turnaround, take-up and remakes."""
    with ReusedStore() as store:
        board = AnswerSource(store, "nothing")
        scope = board.opening_scope()
        return tuple(board.ask(one, scope) for one in (TURNAROUND, TAKE_UP, REMAKES))


def pitch_of(
    reader: "Frames", scope: Scope, known: ScopeValues, options: PitchOptions
) -> PitchAnswer:
    """Plan by the real rules, with few simulated seasons."""
    refuse(scope, options)
    compared = compare(reader, scope, known)
    timed, taken, remade = of_nothing()
    found = claims(known, compare=compared, remakes=remade, take_up=taken)
    return planned(
        basis_of(Evidence(compared, timed, taken, remade, found, _FRAMES, ("lower leg",))),
        scope,
        known,
        options,
    )
