"""Putting the data checks to a store: how many rows each has, in a scope."""

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from seasonboard.answers.base import Doubtful
from seasonboard.answers.checks.all_checks import ALL_CHECKS, touching
from seasonboard.answers.checks.parts import Check, CheckCount
from seasonboard.answers.reader import Reader, params_of
from seasonboard.scope import Scope, ScopeValues

if TYPE_CHECKING:
    from seasonboard.answers.compare.parts import CompareAnswer
    from seasonboard.answers.games.parts import GamesAnswer

TouchedT = TypeVar("TouchedT", "CompareAnswer", "GamesAnswer")


def check_params(scope: Scope, known: ScopeValues) -> dict[str, object]:
    """Return the scope as the checks take it, all of them alike.

    When every kind of guard is looked at, `kinds` is None: then injuries to sites that no guard
    covers are checked too.
    """
    params = params_of(next(iter(ALL_CHECKS.values())).query, scope)
    everything = known.kinds_made or tuple(k.value for k in known.values.get("kind", ()))
    if set(scope.kinds) >= set(everything):
        params["kinds"] = None
    return params


def count_checks(
    reader: Reader, scope: Scope, known: ScopeValues, checks: Iterable[Check]
) -> tuple[CheckCount, ...]:
    """Count the rows of several checks, in their order."""
    counted = tuple(checks)
    params = check_params(scope, known)
    counts = reader.count_each([(check.query, params) for check in counted])
    return tuple(CheckCount(*pair) for pair in zip(counted, counts, strict=True))


def doubts(reader: Reader, scope: Scope, known: ScopeValues, answer: str) -> tuple[Doubtful, ...]:
    """Count the checks that touch an answer, the largest count first."""
    counts = count_checks(reader, scope, known, touching(answer))
    ranked = sorted(counts, key=lambda one: (-one.count, one.check.name))
    return tuple(Doubtful(one.check.name, one.count) for one in ranked)


def with_doubts(answer: TouchedT, doubtful: tuple[Doubtful, ...]) -> TouchedT:
    """Return an answer that names the checks which touch it.

    They are counted apart, so that the board can show the answer before they are.
    """
    return replace(answer, summary=replace(answer.summary, doubts=doubtful))
