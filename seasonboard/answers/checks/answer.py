"""What in the records is doubtful? Every data check with its count."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.base import Summary
from seasonboard.answers.checks.all_checks import ALL_CHECKS
from seasonboard.answers.checks.counting import count_checks
from seasonboard.answers.checks.parts import CheckCount, ChecksAnswer
from seasonboard.answers.questions import CHECKS
from seasonboard.answers.reader import Reader
from seasonboard.scope import Scope, ScopeValues

_NAMED = 3
"""Checks that the sentence names; the rest stand below it."""
_CAVEATS = (
    "A check tells what hardly fits; whether it is wrong only those know who were there. What "
    "cannot be is refused when it is loaded.",
    "A check that finds nothing does not show that the records are right or complete.",
    "Purpose and outcome of the scope do not matter here. When every kind of guard is looked at, "
    "injuries to sites without a guard are checked too.",
)


def checks(reader: Reader, scope: Scope, known: ScopeValues) -> ChecksAnswer:
    """Count what every data check finds, those first that touch most answers."""
    ranked = sorted(count_checks(reader, scope, known, ALL_CHECKS.values()), key=_pressing)
    return ChecksAnswer(
        Summary(CHECKS.asks, _sentence(ranked, known), _CAVEATS, (), scope), tuple(ranked)
    )


def _pressing(counted: CheckCount) -> tuple[bool, int, int, str]:
    """Return what sorts checks: found something, touches many answers, has many rows."""
    check = counted.check
    return not counted.count, -len(check.touches), -counted.count, check.name


def _sentence(ranked: Sequence[CheckCount], known: ScopeValues) -> str:
    if known.is_empty:
        return "Nothing to check yet: nothing is recorded."
    doubtful = [one for one in ranked if one.count]
    if not doubtful:
        return f"None of {len(ranked)} checks found anything doubtful."
    compared = [one for one in doubtful if "compare" in one.check.touches]
    opening = f"{len(doubtful)} of {len(ranked)} checks found something"
    if not compared:
        return f"{opening}; none touches Compare."
    named = ", ".join(f"{e.check.name} {words.whole(e.count)}" for e in compared[:_NAMED])
    more = f" and {len(compared) - _NAMED} more" if len(compared) > _NAMED else ""
    verb = "touches" if len(compared) == 1 else "touch"
    return f"{opening}; {len(compared)} {verb} Compare: {named}{more}."
