"""The forms of a decision and of its being done."""

from collections.abc import Mapping

from seasonboard.entries import Entry
from seasonboard.ui.forms.form import Desk, Field, Form, Values, cells
from seasonboard.ui.forms.shapes import day, label, line, needed_line


def _decision(values: Values, shown: Values) -> Entry:
    row = cells(values, "decision", "decided_on", "department", "text", "due_on", key="decision")
    return Entry(label("decision", values, shown, "decision", "text"), {"decisions": [row]})


def _propose_decision(_values: Values, desk: Desk) -> Mapping[str, str]:
    return {"decision": desk.lists.free_key("decisions"), "decided_on": desk.day()}


DECISION = Form(
    "A decision",
    (
        Field("text", "decision", is_required=True),
        line("department", "department", "departments"),
        day("due_on", "due"),
        day("decided_on", "decided", needed=True),
        Field("decision", "key", is_required=True),
    ),
    _decision,
    _propose_decision,
    key="decision",
)


def _done(values: Values, shown: Values) -> Entry:
    row = cells(values, "decision", "done_on")
    return Entry(label("done", values, shown, "decision"), {"decisions": [row]})


def _propose_done(values: Values, desk: Desk) -> Mapping[str, str]:
    return {"done_on": desk.day()} if values.get("decision") else {}


DONE = Form(
    "A decision that is done",
    (
        needed_line("decision", "decision", "open_decisions"),
        day("done_on", "done", needed=True),
    ),
    _done,
    _propose_done,
)
