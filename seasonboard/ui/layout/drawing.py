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
        self._problems: dict[str, SeasonboardError] = {}

    def blocks(self, draw: Draw, paper: Paper) -> Sequence[Block]:
        """Return what `draw` makes; where it fails, that it did, and where that is written down.

        It is written down once, however often it comes up again while a window is resized.
        """
        try:
            blocks = draw(paper)
        except Exception as bug:  # noqa: BLE001 - a bug in one page must not end the board
            if repr(bug) not in self._problems:
                self._problems[repr(bug)] = written_down(bug, DRAWING, told=PAGE_FAILED)
            problem = self._problems[repr(bug)]
            return page_parts.refusal(problem.what, problem.hint, paper)
        self._problems.clear()
        return blocks
