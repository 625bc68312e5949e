"""What was recorded of one athlete: sessions, guards, injuries and offers in one row of time."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import StrEnum
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.base import CAUTION, Summary
from seasonboard.answers.reader import Reader, params_of
from seasonboard.answers.returns.out_now import out_words
from seasonboard.answers.roster.answer import roster
from seasonboard.answers.roster.parts import RosterAthlete
from seasonboard.answers.roster.words import (
    STRIP_KEY,
    comparable_words,
    game_words,
    guard_word,
    reason_word,
    site_word,
    state_word,
    strip_marks,
)
from seasonboard.answers.safe_text import one_line
from seasonboard.answers.words import plural
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues
from seasonboard.sentence import join
from seasonboard.terms import nearest

QUESTION = "What was recorded of this athlete?"

_LISTED_AT_MOST = 20
_AS_STORED = ("item", "word", "reason", "kind", "side", "label", "days_lost")


class What(StrEnum):
    """What kind of entry it is."""

    JOINED = "joined"
    SESSION = "session"
    STAGE = "stage"
    OFFER = "offer"
    INJURY = "injury"
    RETURN = "return"
    LEFT = "left"


@dataclass(frozen=True, slots=True)
class TimelineEntry:
    """One entry. `at` is in the department's time, None where only the day is recorded.

    `item` is the key of the session, guard, offer, injury or team; `word` its part (or not
    recorded), stage, answer, body area or season; `guards` were worn in the session. `sentence`
    says the entry in words.
    """

    on: date
    at: datetime | None
    what: What
    item: str
    word: str
    reason: str | None
    kind: str | None
    side: str | None
    label: str | None
    guards: tuple[str, ...]
    days_lost: int | None
    sentence: str


@dataclass(frozen=True, slots=True)
class AthleteTimeline:
    """One athlete's entries in time order, and counts of them.

    `parts` counts sessions by part, `guarded` those with a guard of the scope worn. `now` are the
    athlete's lines of the roster, one a team that is asked for; none where no team of theirs is.
    """

    summary: Summary
    athlete: str
    name: str
    teams: tuple[str, ...]
    entries: tuple[TimelineEntry, ...]
    parts: Mapping[str, int]
    guarded: int
    injuries: int
    now: tuple[RosterAthlete, ...] = ()


def athlete_timeline(
    reader: Reader, scope: Scope, scope_values: ScopeValues, athlete: str
) -> AthleteTimeline:
    """Return what was recorded of one athlete by the scope's last day.

    `athlete` is a key, or the name as in the roster where only one athlete is called so.

    Raises:
        ScopeError: No athlete, or several, are meant; the message names the nearest.
    """
    people = reader.read("roster/athletes", **params_of("roster/athletes", scope))
    person = _athlete_of(people, athlete)
    params = params_of("roster/timeline", scope, athlete=person["athlete"])
    frame = reader.read("roster/timeline", **params)
    entries = tuple(_entry(row) for row in frame.iter_rows(named=True))
    parts = Counter(entry.word for entry in entries if entry.what is What.SESSION)
    guarded = sum(bool(entry.guards) for entry in entries)
    injuries = sum(entry.what is What.INJURY for entry in entries)
    teams = tuple(scope_values.name_of("team", team) for team in person["teams"])
    sentence = _sentence(person["name"], teams, parts, guarded, injuries)
    caveats = (CAUTION, "Guards and offers are those of the guard kinds in the scope.")
    return AthleteTimeline(
        summary=Summary(QUESTION, sentence, caveats, (), scope),
        athlete=person["athlete"],
        name=person["name"],
        teams=teams,
        entries=entries,
        parts=dict(parts),
        guarded=guarded,
        injuries=injuries,
        now=_now(reader, replace(scope, teams=tuple(person["teams"])), scope_values, person),
    )


def _now(
    reader: Reader, scope: Scope, scope_values: ScopeValues, person: Mapping[str, Any]
) -> tuple[RosterAthlete, ...]:
    """Return the lines that the rosters of the athlete's teams have of them."""
    athletes = roster(reader, scope, scope_values).athletes
    return tuple(one for one in athletes if one.athlete == person["athlete"])


def now_lines(timeline: AthleteTimeline) -> list[str]:
    """Return how it stands with an athlete in a few lines: state, guards, sessions, next game."""
    lines = []
    for one in timeline.now:
        lost = f"; {plural(one.days_lost, 'day')} lost this season" if one.days_lost else ""
        lines.append(f"Now: {state_word(one)}{lost}.")
        if one.out_now is not None:
            lines += [f"{fact[0].upper()}{fact[1:]}." for fact in out_words(one.out_now)]
        elif one.comparable is not None:
            lines.append(f"Injuries of the {comparable_words(one.comparable)}")
        names = [(guard_word(own.kind, own.side), own) for own in one.guards]
        lines += [f"{name[0].upper()}{name[1:]}: {own.because}." for name, own in names]
        lines += [] if names else ["No guard."]
        lines.append(f"Last sessions: {strip_marks(one)}  ({STRIP_KEY})")
        lines.append(f"Next game: {game_words(one.next_game)}.")
    return lines


def _athlete_of(people: pl.DataFrame, word: str) -> Mapping[str, Any]:
    """Return the athlete with this key, else the only one with this name."""
    wanted = word.strip()
    here = people.filter(pl.col("in_scope"))
    by_key = here.filter(pl.col("athlete") == wanted)
    by_name = here.filter(pl.col("name").str.to_lowercase() == wanted.lower())
    athletes = by_key if len(by_key) else by_name
    if len(athletes) == 1:
        return athletes.row(0, named=True)
    if len(athletes) > 1:
        keys = ", ".join(athletes["athlete"].to_list())
        raise ScopeError(f"{len(athletes)} athletes are called “{word}”.", f"Name a key: {keys}.")
    if len(people.filter((pl.col("athlete") == wanted) | (pl.col("name") == wanted))):
        raise ScopeError(
            f"“{word}” is on no roster of this scope.", "Widen the scope, or name another athlete."
        )
    raise ScopeError(f"There is no athlete “{word}”.", _hint(here, wanted))


def _hint(people: pl.DataFrame, word: str) -> str:
    keys, names = people["athlete"].to_list(), people["name"].to_list()
    if not keys:
        return "Nobody is on a roster of this scope."
    near = nearest(word, keys) or nearest(word, names)
    meant = f"Did you mean “{near}”? " if near else ""
    if len(keys) > _LISTED_AT_MOST:
        return f"{meant}“ask roster” lists the {len(keys)} keys of this scope."
    return f"{meant}Known: {', '.join(keys)}."


def _entry(row: Mapping[str, Any]) -> TimelineEntry:
    at = row["happened_at"]
    return TimelineEntry(
        on=row["happened_on"],
        at=None if at is None else at.astimezone(ZoneInfo(row["time_zone"])),
        what=What(row["what"]),
        guards=tuple(row["guards"]),
        sentence=_entry_words(row),
        **{name: row[name] for name in _AS_STORED},
    )


def _entry_words(row: Mapping[str, Any]) -> str:
    what, word = What(row["what"]), row["word"]
    match what:
        case What.SESSION:
            text = _session(row)
        case What.STAGE:
            note = f" ({one_line(row['label'])})" if row["label"] else ""
            text = f"{guard_word(row['kind'], row['side'])} {row['item']} {word}{note}"
        case What.OFFER:
            why = f" ({one_line(row['reason'])})" if row["reason"] else ""
            text = f"{row['kind']} guard offered: {word}{why}"
        case What.INJURY:
            parts = [row["kind"], row["reason"], f"{plural(row['days_lost'], 'day')} lost"]
            text = f"{site_word(word, row['side'])} hurt ({', '.join(p for p in parts if p)})"
        case What.RETURN:
            text = f"back from the {word} injury after {plural(row['days_lost'], 'day')} lost"
        case What.JOINED | What.LEFT:
            text = f"{what} {row['item']}, {word}"
    return text


def _session(row: Mapping[str, Any]) -> str:
    label = f" {one_line(row['label'])}" if row["label"] else ""
    reason = f", {reason_word(row['reason'])}" if row["reason"] else ""
    worn = f"; wore {join(row['guards'])}" if row["guards"] else ""
    return f"{row['kind']}{label}: {row['word']}{reason}{worn}"


def _sentence(
    name: str, teams: tuple[str, ...], parts: Mapping[str, int], guarded: int, injuries: int
) -> str:
    who = f"{one_line(name)}, {join(teams)}"
    if not parts:
        return f"{who}: no session by then."
    counted = ", ".join(f"{count} {part}" for part, count in sorted(parts.items()))
    return (
        f"{who}: {plural(sum(parts.values()), 'session')} ({counted}); a guard worn in {guarded}; "
        f"{plural(injuries, 'injury', 'injuries')}."
    )
