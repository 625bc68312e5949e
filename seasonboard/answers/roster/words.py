"""Words for days, injuries, guards, athletes and games on a roster, the same wherever read."""

from datetime import date, datetime
from typing import TYPE_CHECKING

from seasonboard.answers.safe_text import one_line
from seasonboard.answers.words import plural

if TYPE_CHECKING:
    from seasonboard.answers.roster.parts import (
        ComparableInjuries,
        NextGame,
        RosterAthlete,
        RosterGuard,
        StripCell,
    )

STRIP_KEY = "● full, guarded  • full, bare  ◐ limited  ○ out  · not recorded"
"""What the marks of `strip_mark` mean."""

_MARKS = {"limited": "◐", "out": "○", "not recorded": "·"}

_REASONS = {
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
    return _REASONS.get(reason or "", reason or "without a reason")


def strip_mark(cell: "StripCell") -> str:
    """Return one letter for one session of the strip; a blank before the athlete joined."""
    if cell.state == "full":
        return "●" if cell.is_guarded else "•"
    return _MARKS.get(cell.state, " ")


def strip_marks(athlete: "RosterAthlete") -> str:
    """Return an athlete's last sessions, one letter each, the oldest first."""
    return "".join(strip_mark(cell) for cell in athlete.strip)


def state_word(athlete: "RosterAthlete") -> str:
    """Return an athlete's state in a few words: `out, left knee, day 16`."""
    because = "" if athlete.because is None else f", {athlete.because}"
    return f"{athlete.status}{because}"


def day_word(day: date) -> str:
    """Return a day as `3 Oct`."""
    return f"{day.day} {day:%b}"


def moment_word(at: datetime) -> str:
    """Return an instant, in the zone it is given in, as `Sat 14 Nov, 18:00`."""
    return f"{at:%a} {at.day} {at:%b, %H:%M}"


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


def guard_words(guard: "RosterGuard") -> str:
    """Return a guard in a few words: `left shin guard, worn 3/9`; one being made by its stage."""
    name = guard_word(guard.kind, guard.side)
    if guard.state == "in hand":
        share = "in hand" if guard.worn_share is None else f"worn {guard.worn}/{guard.taken_part}"
        return f"{name}, {share}"
    return f"{name}, {guard.stage if guard.state == 'being made' else guard.state}"


def guards_words(athlete: "RosterAthlete") -> str:
    """Return an athlete's guards in a few words each."""
    return "; ".join(map(guard_words, athlete.guards))


def short_guard_words(guard: "RosterGuard") -> str:
    """Return a guard in the fewest words: `shin left late`, `shin left 3/9`."""
    name = guard.kind if guard.side == "midline" else f"{guard.kind} {guard.side}"
    worn = f" {guard.worn}/{guard.taken_part}" if guard.taken_part and guard.is_in_hand else ""
    state = "" if worn and guard.state == "in hand" else f" {guard.state}"
    return f"{name}{state}{worn}"


def comparable_words(injuries: "ComparableInjuries") -> str:
    """Return how long injuries of an area kept athletes out, in one sentence."""
    count = plural(injuries.injuries, "injury", "injuries")
    counted = f"{count}, {injuries.still_open} still open"
    if injuries.median_days_lost is None:
        return f"{injuries.area}: not told, {injuries.why} ({counted})."
    return (
        f"{injuries.area}: half of such injuries were back within "
        f"{plural(injuries.median_days_lost, 'day')} lost ({counted})."
    )


def game_words(game: "NextGame") -> str:
    """Return when and what a team plays next, or why that is not known."""
    if game.starts_at is None:
        return game.why
    label = f", {one_line(game.label)}" if game.label else ""
    return f"{moment_word(game.starts_at)}{label}"
