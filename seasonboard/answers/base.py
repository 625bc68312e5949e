"""What every answer carries beside its numbers."""

from dataclasses import dataclass

import polars as pl

from seasonboard.answers.words import plural
from seasonboard.scope import Scope, ScopeValues
from seasonboard.terms import RULES


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Something that was recorded but is not in the numbers, and why."""

    what: str
    why: str
    count: int


@dataclass(frozen=True, slots=True)
class Doubtful:
    """What one data check found: its id and its count."""

    check: str
    count: int


@dataclass(frozen=True, slots=True)
class Summary:
    """The question, the answer in one sentence, and what to keep in mind.

    `doubts` are the data checks that touch the answer; None where they are not counted (yet).
    """

    question: str
    answer: str
    caveats: tuple[str, ...]
    left_out: tuple[LeftOut, ...]
    scope: Scope
    doubts: tuple[Doubtful, ...] | None = None

    def doubts_line(self) -> str:
        """Return which data checks that touch the answer found something."""
        if self.doubts is None:
            return "Data checks that touch this: not counted yet."
        told = ", ".join(f"{each.check} {each.count:,}" for each in self.doubts if each.count)
        if not told:
            return f"Data checks that touch this: none of {len(self.doubts)} found anything."
        return (
            f"Data checks that touch this: {told} (their rows: seasonboard check --check …, in "
            "the same scope)."
        )


def left_out_rows(frame: pl.DataFrame) -> tuple[LeftOut, ...]:
    """Return the rows of a `left_out` question."""
    return tuple(LeftOut(*row) for row in frame.select("what", "why", "number").iter_rows())


def pooling_caveat(scope: Scope, known: ScopeValues) -> list[str]:
    """Say so when several guard kinds are put together."""
    made = [kind for kind in scope.kinds if kind in known.kinds_made]
    if len(made) < 2:
        return []
    return [
        f"Puts {len(made)} kinds of guard together, which may differ in what they do: "
        "name one kind to look at it alone."
    ]


def recording_caveat(frame: pl.DataFrame) -> list[str]:
    """Say where completeness of wear is assumed, and where wear is not known, by its question."""
    row = frame.row(0, named=True)
    told = []
    if assumed := row["assumed"]:
        sessions = plural(assumed, "session")
        told.append(
            f"Of {sessions} with owners of a guard nobody said that wear was recorded for "
            "everybody; it is assumed. A record that was lost there counts as bare."
        )
    if lacking := row["lacking"]:
        told.append(
            f"In {plural(lacking, 'session')} nobody recorded of some owners whether the guard was "
            "worn; these exposures are in neither group."
        )
    return [" ".join(told)] if told else []


CAUTION = (
    "It reports what was recorded. It does not show that a guard prevents injury or is fit for "
    "play. Fit, injury and return decisions belong to licensed medical staff, and whether a guard "
    "may be worn to the sport's rules, the officials and the institution."
)
"""Said with every answer that a reader might take for advice."""


def rules_caveat(rules: pl.Series) -> list[str]:
    """Say what departments found the rules of their sports to say of guards in games."""
    counts = [(rule, int((rules == rule).sum())) for rule in RULES]
    if not len(rules) or not any(count for _, count in counts):
        return []
    told = ", ".join(f"{count:,} {rule}" for rule, count in counts if count)
    unknown = len(rules) - sum(count for _, count in counts)
    return [f"In games, by the rules that departments looked up: {told}; {unknown:,} not checked."]


def studied_areas(scope: Scope, known: ScopeValues) -> tuple[str, ...]:
    """Return the body areas whose sites are studied: what the kinds cover, as far as asked."""
    covered = {area for kind in scope.kinds for area in known.covers.get(kind, ())}
    return tuple(sorted(covered & set(scope.areas) if scope.areas else covered))
