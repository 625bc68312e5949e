"""What holds of every answer as it is told, which comes from its description alone."""

import csv
import io
import json
from collections.abc import Iterable, Iterator

import pytest

from seasonboard.answers.field_output import csv_columns
from seasonboard.answers.fields import Element, Field, Group, Privacy, Table
from seasonboard.answers.questions import QUESTIONS
from seasonboard.answers.source import AnswerSource
from seasonboard.store.store import open_store

EVERY = pytest.mark.parametrize("question", QUESTIONS, ids=[one.name for one in QUESTIONS])


def fields_of(elements: Iterable[Element]) -> Iterator[Field]:
    for one in elements:
        if isinstance(one, Field):
            yield one
        else:
            yield from fields_of(one.elements)


def nulls_without_why(elements: Iterable[Element], printed: dict) -> Iterator[str]:
    """Yield what is null, is not optional, and has no `why` (`FIELD_why`) beside it."""
    for one in elements:
        if isinstance(one, Group) and one.in_json:
            inner = printed if not one.name else printed.get(one.name)
            if inner is not None:
                yield from (f"{one.name}.{name}" for name in nulls_without_why(one.elements, inner))
        elif isinstance(one, Table):
            if one.name not in printed and one.optional:
                continue
            if printed[one.name] is None and not printed.get("why"):
                yield one.name
            for row in printed[one.name] or ():
                yield from (f"{one.name}.{name}" for name in nulls_without_why(one.elements, row))
        elif one.in_json and not one.name.endswith("why") and printed[one.name] is None:
            has_why = printed.get("why") or printed.get(f"{one.name}_why")
            if not (one.optional or has_why):
                yield one.name


@pytest.fixture(scope="module")
def sample_board(sample_store) -> Iterator[AnswerSource]:
    with open_store(sample_store) as store:
        yield AnswerSource(store, "the sample")


@EVERY
def test_every_figure_says_what_it_is(question):
    for one in fields_of(question.report().elements):
        assert one.meaning or not (one.in_json or one.in_csv), one.name


@EVERY
def test_what_is_null_has_its_reason_beside_it(question, sample_board):
    report = question.report()
    answer = sample_board.ask(question, sample_board.opening_scope())
    printed = json.loads(report.as_json(answer, question.name))
    assert set(nulls_without_why(report.elements, printed)) == set()


@EVERY
def test_the_csv_has_a_column_for_each_field_of_its_table(question, sample_board):
    report = question.report()
    answer = sample_board.ask(question, sample_board.opening_scope())
    head, *rows = csv.reader(io.StringIO(report.as_csv(answer)))
    assert head == [name for name, _ in csv_columns(report.csv.elements)]
    assert len(head) == len(set(head))
    assert len(rows) == len(list(report.csv.rows(answer)))


@EVERY
def test_names_stand_only_in_fields_that_say_so(question, sample_board):
    names = set(sample_board.identities().names)
    report = question.report()
    answer = sample_board.ask(question, sample_board.opening_scope())
    for table in (one for one in report.elements if isinstance(one, Table)):
        plain = [
            one for one in table.elements if isinstance(one, Field) and one.privacy is Privacy.PLAIN
        ]
        for row in table.rows(answer) or ():
            assert not {str(one.get(row)) for one in plain} & names
