"""One search over everything that has a name: departments, teams, athletes, guards, sessions."""

from dataclasses import dataclass, replace
from enum import StrEnum

from seasonboard.answers.reader import Reader
from seasonboard.answers.rows import Column, Rows, page_rows
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope, ScopeValues, read_scope

MOST_FOUND = 50
"""Hits shown; how many more there are is told beside them."""

_SESSION = (
    Column("athlete", "athlete"),
    Column("name", "name"),
    Column("part", "part"),
    Column("reason", "reason"),
    Column("minutes", "minutes", is_number=True),
    Column("guards", "wore"),
    Column("hurt", "hurt"),
)


class Thing(StrEnum):
    """What can be found."""

    DEPARTMENT = "department"
    TEAM = "team"
    ATHLETE = "athlete"
    GUARD = "guard"
    SESSION = "session"
    MADE_OF = "made of"


@dataclass(frozen=True, slots=True)
class Hit:
    """One thing found: its key, its name, what stands beside it, and whose it is.

    `athlete` is the key of the athlete whose it is, None for what is nobody's.
    """

    what: Thing
    key: str
    name: str
    beside: str
    athlete: str | None


@dataclass(frozen=True, slots=True)
class FinderMatches:
    """The first hits for what was typed, and how many there are in all."""

    typed: str
    hits: tuple[Hit, ...]
    matching: int

    @property
    def more(self) -> int:
        """Return how many hits are not listed."""
        return self.matching - len(self.hits)


def find(reader: Reader, scope: Scope, typed: str) -> FinderMatches:
    """Return what holds every word typed, in any order, capitals and accents.

    The whole store is searched, as it was known on the last day of the scope; of the rest of the
    scope nothing depends on it. Nothing typed finds nothing, but lays ready what is searched.
    """
    words = typed.split()
    until = scope.params()["until"]
    frame = reader.read("find/everything", words=words or [""], most=MOST_FOUND, until=until)
    if not words:
        return FinderMatches(typed, (), 0)
    hits = tuple(
        Hit(Thing(row["what"]), row["key"], row["name"] or "", row["beside"] or "", row["athlete"])
        for row in frame.iter_rows(named=True)
    )
    return FinderMatches(typed, hits, frame["matching"][0] if len(frame) else 0)


def session_rows(reader: Reader, scope: Scope, session: str, page: PageAsked = FIRST) -> Rows:
    """Return who was in one session, in what guard, and who was hurt."""
    until = scope.params()["until"]
    found = reader.read_page("find/session", page, session=session, until=until)
    return page_rows(f"Session {session}", _SESSION, found, page)


def everything(scope: Scope, known: ScopeValues) -> Scope:
    """Return the scope widened to the whole store, on the same last day."""
    return replace(read_scope({}, known), through=scope.through)


def narrowed(scope: Scope, hit: Hit) -> Scope:
    """Return the scope with only the department or team that was found."""
    if hit.what is Thing.TEAM:
        return replace(scope, departments=None, teams=(hit.key,), sports=None, sexes=None)
    return replace(scope, departments=(hit.key,), teams=None)
