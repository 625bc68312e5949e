"""Words for days, injuries and guards on a roster."""

from datetime import date, datetime
from typing import TYPE_CHECKING

from seasonboard.answers.words import whole

if TYPE_CHECKING:
    from seasonboard.answers.roster.parts import RosterAthlete, StripCell

STRIP_KEY = "● full, guarded  • full, bare  ◐ limited  ○ out  · not recorded"
"""What the marks of `strip_mark` mean."""

_MARKS = {"limited": "◐", "out": "○", "not recorded": "·"}

_ATTENDED = {
    "injury": "injured",
    "illness": "ill",
    "selection": "not selected",
    "personal": "for personal reasons",
    "other": "for other reasons",
    "no reason recorded": "without a reason",
    "full part despite an open injury": "injured",
}


HEALTH = frozenset({"injured", "ill"})
"""Reasons, as words, for which an athlete is not available."""


def reason_word(reason: str | None) -> str:
    """Return a recorded reason as it is said of people: `injured`, `ill`, `not selected`."""
    return _ATTENDED.get(reason or "", reason or "without a reason")


def strip_mark(cell: "StripCell") -> str:
    """Return one letter for one session of the strip; a blank before the athlete joined."""
    if cell.state == "full":
        return "●" if cell.is_guarded else "•"
    return _MARKS.get(cell.state, " ")


def state_word(athlete: "RosterAthlete") -> str:
    """Return an athlete's state in a few words: `out, left knee, day 16`."""
    return athlete.status if athlete.because is None else f"{athlete.status}, {athlete.because}"


def day_word(day: date) -> str:
    """Return a day as `3 Oct`."""
    return f"{day.day} {day:%b}"


def moment_word(at: datetime) -> str:
    """Return an instant, in the zone it is given in, as `Sat 14 Nov, 18:00`."""
    return f"{at:%a} {at.day} {at:%b, %H:%M}"


def days_word(days: int) -> str:
    """Return a count of days with its noun."""
    return f"{whole(days)} {'day' if days == 1 else 'days'}"


def site_word(area: str, side: str) -> str:
    """Return a site as `left knee`, `both knees` being `knee, both sides`."""
    if side in {"left", "right"}:
        return f"{side} {area}"
    return f"{area}, both sides" if side == "both" else area


def guard_word(kind: str, side: str) -> str:
    """Return a guard as `left shin guard`, `shin guards` or `chest guard`."""
    if side == "both":
        return f"{kind} guards"
    return f"{side} {kind} guard" if side in {"left", "right"} else f"{kind} guard"
