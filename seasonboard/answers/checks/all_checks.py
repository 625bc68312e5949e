"""Every data check, by its id."""

from collections.abc import Mapping

from seasonboard.answers.checks.guard_checks import OF_GUARDS
from seasonboard.answers.checks.parts import Check
from seasonboard.answers.checks.session_checks import OF_SESSIONS
from seasonboard.errors import ScopeError
from seasonboard.terms import nearest

ALL_CHECKS: Mapping[str, Check] = {check.name: check for check in (*OF_SESSIONS, *OF_GUARDS)}


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
