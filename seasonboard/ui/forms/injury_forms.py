"""The forms of a session, an injury and the return from it."""

from collections.abc import Mapping

from seasonboard import terms
from seasonboard.entries import Entry
from seasonboard.ui.forms.form import Field, Form, FormLists, Values, cells
from seasonboard.ui.forms.shapes import ATHLETE, day, label, line, moment, needed_line, word


def _session(values: Values, shown: Values) -> Entry:
    row = cells(
        values, "session", "team", "season", "starts_at", "setting", "season_part", "label",
        key="session",
    )  # fmt: skip
    told = label("session", values, shown, "team", "setting", "starts_at")
    return Entry(told, {"sessions": [row]})


def _propose_session(values: Values, form_lists: FormLists) -> Mapping[str, str]:
    team = values.get("team", "")
    if not team:
        return {}
    line = form_lists.lists.line_of("teams", team)
    return {
        "season": line.cells["season"] if line else "",
        "starts_at": form_lists.moment(team=team),
        "session": form_lists.lists.free_key("sessions", team),
    }


SESSION = Form(
    "A session",
    (
        needed_line("team", "team", "teams"),
        moment("starts_at", "starts"),
        word("setting", "game or practice", terms.Setting, needed=True),
        word("season_part", "season part", terms.SeasonPart),
        Field("label", "label"),
        Field("season", "season", is_required=True),
        Field("session", "key"),
    ),
    _session,
    _propose_session,
    key="session",
)


_INJURY = (
    "injury", "athlete", "occurred_on", "session", "area", "side", "tissue", "pathology", "onset",
    "mechanism", "history", "reported_on", "note",
)  # fmt: skip


def _injury(values: Values, shown: Values) -> Entry:
    row = cells(values, *_INJURY, key="injury")
    told = label("injury", values, shown, "athlete", "area", "side", "occurred_on")
    return Entry(told, {"injuries": [row]})


def _propose_injury(values: Values, form_lists: FormLists) -> Mapping[str, str]:
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


def _worn(values: Values, form_lists: FormLists) -> str:
    asked = [values.get(name, "") for name in ("session", "athlete", "area", "side")]
    if not all(asked):
        return ""
    worn = form_lists.lists.worn(*asked)
    if not worn:
        return ""
    return f"Recorded as worn at this site in that session: {', '.join(worn)}."


INJURY = Form(
    "An injury",
    (
        ATHLETE,
        day("occurred_on", "day", needed=True),
        line("session", "session", "sessions", athlete="athlete", day="occurred_on"),
        word("area", "body area", terms.Area, needed=True),
        word("side", "side", terms.Side, needed=True),
        word("tissue", "tissue", terms.Tissue),
        word("pathology", "pathology", terms.Pathology),
        word("onset", "onset", terms.Onset),
        word("mechanism", "contact", terms.Mechanism),
        word("history", "history", terms.History),
        day("reported_on", "reported"),
        Field("note", "note"),
        Field("injury", "key"),
    ),
    _injury,
    _propose_injury,
    _worn,
    key="injury",
)


def _return(values: Values, shown: Values) -> Entry:
    told = label("return", values, shown, "injury", "returned_on")
    return Entry(told, {"injuries": [cells(values, "injury", "returned_on")]})


def _propose_return(values: Values, form_lists: FormLists) -> Mapping[str, str]:
    key = values.get("injury", "")
    line = form_lists.lists.line_of("open_injuries", key) if key else None
    return {"returned_on": form_lists.day(athlete=line.cells["athlete"])} if line else {}


RETURN = Form(
    "The return from an injury",
    (
        needed_line("injury", "injury", "open_injuries"),
        day("returned_on", "returned", needed=True),
    ),
    _return,
    _propose_return,
)
