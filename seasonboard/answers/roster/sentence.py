"""The roster's answer as a sentence to read aloud, and what to keep in mind."""

from datetime import date

from seasonboard.answers.base import pooling_caveat
from seasonboard.answers.fields import joined
from seasonboard.answers.roster.athletes import CONTRADICTION
from seasonboard.answers.roster.parts import (
    GuardState,
    Headline,
    NextGame,
    RosterAthlete,
)
from seasonboard.answers.roster.words import HEALTH, day_word, moment_word
from seasonboard.answers.safe_text import one_line
from seasonboard.answers.words import plural, whole
from seasonboard.scope import Scope, ScopeValues
from seasonboard.sentence import join


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
    ahead = [game for game in games if game.session is not None and game.is_listed]
    if not ahead:
        ahead = [game for game in games if game.session is not None]
    if not ahead:
        return _none_ahead(games, through)
    first = ahead[0]
    if first.starts_at is None:
        return ""
    when = moment_word(first.starts_at)
    label = f", {one_line(first.label)}" if first.label else ""
    if len(ahead) == 1:
        return f"{when}{label}:"
    return f"{len(ahead)} teams have a game ahead, first {first.team_name} on {when}{label}."


def _none_ahead(games: tuple[NextGame, ...], through: date) -> str:
    last = [game.strip_sessions[-1].played_on for game in games if game.strip_sessions]
    on = f"{day_word(through)} {through.year}"
    if not last:
        return f"No game is recorded ahead of {on}."
    return (
        f"No game is ahead on {on}: the last session was on {day_word(max(last))} {max(last).year}."
    )


def _states(headline: Headline, can: str) -> str:
    everyone = whole(headline.rostered)
    parts = [f"{whole(headline.full)} of {everyone} {can} play, as last recorded"]
    if headline.limited:
        parts.append(f"{whole(headline.limited)} limited")
    for health, count in (
        (True, headline.out_for_health),
        (False, headline.out - headline.out_for_health),
    ):
        if count:
            counts = {w: n for w, n in headline.out_because.items() if (w in HEALTH) is health}
            word = "out" if health else "last out, but not for health"
            parts.append(f"{whole(count)} {word} ({joined(counts)})")
    if headline.not_recorded:
        parts.append(f"{whole(headline.not_recorded)} not recorded")
    return "; ".join(parts) + "."


def _guards(headline: Headline) -> str:
    late, making = headline.guards[GuardState.LATE], headline.guards[GuardState.MAKING]
    parts = []
    if late + making:
        guards = plural(late + making, "guard is", "guards are")
        of_them = "" if not late else f", {whole(late)} of them late"
        parts.append(f"{guards} not there yet{of_them}")
    late_checks = headline.late - late
    for state, one, many in (
        (GuardState.FIT_CHECK, "awaits its fit check", "await their fit check"),
        (GuardState.REMAKE, "is due a remake", "are due a remake"),
        (GuardState.CHECK, "was worn when its site was hurt", "were worn when their site was hurt"),
        (GuardState.UNWORN, "is unworn", "are unworn"),
    ):
        count = headline.guards[state]
        if count:
            is_check = state is GuardState.FIT_CHECK and late_checks
            of_them = f", {whole(late_checks)} of them late" if is_check else ""
            parts.append(f"{whole(count)} {one if count == 1 else many}{of_them}")
    if not parts:
        return "No guard is outstanding."
    return f"{join(parts)}."
