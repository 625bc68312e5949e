"""Recall: who wears what was made alike?"""

from datetime import date
from functools import partial
from threading import Lock
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual import work
from textual.binding import BindingType

from seasonboard.answers.questions import RECALL
from seasonboard.documents.kinds import RECALL_SHEET
from seasonboard.entries import Entry
from seasonboard.errors import SeasonboardError
from seasonboard.sentence import join
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.app.entries import StoreChanged
from seasonboard.ui.board.described_screen import DescribedScreen, described_page
from seasonboard.ui.forms.all_forms import form_screen
from seasonboard.ui.forms.read_only import NotKept
from seasonboard.ui.forms.record_forms import mark_form
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Block
from seasonboard.ui.recall.alike import show_made_of
from seasonboard.ui.widgets.page import Page

if TYPE_CHECKING:
    from textual.timer import Timer

    from seasonboard.entries import Written
    from seasonboard.ui.app.app import SeasonboardApp

_A_MOMENT = 0.4  # seconds
NOT_CHOSEN = "Choose first what they are made of: ↵ on a lot, or s."
NONE_IN_HAND = "None of them is in use or on its way."
NOT_MARKED = "No decision marks this guard, or it is done: k marks all that are shown."


class RecallScreen(DescribedScreen):
    """Guards made alike; marked as one decision, and ticked off one by one."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("k", "mark", "mark", "Mark all in use or on their way, as one decision",
            "recall.mark"),
        key("t", "tick", "done", "Tick this guard off, and go to the next", "recall.tick"),
    ]  # fmt: skip
    QUESTION = RECALL
    PAGE = staticmethod(partial(described_page, RECALL))
    DOCUMENTS = (RECALL_SHEET,)
    HELP = (
        "Every guard made of one lot, printer or profile: who wears it, and when their team plays "
        "next. ↵ on a lot shows its guards; so does k on any row of a guard, and f. k marks those "
        "in use or on their way to be inspected or replaced by a day; t ticks one off. The "
        "decision stays on Week until all are done."
    )

    def __init__(self, *args: Any) -> None:  # noqa: ANN401 - as every screen of the board
        """Write one tick after the other, however fast they are typed."""
        super().__init__(*args)
        self._writing = Lock()
        self._asking_soon: Timer | None = None
        self._unwritten = 0

    def _open(self, block: Block) -> None:
        """Show the guards of a lot or other part; else the rows behind a line."""
        table, _, name = block.name.partition(" ")
        if table == "parts" and name:
            show_made_of(cast("SeasonboardApp", self.app), name)
        else:
            super()._open(block)

    def _may_write(self) -> bool:
        source = self.answer_source
        if source.entry_writer is None or source.is_covered:
            self.app.push_screen(NotKept(source))
            return False
        return self.answer is not None

    def action_mark(self) -> None:
        """Ask what is to be done with all of them, and by when."""
        if not self._may_write() or self.answer is None:
            return
        made_of = self.answer.summary.scope.made_of
        guards = self.answer.in_hand["guard"].to_list()
        if not made_of or not guards:
            self.notify(NONE_IN_HAND if made_of else NOT_CHOSEN, markup=False, timeout=4)
            return
        self.app.push_screen(form_screen(mark_form(guards, join(made_of)), self.answer_source))

    def action_tick(self) -> None:
        """Write down that the guard under the cursor is done, and go to the next."""
        if not self._may_write() or self.answer is None:
            return
        page = self.query_one(Page)
        of, _, guard = page.block.name.partition(" ") if page.block else ("", "", "")
        found = self.answer.to_be_done
        if found and of != "guards":
            page.go_to_name(f"guards {next(iter(found))}")
            return
        if guard not in found:
            self.notify(NOT_MARKED, markup=False, timeout=4)
            return
        self._show_done(guard)
        page.action_next()
        self._unwritten += 1
        self._write_tick(guard, found[guard])

    def _show_done(self, guard: str) -> None:
        """Show at once what is being written; the board asks anew when the last tick is typed."""
        if self.answer is not None:
            self.answer = self.answer.ticked(guard, self._today)
            self._draw_anew()

    @property
    def _today(self) -> date:
        return cast("SeasonboardApp", self.app).today()

    @work(thread=True, group="tick")
    def _write_tick(self, guard: str, decision: str) -> None:
        cells = {"decision": decision, "guard": guard, "done_on": self._today.isoformat()}
        entry = Entry(f"done, {guard}, {decision}", {"marked_guards": [cells]})
        writer = self.answer_source.entry_writer
        with self._writing:
            assert writer is not None  # noqa: S101 - it was looked for
            outcome = outcome_of(partial(writer.write, entry), "ticking a guard off")
        self.app.call_from_thread(self._ticked, entry.label, outcome)

    def _ticked(self, label: str, outcome: "Written | SeasonboardError") -> None:
        """Ask anew once no tick was typed for a moment: what is asked would be stopped by it."""
        self._unwritten -= 1
        if self._asking_soon is not None:
            self._asking_soon.stop()
        if isinstance(outcome, SeasonboardError):
            cast("SeasonboardApp", self.app).tell(outcome)
            self.action_ask()
            return
        if self._unwritten:
            return
        changed = StoreChanged(label, outcome.load_no)
        self._asking_soon = self.set_timer(_A_MOMENT, lambda: self.app.post_message(changed))


SCREEN = RecallScreen
