"""Every field of an answer is read from where it says: of worked answers, no two values alike."""

from importlib import import_module
from importlib.util import find_spec

import pytest

from seasonboard.answers.questions import QUESTIONS
from seasonboard.answers.report import summary_json

WORKED = [one for one in QUESTIONS if find_spec(f"tests.answers.worked.{one.folder}") is not None]


@pytest.fixture(params=WORKED, ids=lambda question: question.name)
def question(request):
    return request.param


@pytest.fixture
def worked(question):
    return import_module(f"tests.answers.worked.{question.folder}")


def test_json_has_every_field_under_its_name(question, worked):
    found = question.report().as_object(worked.ANSWER, question.name)
    summary = summary_json(worked.ANSWER.summary, question.name)
    assert {name: found.pop(name) for name in summary} == summary
    assert found == worked.OBJECT
    assert list(found) == list(worked.OBJECT)


def test_csv_has_every_column_under_its_name(question, worked):
    assert question.report().as_csv(worked.ANSWER).splitlines() == worked.CSV


def test_people_read_the_same(question, worked):
    lines = question.report().as_text(worked.ANSWER).splitlines()
    start = lines.index("") + 1
    assert lines[start : start + len(worked.TEXT)] == worked.TEXT
