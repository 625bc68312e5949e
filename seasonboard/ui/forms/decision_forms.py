"""The forms of a decision and of its being done."""

from collections.abc import Mapping

from seasonboard.entries import Entry
from seasonboard.ui.forms.form import Field, Form, FormLists, Values, cells
from seasonboard.ui.forms.shapes import day, label, line, needed_line


def _decision(values: Values, shown: Values) -> Entry:
    row = cells(values, "decision", "decided_on", "department", "text", "due_on", key="decision")
    return Entry(label("decision", values, shown, "decision", "text"), {"decisions": [row]})


def _propose_decision(_values: Values, form_lists: FormLists) -> Mapping[str, str]:
    return {"decision": form_lists.lists.free_key("decisions"), "decided_on": form_lists.day()}


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


def _propose_done(values: Values, form_lists: FormLists) -> Mapping[str, str]:
    return {"done_on": form_lists.day()} if values.get("decision") else {}


DONE = Form(
    "A decision that is done",
    (
        needed_line("decision", "decision", "open_decisions"),
        day("done_on", "done", needed=True),
    ),
    _done,
    _propose_done,
)
