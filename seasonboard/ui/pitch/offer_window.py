"""The window in which the offer is read before it is written, with what is hidden and lacking."""

from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text
from textual import work

from seasonboard.documents.kinds import NOTES, PROPOSAL, DocumentRequest, write_document
from seasonboard.errors import SeasonboardError
from seasonboard.saving.files import SavingError
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean
from seasonboard.ui.windows.text_window import TextWindow

if TYPE_CHECKING:
    from seasonboard.documents.model import Document
    from seasonboard.ui.saving.handouts import DocumentContext

MAKING = "Making the offer from the last release …"
NO_PLACE = "The board knows no file of this store: use “seasonboard handout proposal”."
BY_COMMAND = (
    "Teams, plans and fees are typed with t and i. What else begins with -- is given to "
    "“seasonboard handout proposal”, all of it in one file with --offer."
)
_PAGES = 2


class OfferScreen(TextWindow[str | None]):
    """Shows the two pages and the notes as text, and writes both as pages in this folder."""

    HELP = (
        "What the offer lacks or hides stands first, then its two pages, then the notes for who "
        "makes it. w writes both documents into this folder: the offer for outsiders, the notes "
        "for yourself. Esc leaves and writes nothing."
    )
    FOOT = "w writes both · Esc leaves"
    BINDINGS = bindings(
        key("w", "write", "write", "Write the offer and the notes", "offer.write"),
        key("escape", "dismiss(None)", "leave", "Write nothing", "offer.leave"),
    )

    def __init__(self, context: "DocumentContext", today: date) -> None:
        """Read the offer that is made in a context, as of `today`."""
        super().__init__(Text(MAKING), "offer")
        self._asked = context
        self._requests = [
            DocumentRequest(kind, context.answer_source, context.scope, context.options, today)
            for kind in (PROPOSAL, NOTES)
        ]

    def on_mount(self) -> None:
        """Make both in a thread."""
        self._make()

    @work(thread=True, exclusive=True, group="offer")
    def _make(self) -> None:
        made = outcome_of(lambda: [one.document() for one in self._requests], "making the offer")
        self.app.call_from_thread(self._show, made)

    def _show(self, made: "list[Document] | SeasonboardError") -> None:
        if not self.is_attached:
            return
        if isinstance(made, SeasonboardError):
            text = Text(f"{made.what} {made.hint}")
        else:
            from seasonboard.documents.writers.text import as_lines

            offer, notes = made
            lacking = offer.hollow or ("Nothing is lacking in its main parts.",)
            told = (BY_COMMAND,) if any("--" in line for line in lacking) else ()
            lines = [*lacking, *told, "", *as_lines(offer, _PAGES), "", *as_lines(notes)]
            text = Text("\n".join(map(clean, lines)))
        self.show(text)

    def action_write(self) -> None:
        """Write both documents; what one lacks stands on top."""
        if self._asked.store_path is None:
            self.notify(NO_PLACE, markup=False)
        else:
            self._write()

    @work(thread=True, exclusive=True, group="offer")
    def _write(self) -> None:
        outcome = outcome_of(self._written, "writing the offer")
        if isinstance(outcome, SeasonboardError):
            said = f"{outcome.what} {outcome.hint}"
            self.app.call_from_thread(partial(self.notify, markup=False), said)
        else:
            self.app.call_from_thread(self.dismiss, outcome)

    def _written(self) -> str:
        from seasonboard.documents.destination import read_destination

        places = [
            read_destination(None, one.kind.file_name(one.source, one.scope), may_replace=False)
            for one in self._requests
        ]
        if there := [place.path.name for place in places if place.path.exists()]:
            hint = "Nothing was written; move it away, or save under another name with e."
            raise SavingError(f"{there[0]} is there already.", hint)
        source, store_path = self._asked.answer_source, self._asked.store_path
        assert store_path is not None  # noqa: S101 - asked before
        for request, place in zip(self._requests, places, strict=True):
            write_document(request, place, store=lambda: store_path(source.store_location))
        return " and ".join(place.path.name for place in places)
