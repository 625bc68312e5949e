"""The forms of a session, an injury and the return from it."""

from collections.abc import Mapping
from dataclasses import replace

from seasonboard import terms
from seasonboard.ui.forms.form import FormLists, FormValues, InputForm
from seasonboard.ui.forms.stored_fields import stored_field, stored_fields


def _propose_session(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    team = values.get("team", "")
    if not team:
        return {}
    line = form_lists.lists.line_of("teams", team)
    return {
        "season": line.cells["season"] if line else "",
        "starts_at": form_lists.moment(team=team),
        "session": form_lists.lists.free_key("sessions", team),
    }


SESSION = InputForm(
    "A session",
    stored_fields(
        "sessions", "team", "starts_at", "setting", "season_part", "label", "season", "session"
    ),
    "session",
    named_by=("team", "setting", "starts_at"),
    propose=_propose_session,
    key="session",
)


def _propose_injury(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    proposed = {"injury": form_lists.lists.free_key("injuries")}
    athlete, day = values.get("athlete", ""), values.get("occurred_on", "")
    if athlete:
        proposed["occurred_on"] = proposed["reported_on"] = form_lists.day(athlete=athlete)
    if athlete and day:
        proposed["session"] = _only_session(athlete, day, form_lists)
    if values.get("area") in terms.MIDLINE_AREAS:
        proposed["side"] = terms.Side.MIDLINE.value
    return proposed


def _only_session(athlete: str, day: str, form_lists: FormLists) -> str:
    """Return the session of that day; empty where there is none, or more than one."""
    found = form_lists.lists.find("sessions", given={"athlete": athlete, "day": day})
    same = [line for line in found.lines if line.cells["days_away"] == "0"]
    return same[0].value if len(same) == 1 else ""


def _worn(values: FormValues, form_lists: FormLists) -> str:
    asked = [values.get(name, "") for name in ("session", "athlete", "area", "side")]
    if not all(asked):
        return ""
    worn = form_lists.lists.worn(*asked)
    if not worn:
        return ""
    return f"Recorded as worn at this site in that session: {', '.join(worn)}."


_SESSION = replace(
    stored_field("injuries", "session"), narrowed_by={"athlete": "athlete", "day": "occurred_on"}
)
INJURY = InputForm(
    "An injury",
    stored_fields(
        *("injuries", "athlete", "occurred_on", _SESSION, "area", "side", "tissue", "pathology"),
        *("onset", "mechanism", "history", "reported_on", "note", "injury"),
    ),
    "injury",
    named_by=("athlete", "area", "side", "occurred_on"),
    propose=_propose_injury,
    remark=_worn,
    key="injury",
)


def _propose_return(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    key = values.get("injury", "")
    line = form_lists.lists.line_of("open_injuries", key) if key else None
    return {"returned_on": form_lists.day(athlete=line.cells["athlete"])} if line else {}


RETURN = InputForm(
    "The return from an injury",
    (
        stored_field("injuries", "injury", "open_injuries"),
        replace(stored_field("injuries", "returned_on"), is_required=True),
    ),
    "return",
    named_by=("injury", "returned_on"),
    propose=_propose_return,
)
