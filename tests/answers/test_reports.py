"""What holds of every answer as it is told, which comes from its description alone."""

import csv
import io
import json
from collections.abc import Iterable, Iterator
from functools import cache

import pytest

from seasonboard.answers.field_output import csv_columns
from seasonboard.answers.fields import Element, Field, Privacy, Table
from seasonboard.answers.questions import QUESTIONS
from tests.answers.wording import nulls_not_optional

EVERY = pytest.mark.parametrize("question", QUESTIONS, ids=[one.name for one in QUESTIONS])


def fields_of(elements: Iterable[Element]) -> Iterator[Field]:
    for one in elements:
        if isinstance(one, Field):
            yield one
        else:
            yield from fields_of(one.elements)


@pytest.fixture(scope="module")
def answer_of(sample):
    """Give the answer to a question of the sample season; each is asked once."""
    return cache(lambda question: sample.ask(question, sample.opening_scope()))


@EVERY
def test_every_figure_says_what_it_is(question):
    for one in fields_of(question.report().elements):
        assert one.meaning or not (one.in_json or one.in_csv), one.name


@EVERY
def test_what_is_null_has_its_reason_beside_it(question, answer_of):
    report = question.report()
    answer = answer_of(question)
    printed = json.loads(report.as_json(answer, question.name))
    assert set(nulls_not_optional(report.elements, printed)) == set()


@EVERY
def test_the_csv_has_a_column_for_each_field_of_its_table(question, answer_of):
    report = question.report()
    answer = answer_of(question)
    head, *rows = csv.reader(io.StringIO(report.as_csv(answer)))
    assert head == [name for name, _ in csv_columns(report.csv.elements)]
    assert len(head) == len(set(head))
    assert len(rows) == len(list(report.csv.rows(answer)))


@EVERY
def test_names_stand_only_in_fields_that_say_so(question, sample, answer_of):
    names = set(sample.identities().names)
    report = question.report()
    answer = answer_of(question)
    for table in (one for one in report.elements if isinstance(one, Table)):
        plain = [
            one for one in table.elements if isinstance(one, Field) and one.privacy is Privacy.PLAIN
        ]
        for row in table.rows(answer) or ():
            assert not {str(one.get(row)) for one in plain} & names
