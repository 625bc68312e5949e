"""The forms of all that is recorded one by one: sessions, injuries, orders, offers, decisions.

A form names the columns of its table; what each takes comes from the table's description.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from seasonboard import terms
from seasonboard.answers.lists import ListLine
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES
from seasonboard.ui.forms.form import FieldKind, FormField, FormLists, FormValues, InputForm

_KINDS = {
    CellType.WORD: FieldKind.WORD,
    CellType.DATE: FieldKind.DAY,
    CellType.INSTANT: FieldKind.MOMENT,
}
_DAYS_TO_DO = 7
"""Days until marked guards are to be done, unless another day is typed."""
_LISTS = {"roster": "athletes"}
"""Lists of the store whose name is not that of the table their keys stand in."""


def _fields(table: str, *columns: str | FormField) -> tuple[FormField, ...]:
    """Return the fields of columns of a table; those that are fields already stay as they are."""
    return tuple(one if isinstance(one, FormField) else _field(table, one) for one in columns)


def _field(table: str, name: str, finds: str = "") -> FormField:
    """Return the field of a column; `finds` is the list that a record of the table is from."""
    described = TABLES[table]
    column = described.column(name)
    target = column.refers[0] if column.refers else ""
    is_new = not finds and described.key == (name,)
    return FormField(
        name,
        "key" if is_new else column.form_label,
        FieldKind.LINE if finds or target else _KINDS.get(column.holds, FieldKind.TEXT),
        tuple(map(str, column.words)),
        finds=finds or _LISTS.get(target, target),
        is_required=column.required and not (is_new and described.key_made_of),
        table=table,
    )


def _line(form_lists: FormLists, name: str, key: str | None) -> ListLine | None:
    return form_lists.lists.line_of(name, key) if key else None


def _propose_session(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    team = values.get("team", "")
    if not team:
        return {}
    line = _line(form_lists, "teams", team)
    return {
        "season": line.cells["season"] if line else "",
        "starts_at": form_lists.moment(team=team),
        "session": form_lists.lists.free_key("sessions", team),
    }


SESSION = InputForm(
    "A session",
    _fields(
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
    lines = form_lists.lists.find("sessions", given={"athlete": athlete, "day": day}).lines
    same = [line for line in lines if line.cells["days_away"] == "0"]
    return same[0].value if len(same) == 1 else ""


def _worn(values: FormValues, form_lists: FormLists) -> str:
    asked = [values.get(name, "") for name in ("session", "athlete", "area", "side")]
    worn = form_lists.lists.worn(*asked) if all(asked) else ()
    return f"Recorded as worn at this site in that session: {', '.join(worn)}." if worn else ""


_OF_DAY = {"athlete": "athlete", "day": "occurred_on"}
INJURY = InputForm(
    "An injury",
    _fields(
        *("injuries", "athlete", "occurred_on"),
        replace(_field("injuries", "session"), narrowed_by=_OF_DAY),
        *("area", "side"),
        replace(_field("injuries", "was_on"), title="guard was on?"),
        *("tissue", "pathology", "onset", "mechanism", "history", "reported_on"),
        *("note", "injury"),
    ),
    "injury",
    named_by=("athlete", "area", "side", "occurred_on"),
    propose=_propose_injury,
    remark=_worn,
    key="injury",
)


def _propose_return(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    line = _line(form_lists, "open_injuries", values.get("injury"))
    return {"returned_on": form_lists.day(athlete=line.cells["athlete"])} if line else {}


RETURN = InputForm(
    "The return from an injury",
    (
        _field("injuries", "injury", "open_injuries"),
        replace(_field("injuries", "returned_on"), is_required=True),
    ),
    "return",
    named_by=("injury", "returned_on"),
    propose=_propose_return,
)


def _propose_order(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    purpose = terms.Purpose.PREVENTIVE.value
    proposed = {"guard": form_lists.lists.free_key("guards"), "purpose": purpose}
    if athlete := values.get("athlete"):
        proposed["reached_at"] = form_lists.moment(athlete=athlete)
    if line := _line(form_lists, "guards", values.get("remake_of")):
        proposed |= {name: line.cells[name] for name in ("kind", "side")}
    elif kind := values.get("kind"):
        line = _line(form_lists, "kinds", kind)
        areas = set(line.cells["areas"].split(", ")) if line else set()
        is_midline = bool(areas) and areas <= terms.MIDLINE_AREAS
        proposed["side"] = terms.Side.MIDLINE.value if is_midline else ""
    return proposed


def _requested(values: FormValues) -> Mapping[str, Mapping[str, str]]:
    return {"stages": {"guard": values["guard"], "stage": terms.Stage.REQUESTED.value}}


def _in_games(values: FormValues, form_lists: FormLists) -> str:
    purpose = values.get("purpose") or terms.Purpose.PREVENTIVE.value
    athlete, kind = values.get("athlete"), values.get("kind")
    return form_lists.lists.rules(athlete, kind, purpose) if athlete and kind else ""


ORDER = InputForm(
    "A new order",
    _fields(
        *("guards", "athlete"),
        replace(_field("guards", "remake_of"), narrowed_by={"athlete": "athlete"}),
        *("remake_reason", "kind", "side", "purpose", "promised_on"),
        replace(_field("stages", "reached_at"), title="requested"),
        "guard",
    ),
    "order",
    named_by=("guard", "athlete", "kind"),
    propose=_propose_order,
    remark=_in_games,
    also=_requested,
    key="guard",
)


BUILD = InputForm(
    "What a guard was made of",
    (
        replace(_field("guards", "guard", "living_guards"), title="guard"),
        *_fields("guards", "scan_method", "scan_id", "scan_quality", "model_version", "material"),
        *_fields("guards", "lot", "profile", "infill_pct", "mass_g", "printer", "operator"),
        *_fields("guards", "inspected_on", "inspected_by", "inspection"),
    ),
    "build record",
    named_by=("guard", "lot"),
)


def next_stage(stage: str) -> str:
    """Return the stage that usually follows; empty after the last one."""
    usual = ["", *(one.value for one in terms.Stage if one is not terms.Stage.CANCELLED), ""]
    return usual[usual.index(stage) + 1] if stage in usual else ""


def _propose_stage(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    guard = values.get("guard", "")
    line = _line(form_lists, "living_guards", guard)
    if line is None:
        return {}
    return {"stage": next_stage(line.cells["stage"]), "reached_at": form_lists.moment(guard=guard)}


STAGE = InputForm(
    "A stage that an order has reached",
    (
        replace(_field("stages", "guard", "living_guards"), title="order"),
        *_fields("stages", "stage", "reached_at", "note"),
    ),
    "stage",
    named_by=("guard", "stage"),
    propose=_propose_stage,
    key="reached_at",
)


def _propose_offer(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    answer = terms.OfferAnswer.UNDECIDED.value
    proposed = {"offer": form_lists.lists.free_key("offers"), "answer": answer}
    if athlete := values.get("athlete"):
        proposed["offered_on"] = form_lists.day(athlete=athlete)
    return proposed


OFFER = InputForm(
    "An offer of a guard",
    _fields("offers", "athlete", "kind", "offered_on", "answer", "reason", "offer"),
    "offer",
    named_by=("athlete", "kind"),
    propose=_propose_offer,
    remark=_in_games,
    key="offer",
)
ANSWER = InputForm(
    "The answer to an offer",
    (_field("offers", "offer", "open_offers"), *_fields("offers", "answer", "reason")),
    "answer",
    named_by=("offer", "answer"),
)


def _propose_jump(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    line = _line(form_lists, "turns", values.get("place"))
    if line is None:
        return {}
    own = {name: line.cells[name] for name in ("draw", "athlete", "kind", "side")}
    return {**own, "jumped_on": form_lists.day(athlete=own["athlete"])}


JUMP = InputForm(
    "A turn that was jumped: its guard was made out of turn",
    (
        FormField("place", "turn", FieldKind.LINE, finds="turns", is_required=True),
        *(replace(one, is_required=True) for one in _fields("turns", "jumped_on", "jump_reason")),
        *_fields("turns", "draw", "athlete", "kind", "side"),
    ),
    "jumped turn",
    named_by=("place", "jumped_on"),
    propose=_propose_jump,
)


def _propose_question(_values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    return {
        "outcome": terms.OUTCOMES[0],
        "setting": terms.SETTINGS[-1],
        "comparison": terms.COMPARISONS[0],
        "asked_on": form_lists.day(),
    }


QUESTION = InputForm(
    "A question fixed in advance: it never changes afterwards",
    _fields("questions", "kind", "area", "outcome", "setting", "comparison", "horizon", "asked_on"),
    "question",
    named_by=("kind", "area", "asked_on"),
    propose=_propose_question,
)


def _propose_decision(_values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    return {"decision": form_lists.lists.free_key("decisions"), "decided_on": form_lists.day()}


DECISION = InputForm(
    "A decision",
    _fields("decisions", "text", "department", "due_on", "decided_on", "decision"),
    "decision",
    named_by=("decision", "text"),
    propose=_propose_decision,
    key="decision",
)


def mark_form(guards: Sequence[str], made_of: str) -> InputForm:
    """Return the form of one decision that marks guards to be inspected or replaced."""

    def propose(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
        to_do = values.get("to_do") or terms.TO_DO[0]
        due = date.fromisoformat(form_lists.day()) + timedelta(days=_DAYS_TO_DO)
        text = f"{to_do.capitalize()} {len(guards)} guards made of {made_of}"
        own = {"to_do": to_do, "text": text, "due_on": due.isoformat()}
        return {**_propose_decision(values, form_lists), **own}

    def marks(values: FormValues) -> Mapping[str, Sequence[Mapping[str, str]]]:
        same = {"decision": values["decision"], "to_do": values["to_do"]}
        return {"marked_guards": [{"guard": guard, **same} for guard in guards]}

    to_do = replace(_field("marked_guards", "to_do"), table="", is_required=True)
    own = _fields("decisions", "due_on", "text", "decided_on", "decision")
    title = f"Mark {len(guards)} guards, as one decision; each is ticked off on its own"
    return replace(DECISION, title=title, fields=(to_do, *own), propose=propose, beside=marks)


def _propose_done(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    return {"done_on": form_lists.day()} if values.get("decision") else {}


DONE = InputForm(
    "A decision that is done",
    (
        _field("decisions", "decision", "open_decisions"),
        replace(_field("decisions", "done_on"), is_required=True),
    ),
    "done",
    named_by=("decision",),
    propose=_propose_done,
)

PRINTER = InputForm(
    "A printer, named as in guards",
    _fields("printers", "printer", "department", "hours_per_week"),
    "printer",
    named_by=("printer", "hours_per_week"),
    key="printer",
)
ALLOTMENT = InputForm(
    "The prints that a department gets a week",
    (
        replace(_field("departments", "department", "departments"), title="department"),
        replace(_field("departments", "prints_per_week"), is_required=True),
    ),
    "prints a week",
    named_by=("department", "prints_per_week"),
)
LOOK_AFTER = InputForm(
    "When a department looks at guards in use",
    (
        replace(_field("departments", "department", "departments"), title="department"),
        *_fields("departments", "look_after_sessions", "look_after_weeks"),
    ),
    "look after",
    named_by=("department", "look_after_sessions", "look_after_weeks"),
)
RULE = InputForm(
    "What a sport's rules say of a guard, as looked up",
    _fields("rules", "department", "sport", "kind", "purpose", "rule", "source", "checked_on"),
    "rule",
    named_by=("department", "sport", "kind", "rule"),
    propose=lambda _values, form_lists: {"checked_on": form_lists.day()},
)
