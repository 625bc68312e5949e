"""Everything the screens and the command line may ask, behind one door.

Each answer is imported when it is first asked for: the first one shown waits for no other.
"""

from __future__ import annotations

import secrets
from functools import cached_property
from typing import TYPE_CHECKING

from seasonboard.answers.questions import COMPARE, GAMES, AnswerT, OptionsT, Question
from seasonboard.entries import EntryWriter
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope, ScopeValues, read_scope

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date
    from pathlib import Path

    import polars as pl

    from seasonboard.answers.base import Doubtful
    from seasonboard.answers.finder import FinderMatches
    from seasonboard.answers.games.parts import GamesOptions
    from seasonboard.answers.identities import Identities
    from seasonboard.answers.lists import Lists
    from seasonboard.answers.log.parts import LogSession, LogSessions, LogSheet
    from seasonboard.answers.orders.order_groups import OrderGroup
    from seasonboard.answers.pitch.answer import Evidence, PlanBasis
    from seasonboard.answers.pitch.options import PitchOptions
    from seasonboard.answers.pitch.parts import PitchAnswer
    from seasonboard.answers.reader import Reader, StoppableReader
    from seasonboard.answers.roster.athlete import AthleteTimeline
    from seasonboard.answers.rows import Rows
    from seasonboard.answers.turns.planning import DrawOptions, DrawPlan
    from seasonboard.looks import LookBook


def _for_this_run() -> str:
    return secrets.token_hex(32)


class AnswerSource:
    """The answers of one store, and what else its screens and commands may ask of it.

    Every method may be called from a worker thread, may take a while, and raises `SeasonboardError`
    when the request or the store is wrong; `stop` ends what is running.
    """

    def __init__(  # noqa: PLR0913 - what is kept of a store, by name
        self,
        reader: StoppableReader,
        place: str,
        entry_writer: EntryWriter | None = None,
        *,
        secret: Callable[[], str] = _for_this_run,
        look_book: Callable[[str], LookBook] | None = None,
        releases_path: Callable[[str], Path] | None = None,
    ) -> None:
        """Answer from `reader`; `place` says in words what it is, `entry_writer` writes into it.

        `secret` gives what the curtain's codes are made with; without it they last for this run.
        `look_book` gives, for the mark of a store, where looks at Compare and Games are counted,
        `releases_path` where its releases are remembered.
        """
        from seasonboard.answers.curtain.covering import CurtainedReader

        self._store = reader
        self._curtain = CurtainedReader(reader, secret)
        self._reader: Reader = reader
        self.look_again()
        self._place = place
        self._entry_writer = entry_writer
        self._look_book = look_book
        self._releases_path = releases_path

    @property
    def scope_values(self) -> ScopeValues:
        """Return what the store knows for each part of the scope."""
        return self._known

    @property
    def store_label(self) -> str:
        """Return what is open, in words; a file's name may name a person, so it is covered too."""
        return self._curtain.store_label(self._place) if self.is_covered else self._place

    @property
    def store_location(self) -> str:
        """Return the place as it is, under the curtain too: for what stands beside the store."""
        return self._place

    @property
    def is_covered(self) -> bool:
        """Say whether the curtain is down: no answer holds a name."""
        return self._reader is self._curtain

    def cover(self, *, is_down: bool) -> None:
        """Let the curtain down or lift it; an answer that is being made keeps its own state."""
        self._reader = self._curtain if is_down else self._store

    @property
    def entry_writer(self) -> EntryWriter | None:
        """Return who writes entries into the store; None where it is not to be written to."""
        return self._entry_writer

    @property
    def lists(self) -> Lists:
        """Return what the store offers to a record that is typed in, never covered."""
        from seasonboard.answers.lists import Lists

        return Lists(self._store)

    def look_again(self) -> None:
        """Find out anew what the store knows, after something was written."""
        from seasonboard.answers.scope_values import read_known

        self._known = read_known(self._store)

    def ask(
        self,
        question: Question[AnswerT, OptionsT],
        scope: Scope,
        options: OptionsT | None = None,
        **known: object,
    ) -> AnswerT:
        """Answer a question within the scope; `known` is what it need not work out again.

        Raises:
            ScopeError: What was asked for makes no sense.
            StoreError: The store could not be read.
        """
        wishes = () if options is None else (options,)
        answer = question.answer()(self._reader, scope, self._known, *wishes, **known)
        if self._look_book is None or question not in {COMPARE, GAMES}:
            return answer
        looks = self._look_book(self._store_id).note(scope)
        if question is not COMPARE:
            return answer
        from seasonboard.answers.compare.looked_at import with_looks

        return with_looks(answer, looks)  # type: ignore[arg-type, return-value]

    @property
    def releases_path(self) -> Path | None:
        """Return the file that remembers the releases made of this store; None: nobody does."""
        return self._releases_path(self._store_id) if self._releases_path else None

    @cached_property
    def _store_id(self) -> str:
        return str(self._store.read("bundle/store_id")["store_id"].item())

    def opening_scope(self) -> Scope:
        """Return the scope the board starts with."""
        return read_scope({}, self._known)

    def read_covered(self, scope: Scope, *questions: str, **more: object) -> list[pl.DataFrame]:
        """Return the rows of several questions with people as codes, whether it is down or not.

        Raises:
            StoreError: The store could not be read.
        """
        from seasonboard.answers.reader import read_frames

        return list(read_frames(self._curtain, scope, *questions, **more).values())

    def plan_draw(self, scope: Scope, options: DrawOptions) -> DrawPlan:
        """Return what a draw of turns on the scope's last day would be, never covered."""
        from seasonboard.answers.turns.planning import plan_draw

        return plan_draw(self._store, scope, self._known, options)

    def pitch_evidence(self, scope: Scope) -> Evidence:
        """Return what the store says for a pitch, never covered."""
        from seasonboard.answers.pitch.answer import gathered

        return gathered(self._store, scope, self._known)

    def pitch_planned(self, basis: PlanBasis, scope: Scope, options: PitchOptions) -> PitchAnswer:
        """Return the plan that a basis gives."""
        from seasonboard.answers.pitch.answer import planned, refuse

        refuse(scope, options)
        return planned(basis, scope, self._known, options)

    def read_asked(self, name: str, scope: Scope | None = None) -> pl.DataFrame:
        """Return the rows of a question that names nobody, within a scope if it takes one."""
        from seasonboard.answers.reader import params_of

        return self._store.read(name, **({} if scope is None else params_of(name, scope)))

    def check_rows(self, scope: Scope, name: str, page: PageAsked = FIRST) -> Rows:
        """Return the rows that one data check found."""
        from seasonboard.answers.checks.rows import check_rows

        return check_rows(self._reader, scope, self._known, name, page)

    def doubts(self, scope: Scope, answer: str) -> tuple[Doubtful, ...]:
        """Count the data checks that touch an answer."""
        from seasonboard.answers.checks.counting import doubts

        return doubts(self._reader, scope, self._known, answer)

    def identities(self) -> Identities:
        """Return the words that may stand in no document for outsiders."""
        from seasonboard.answers.identities import identities

        return identities(self._store)

    def athlete_timeline(self, scope: Scope, athlete: str) -> AthleteTimeline:
        """Return all that was recorded of one athlete, in one row of time."""
        from seasonboard.answers.roster.athlete import athlete_timeline

        reader = self._reader
        who = self._curtain.meant(athlete, is_down=reader is self._curtain)
        return athlete_timeline(reader, scope, self._known, who)

    def injury_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return the injuries to the sites studied."""
        from seasonboard.answers.injury_rows import injury_rows

        return injury_rows(self._reader, scope, page)

    def athlete_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return the site-exposures by athlete."""
        from seasonboard.answers.injury_rows import athlete_rows

        return athlete_rows(self._reader, scope, page)

    def tick_rows(
        self, scope: Scope, options: GamesOptions, tick: int, page: PageAsked = FIRST
    ) -> Rows:
        """Return who was at risk at one tick."""
        from seasonboard.answers.injury_rows import tick_rows

        return tick_rows(self._reader, scope, options, tick, page)

    def order_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return every order with its stages."""
        from seasonboard.answers.orders.rows import order_rows

        return order_rows(self._reader, scope, page)

    def group_rows(self, scope: Scope, group: OrderGroup, page: PageAsked = FIRST) -> Rows:
        """Return the orders of one group with their stages."""
        from seasonboard.answers.orders.rows import group_rows

        return group_rows(self._reader, scope, group, page)

    def made_alike(self, guard: str) -> tuple[tuple[str, int], ...]:
        """Return each part of a guard's build, as the scope says it, and the guards made of it."""
        return tuple(self._reader.read("recall/build", guard=guard).iter_rows())

    def find(self, scope: Scope, typed: str) -> FinderMatches:
        """Return what holds the words typed: departments, teams, athletes, guards, sessions."""
        from seasonboard.answers.finder import find

        return find(self._reader, scope, typed)

    def session_rows(self, scope: Scope, session: str, page: PageAsked = FIRST) -> Rows:
        """Return who was in one session."""
        from seasonboard.answers.finder import session_rows

        return session_rows(self._reader, scope, session, page)

    def question_text(self, name: str) -> str:
        """Return the text of a question in the store, with the header that describes it."""
        return self._store.text(name)

    def fingerprint(self) -> str:
        """Return a short mark of the state that the store is in."""
        from seasonboard.answers.fingerprint import fingerprint

        return fingerprint(self._store)

    def log_sessions(self, scope: Scope, today: date) -> LogSessions:
        """Return the sessions whose attendance can be written down."""
        from seasonboard.answers.log.answer import log_sessions

        return log_sessions(self._reader, scope, self._known, today)

    def log_sheet(self, session: LogSession) -> LogSheet:
        """Return who is to be written down in one session, and what is proposed."""
        from seasonboard.answers.log.answer import log_sheet

        return log_sheet(self._reader, self._known, session)

    def stop(self) -> None:
        """Stop every question that is running."""
        self._store.interrupt()
