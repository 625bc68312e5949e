"""The forms of a decision and of its being done."""

from collections.abc import Mapping
from dataclasses import replace

from seasonboard.ui.forms.form import FormLists, FormValues, InputForm
from seasonboard.ui.forms.stored_fields import stored_field, stored_fields


def _propose_decision(_values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    return {"decision": form_lists.lists.free_key("decisions"), "decided_on": form_lists.day()}


DECISION = InputForm(
    "A decision",
    stored_fields("decisions", "text", "department", "due_on", "decided_on", "decision"),
    "decision",
    named_by=("decision", "text"),
    propose=_propose_decision,
    key="decision",
)


def _propose_done(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    return {"done_on": form_lists.day()} if values.get("decision") else {}


DONE = InputForm(
    "A decision that is done",
    (
        stored_field("decisions", "decision", "open_decisions"),
        replace(stored_field("decisions", "done_on"), is_required=True),
    ),
    "done",
    named_by=("decision",),
    propose=_propose_done,
)
