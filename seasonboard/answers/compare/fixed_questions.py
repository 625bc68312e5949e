"""Whether the question was fixed before the season."""

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from seasonboard.answers.base import studied_areas
from seasonboard.answers.compare.comparisons import HEADLINE
from seasonboard.answers.fields import Field, Group, Kind, of, why
from seasonboard.scope import Scope, ScopeValues, View

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    import polars as pl

NOBODY_FIXED = "Nobody fixed this question in advance: it was tried later."
_WHOLE = ("departments", "teams", "sports", "sexes", "position_groups", "sides")
"""Parts of the scope that a fixed question leaves open."""


@dataclass(frozen=True, slots=True)
class FixedQuestion:
    """The fixed question that a scope asks, and how it stands to the season.

    `recorded_on` is the day on which it came into this store, None where not known; `first_on` that
    of the season's first session, None where there is none yet.
    """

    asked_on: date
    comparison: str
    horizon: int | None
    recorded_on: date | None
    first_on: date | None

    @property
    def is_in_advance(self) -> bool:
        """Say whether it was fixed before the season's first session."""
        return self.first_on is None or self.asked_on < self.first_on

    @property
    def sentences(self) -> list[str]:
        """Return when it was fixed, in words."""
        if not self.is_in_advance:
            return [
                f"This question was fixed on {self.asked_on}, not before the first session on "
                f"{self.first_on}: it was tried later."
            ]
        before = f", before the first session on {self.first_on}" if self.first_on else ""
        decides = "" if self.comparison == HEADLINE else f", to be decided by {self.comparison}"
        lines = [f"Asked in advance on {self.asked_on}{before}{decides}."]
        if self.first_on and self.recorded_on and self.recorded_on >= self.first_on:
            lines.append(
                f"It came into this store only on {self.recorded_on}, not before that session."
            )
        return lines


def fixed_question(frame: "pl.DataFrame", scope: Scope, known: ScopeValues) -> FixedQuestion | None:
    """Return the question that a scope asks, of rows of `compare/questions`; None: there is none.

    Of several the first that was fixed counts. Who looks at some teams, sides or athletes only, or
    at guards made for return, asks another question.
    """
    is_whole = all(getattr(scope, part) is None for part in _WHOLE)
    if not is_whole or scope.purpose is not View.PREVENTIVE:
        return None
    rows: Iterable[Mapping[str, Any]] = frame.iter_rows(named=True)
    studied = studied_areas(scope, known)
    for row in rows:
        areas = (row["area"],) if row["area"] else tuple(sorted(known.covers.get(row["kind"], ())))
        if (
            scope.kinds == (row["kind"],)
            and areas == studied
            and (scope.outcome.value, scope.setting.value) == (row["outcome"], row["setting"])
        ):
            names = ("asked_on", "comparison", "horizon", "recorded_on", "first_on")
            return FixedQuestion(*(row[name] for name in names))
    return None


def fixed_sentences(fixed: FixedQuestion | None) -> list[str]:
    """Return whether the question was fixed in advance, in words."""
    return [NOBODY_FIXED] if fixed is None else fixed.sentences


FIXED_FIELDS = (
    Group(
        "asked_in_advance",
        lambda answer: answer,
        (
            Field("asked_on", "day the question was fixed", Kind.DAY, of("fixed.asked_on")),
            Field(
                "is_in_advance",
                "whether that was before the season's first session; null: never fixed",
                Kind.FLAG,
                of("fixed.is_in_advance"),
            ),
            Field("comparison", "the comparison that is to decide", get=of("fixed.comparison")),
            Field(
                "horizon", "games looked ahead", Kind.COUNT, of("fixed.horizon"), optional=True
            ),
            Field(
                "recorded_on", "day it came into this store", Kind.DAY, of("fixed.recorded_on"),
                optional=True,
            ),
            Field(
                "first_session_on", "the season's first session", Kind.DAY, of("fixed.first_on"),
                optional=True,
            ),
            why(lambda answer: "" if answer.fixed else "nobody fixed this question"),
        ),
        "the question as it was fixed with a day",
    ),
    Group(
        "scopes_looked_at",
        of("looks"),
        (
            Field("count", "different scopes of Compare and Games looked at since", Kind.COUNT,
                of("scopes")),
            Field("since", "day from which they are counted", Kind.DAY, of("first_on")),
            Field("kept_in", "where the count is kept", optional=True),
            why(of("why")),
        ),
        "how often this user looked, on this computer",
    ),
)  # fmt: skip
