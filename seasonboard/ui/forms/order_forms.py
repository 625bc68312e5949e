"""The forms of an order, its stages, an offer and its answer."""

from collections.abc import Mapping

from seasonboard import terms
from seasonboard.entries import Entry
from seasonboard.ui.forms.form import Field, Form, FormLists, Values, cells
from seasonboard.ui.forms.shapes import ATHLETE, KIND, day, label, line, moment, needed_line, word


def _order(values: Values, shown: Values) -> Entry:
    guard = cells(
        values, "guard", "athlete", "kind", "side", "purpose", "remake_of", "remake_reason"
    )
    stage = {
        "guard": values["guard"],
        "stage": terms.Stage.REQUESTED.value,
        "reached_at": values["reached_at"],
    }
    told = label("order", values, shown, "guard", "athlete", "kind")
    return Entry(told, {"guards": [guard], "stages": [stage]})


def _propose_order(values: Values, form_lists: FormLists) -> Mapping[str, str]:
    proposed = {
        "guard": form_lists.lists.free_key("guards"),
        "purpose": terms.Purpose.PREVENTIVE.value,
    }
    if athlete := values.get("athlete"):
        proposed["reached_at"] = form_lists.moment(athlete=athlete)
    if line := values.get("remake_of") and form_lists.lists.line_of("guards", values["remake_of"]):
        proposed |= {name: line.cells[name] for name in ("kind", "side")}
    elif kind := values.get("kind"):
        proposed["side"] = _midline_of_kind(kind, form_lists)
    return proposed


def _midline_of_kind(kind: str, form_lists: FormLists) -> str:
    line = form_lists.lists.line_of("kinds", kind)
    areas = set(line.cells["areas"].split(", ")) if line else set()
    return terms.Side.MIDLINE.value if areas and areas <= terms.MIDLINE_AREAS else ""


ORDER = Form(
    "A new order",
    (
        ATHLETE,
        line("remake_of", "in place of", "guards", athlete="athlete"),
        word("remake_reason", "because", terms.RemakeReason),
        KIND,
        word("side", "side", terms.Side, needed=True),
        word("purpose", "purpose", terms.Purpose, needed=True),
        moment("reached_at", "requested"),
        Field("guard", "key", is_required=True),
    ),
    _order,
    _propose_order,
    key="guard",
)


def _stage(values: Values, shown: Values) -> Entry:
    row = cells(values, "guard", "stage", "reached_at", "note")
    told = label("stage", values, shown, "guard", "stage")
    return Entry(told, {"stages": [row]})


def next_stage(stage: str) -> str:
    """Return the stage that usually follows; empty after the last one."""
    usual = [one.value for one in terms.Stage if one is not terms.Stage.CANCELLED]
    if not stage:
        return usual[0]
    after = usual[usual.index(stage) + 1 :] if stage in usual else []
    return after[0] if after else ""


def _propose_stage(values: Values, form_lists: FormLists) -> Mapping[str, str]:
    guard = values.get("guard", "")
    line = form_lists.lists.line_of("living_guards", guard) if guard else None
    if line is None:
        return {}
    return {"stage": next_stage(line.cells["stage"]), "reached_at": form_lists.moment(guard=guard)}


STAGE = Form(
    "A stage that an order has reached",
    (
        needed_line("guard", "order", "living_guards"),
        word("stage", "stage", terms.Stage, needed=True),
        moment("reached_at", "reached"),
        Field("note", "note"),
    ),
    _stage,
    _propose_stage,
    key="reached_at",
)


def _offer(values: Values, shown: Values) -> Entry:
    row = cells(values, "offer", "athlete", "kind", "offered_on", "answer", "reason", key="offer")
    return Entry(label("offer", values, shown, "athlete", "kind"), {"offers": [row]})


def _propose_offer(values: Values, form_lists: FormLists) -> Mapping[str, str]:
    proposed = {
        "offer": form_lists.lists.free_key("offers"),
        "answer": terms.OfferAnswer.UNDECIDED.value,
    }
    if athlete := values.get("athlete"):
        proposed["offered_on"] = form_lists.day(athlete=athlete)
    return proposed


_ANSWER = word("answer", "answer", terms.OfferAnswer, needed=True)
OFFER = Form(
    "An offer of a guard",
    (
        ATHLETE,
        KIND,
        day("offered_on", "offered", needed=True),
        _ANSWER,
        Field("reason", "reason"),
        Field("offer", "key"),
    ),
    _offer,
    _propose_offer,
    key="offer",
)


def _answer(values: Values, shown: Values) -> Entry:
    row = cells(values, "offer", "answer", "reason")
    return Entry(label("answer", values, shown, "offer", "answer"), {"offers": [row]})


ANSWER = Form(
    "The answer to an offer",
    (needed_line("offer", "offer", "open_offers"), _ANSWER, Field("reason", "reason")),
    _answer,
)
