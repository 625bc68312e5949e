"""The lines of a sheet."""

from dataclasses import dataclass

from textual.message import Message

from seasonboard.ui.widgets.page import Page


class SheetList(Page):
    """The lines of a sheet; tells when the cursor goes to another one."""

    @dataclass
    class Moved(Message):
        """The cursor is on another line."""

    def go_to(self, number: int) -> None:
        """Put the cursor on a line."""
        super().go_to(number)
        self.post_message(self.Moved())

    def _turn(self, by: int) -> None:
        super()._turn(by)
        self.post_message(self.Moved())
