"""Every field of an answer is read from where it says: of worked answers, no two values alike."""

from itertools import combinations, pairwise

import pytest

from seasonboard.answers.fields import Field, Group, Table, TableChoice, machine_value
from seasonboard.answers.questions import QUESTIONS
from tests.answers import reading_worked

WORKED = [one for one in QUESTIONS if (reading_worked.WORKED / f"{one.folder}.json").exists()]


@pytest.fixture(params=WORKED, ids=lambda question: question.name)
def question(request):
    return request.param


def test_json_has_every_field_under_its_name(question):
    reading_worked.check_json(question)


def test_csv_has_every_column_under_its_name(question):
    reading_worked.check_csv(question)


def test_people_read_the_same(question):
    reading_worked.check_text(question)


def objects(elements, rows, place=""):
    """Yield the elements of every object with the rows they are read from, and its place."""
    yield elements, rows, place
    for one in elements:
        if isinstance(one, TableChoice):
            for table in one.tables:
                inner = [i for row in rows if one.choose(row) is table for i in one.rows(row)]
                yield from objects(table.elements, inner, f"{place}.{table.name}")
        elif isinstance(one, Table):
            inner = [item for row in rows for item in one.rows(row) or ()]
            yield from objects(one.elements, inner, f"{place}.{one.name}")
        elif isinstance(one, Group):
            inner = [item for item in map(one.of, rows) if item is not None]
            yield from objects(one.elements, inner, f"{place}.{one.name}")


def test_no_two_fields_beside_each_other_hold_the_same(question):
    """So the worked answer notices when two of them are swapped."""
    read = {}
    for elements, rows, place in objects(
        question.report().elements, [reading_worked.worked(question)]
    ):
        read.setdefault(id(elements), (elements, place, []))[-1].extend(rows)
    alike = {
        f"{place}: {one.name}, {other.name}"
        for elements, place, rows in read.values()
        for one, other in combinations(
            [e for e in elements if isinstance(e, Field) and e.in_json], 2
        )
        if all(machine_value(one.get(row)) == machine_value(other.get(row)) for row in rows)
    }
    assert alike == set()


def test_no_two_headings_of_a_table_are_the_same(question):
    """An interval belongs to the figure at its left, and may be headed like another."""
    answer = reading_worked.worked(question)
    tables = [part for part in question.report().text if isinstance(part, Table)]
    for table in tables:
        headings = [one.heading_of(answer) for one in table.read_fields(answer)]
        pairs = list(pairwise(headings))
        assert len(set(pairs)) == len(pairs)
        others = [heading for heading in headings if not heading.endswith("interval")]
        assert len(set(others)) == len(others)
