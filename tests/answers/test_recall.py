"""What Recall says: of a lot, of guards outside the scope, and of a department's own rule."""

import pytest

from seasonboard.answers.questions import RECALL
from seasonboard.answers.recall.parts import RecallOptions
from seasonboard.errors import ScopeError
from seasonboard.scope import read_scope
from tests.queries.build import department
from tests.queries.test_recall import season


def recalled(board, made, lot="", **parts):
    this = board(made)
    scope = read_scope(parts, this.scope_values)
    return this.ask(RECALL, scope, RecallOptions(lot=lot))


def test_a_lot_is_told_by_what_became_of_its_guards(board):
    answer = recalled(board, season(), "7")
    assert answer.summary.answer.startswith(
        "3 guards made of lot 7: 1 in use, 1 on its way, 1 replaced."
    )
    assert sorted(answer.in_hand["guard"]) == ["c", "g-B"]


def test_those_outside_the_scope_are_told_first(board):
    answer = recalled(board, season(), "7", kind="vest")
    assert answer.summary.answer == "No guard made of lot 7."
    assert answer.summary.caveats[0].startswith("3 guards made of the same lie outside the scope")


def test_without_a_lot_those_to_be_looked_at_are_listed_by_the_department_s_rule(board):
    """Two sessions worn are enough here; g-A wore three, but is replaced."""
    answer = recalled(board, season())
    rows = answer.guards.select("guard", "attention").rows()
    assert rows == [("g-B", "2 sessions worn")]
    assert "1 guard to be looked at by the department's own rule." in answer.summary.answer


def test_without_a_rule_nothing_is_due_and_that_is_said(board):
    made = season()
    made.departments = [department("D")]
    answer = recalled(board, made)
    assert answer.guards.is_empty()
    assert "No department has a rule for looking at guards in use." in answer.summary.answer


def test_an_unknown_lot_is_refused_with_those_there_are(board):
    with pytest.raises(ScopeError, match="lot 9") as refused:
        recalled(board, season(), "9")
    assert "lot 7" in refused.value.hint
