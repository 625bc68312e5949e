"""No two fields of an answer can change places without a check of the worked answer failing."""

import pytest

from seasonboard.answers import questions
from tests.answers.reading_worked import CHECKS
from tests.mutations import swaps


@pytest.mark.long
@pytest.mark.parametrize("question", questions.QUESTIONS, ids=lambda question: question.name)
def test_every_swap_is_noticed(question):
    assert swaps.swaps_of(question).survivors == []


def test_without_a_check_every_swap_survives_and_the_fields_stand_where_they_stood(monkeypatch):
    with monkeypatch.context() as patch:
        patch.setattr(swaps, "CHECKS", ())
        found = swaps.swaps_of(questions.CHECKS)
    assert len(found.survivors) == found.getters + found.headings > 0
    for check in CHECKS:
        check(questions.CHECKS)
