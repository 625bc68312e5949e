"""The Recall answer described: every figure once, for text, JSON, CSV, page and recall sheet."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from seasonboard.answers.fields import Field, Kind, Privacy, Table, for_people
from seasonboard.answers.recall.parts import RecallAnswer
from seasonboard.answers.report import Report
from seasonboard.answers.row_fields import frame_rows, usual

_LOOK = "to be looked at by its department's rule: sessions worn or weeks since it was fitted"


def _are_some(name: str) -> Callable[[Any], bool]:
    return lambda answer: bool(answer.guards[name].fill_null("").ne("").any())


def _task(row: Mapping[str, Any]) -> str:
    """Return what a decision wants done with a guard, and by when; or that it was."""
    to_do, due = row["to_do"], row["due_on"]
    if to_do is None or row["done_on"] is not None:
        return "" if to_do is None else f"{to_do}: done"
    return to_do if due is None else f"{to_do} by {due.day} {due:%b}"


GUARDS = Table.described(
    "guards",
    "a guard of the scope, by athlete",
    *usual("guard", "name", "team", "kind", "side", "purpose"),
    Field("state", "in use, on its way, replaced, retired or cancelled", heading="state"),
    Field("next_game_on", "day of its team's next game", Kind.DAY, heading="next game",
        optional=True),
    Field("sessions_worn", "sessions worn in", Kind.COUNT, heading="worn"),
    Field("last_worn_on", "day it was last worn", Kind.DAY, heading="last worn", optional=True),
    Field("attention", f"{_LOOK} or inspected", heading="look at",
        when=_are_some("attention")),
    Field("to_do", "what a decision wants done: inspect or replace", optional=True),
    Field("due_on", "day set for that", Kind.DAY, heading="due", optional=True),
    Field("progress", "to be done, or done", heading="by now"),
    replace(for_people("task", "to do", _task), when=_are_some("to_do")),
    Field("done_on", "day it was done", Kind.DAY, heading="done", optional=True),
    Field("lot", "lot or spool", heading="lot", optional=True),
    Field("printer", "printer", heading="printer", optional=True),
    Field("profile", "name of the print settings", heading="profile", optional=True),
    Field("material", "material", heading="material", optional=True),
    Field("model_version", "version of the model", heading="model", optional=True),
    Field("fitted_on", "day it was fitted", Kind.DAY, heading="fitted", optional=True),
    Field("decision", "key of the decision that marks it", privacy=Privacy.KEY, optional=True),
    *usual("department", "athlete"),
    rows=lambda answer: frame_rows(answer.guards),
    reading=(
        *("guard", "name", "state", "task", "attention", "next_game_on", "team", "kind", "side"),
        "sessions_worn",
    ),
)  # fmt: skip

PARTS = Table.described(
    "parts",
    "a thing that guards were made of",
    Field("made_of", "lot, printer, profile or other part", heading="made of"),
    Field("guards", "guards made of it", Kind.COUNT, heading="guards"),
    Field("fitted", "of them fitted", Kind.COUNT, heading="fitted"),
    Field("remade", "of these made again for a fault", Kind.COUNT, heading="remade"),
    Field("part", "which part: lot, printer, profile and so on"),
    rows=lambda answer: frame_rows(answer.parts),
)


def _in_hand(answer: RecallAnswer) -> int:
    return answer.in_hand.height


REPORT = Report(
    (
        Field("in_hand", "guards in use or on their way", Kind.COUNT, get=_in_hand),
        GUARDS,
        PARTS,
    ),
    csv=GUARDS,
    text=(GUARDS, PARTS),
)
