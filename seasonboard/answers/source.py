"""What a screen may ask: every answer, by scope."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from seasonboard.answers.questions import AnswerT, OptionsT, Question
from seasonboard.entries import EntryWriter
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope, ScopeValues

if TYPE_CHECKING:
    from datetime import date

    from seasonboard.answers.base import Doubtful
    from seasonboard.answers.finder import Found
    from seasonboard.answers.games.parts import GamesOptions
    from seasonboard.answers.identities import Identities
    from seasonboard.answers.lists import Lists
    from seasonboard.answers.log.parts import LogSession, LogSessions, LogSheet
    from seasonboard.answers.orders.order_groups import OrderGroup
    from seasonboard.answers.pitch.answer import Evidence
    from seasonboard.answers.pitch.parts import PitchAnswer, PitchOptions
    from seasonboard.answers.roster.athlete import AthleteTimeline
    from seasonboard.answers.rows import Rows


class AnswerSource(Protocol):
    """What a screen needs: answers by scope. `Board` gives them; tests' stand-ins do too.

    Every method may be called from a worker thread. Each raises `SeasonboardError` when the
    request or the store is wrong, and may take a while; `stop` ends what is running.
    """

    @property
    def scope_values(self) -> ScopeValues:
        """Return what the store knows for each part of the scope."""
        ...

    @property
    def store_label(self) -> str:
        """Return what is open, in words: a file, or the sample season."""
        ...

    @property
    def entry_writer(self) -> EntryWriter | None:
        """Return who writes entries into the store; None where it is not to be written to."""
        ...

    @property
    def lists(self) -> Lists:
        """Return what the store offers to a record that is typed in."""
        ...

    @property
    def store_location(self) -> str:
        """Return the place as it is, under the curtain too: for what stands beside the store."""
        ...

    @property
    def is_covered(self) -> bool:
        """Say whether the curtain is down: no answer holds a name."""
        ...

    def cover(self, *, is_down: bool) -> None:
        """Let the curtain down or lift it, for every answer that is asked from now on."""
        ...

    def look_again(self) -> None:
        """Find out anew what the store knows, after something was written."""
        ...

    def opening_scope(self) -> Scope:
        """Return the scope the board starts with."""
        ...

    def ask(
        self, question: Question[AnswerT, OptionsT], scope: Scope, options: OptionsT | None = None
    ) -> AnswerT:
        """Answer a question within the scope."""
        ...

    def pitch_evidence(self, scope: Scope, options: PitchOptions) -> Evidence:
        """Return what the store says for a pitch, once for several plans."""
        ...

    def pitch_planned(self, evidence: Evidence, scope: Scope, options: PitchOptions) -> PitchAnswer:
        """Return the plan that the evidence of a scope gives."""
        ...

    def identities(self) -> Identities:
        """Return the words that may stand in no document for outsiders."""
        ...

    def check_rows(self, scope: Scope, name: str, page: PageAsked = FIRST) -> Rows:
        """Return the rows that one data check found."""
        ...

    def doubts(self, scope: Scope, answer: str) -> tuple[Doubtful, ...]:
        """Count the data checks that touch an answer."""
        ...

    def athlete_timeline(self, scope: Scope, athlete: str) -> AthleteTimeline:
        """Return all that was recorded of one athlete, in one row of time."""
        ...

    def injury_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return the injuries to the sites studied."""
        ...

    def athlete_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return the site-exposures by athlete."""
        ...

    def tick_rows(
        self, scope: Scope, options: GamesOptions, tick: int, page: PageAsked = FIRST
    ) -> Rows:
        """Return who was at risk at one tick."""
        ...

    def order_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        """Return every order with its stages."""
        ...

    def group_rows(self, scope: Scope, group: OrderGroup, page: PageAsked = FIRST) -> Rows:
        """Return the orders of one group with their stages."""
        ...

    def find(self, scope: Scope, typed: str) -> Found:
        """Return what holds the words typed: departments, teams, athletes, guards, sessions."""
        ...

    def session_rows(self, scope: Scope, session: str, page: PageAsked = FIRST) -> Rows:
        """Return who was in one session."""
        ...

    def question_text(self, name: str) -> str:
        """Return the text of a question in the store, with the header that describes it."""
        ...

    def fingerprint(self) -> str:
        """Return a short mark of the state that the store is in."""
        ...

    def log_sessions(self, scope: Scope, today: date) -> LogSessions:
        """Return the sessions whose attendance can be written down."""
        ...

    def log_sheet(self, session: LogSession) -> LogSheet:
        """Return who is to be written down in one session, and what is proposed."""
        ...

    def stop(self) -> None:
        """Stop every question that is running."""
        ...
