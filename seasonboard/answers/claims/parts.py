"""What a claim is: a sentence that the records allow, or do not, and what it rests on."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from seasonboard.answers import words
from seasonboard.scope import Scope

FEWEST = 11
"""The least count, other than 0, that an outsider may be told; also the least a claim rests on."""

TOPICS = ("hurt", "games", "ready", "turnaround", "remade", "worn", "contact")
"""What claims are about, in their order."""
HURT, GAMES, READY, TURNAROUND, REMADE, WORN, CONTACT = TOPICS


@dataclass(frozen=True, slots=True)
class Claim:
    """One sentence about what was recorded.

    Where `is_supported` the sentence may be said as it stands. Where not it may not be said, and
    `missing` tells what it would take. `interval` is what the records allow in words, None where
    nothing is known; `rests_on` the counts behind it. `is_for_outsiders` says that no count from 1
    to 10 stands in it or can be worked out from it.
    """

    topic: str
    sentence: str
    is_supported: bool
    interval: str | None
    missing: str | None
    rests_on: str
    is_for_outsiders: bool


def claim(  # noqa: PLR0913 - all by name
    *,
    topic: str,
    may_say: str,
    may_not_say: str,
    missing: Sequence[str],
    interval: str | None,
    rests_on: str,
    counts: Sequence[int],
) -> Claim:
    """Return a claim, supported where nothing is `missing`; `counts` are those behind it."""
    sentence = may_not_say if missing else may_say
    is_for_outsiders = not any(0 < count < FEWEST for count in counts)
    lacks = "; ".join(missing) or None
    return Claim(topic, sentence, not missing, interval, lacks, rests_on, is_for_outsiders)


def through_words(day: date) -> str:
    """Return the last day known in words: `through 14 Nov 2026`."""
    return f"through {day.day} {day:%b %Y}"


def bracket(scope: Scope, interval: str) -> str:
    """Return what stands in brackets behind a number: level, limits, last day known."""
    return f"({words.level_words(scope)}: {interval}; {through_words(scope.through)})"


def too_few(what: str, count: int) -> list[str]:
    """Return that more of something is missing, where there are fewer than 11."""
    return [f"at least {FEWEST} {what} ({count} so far)"] if count < FEWEST else []
