"""A question fixed in advance never changes: not by a load, a form or a bundle."""

import pytest

from seasonboard.entries import Entry
from seasonboard.errors import IntakeError
from seasonboard.store.intake.plan import plan_entry
from seasonboard.store.intake.undo import plan_undo
from tests.intake.desk import Desk

HEADS = "asked_on,kind,area,outcome,setting,horizon,comparison\n"
FIXED = HEADS + "2026-08-01,wrist,,time loss,both,8,same session\n"


@pytest.fixture
def fixed(own: Desk) -> Desk:
    own.load(questions=FIXED)
    return own


def test_the_same_again_is_the_same_and_another_day_is_another_question(fixed: Desk) -> None:
    assert fixed.plan(questions=FIXED).is_empty
    later = fixed.plan(questions=FIXED.replace("08-01", "08-02"))
    assert sum(one.new for one in later.tables) == 1


@pytest.mark.parametrize(
    ("column", "row"),
    [
        ("outcome", "2026-08-01,wrist,,any,both,8,same session\n"),
        ("area", "2026-08-01,wrist,wrist,time loss,both,8,same session\n"),
        ("horizon", "2026-08-01,wrist,,time loss,both,,same session\n"),
        ("comparison", "2026-08-01,wrist,,time loss,both,8,drawn turns\n"),
    ],
)
def test_a_load_that_would_change_it_is_refused_in_words(
    fixed: Desk, column: str, row: str
) -> None:
    problem = fixed.problem(questions=HEADS + row)
    assert problem.column == column
    assert "would change the question on wrist guards fixed on 2026-08-01" in problem.expected
    assert "A fixed question never changes" in problem.expected


def test_so_is_a_form(fixed: Desk) -> None:
    row = {"asked_on": "2026-08-01", "kind": "wrist", "outcome": "any"}
    with pytest.raises(IntakeError, match="fixed question never changes"):
        plan_entry(fixed.store, Entry("question", {"questions": [row]}))


def test_an_empty_cell_is_told_as_empty(own: Desk) -> None:
    own.load(questions=FIXED.replace(",8,", ",,"))
    assert "whose horizon is empty" in own.problem(questions=FIXED).expected


def test_taking_its_load_back_is_told(fixed: Desk) -> None:
    last = plan_undo(fixed.store)
    assert last.warning == (
        "1 question fixed in advance goes, and no longer counts as asked before."
    )
