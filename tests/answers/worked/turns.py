"""Two turns of two draws: one that waits, with a board's number, and one jumped and fitted."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.turns.parts import Turn, TurnsAnswer
from seasonboard.scope import Scope

THROUGH = date(2026, 9, 20)
WAITS = Turn(
    draw="T02", turn=4, week=2, turn_on=date(2026, 9, 28), come_on=date(2026, 10, 4),
    athlete="A1", name="Ana Reed", team="T1", department="D1", kind="shin", side="both",
    stratum="T1 · back", earlier_injury="yes", drawn_on=date(2026, 9, 18), prints_per_week=3,
    ready_days=5.5, seed=77, board_number="B 12", no_board_reason=None, jumped_on=None,
    jump_reason=None, guard="G7", stage="scanned", made_on=None, fitted_on=None,
    left_on=date(2026, 9, 19),
)  # fmt: skip
JUMPED = Turn(
    draw="T01", turn=8, week=5, turn_on=date(2026, 9, 7), come_on=date(2026, 9, 13),
    athlete="A2", name="Bo Lind", team="T2", department="D2", kind="chest", side="midline",
    stratum="T2 · wing", earlier_injury="no", drawn_on=date(2026, 8, 1), prints_per_week=2,
    ready_days=6.25, seed=11, board_number=None, no_board_reason="no study here",
    jumped_on=date(2026, 8, 20), jump_reason="left early", guard="G3", stage="fitted",
    made_on=date(2026, 8, 21), fitted_on=date(2026, 8, 25), left_on=None,
)  # fmt: skip
ANSWER = TurnsAnswer(Summary("?", "An answer.", (), (), Scope(THROUGH)), (WAITS, JUMPED), THROUGH)
