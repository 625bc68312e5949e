"""Two guards of a lot, one that is done; and two things that guards were made of."""

from datetime import date

import polars as pl

from seasonboard.answers.base import Summary
from seasonboard.answers.recall.parts import RecallAnswer
from seasonboard.scope import Scope

GUARDS = pl.DataFrame(
    [
        {
            "guard": "G7",
            "name": "Ana Reed",
            "team": "T1",
            "kind": "shin",
            "side": "left",
            "purpose": "return",
            "state": "in use",
            "next_game_on": date(2026, 9, 19),
            "sessions_worn": 21,
            "last_worn_on": date(2026, 9, 12),
            "attention": "19 sessions worn",
            "to_do": "inspect",
            "due_on": date(2026, 9, 21),
            "progress": "to be done",
            "done_on": None,
            "lot": "PA12-03",
            "printer": "bench 2",
            "profile": "fine",
            "material": "PA12",
            "model_version": "v4",
            "fitted_on": date(2026, 8, 3),
            "decision": "D05",
            "department": "south",
            "athlete": "A1",
        },
        {
            "guard": "G9",
            "name": "Cy Moss",
            "team": "T3",
            "kind": "thumb",
            "side": "both",
            "purpose": "preventive",
            "state": "retired",
            "next_game_on": None,
            "sessions_worn": 4,
            "last_worn_on": date(2026, 9, 2),
            "attention": "",
            "to_do": "replace",
            "due_on": date(2026, 9, 20),
            "progress": "done",
            "done_on": date(2026, 9, 16),
            "lot": "PA12-04",
            "printer": "N printer",
            "profile": "fast",
            "material": "PA11",
            "model_version": "v5",
            "fitted_on": date(2026, 8, 4),
            "decision": "D06",
            "department": "north",
            "athlete": "A3",
        },
    ]
)
PARTS = pl.DataFrame(
    [
        {"part": "lot", "made_of": "lot PA12-03", "guards": 14, "fitted": 13, "remade": 2},
        {"part": "printer", "made_of": "printer bench 2", "guards": 40, "fitted": 31, "remade": 5},
    ]
)
ANSWER = RecallAnswer(Summary("?", "An answer.", (), (), Scope(date(2026, 9, 14))), GUARDS, PARTS)
