"""Drawing a page: a mistake in it is told in the page's place, and the board goes on."""

from collections.abc import Sequence

from seasonboard.errors import SeasonboardError
from seasonboard.ui.app.bug_report import PAGE_FAILED, written_down
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import Block, Draw, Paper

DRAWING = "drawing a page"


class Drawing:
    """Draws one page again and again: for another size, another theme, another answer."""

    def __init__(self) -> None:
        """Know of no failure yet."""
        self._failed: tuple[str, SeasonboardError] | None = None

    def blocks(self, draw: Draw, paper: Paper) -> Sequence[Block]:
        """Return what `draw` makes; where it fails, that it did, and where that is written down."""
        try:
            blocks = draw(paper)
        except Exception as bug:  # noqa: BLE001 - a bug in one page must not end the board
            told = self._problem(bug)
            return page_parts.refusal(told.what, told.hint, paper)
        self._failed = None
        return blocks

    def _problem(self, bug: Exception) -> SeasonboardError:
        """Write a failure down once, however often it comes up again while a window is resized."""
        which = repr(bug)
        if self._failed is None or self._failed[0] != which:
            self._failed = which, written_down(bug, DRAWING, told=PAGE_FAILED)
        return self._failed[1]
