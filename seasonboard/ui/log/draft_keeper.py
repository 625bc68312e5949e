"""Keeps the draft of a sheet: soon after each change, in a thread, and whenever it is left."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual import work
from textual.message import Message
from textual.widget import Widget

from seasonboard.ui.log.drafts import Drafts, SheetDraft

if TYPE_CHECKING:
    from textual.timer import Timer

PAUSE = 0.2
"""Seconds after a key until the draft is kept."""


class DraftKeeper(Widget):
    """The draft of one session's sheet; nothing of it is seen."""

    DEFAULT_CSS = "DraftKeeper { display: none; }"

    @dataclass
    class Lost(Message):
        """The draft could not be kept."""

        why: str

    def __init__(self, drafts: Drafts, session: str, draft: Callable[[], SheetDraft]) -> None:
        """Keep what `draft` gives of a session among `drafts`."""
        super().__init__()
        self.drafts = drafts
        self._session = session
        self._draft = draft
        self._number = 0
        self._timer: Timer | None = None

    def find(self) -> SheetDraft | None:
        """Return the draft that is kept, if there is one."""
        return self.drafts.find(self._session)

    def keep_soon(self) -> None:
        """Keep the draft once no further key came for a moment."""
        self._stop_waiting()
        self._timer = self.set_timer(PAUSE, self._keep)

    def _stop_waiting(self) -> bool:
        """Say whether a change was not in the draft yet."""
        timer, self._timer = self._timer, None
        if timer is not None:
            timer.stop()
        return timer is not None

    def _keep(self) -> None:
        self._timer = None
        self._number += 1
        self._keep_in_thread(self._draft(), self._number)

    @work(thread=True, group="draft")
    def _keep_in_thread(self, draft: SheetDraft, number: int) -> None:
        self._write(draft, number)

    def keep_now(self) -> None:
        """Keep what is not in the draft yet."""
        if self._stop_waiting():
            self._number += 1
            self._write(self._draft(), self._number)

    def _write(self, draft: SheetDraft, number: int) -> None:
        try:
            self.drafts.keep(draft, number)
        except OSError as error:
            self.post_message(self.Lost(str(error)))

    def forget(self) -> None:
        """Remove the draft."""
        self._stop_waiting()
        self._number += 1
        self.drafts.remove(self._session, self._number)

    def on_unmount(self) -> None:
        """Keep what is not in the draft yet, however the board is left."""
        self.keep_now()
