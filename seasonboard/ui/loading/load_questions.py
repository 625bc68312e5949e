"""What can be answered when a load stops: questions of a proposal, and choices it leaves open."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from seasonboard.errors import IntakeError, Question

_ORDERS = {"dmy": "day/month/year", "mdy": "month/day/year"}
_MARKS = {"comma": "it parts the decimals", "point": "the point parts the decimals"}
LEAVE_OUT = "leave it out"
FILL = "one value for all rows …"


@dataclass(frozen=True, slots=True)
class Offer:
    """One answer: how it is shown, the wishes it adds; `fills` asks for a value to be typed."""

    shown: str
    beside: str
    adds: Mapping[str, Any]
    fills: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """What stopped a load, in sentences, and the answers there are; none: it must be corrected."""

    told: tuple[str, ...]
    offers: tuple[Offer, ...]


def asked_of(refused: IntakeError, answers: Mapping[str, Any]) -> Asked:
    """Return what a load that was refused asks; one question at a time."""
    questions = [one for one in refused.problems if isinstance(one, Question)]
    if questions:
        first = questions[0]
        more = f"{len(questions) - 1:,} more to come." if len(questions) > 1 else ""
        where = f"{first.file}, column {first.column}" if first.column else first.file
        value = f" “{first.value}”" if first.value else ""
        asks = f"{where}:{value} {plain(first.expected)}"
        return Asked(tuple(filter(None, (asks, more))), _answers(first, answers))
    told = [plain(one.sentence()) for one in refused.problems] or [plain(str(refused))]
    return Asked(
        (plain(refused.what.partition(". ")[0].rstrip(".") + "."), *told), _open_ways(refused)
    )


def plain(text: str) -> str:
    """Return a text without the sentences that name options of the command line."""
    parts = re.split(r"(?<=[.?!;:]) (?=[A-Z“])", text)
    return " ".join(one for one in parts if not re.search(r"(?<!\w)--\w", one))


def _answers(question: Question, answers: Mapping[str, Any]) -> tuple[Offer, ...]:
    if question.wish == "dates":
        return tuple(Offer(_ORDERS[one], "", {"dates": one}) for one in question.choices)
    if question.wish == "decimal":
        return tuple(Offer(one, _MARKS[one], {"decimal": one}) for one in question.choices)
    key = f"{question.table}.{question.column}"
    columns, fixed = answers.get("columns", {}), answers.get("constants", {})
    offers = [
        Offer(one, "a heading", {"columns": {**columns, key: one}}) for one in question.choices
    ]
    if question.may_fill:
        name = f"{question.table}.time" if question.wish == "time" else key
        offers.append(Offer(FILL, "", {"constants": fixed}, fills=name))
    if question.may_skip:
        offers.append(Offer(LEAVE_OUT, "", {"columns": {**columns, key: ""}}))
    return tuple(offers)


def _open_ways(refused: IntakeError) -> tuple[Offer, ...]:
    """Return the ways that a refusal names by their options of the command line."""
    named = " ".join((refused.hint, *(one.expected for one in refused.problems)))
    ways = []
    if "--accept-likely" in named:
        ways.append(Offer("take what is likely", "each is noted", {"accept_likely": True}))
    if "--keep-good" in named and "does not go with" not in named:
        kept = "the others go into files beside the store"
        ways.append(Offer("load only the good rows", kept, {"keep_good": True}))
    if "--newest-wins" in named and "--keep mine" in named:
        ways += [
            Offer("take the values here", "where both changed", {"conflicts": "mine"}),
            Offer("take the bundle's values", "where both changed", {"conflicts": "theirs"}),
            Offer("take the newest of both", "where both changed", {"conflicts": "newest"}),
        ]
    return tuple(ways)
