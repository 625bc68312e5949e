"""What the board does about entries on every screen: opens the Log, takes the last entry back."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.message import Message

from seasonboard.ui.app.store_changes import ChangingApp, as_problem

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.store_outcomes import UndoneLoad

TAKE_BACK = "y"
_NOTHING = "Nothing was written into this store yet; there is nothing to take back."


def today_here() -> date:
    """Return the day it is by this machine's clock."""
    return datetime.now().astimezone().date()


def entry_names(labels: tuple[str, ...]) -> str:
    """Return what an entry or load was, in words: its labels without the tables they went to."""
    names = dict.fromkeys(label.partition(" › ")[0] for label in labels)
    return ", ".join(names) or "a load without files"


class EntriesApp(ChangingApp):
    """A board that can be written to; a subclass opens the store and holds the screens."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "u",
            "take_back",
            "take back",
            show=False,
            tooltip="Take the last entry or load back",
            id="app.take_back",
        ),
    ]

    today: Callable[[], date] = staticmethod(today_here)

    @dataclass
    class LastFound(Message):
        """What would be taken back; None where nothing was ever written."""

        last: "UndoneLoad | None"

    def action_log(self) -> None:
        """Open the Log."""
        from seasonboard.ui.log.menu import LogMenu, forms

        if self.answer_source is not None and self.scope is not None and not self._is_covered():
            self.push_screen(
                LogMenu(forms(is_kept=self.answer_source.entry_writer is not None)), self._open_form
            )

    def _is_covered(self) -> bool:
        """Say, in a notice too, whether the curtain is down: what is written needs its names."""
        is_down = self.answer_source is not None and self.answer_source.is_covered
        if is_down:
            self.notify("The curtain is down: c lifts it, to write down.", markup=False, timeout=4)
        return is_down

    def _open_form(self, name: str | None) -> None:
        from seasonboard.ui.log.menu import forms

        if self.answer_source is None or self.scope is None:
            return
        form = next((form for form in forms(is_kept=True) if form.name == name), None)
        if form is not None:
            self.push_screen(
                form.screen(self.answer_source, self.scope, self.today()), self._form_left
            )

    def _form_left(self, has_written: bool | None) -> None:  # noqa: FBT001 - given by the screen
        if has_written:
            self.look_again()

    def action_take_back(self) -> None:
        """Show what was written last, and ask whether it is to be taken back."""
        from seasonboard.ui.forms.read_only import NO_KEEPER

        if self.answer_source is None or self._is_covered():
            return
        if self.answer_source.entry_writer is None:
            self.notify(NO_KEEPER, markup=False)
            return
        self._find_last(self.answer_source)

    @work(thread=True, exclusive=True, group="take back")
    def _find_last(self, answer_source: "AnswerSource") -> None:
        assert answer_source.entry_writer is not None  # noqa: S101 - looked at before
        try:
            self.post_message(self.LastFound(answer_source.entry_writer.last()))
        except Exception as error:  # noqa: BLE001 - told in a sentence, whatever it is
            self.call_from_thread(self.tell, as_problem(error, "finding the last entry"))

    def on_entries_app_last_found(self, message: LastFound) -> None:
        """Ask whether the last entry is to be taken back."""
        from seasonboard.ui.windows.confirm import AskScreen, Reply

        last = message.last
        if last is None:
            self.notify(_NOTHING, markup=False)
            return
        at = last.loaded_at.astimezone()
        lines = (
            entry_names(last.labels),
            f"written {at:%a} {at.day} {at:%b %Y %H:%M}, number {last.load_no}",
            f"{last.new:,} new rows go, {last.changed:,} changed rows get their old cells again.",
        )
        prompt = AskScreen(
            "Take back what was written last?", lines, (Reply(TAKE_BACK, "take it back"),)
        )

        def take(reply: str | None) -> None:
            if reply == TAKE_BACK and self.answer_source is not None:
                self._take_back(self.answer_source, last)

        self.push_screen(prompt, take)

    @work(thread=True, exclusive=True, group="take back")
    def _take_back(self, answer_source: "AnswerSource", last: "UndoneLoad") -> None:
        assert answer_source.entry_writer is not None  # noqa: S101 - looked at before
        try:
            answer_source.entry_writer.take_back(last.load_no)
        except Exception as error:  # noqa: BLE001 - told in a sentence, whatever it is
            self.call_from_thread(self.tell, as_problem(error, "taking back"))
        else:
            self.call_from_thread(self.look_again, f"taken back: {entry_names(last.labels)}")
