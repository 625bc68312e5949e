"""The Roster answer in words: days, injuries, guards, athletes, games, and its sentence."""

from datetime import date, datetime

from seasonboard.answers.base import pooling_caveat
from seasonboard.answers.fields import joined
from seasonboard.answers.roster.parts import (
    ComparableInjuries,
    GuardState,
    Headline,
    NextGame,
    RosterAthlete,
    RosterGuard,
    StripCell,
)
from seasonboard.answers.safe_text import one_line
from seasonboard.answers.words import plural, whole
from seasonboard.scope import Scope, ScopeValues

STRIP_KEY = "● full, guarded  • bare  ◌ not known  ◐ limited  ○ out  · not recorded"
"""What the marks of `strip_mark` mean."""

_MARKS = {"limited": "◐", "out": "○", "not recorded": "·"}

CONTRADICTION = "full part despite an open injury"
"""The reason, as the store tells it, where the record contradicts itself."""

_REASONS = {
    "injury": "injured",
    "illness": "ill",
    "selection": "not selected",
    "personal": "for personal reasons",
    "other": "for other reasons",
    "no reason recorded": "without a reason",
    CONTRADICTION: "injured",
}

HEALTH = frozenset({"injured", "ill"})
"""Reasons, as words, for which an athlete is not available."""


def reason_word(reason: str | None) -> str:
    """Return a recorded reason as it is said of people: `injured`, `ill`, `not selected`."""
    return _REASONS.get(reason or "", reason or "without a reason")


def strip_mark(cell: StripCell) -> str:
    """Return one letter for one session of the strip; a blank before the athlete joined."""
    if cell.state == "full":
        return {True: "●", False: "•", None: "◌"}[cell.is_guarded]
    return _MARKS.get(cell.state, " ")


def strip_marks(athlete: RosterAthlete) -> str:
    """Return an athlete's last sessions, one letter each, the oldest first."""
    return "".join(strip_mark(cell) for cell in athlete.strip)


def state_word(athlete: RosterAthlete) -> str:
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


def guard_words(guard: RosterGuard) -> str:
    """Return a guard in a few words: `left shin guard, worn 3/9`; one being made by its stage."""
    name = guard_word(guard.kind, guard.side)
    if guard.state == "in hand":
        share = "in hand" if guard.worn_share is None else f"worn {guard.worn}/{guard.taken_part}"
        return f"{name}, {share}"
    return f"{name}, {guard.stage if guard.state == 'being made' else guard.state}"


def guards_words(athlete: RosterAthlete) -> str:
    """Return an athlete's guards in a few words each."""
    return "; ".join(map(guard_words, athlete.guards))


def short_guard_words(guard: RosterGuard) -> str:
    """Return a guard in the fewest words, its state first: `late: shin left`, `shin left 3/9`.

    Of one unworn lately no share stands beside: it may have been worn before.
    """
    name = guard.kind if guard.side == "midline" else f"{guard.kind} {guard.side}"
    if guard.state is GuardState.UNWORN:
        return f"unworn: {name}"
    worn = f" {guard.worn}/{guard.taken_part}" if guard.taken_part and guard.is_in_hand else ""
    state = "" if worn and guard.state is GuardState.IN_HAND else f"{guard.state}: "
    return f"{state}{name}{worn}"


def comparable_words(injuries: ComparableInjuries) -> str:
    """Return how long injuries of an area kept athletes out, in one sentence."""
    count = plural(injuries.injuries, "injury", "injuries")
    counted = f"{count}, {injuries.still_open} still open"
    if injuries.median_days_lost is None:
        return f"{injuries.area}: not told, {injuries.why} ({counted})."
    return (
        f"{injuries.area}: half of such injuries were back within "
        f"{plural(injuries.median_days_lost, 'day')} lost ({counted})."
    )


def game_words(game: NextGame) -> str:
    """Return when and what a team plays next, or why that is not known."""
    if game.starts_at is None:
        return game.why
    label = f", {one_line(game.label)}" if game.label else ""
    return f"{moment_word(game.starts_at)}{label}"


def roster_sentence(games: tuple[NextGame, ...], headline: Headline, through: date) -> str:
    """Return who can play, of how many, and which guards are not there."""
    if not games:
        return "There is no team in this scope."
    opening = _opening(games, through)
    if not headline.rostered:
        return f"{opening} Nobody is on the roster."
    can = "can" if any(game.session is not None for game in games) else "could"
    return f"{opening} {_states(headline, can)} {_guards(headline)}"


def roster_caveats(
    athletes: tuple[RosterAthlete, ...], scope: Scope, scope_values: ScopeValues
) -> tuple[str, ...]:
    """Return what to keep in mind about this roster."""
    caveats = [
        "A state is what was recorded at the last session and of injuries since; what was not "
        "recorded is neither out nor able to play, and no return is predicted."
    ]
    stale = sum(bool(a.sessions_since) and a.last_on is not None for a in athletes)
    if stale:
        caveats.append(
            f"{plural(stale, 'athlete has', 'athletes have')} sessions since the last record."
        )
    against = sum(a.reason == CONTRADICTION for a in athletes)
    if against:
        caveats.append(
            f"{plural(against, 'athlete was', 'athletes were')} recorded in full part with an "
            "injury that has no return: shown as limited until the record is put right."
        )
    caveats += pooling_caveat(scope, scope_values)
    return tuple(caveats)


def _opening(games: tuple[NextGame, ...], through: date) -> str:
    ahead = [game for game in games if game.session is not None]
    ahead = [game for game in ahead if game.is_listed] or ahead
    if not ahead:
        return _none_ahead(games, through)
    first = ahead[0]
    if first.starts_at is None:
        return ""
    if len(ahead) == 1:
        return f"{game_words(first)}."
    return f"{len(ahead)} teams play next, first {first.team_name}: {game_words(first)}."


def _none_ahead(games: tuple[NextGame, ...], through: date) -> str:
    last = [game.strip_sessions[-1].played_on for game in games if game.strip_sessions]
    if not last:
        return "No session is recorded yet."
    on = f"{day_word(through)} {through.year}"
    return (
        f"No game is ahead on {on}: the last session was on {day_word(max(last))} {max(last).year}."
    )


def _states(headline: Headline, can: str) -> str:
    everyone = whole(headline.rostered)
    if headline.not_recorded == headline.rostered:
        return f"Who of {plural(headline.rostered, 'athlete')} {can} play is not recorded yet."
    parts = (
        (headline.limited, "limited"),
        (headline.out_for_health, "out hurt or ill"),
        (headline.out - headline.out_for_health, "out otherwise"),
        (headline.not_recorded, "not recorded"),
    )
    others = ", ".join(f"{whole(count)} {word}" for count, word in parts if count)
    last = f"By the last record {whole(headline.full)} of {everyone} {can} play"
    return f"{last}; {others}." if others else f"{last}."


def reasons_words(headline: Headline) -> str:
    """Return why athletes are limited or out, by how many; empty where none is."""
    limited, out = headline.limited_because, headline.out_because
    parts = (
        ("limited", limited),
        ("out", {word: count for word, count in out.items() if word in HEALTH}),
        ("out, not for health", {word: n for word, n in out.items() if word not in HEALTH}),
    )
    return "; ".join(f"{word}: {joined(counts)}" for word, counts in parts if counts)


def _guards(headline: Headline) -> str:
    late, making = headline.guards[GuardState.LATE], headline.guards[GuardState.MAKING]
    parts = (
        (late + making, late, "not there yet"),
        (headline.guards[GuardState.FIT_CHECK], headline.late - late, "to be fitted"),
        (headline.guards[GuardState.REMAKE], 0, "to be remade"),
        (headline.guards[GuardState.CHECK], 0, "worn when its site was hurt"),
        (headline.guards[GuardState.UNWORN], 0, "unworn lately"),
    )
    told = [
        f"{whole(count)} {word}" + (f" ({whole(of_them)} late)" if of_them else "")
        for count, of_them, word in parts
        if count
    ]
    return f"Guards: {', '.join(told)}." if told else "No guard is outstanding."
