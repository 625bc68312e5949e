"""What the data checks are made of."""

from collections.abc import Mapping
from dataclasses import dataclass

from seasonboard.answers.base import Summary

ANSWERS = (
    *("week", "roster", "orders", "turnaround", "remakes"),
    *("compare", "games", "take-up", "departments"),
)
"""The answers that a check may touch, in the order of their screens."""


@dataclass(frozen=True, slots=True)
class Check:
    """One data check.

    Attributes:
        name: Its stable id: short words with hyphens.
        asks: What it asks of the records, as in the header of its question.
        touches: The number it touches, by answer.
        why: Why it matters for those numbers.
        mend: How to mend it.
        query: The question in queries/ that gives its rows.
    """

    name: str
    asks: str
    touches: Mapping[str, str]
    why: str
    mend: str
    query: str

    @property
    def touched(self) -> str:
        """Return what it touches, in words: `compare (rates), roster (availability)`."""
        return ", ".join(f"{answer} ({number})" for answer, number in self.touches.items())


@dataclass(frozen=True, slots=True)
class CheckCount:
    """A check and how many rows it found."""

    check: Check
    count: int


@dataclass(frozen=True, slots=True)
class ChecksAnswer:
    """The answer of the Checks screen: every check, those first that touch most."""

    summary: Summary
    checks: tuple[CheckCount, ...]

    @property
    def doubtful(self) -> tuple[CheckCount, ...]:
        """Return the checks that found something."""
        return tuple(one for one in self.checks if one.count)

    @property
    def clear(self) -> tuple[CheckCount, ...]:
        """Return the checks that found nothing."""
        return tuple(one for one in self.checks if not one.count)
