"""The forms of an order, its stages, an offer and its answer."""

from collections.abc import Mapping
from dataclasses import replace

from seasonboard import terms
from seasonboard.ui.forms.form import FormLists, FormValues, InputForm
from seasonboard.ui.forms.stored_fields import stored_field, stored_fields


def _propose_order(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
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


def _requested(values: FormValues) -> Mapping[str, Mapping[str, str]]:
    return {"stages": {"guard": values["guard"], "stage": terms.Stage.REQUESTED.value}}


_REMAKE_OF = replace(stored_field("guards", "remake_of"), narrowed_by={"athlete": "athlete"})
_REQUESTED_AT = replace(stored_field("stages", "reached_at"), title="requested")
ORDER = InputForm(
    "A new order",
    stored_fields(
        *("guards", "athlete", _REMAKE_OF, "remake_reason", "kind", "side", "purpose"),
        *(_REQUESTED_AT, "guard"),
    ),
    "order",
    named_by=("guard", "athlete", "kind"),
    propose=_propose_order,
    also=_requested,
    key="guard",
)


def next_stage(stage: str) -> str:
    """Return the stage that usually follows; empty after the last one."""
    usual = [one.value for one in terms.Stage if one is not terms.Stage.CANCELLED]
    if not stage:
        return usual[0]
    after = usual[usual.index(stage) + 1 :] if stage in usual else []
    return after[0] if after else ""


def _propose_stage(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    guard = values.get("guard", "")
    line = form_lists.lists.line_of("living_guards", guard) if guard else None
    if line is None:
        return {}
    return {"stage": next_stage(line.cells["stage"]), "reached_at": form_lists.moment(guard=guard)}


_ORDER = replace(stored_field("stages", "guard", "living_guards"), title="order")
STAGE = InputForm(
    "A stage that an order has reached",
    stored_fields("stages", _ORDER, "stage", "reached_at", "note"),
    "stage",
    named_by=("guard", "stage"),
    propose=_propose_stage,
    key="reached_at",
)


def _propose_offer(values: FormValues, form_lists: FormLists) -> Mapping[str, str]:
    proposed = {
        "offer": form_lists.lists.free_key("offers"),
        "answer": terms.OfferAnswer.UNDECIDED.value,
    }
    if athlete := values.get("athlete"):
        proposed["offered_on"] = form_lists.day(athlete=athlete)
    return proposed


OFFER = InputForm(
    "An offer of a guard",
    stored_fields("offers", "athlete", "kind", "offered_on", "answer", "reason", "offer"),
    "offer",
    named_by=("athlete", "kind"),
    propose=_propose_offer,
    key="offer",
)
ANSWER = InputForm(
    "The answer to an offer",
    stored_fields("offers", stored_field("offers", "offer", "open_offers"), "answer", "reason"),
    "answer",
    named_by=("offer", "answer"),
)
