"""What can be opened: a table with its title, and what fetches a page of it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from seasonboard.answers.cards import Card
from seasonboard.answers.finder import Hit, Thing, everything
from seasonboard.answers.report import table_rows
from seasonboard.answers.roster.athlete import now_lines
from seasonboard.answers.roster.athlete_report import BY_GROUP
from seasonboard.answers.rows import Rows, page_in_memory
from seasonboard.answers.source import AnswerSource
from seasonboard.paging import PageAsked
from seasonboard.scope import Scope

RowSource = tuple[str, Callable[[PageAsked], Rows]]
"""The title of a table, and what fetches a page of it."""


@dataclass(frozen=True, slots=True)
class Opener:
    """What a table can do besides showing its rows; `card` is that of the number above it."""

    answer_source: AnswerSource
    scope: Scope
    card: Card | None = None

    def athlete(self, athlete: str) -> RowSource:
        """Return all that was recorded of one athlete."""

        def timeline(page: PageAsked) -> Rows:
            one = self.answer_source.athlete_timeline(self.scope, athlete)
            rows = table_rows(BY_GROUP, one, f"{one.name} ({one.athlete})")
            return page_in_memory(replace(rows, lead=tuple(now_lines(one))), page)

        return "Recorded of one athlete", timeline


def opened_by(
    hit: Hit, answer_source: AnswerSource, scope: Scope
) -> tuple[RowSource, Opener] | None:
    """Return what a find opens, in the whole store; None for what belongs into the sentence."""
    opener = Opener(answer_source, everything(scope, answer_source.scope_values))
    if hit.athlete is not None:
        return opener.athlete(hit.athlete), opener
    if hit.what is not Thing.SESSION:
        return None
    rows = partial(answer_source.session_rows, opener.scope, hit.key)
    return (f"Session {hit.key}", rows), opener
