"""Writing down the order of prints that was agreed on."""

from functools import partial
from typing import TYPE_CHECKING, Any, cast

from textual import work
from textual.screen import Screen

from seasonboard.answers.capacity.agreement import agreed
from seasonboard.errors import SeasonboardError
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.app.entries import EntriesApp, StoreChanged
from seasonboard.ui.forms.read_only import NotKept
from seasonboard.ui.layout.format import clean

if TYPE_CHECKING:
    from datetime import date

    from seasonboard.answers.capacity.parts import CapacityAnswer
    from seasonboard.answers.source import AnswerSource
    from seasonboard.entries import Written

NOTHING = "No print waits, so there is no order to agree on."
DOING = "writing down the order of prints"


def today(screen: Screen[Any]) -> "date":
    """Return the day it is, as the board sees it."""
    return cast("EntriesApp", screen.app).today()


class AgreesOnPrints(Screen[None]):
    """A screen on which the order of prints can be agreed on."""

    def agree_on(self, source: "AnswerSource", answer: "CapacityAnswer", on: "date") -> None:
        """Write the order down as decisions, one a department; where nothing is kept, say why."""
        if source.entry_writer is None or source.is_covered:
            self.app.push_screen(NotKept(source))
        elif not answer.in_queue:
            self.app.notify(NOTHING, markup=False)
        else:
            self._write_agreed(source, answer, on)

    @work(thread=True, exclusive=True, group="agree")
    def _write_agreed(self, source: "AnswerSource", answer: "CapacityAnswer", on: "date") -> None:
        written = outcome_of(partial(_written, source, answer, on), DOING)
        self.app.call_from_thread(self._agreed, answer, written)

    def _agreed(
        self, answer: "CapacityAnswer", written: "tuple[str, Written] | SeasonboardError"
    ) -> None:
        if isinstance(written, SeasonboardError):
            self.app.notify(
                clean(written.hint), title=clean(written.what), severity="error", markup=False
            )
            return
        label, outcome = written
        self.has_agreed(answer)
        self.post_message(StoreChanged(label, outcome.load_no))

    def has_agreed(self, answer: "CapacityAnswer") -> None:
        """Do what follows; nothing here."""


def _written(source: "AnswerSource", answer: "CapacityAnswer", on: "date") -> "tuple[str, Written]":
    entry = agreed(answer, first_key=source.lists.free_key("decisions"), on=on)
    assert entry is not None  # noqa: S101 - a print waits
    assert source.entry_writer is not None  # noqa: S101 - it was looked for
    return entry.label, source.entry_writer.write(entry)
