"""Everything the screens and the command line may ask, behind one door."""

from typing import Protocol

from seasonboard.answers.compare import CompareAnswer, compare
from seasonboard.answers.games import games
from seasonboard.answers.games_parts import GamesAnswer, GamesOptions
from seasonboard.answers.known import opening_scope, read_known
from seasonboard.answers.reader import Reader
from seasonboard.answers.rows import Rows, athlete_rows, injury_rows, tick_rows
from seasonboard.scope import Known, Scope, read_scope


class Asker(Protocol):
    """What a screen needs: answers by scope. `Board` gives them; tests' stand-ins do too.

    Every method may be called from a worker thread. Each raises `SeasonboardError` when the
    request or the store is wrong, and may take a while; `stop` ends what is running.
    """

    @property
    def known(self) -> Known:
        """Return what the store knows for each part of the scope."""
        ...

    @property
    def place(self) -> str:
        """Return what is open, in words: a file, or the sample season."""
        ...

    def opening_scope(self) -> Scope:
        """Return the scope the board starts with."""
        ...

    def compare(self, scope: Scope) -> CompareAnswer:
        """Answer: are guarded athletes hurt less?"""
        ...

    def games(self, scope: Scope, options: GamesOptions) -> GamesAnswer:
        """Answer: how many games are played before an injury?"""
        ...

    def injury_rows(self, scope: Scope) -> Rows:
        """Return the injuries to the sites studied."""
        ...

    def athlete_rows(self, scope: Scope) -> Rows:
        """Return the site-exposures by athlete."""
        ...

    def tick_rows(self, scope: Scope, options: GamesOptions, tick: int) -> Rows:
        """Return who was at risk at one tick."""
        ...

    def stop(self) -> None:
        """Stop every question that is running."""
        ...


class StoppableReader(Reader, Protocol):
    """A reader whose running questions can be stopped."""

    def interrupt(self) -> None:
        """Stop every question that is running."""
        ...


class Board:
    """The answers of one store."""

    def __init__(self, reader: StoppableReader, place: str) -> None:
        """Answer from `reader`; `place` says in words what it is."""
        self._reader = reader
        self._known = read_known(reader)
        self._place = place

    @property
    def known(self) -> Known:
        """Return what the store knows for each part of the scope."""
        return self._known

    @property
    def place(self) -> str:
        """Return what is open, in words: a file, or the sample season."""
        return self._place

    def opening_scope(self) -> Scope:
        """Return the scope the board starts with."""
        return opening_scope(self._known, read_scope({}, self._known))

    def compare(self, scope: Scope) -> CompareAnswer:
        """Answer: are guarded athletes hurt less?"""
        return compare(self._reader, scope, self._known)

    def games(self, scope: Scope, options: GamesOptions | None = None) -> GamesAnswer:
        """Answer: how many games are played before an injury?"""
        return games(self._reader, scope, self._known, options)

    def injury_rows(self, scope: Scope) -> Rows:
        """Return the injuries to the sites studied."""
        return injury_rows(self._reader, scope)

    def athlete_rows(self, scope: Scope) -> Rows:
        """Return the site-exposures by athlete."""
        return athlete_rows(self._reader, scope)

    def tick_rows(self, scope: Scope, options: GamesOptions, tick: int) -> Rows:
        """Return who was at risk at one tick."""
        return tick_rows(self._reader, scope, options, tick)

    def stop(self) -> None:
        """Stop every question that is running."""
        self._reader.interrupt()
