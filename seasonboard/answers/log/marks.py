"""What a key does to the line of one athlete, and finding an athlete by jersey or name."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import chain

from seasonboard.answers.log.parts import LogAthlete, LogSheet, Mark
from seasonboard.terms import OutReason, Part

REASONS: Mapping[str, OutReason] = {
    "i": OutReason.INJURY,
    "l": OutReason.ILLNESS,
    "s": OutReason.SELECTION,
    "p": OutReason.PERSONAL,
    "o": OutReason.OTHER,
}
"""The letter of each reason."""
_NOT_MEANT = 4


def with_part(mark: Mark, part: Part) -> Mark:
    """Return the mark with another part; a reason stays with its part, minutes with playing."""
    reason = mark.reason if part.value == mark.part else None
    if part is Part.OUT:
        return replace(mark, part=part.value, reason=reason, minutes=None, plays=None)
    return replace(mark, part=part.value, reason=reason)


def without_part(mark: Mark) -> Mark:
    """Return the mark as not recorded; what was worn last time is kept in mind."""
    return Mark(worn=mark.worn)


def worn_choices(athlete: LogAthlete) -> tuple[frozenset[str], ...]:
    """Return what `w` offers in turn: as last time, all, each guard alone, none."""
    guards = [one.guard for one in athlete.guards]
    lately = frozenset(one.guard for one in athlete.guards if one.was_worn)
    each = (frozenset((guard,)) for guard in guards)
    listed = chain((lately, frozenset(guards)), each, (frozenset(),))
    return tuple(dict.fromkeys(listed))


def next_worn(athlete: LogAthlete, mark: Mark) -> Mark:
    """Return the mark with the next choice of guards; with one guard that is worn or not."""
    choices = worn_choices(athlete)
    place = choices.index(mark.worn) if mark.worn in choices else -1
    return replace(mark, worn=choices[(place + 1) % len(choices)])


def all_full(sheet: LogSheet, marks: Mapping[str, Mark]) -> dict[str, Mark]:
    """Return everybody as full, wearing what their lines hold."""
    return {one.athlete: with_part(marks[one.athlete], Part.FULL) for one in sheet.athletes}


def found_by(typed: str, athletes: Sequence[LogAthlete]) -> LogAthlete | None:
    """Return whom a jersey number, or letters of a name or key, mean.

    The whole jersey number goes first, then the beginning of a word of the name, then of a
    jersey number, then any part of name or key.
    """
    wanted = typed.strip().casefold()
    if not wanted:
        return None
    best = min(athletes, key=lambda one: _rank(one, wanted), default=None)
    return best if best is not None and _rank(best, wanted) < _NOT_MEANT else None


def _rank(one: LogAthlete, wanted: str) -> int:
    name, jersey = one.name.casefold(), (one.jersey or "").casefold()
    fits = (
        jersey == wanted,
        f" {wanted}" in f" {name}",
        jersey.startswith(wanted),
        wanted in name or wanted in one.athlete.casefold(),
    )
    return fits.index(True) if any(fits) else _NOT_MEANT
