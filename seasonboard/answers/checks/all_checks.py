"""Every data check, by its id; the headers of the files in `queries/checks` describe them."""

import re
from collections.abc import Mapping

from seasonboard.answers.checks.parts import Check
from seasonboard.errors import ScopeError
from seasonboard.store.catalogue import catalogue
from seasonboard.store.question_header import SqlQuestion
from seasonboard.terms import nearest


def _check(question: SqlQuestion) -> Check:
    says = question.header
    touches = dict(re.findall(r"([\w-]+) \(([^)]+)\)", says["touches"]))
    name = question.name.removeprefix("checks/").replace("_", "-")
    return Check(name, question.asks, touches, says["why"], says["mend"], question.name)


ALL_CHECKS: Mapping[str, Check] = {
    check.name: check
    for check in (_check(one) for one in catalogue().values() if one.name.startswith("checks/"))
}


def check_named(name: str) -> Check:
    """Return one check.

    Raises:
        ScopeError: There is none of that id; the message lists them and the nearest.
    """
    plain = name.strip().casefold().replace("_", "-").replace(" ", "-")
    if plain in ALL_CHECKS:
        return ALL_CHECKS[plain]
    near = nearest(plain, list(ALL_CHECKS))
    meant = f"Did you mean “{near}”? " if near else ""
    raise ScopeError(f"There is no check “{name}”.", f"{meant}Known: {', '.join(ALL_CHECKS)}.")


def touching(answer: str) -> tuple[Check, ...]:
    """Return the checks that touch a number of an answer."""
    return tuple(check for check in ALL_CHECKS.values() if answer in check.touches)
