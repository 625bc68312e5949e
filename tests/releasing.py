"""A store whose figures of one kind of guard are released, as most tests want it."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from seasonboard.answers.source import AnswerSource
from seasonboard.releases.block import Release
from seasonboard.releases.making import ReleasePlan, drafted, make_release
from seasonboard.releases.reading import ReleaseMemory
from seasonboard.scope import Scope
from seasonboard.store.entry_writer import StoreEntryWriter
from seasonboard.store.reopening_store import ReopeningStore

MADE_ON = date(2027, 1, 31)


@contextmanager
def written_to(path: Path) -> Iterator[AnswerSource]:
    """Open a store with the one who writes into it."""
    held = ReopeningStore(path)
    try:
        yield AnswerSource(held, str(path), StoreEntryWriter(held))
    finally:
        held.close()


def release_shin(path: Path) -> None:
    """Release the figures of shin guards alone, which takes less long than those of all kinds."""
    with written_to(path) as board:
        last = board.scope_values.last_day
        scope = Scope(last, kinds=("shin",))
        block = drafted(board, scope, "R01", MADE_ON, frozenset(), "")
        plan = ReleasePlan(Release("R01", MADE_ON, last, (block,)), ("shin",))
        make_release(board, ReleaseMemory(), plan)
