"""What in the records is doubtful? Every data check with its count, and the rows of one."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.base import Summary
from seasonboard.answers.checks.all_checks import ALL_CHECKS, check_named
from seasonboard.answers.checks.counting import check_params, count_checks
from seasonboard.answers.checks.parts import COLUMNS, CheckFound, ChecksAnswer
from seasonboard.answers.questions import CHECKS
from seasonboard.answers.reader import Reader
from seasonboard.answers.rows import Column, Rows, page_rows
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope, ScopeValues

_NAMED = 3
"""Checks that the sentence names; the rest stand below it."""
_TOUCHING = (
    Column("check", "check"),
    Column("count", "rows", is_number=True),
    Column("touches", "touches"),
    Column("why", "why it matters"),
    Column("mend", "to mend"),
)
_CAVEATS = (
    "A check tells what hardly fits; whether it is wrong only those know who were there. What "
    "cannot be is refused when it is loaded.",
    "A check that finds nothing does not show that the records are right or complete.",
    "Purpose and outcome of the scope do not matter here. When every kind of guard is looked at, "
    "injuries to sites without a guard are checked too.",
)


def checks(reader: Reader, scope: Scope, known: ScopeValues) -> ChecksAnswer:
    """Count what every data check finds, those first that touch most answers.

    Raises:
        StoreError: The store could not be read.
    """
    found = sorted(count_checks(reader, scope, known, ALL_CHECKS.values()), key=_pressing)
    return ChecksAnswer(
        summary=Summary(
            question=CHECKS.asks,
            answer=_sentence(found, known),
            caveats=_CAVEATS,
            left_out=(),
            scope=scope,
        ),
        checks=tuple(found),
    )


def check_rows(
    reader: Reader, scope: Scope, known: ScopeValues, name: str, page: PageAsked = FIRST
) -> Rows:
    """Return a page of the rows that one check found.

    Raises:
        ScopeError: There is no check of that id.
        StoreError: The store could not be read.
    """
    check = check_named(name)
    found = reader.read_page(check.query, page, **check_params(scope, known))
    return page_rows(check.name, COLUMNS, found, page)


def touching_rows(answer: ChecksAnswer, name: str) -> Rows:
    """Return the checks that touch one answer, with their counts and why they matter."""
    rows = tuple(
        (e.check.name, e.count, e.check.touches[name], e.check.why, e.check.mend)
        for e in answer.checks
        if name in e.check.touches
    )
    return Rows("Data checks that touch this", _TOUCHING, rows, len(rows), len(rows))


def _pressing(each: CheckFound) -> tuple[bool, int, int, str]:
    """Return what sorts checks: found something, touches many answers, has many rows."""
    return (not each.count, -len(each.check.touches), -each.count, each.check.name)


def _sentence(ranked: Sequence[CheckFound], known: ScopeValues) -> str:
    if known.is_empty:
        return "Nothing to check yet: nothing is recorded."
    found = [each for each in ranked if each.count]
    if not found:
        return f"None of {len(ranked)} checks found anything doubtful."
    compared = [each for each in found if "compare" in each.check.touches]
    opening = f"{len(found)} of {len(ranked)} checks found something"
    if not compared:
        return f"{opening}; none touches Compare."
    named = ", ".join(f"{e.check.name} {words.whole(e.count)}" for e in compared[:_NAMED])
    more = f" and {len(compared) - _NAMED} more" if len(compared) > _NAMED else ""
    verb = "touches" if len(compared) == 1 else "touch"
    return f"{opening}; {len(compared)} {verb} Compare: {named}{more}."
