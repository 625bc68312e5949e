"""The order of prints that a meeting agrees on, as decisions to be written down."""

import re
from datetime import date
from itertools import groupby
from operator import attrgetter

from seasonboard.answers import words
from seasonboard.answers.capacity.parts import CapacityAnswer, QueuedPrint, ReturnGuards
from seasonboard.answers.capacity.words import guard_words
from seasonboard.entries import Entry

AGREE = "It is a list to agree on in the meeting: nothing is ordered or sent."
MOST_NAMED = 60
"""Guards that a decision names; of the others it says how many."""


def decisions(answer: CapacityAnswer) -> tuple[tuple[str, str], ...]:
    """Return what a meeting would decide, department by department: its key, and the text.

    Guards stand by their keys, in the order to print; names are not in it.
    """
    queues = groupby(answer.in_queue, attrgetter("department"))
    rule = "" if answer.options.returns is ReturnGuards.FIRST else ", return guards as others"
    queue = f"queue of {answer.through.day} {answer.through:%b %Y}{rule}"
    return tuple((department, _text(list(own), queue)) for department, own in queues)


def agreed(answer: CapacityAnswer, *, first_key: str, on: date) -> Entry | None:
    """Return the decisions as an entry; None where no print waits.

    Args:
        answer: The queues.
        first_key: The next free key of a decision; further ones count on from it.
        on: The day of the meeting.
    """
    decided = decisions(answer)
    if not decided:
        return None
    rows = [
        {"decision": key, "decided_on": on.isoformat(), "department": department, "text": text}
        for key, (department, text) in zip(_keys(first_key, len(decided)), decided, strict=True)
    ]
    label = f"print order, {', '.join(department for department, _ in decided)}"
    return Entry(label, {"decisions": rows})


def _keys(first: str, number: int) -> list[str]:
    style, digits = re.fullmatch(r"(.*?)(\d*)", first, re.DOTALL).groups()  # type: ignore[union-attr]
    start = int(digits or 1)
    return [f"{style}{start + more:0{len(digits)}}" for more in range(number)]


def _text(own: list[QueuedPrint], queue: str) -> str:
    listed = ", ".join(f"{one.guard} {guard_words(one)}" for one in own[:MOST_NAMED])
    rest = len(own) - MOST_NAMED
    more = f", then {words.whole(rest)} more as asked for" if rest > 0 else ""
    return f"Print in this order ({queue}): {listed}{more}."
