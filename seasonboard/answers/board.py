"""Everything the screens and the command line may ask, behind one door."""

import secrets
from collections.abc import Callable
from datetime import date
from typing import Protocol

from seasonboard.answers.allotment import allotment
from seasonboard.answers.allotment_parts import AllotmentAnswer
from seasonboard.answers.athlete import AthleteTimeline, athlete_timeline
from seasonboard.answers.base import Doubtful
from seasonboard.answers.checks import check_rows, checks
from seasonboard.answers.checks_asked import doubts
from seasonboard.answers.checks_parts import ChecksAnswer
from seasonboard.answers.compare import CompareAnswer, compare
from seasonboard.answers.curtain import CoveredReader
from seasonboard.answers.departments import departments
from seasonboard.answers.departments_parts import DepartmentsAnswer
from seasonboard.answers.finding import Found, find, session_rows
from seasonboard.answers.fingerprint import fingerprint
from seasonboard.answers.games import games
from seasonboard.answers.games_parts import GamesAnswer, GamesOptions
from seasonboard.answers.known import read_known
from seasonboard.answers.lists import Lists
from seasonboard.answers.log import log_sessions, log_sheet
from seasonboard.answers.log_parts import LogSession, LogSessions, LogSheet
from seasonboard.answers.orders import orders
from seasonboard.answers.orders_parts import OrdersAnswer
from seasonboard.answers.pitch import pitch
from seasonboard.answers.pitch_parts import PitchAnswer, PitchOptions
from seasonboard.answers.reader import Reader
from seasonboard.answers.remakes import remakes
from seasonboard.answers.remakes_parts import RemakesAnswer, RemakesOptions
from seasonboard.answers.roster import roster
from seasonboard.answers.roster_parts import RosterAnswer
from seasonboard.answers.rows import FIRST, Rows, athlete_rows, injury_rows, tick_rows
from seasonboard.answers.take_up import take_up
from seasonboard.answers.take_up_parts import TakeUpAnswer, TakeUpOptions
from seasonboard.answers.turnaround import turnaround
from seasonboard.answers.turnaround_parts import TurnaroundAnswer, TurnaroundOptions
from seasonboard.answers.week import week
from seasonboard.answers.week_parts import WeekAnswer, WeekOptions
from seasonboard.answers.work_rows import order_rows
from seasonboard.keeping import Keeper
from seasonboard.paging import PageAsked
from seasonboard.scope import Known, Scope, read_scope


def _for_this_run() -> str:
    return secrets.token_hex(32)


class StoppableReader(Reader, Protocol):
    """A reader whose running questions can be stopped, and whose questions can be read."""

    def text(self, name: str) -> str:
        """Return the text of one question, with its header."""
        ...

    def interrupt(self) -> None:
        """Stop every question that is running."""
        ...


class Board:
    """The answers of one store."""

    def __init__(
        self,
        reader: StoppableReader,
        place: str,
        keeper: Keeper | None = None,
        *,
        secret: Callable[[], str] = _for_this_run,
    ) -> None:
        """Answer from `reader`; `place` says in words what it is, `keeper` writes into it.

        `secret` gives what the curtain's codes are made with; without it they last for this run.
        """
        self._store = reader
        self._curtain = CoveredReader(reader, secret)
        self._reader: Reader = reader
        self._known = read_known(reader)
        self._place = place
        self._keeper = keeper

    @property
    def known(self) -> Known:
        """Return what the store knows for each part of the scope."""
        return self._known

    @property
    def place(self) -> str:
        """Return what is open, in words; a file's name may name a person, so it is covered too."""
        return self._curtain.place(self._place) if self.is_covered else self._place

    @property
    def is_covered(self) -> bool:
        """Say whether the curtain is down: no answer holds a name."""
        return self._reader is self._curtain

    def cover(self, *, is_down: bool) -> None:
        """Let the curtain down or lift it; an answer that is being made keeps its own state."""
        self._reader = self._curtain if is_down else self._store

    @property
    def keeper(self) -> Keeper | None:
        """Return who writes entries into the store; None where it is not to be written to."""
        return self._keeper

    @property
    def lists(self) -> Lists:
        """Return what the store offers to a record that is typed in, never covered."""
        return Lists(self._store)

    def look_again(self) -> None:
        """Find out anew what the store knows, after something was written."""
        self._known = read_known(self._store)

    def opening_scope(self) -> Scope:
        """Return the scope the board starts with."""
        return read_scope({}, self._known)

    def compare(self, scope: Scope) -> CompareAnswer:
        """Answer: are guarded athletes hurt less?"""
        return compare(self._reader, scope, self._known)

    def games(self, scope: Scope, options: GamesOptions | None = None) -> GamesAnswer:
        """Answer: how many games are played before an injury?"""
        return games(self._reader, scope, self._known, options)

    def week(self, scope: Scope, options: WeekOptions | None = None) -> WeekAnswer:
        """Answer: what changed this week, and what must be decided?"""
        return week(self._reader, scope, self._known, options)

    def roster(self, scope: Scope) -> RosterAnswer:
        """Answer: who can play the next game, and in what guard?"""
        return roster(self._reader, scope, self._known)

    def orders(self, scope: Scope) -> OrdersAnswer:
        """Answer: what is on its way, and will it be there in time?"""
        return orders(self._reader, scope, self._known)

    def turnaround(
        self, scope: Scope, options: TurnaroundOptions | None = None
    ) -> TurnaroundAnswer:
        """Answer: how long does a guard take?"""
        return turnaround(self._reader, scope, self._known, options)

    def remakes(self, scope: Scope, options: RemakesOptions | None = None) -> RemakesAnswer:
        """Answer: what came back, and why?"""
        return remakes(self._reader, scope, self._known, options)

    def allotment(self, scope: Scope) -> AllotmentAnswer:
        """Answer: do the prints keep to the plan?"""
        return allotment(self._reader, scope, self._known)

    def take_up(self, scope: Scope, options: TakeUpOptions | None = None) -> TakeUpAnswer:
        """Answer: who was offered a guard, and who wears it?"""
        return take_up(self._reader, scope, self._known, options)

    def departments(self, scope: Scope) -> DepartmentsAnswer:
        """Answer: how is each client doing?"""
        return departments(self._reader, scope, self._known)

    def pitch(self, scope: Scope, options: PitchOptions | None = None) -> PitchAnswer:
        """Answer: what can we promise the next department?"""
        return pitch(self._reader, scope, self._known, options)

    def checks(self, scope: Scope) -> ChecksAnswer:
        """Answer: what in the records is doubtful?"""
        return checks(self._reader, scope, self._known)

    def check_rows(self, scope: Scope, name: str, page: PageAsked = FIRST) -> Rows:
        """Return the rows that one data check found."""
        return check_rows(self._reader, scope, self._known, name, page)

    def doubts(self, scope: Scope, answer: str) -> tuple[Doubtful, ...]:
        """Count the data checks that touch an answer."""
        return doubts(self._reader, scope, self._known, answer)

    def athlete_timeline(self, scope: Scope, athlete: str) -> AthleteTimeline:
        """Return all that was recorded of one athlete, in one row of time."""
        reader = self._reader
        who = self._curtain.meant(athlete, is_down=reader is self._curtain)
        return athlete_timeline(reader, scope, self._known, who)

    def injury_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return the injuries to the sites studied."""
        return injury_rows(self._reader, scope, page)

    def athlete_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return the site-exposures by athlete."""
        return athlete_rows(self._reader, scope, page)

    def tick_rows(
        self, scope: Scope, options: GamesOptions, tick: int, page: PageAsked = FIRST
    ) -> Rows:
        """Return who was at risk at one tick."""
        return tick_rows(self._reader, scope, options, tick, page)

    def order_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return every order with its stages."""
        return order_rows(self._reader, scope, page)

    def find(self, scope: Scope, typed: str) -> Found:
        """Return what holds the words typed: departments, teams, athletes, guards, sessions."""
        return find(self._reader, scope, typed)

    def session_rows(self, scope: Scope, session: str, page: PageAsked = FIRST) -> Rows:
        """Return who was in one session."""
        return session_rows(self._reader, scope, session, page)

    def question_text(self, name: str) -> str:
        """Return the text of a question in the store, with the header that describes it."""
        return self._store.text(name)

    def fingerprint(self) -> str:
        """Return a short mark of the state that the store is in."""
        return fingerprint(self._store)

    def log_sessions(self, scope: Scope, today: date) -> LogSessions:
        """Return the sessions whose attendance can be written down."""
        return log_sessions(self._reader, scope, self._known, today)

    def log_sheet(self, session: LogSession) -> LogSheet:
        """Return who is to be written down in one session, and what is proposed."""
        return log_sheet(self._reader, self._known, session)

    def stop(self) -> None:
        """Stop every question that is running."""
        self._store.interrupt()
