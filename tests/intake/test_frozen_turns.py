"""A draw is frozen: a later load may say that a turn was jumped, and nothing else of it."""

import pytest

from tests.intake.desk import Desk

FIRST = {
    "draw": "T01", "athlete": "A1", "kind": "shin", "side": "both", "stratum": "T1 · goal",
    "turn": "1", "week": "1", "drawn_on": "2026-08-15", "starts_on": "2026-08-17",
    "prints_per_week": "1", "ready_days": "6.5", "seed": "7", "earlier_injury": "no",
    "board_number": "B 12", "no_board_reason": "", "jumped_on": "", "jump_reason": "",
}  # fmt: skip
SECOND = FIRST | {"athlete": "A2", "stratum": "T1 · defence", "turn": "2", "week": "2"}
BOARD = {"board_number": "", "no_board_reason": "none asks here"}


def csv(*rows: dict[str, str]) -> str:
    """Return the table; rows are changed copies of the two turns."""
    return "\n".join([",".join(FIRST), *(",".join(row.values()) for row in rows)]) + "\n"


TURNS = csv(FIRST, SECOND)


@pytest.mark.parametrize(
    ("second", "column", "words"),
    [
        ({"board_number": ""}, "board_number", "or no_board_reason"),
        ({"no_board_reason": "x"}, "no_board_reason", "one of both"),
        ({"jumped_on": "2026-08-20"}, "jump_reason", "why was it out of turn"),
        ({"jump_reason": "hurry"}, "jumped_on", "is needed where"),
        ({"jumped_on": "2026-08-14", "jump_reason": "hurry"}, "jumped_on", "2026-08-15"),
        ({"week": "1"}, "week", "turn 2 at 1 a week"),
        ({"athlete": "A1", "side": "left"}, "athlete", "nobody is drawn twice"),
        ({"seed": "8"}, "seed", "differs within draw T01"),
        ({"side": "midline"}, "side", "left, right or both"),
        ({"athlete": "A9"}, "athlete", ""),
        ({"turn": "1", "week": "1"}, "turn", "given twice in draw T01"),
    ],
)
def test_a_draw_that_cannot_be_is_refused(loaded, second, column, words) -> None:
    problems = loaded.refusal(turns=csv(FIRST, SECOND | second)).problems
    assert column in {one.column for one in problems}
    assert words in " ".join(one.expected for one in problems)


@pytest.mark.parametrize(
    ("cells", "column", "words"),
    [
        ({"prints_per_week": "0"}, "prints_per_week", "1 or more"),
        ({"turn": "0", "week": "0"}, "turn", "1 or more"),
        ({"starts_on": "2026-08-14"}, "starts_on", "before the day of the draw"),
        ({"prints_per_week": "x"}, "prints_per_week", ""),
        ({"seed": "many"}, "seed", ""),
    ],
)
def test_numbers_and_days_that_cannot_be_are_refused(loaded, cells, column, words) -> None:
    problems = loaded.refusal(turns=csv(FIRST | cells)).problems
    assert {one.column for one in problems} == {column}
    assert words in problems[0].expected


def test_a_frozen_turn_takes_a_jump_with_its_reason_and_nothing_else(own: Desk) -> None:
    assert own.load(turns=TURNS).tables[0].new == 2
    assert own.plan(turns=TURNS).is_empty
    problem = own.problem(turns=csv(FIRST | {"earlier_injury": "yes"}))
    assert problem.column == "earlier_injury"
    assert "frozen: draw T01 has no" in problem.expected
    jump = {"jumped_on": "2026-08-20", "jump_reason": "left early"}
    plan = own.load(turns=csv(SECOND | jump))
    assert [(c.column, c.new) for c in plan.summary.changes] == [
        ("jumped_on", "2026-08-20"),
        ("jump_reason", "left early"),
    ]
    assert own.store.read("store/turns")["jump_reason"].to_list() == [None, "left early"]


@pytest.mark.parametrize(
    ("other", "words"),
    [
        ({"athlete": "A3", "turn": "3", "week": "3"}, "has no turn for this guard in draw T01"),
        ({"draw": "T02", "side": "left"}, "in draw T01; nobody is drawn twice"),
    ],
)
def test_nobody_comes_into_a_frozen_draw_and_nobody_is_drawn_twice(own, other, words) -> None:
    own.load(turns=TURNS)
    problem = own.problem(turns=csv(FIRST | other))
    assert problem.column == "athlete"
    assert words in problem.expected
    fine = FIRST | {"draw": "T02", "athlete": "A3", "drawn_on": "2026-08-16"} | BOARD
    assert own.plan(turns=csv(fine)).tables[0].new == 1
