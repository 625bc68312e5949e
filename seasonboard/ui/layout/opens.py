"""What Enter opens on a line of a page: which table, and of what."""

from dataclasses import dataclass
from enum import StrEnum


class What(StrEnum):
    """The tables there are behind the lines of pages."""

    ATHLETE = "athlete"
    ATHLETES = "athletes"
    AVAILABILITY = "availability"
    CHECK = "check"
    CHECKS = "checks"
    DEPARTMENT = "department"
    DEPARTMENTS = "departments"
    GROUP = "group"
    INJURIES = "injuries"
    ORDERS = "orders"
    PROSPECT = "prospect"
    REMADE = "remade"
    ROSTER = "roster"
    STEPS = "steps"
    STRATA = "strata"
    TAKE_UP = "take-up"
    TEAM = "team"
    TICK = "tick"
    WEEK = "week"


@dataclass(frozen=True, slots=True)
class Opens:
    """A table behind a line; `key` says of which athlete, group, tick and so on."""

    what: What
    key: str = ""


INJURIES = Opens(What.INJURIES)
"""The injuries that an answer was counted from."""
