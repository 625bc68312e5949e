"""The curtain's key: names are covered, or shown again, on every screen at once."""

from seasonboard.ui.app.scope_choosing import ScopeChoosing
from seasonboard.ui.keys import bindings, key


class CurtainApp(ScopeChoosing):
    """An app whose answers can be covered; what was shown before is forgotten first."""

    BINDINGS = bindings(
        key("c", "curtain", "curtain", "Cover names with codes, or show them again", "app.curtain",
            is_quiet=True),
    )  # fmt: skip

    def action_curtain(self) -> None:
        """Let the curtain down or lift it; nothing that was shown before stays in sight."""
        if self.answer_source is None:
            return
        if any(getattr(screen, "IS_ENTRY", False) for screen in self.screen_stack):
            self.notify("Save or leave what is typed here; then c covers names.", markup=False)
            return
        self.stop_asking()
        self.answer_source.cover(is_down=not self.answer_source.is_covered)
        self.clear_notifications()
        boards = self.boards.values()
        staying = {*boards, *(board.above for board in boards if board.above)}
        while len(self.screen_stack) > 1 and self.screen not in staying:
            self.pop_screen()  # what was opened further on holds what it was opened with
        for board in boards:
            board.curtain_moved()
