"""Checks that a worked answer is read as it was written down by hand."""

import json
from importlib import import_module
from pathlib import Path

from seasonboard.answers.report import summary_json

WORKED = Path(__file__).parent / "worked"


def worked(question):
    """Return the worked answer of a question."""
    return import_module(f"tests.answers.worked.{question.folder}").ANSWER


def expected(question, suffix):
    """Return what is to be read of it: as `json`, `csv` or `txt`."""
    return (WORKED / f"{question.folder}.{suffix}").read_text("utf-8")


def check_json(question):
    """Check every field of the JSON object, and the order they stand in."""
    answer = worked(question)
    printed = question.report().as_object(answer, question.name)
    summary = summary_json(answer.summary, question.name)
    assert {name: printed.pop(name) for name in summary} == summary
    own = json.loads(expected(question, "json"))
    assert printed == own
    assert list(printed) == list(own)


def check_csv(question):
    """Check every column."""
    lines = question.report().as_csv(worked(question)).splitlines()
    assert lines == expected(question, "csv").splitlines()


def check_text(question):
    """Check what people read under the answer."""
    lines = question.report().as_text(worked(question)).splitlines()
    own = expected(question, "txt").splitlines()
    start = lines.index("") + 1
    assert lines[start : start + len(own)] == own
