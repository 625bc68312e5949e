"""Checks that a worked answer is read as it was written down by hand."""

import json
from contextlib import suppress
from functools import cache
from importlib import import_module
from pathlib import Path

from seasonboard.answers.fields import Group, Table, TableChoice
from seasonboard.answers.layout import table as text_table
from seasonboard.answers.report import summary_json

WORKED = Path(__file__).parent / "worked"


def worked(question):
    """Return the worked answer of a question."""
    return import_module(f"tests.answers.worked.{question.folder}").ANSWER


@cache
def expected(question, name):
    """Return what is to be read of it, from one of the files named after its folder."""
    text = (WORKED / f"{question.folder}{name}").read_text("utf-8")
    return json.loads(text) if name.endswith(".json") else text.splitlines()


def check_json(question):
    """Check every field of the JSON object, and the order they stand in."""
    answer, own = worked(question), expected(question, ".json")
    printed = question.report().as_object(answer, question.name)
    summary = summary_json(answer.summary, question.name)
    assert {name: printed.pop(name) for name in summary} == summary
    assert printed == own
    assert list(printed) == list(own)


def check_csv(question):
    """Check every column."""
    lines = question.report().as_csv(worked(question)).splitlines()
    assert lines == expected(question, ".csv")


def check_text(question):
    """Check what people read under the answer."""
    lines = question.report().as_text(worked(question)).splitlines()
    own = expected(question, ".txt")
    start = lines.index("") + 1
    assert lines[start : start + len(own)] == own


def check_tables(question):
    """Check what people read of the columns that are not in the text, on pages and elsewhere."""
    lines = [line for block in other_tables(question) for line in block]
    assert lines == expected(question, "_tables.txt")


CHECKS = (check_json, check_csv, check_text, check_tables)


def other_tables(question):
    """Return every table with headings of which the text does not have all, under its name."""
    answer, report, blocks = worked(question), question.report(), []
    for table, rows, _ in objects(question):
        if not isinstance(table, Table) or is_csv_alone(table, report):
            continue
        fields = [one for one in table._by_name.values() if one.heading is not None]
        is_in_text = any(table is one for one in report.text)
        if not fields or (is_in_text and {*fields} == {*table.read_fields(answer)}):
            continue
        with suppress(AttributeError):  # headed by what it belongs to, it is in the text
            heads = [one.heading_of(answer) for one in fields]
            cells = [[one.read(row) for one in fields] for row in rows]
            blocks.append((f"[{table.name}]", *text_table(heads, cells), ""))
    return list(dict.fromkeys(blocks))


def is_csv_alone(table, report):
    """Say whether a table is read as CSV only: people see none of its headings."""
    return table is report.csv and table not in report.elements


def objects(question):
    """Return every table and group of a report, what it is read from, and its place; each once."""
    answer, report = worked(question), question.report()
    found = {}
    described = [one for one in (report.csv, *report.text) if isinstance(one, Table)]
    for part, rows, place in _objects((*report.elements, *described), [answer], ""):
        known = found.setdefault(id(part), (part, [], place))[1]
        known += [row for row in rows if not any(row is one for one in known)]
    for table in vars(import_module(f"seasonboard.answers.{question.folder}.report")).values():
        if isinstance(table, Table) and id(table) not in found:
            with suppress(AttributeError):  # it is part of another question's answer
                found[id(table)] = (table, list(table.rows(answer)), f".{table.name}")
    return list(found.values())


def parts_in_json(question):
    """Return the tables and groups that the JSON object is made of."""
    return [part for part, *_ in _objects(question.report().elements, [worked(question)], "")]


def _objects(elements, rows, place):
    for one in elements:
        if isinstance(one, TableChoice):
            for table in one.tables:
                inner = [i for row in rows if one.choose(row) is table for i in one.rows(row)]
                yield table, inner, f"{place}.{table.name}"
        elif isinstance(one, Table | Group):
            inner = (
                [item for row in rows for item in one.rows(row) or ()]
                if isinstance(one, Table)
                else [item for item in map(one.of, rows) if item is not None]
            )
            yield one, inner, f"{place}.{one.name}"
            yield from _objects(one.elements, inner, f"{place}.{one.name}")
