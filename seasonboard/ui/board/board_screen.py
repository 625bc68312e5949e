"""What can be done on every screen of the board: walk, find, open what is behind a number."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any, ClassVar

from textual import on
from textual.binding import BindingType
from textual.widgets import Input

from seasonboard.answers.base import Summary
from seasonboard.answers.questions import CHECKS
from seasonboard.answers.rows import Rows, page_in_memory
from seasonboard.documents.kinds import DocumentKind
from seasonboard.errors import SeasonboardError
from seasonboard.paging import PageAsked
from seasonboard.saving.files import SavingError
from seasonboard.scope import Scope
from seasonboard.ui.board.answer_screen import AnswerT, AskingScreen
from seasonboard.ui.board.row_sources import Opener, RowSource
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Block, Opens, Paper, What
from seasonboard.ui.layout.drawing import Drawing
from seasonboard.ui.saving.handouts import DocumentContext, document_files
from seasonboard.ui.saving.offers import ExtraFile, SavableTable, SaveOffer, save_offer
from seasonboard.ui.themes import LIGHT_COLOURS, ink
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.widgets.sentence import ScopeSentence
from seasonboard.ui.windows.method_card import CardScreen
from seasonboard.ui.windows.rows import PAGE, RowsScreen

MIN_WIDE = 78
"""Cells across that a saved page has at least."""


class BoardScreen(AskingScreen[AnswerT]):
    """A page that is walked through with a cursor; a subclass says what is behind its blocks."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "rows", "Open the rows behind this line", "board.open"),
        key("m", "method", "method", "How this number is made", "board.method"),
        key("slash", "find", "find", "Find a word on this page", "board.find"),
        key("s", "sentence", "scope", "Change a part of the sentence on top", "board.sentence"),
        key("l", "app.log", "log", "Write something down", "board.log"),
        key("escape", "back", "back", "Back to the page; stop asking", "board.back", is_quiet=True),
    ]

    DOCUMENTS: ClassVar[tuple[DocumentKind, ...]] = ()
    """Documents that are offered beside the page."""
    ROWS: ClassVar[tuple[tuple[What, str, Callable[[Any], Rows]], ...]] = ()
    """Tables that are made of the answer alone: what opens them, their title, what makes them."""
    above: RowsScreen | None = None
    warned: frozenset[tuple[str, ...]] = frozenset()

    def _warn_once(self, hollow: tuple[str, ...]) -> None:
        """Refuse a document that lacks something until it is asked for again.

        Raises:
            SavingError: What it lacks was not told before.
        """
        if hollow not in self.warned:
            self.warned |= {hollow}
            raise SavingError(" ".join(hollow), "Nothing was written; save again to keep it so.")

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return a title and what fetches a page of the rows behind a block."""
        for what, name, make in self.ROWS:
            if what is opens.what and self.answer is not None:
                return name, partial(page_in_memory, make(self.answer))
        scope = self.scope
        if scope is None:
            return None
        if opens.what is What.ATHLETE:
            return Opener(self.answer_source, scope).athlete(opens.key)
        return {
            What.INJURIES: ("Injuries", partial(self.answer_source.injury_rows, scope)),
            What.ATHLETES: ("Athletes", partial(self.answer_source.athlete_rows, scope)),
            What.ORDERS: ("Orders", partial(self.answer_source.order_rows, scope)),
            What.CHECKS: ("Data checks", partial(self._doubt_rows, scope)),
        }.get(opens.what)

    def _doubt_rows(self, scope: Scope, page: PageAsked) -> Rows:
        """Return the data checks that touch this screen's answer."""
        from seasonboard.answers.checks.rows import touching_rows

        checks = self.answer_source.ask(CHECKS, scope)
        return page_in_memory(touching_rows(checks, self.QUESTION.name), page)

    def action_back(self) -> None:
        """Leave the find line or the sentence; on the page, stop the running question."""
        if self.query_one(Page).has_focus:
            self.action_cancel()
        self.query_one("#find", Input).remove_class("-shown")
        self.query_one(Page).focus()

    def action_sentence(self) -> None:
        """Walk into the sentence."""
        if not self.answer_source.scope_values.is_empty:
            self.query_one(ScopeSentence).focus()

    def action_open(self) -> None:
        """Open the rows behind the line under the cursor."""
        block = self.query_one(Page).block
        if block is not None:
            self._open(block)

    @on(Page.Opened)
    def _clicked_open(self, message: Page.Opened) -> None:
        self._open(message.block)

    def _open(self, block: Block) -> None:
        source = self.rows_of(block.opens) if block.opens is not None else None
        if source is None or block.opens is None or self.scope is None:
            self.notify("There are no rows behind this line.", markup=False, timeout=3)
            return
        from seasonboard.answers.all_cards import ALL_CARDS

        now = (source[0], partial(self._rows_now, block.opens))
        opener = Opener(self.answer_source, self.scope, ALL_CARDS.get(block.card))
        self.above = RowsScreen(now, opener, self.stop, board=self.QUESTION.name, told=self.offer)
        self.app.push_screen(self.above)

    def offer(self) -> SaveOffer | None:
        """Offer the rows behind the line under the cursor, the picture, and the page."""
        page = self.query_one(Page)
        if self.answer is None or page.draw is None:
            return None
        light = ink(LIGHT_COLOURS, tinted=True)
        paper = Paper(max(MIN_WIDE, page.size.width - 1), page.size.height, light)
        blocks = Drawing().blocks(partial(self.draw, self.answer), paper)
        opens = page.block.opens if page.block else None
        table = None
        if opens is not None and (source := self.rows_of(opens)) is not None:
            table = SavableTable(source[0], partial(self._rows_now, opens), PageAsked(PAGE))
        summary: Summary = self.answer.summary  # type: ignore[attr-defined]  # every answer says itself
        offer = save_offer(
            summary, self.answer_source, self.QUESTION.name, self.USES, blocks=blocks, table=table
        )
        return replace(offer, extra_files=self.extra_files())

    def extra_files(self) -> tuple[ExtraFile, ...]:
        """Offer the documents that this screen gives away."""
        if self.scope is None:
            return ()
        context = self.document_context(self.scope)
        return tuple(one for kind in self.DOCUMENTS for one in document_files(kind, context))

    def document_context(self, scope: Scope) -> DocumentContext:
        """Return where a document of this screen is asked for."""
        maker = getattr(self.app, "maker", None)
        store_path = maker.store_path if maker is not None else None
        return DocumentContext(self.answer_source, scope, self.options, store_path, self._warn_once)

    def _rows_now(self, opens: Opens, page: PageAsked) -> Rows:
        """Fetch the rows behind a block of the answer as it is now; runs in a thread."""
        source = self.rows_of(opens)
        if source is None:
            raise SeasonboardError(
                "The answer these rows belong to is not there.", "Go back with Esc, then press r."
            )
        return source[1](page)

    def curtain_moved(self) -> None:
        """Forget the rows that are shown as well; they come again after the answer."""
        if self.above is not None and self.above.is_attached:
            self.above.forget()
        super().curtain_moved()

    def has_answered(self) -> None:
        """Fetch the rows again that were forgotten."""
        if self.above is not None and self.above.is_attached:
            self.above.fetch_what_was_forgotten()

    def action_method(self) -> None:
        """Show how the number under the cursor is made."""
        from seasonboard.answers.all_cards import ALL_CARDS

        block = self.query_one(Page).block
        card = ALL_CARDS.get(block.card) if block is not None else None
        if card is None:
            self.notify("There is no method card for this line.", markup=False, timeout=3)
        else:
            self.app.push_screen(CardScreen(card, self.answer_source.question_text))

    def action_find(self) -> None:
        """Open the find line."""
        find = self.query_one("#find", Input)
        find.add_class("-shown")
        find.value = ""
        find.focus()

    @on(Input.Changed, "#find")
    @on(Input.Submitted, "#find")
    def _find(self, event: Input.Changed | Input.Submitted) -> None:
        """Find what is typed as it is typed; Enter finds the next one."""
        if event.value:
            again = isinstance(event, Input.Submitted)
            is_found = self.query_one(Page).find(event.value, again=again)
            event.input.set_class(not is_found, "-invalid")
