"""Every field of an answer is read from where it says: of worked answers, no two values alike."""

from itertools import combinations, pairwise

import pytest

from seasonboard.answers.fields import Field, Table, machine_value
from seasonboard.answers.questions import QUESTIONS
from tests.answers import reading_worked


@pytest.fixture(params=QUESTIONS, ids=lambda question: question.name)
def question(request):
    return request.param


@pytest.mark.parametrize("check", reading_worked.CHECKS)
def test_every_field_is_read_from_where_it_says_under_its_name(question, check):
    check(question)


def test_no_two_fields_beside_each_other_hold_the_same(question):
    """So the worked answer notices when two of them are swapped."""
    answer = reading_worked.worked(question)
    read = {0: (question.report().elements, "", [answer])}
    for part, rows, place in reading_worked.objects(question):
        read.setdefault(id(part.elements), (part.elements, place, []))[-1].extend(rows)
    alike = {
        f"{place}: {one.name}, {other.name}"
        for elements, place, rows in read.values()
        for one, other in combinations(
            [e for e in elements if isinstance(e, Field) and e.in_json], 2
        )
        if all(machine_value(one.get(row)) == machine_value(other.get(row)) for row in rows)
    }
    assert alike == set()


def with_side(headings):
    """Yield headings with the side they belong to, where a table has a guarded and a bare one."""
    side = ""
    for heading in headings:
        side = heading if heading in {"guarded", "bare"} else side
        yield f"{side} {heading}".strip()


def test_no_two_headings_of_a_table_are_the_same(question):
    """An interval belongs to the figure at its left, and may be headed like another."""
    answer = reading_worked.worked(question)
    tables = [part for part in question.report().text if isinstance(part, Table)]
    for table in tables:
        fields = table.read_fields(answer)
        headings = list(with_side(one.heading_of(answer) for one in fields))
        pairs = list(pairwise(headings))
        assert len(set(pairs)) == len(pairs)
        others = [heading for heading in headings if not heading.endswith("interval")]
        assert len(set(others)) == len(others)
