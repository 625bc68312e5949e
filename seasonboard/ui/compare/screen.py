"""Compare: are guarded athletes hurt less?"""

from collections.abc import Sequence
from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.answers.compare.answer import shown_per
from seasonboard.answers.compare.burden_report import BURDEN
from seasonboard.answers.compare.control_sites import CONTROL_ROWS
from seasonboard.answers.compare.hours import Per
from seasonboard.answers.compare.parts import CompareAnswer, CompareOptions
from seasonboard.answers.injury_rows import strata_rows
from seasonboard.answers.questions import COMPARE
from seasonboard.answers.report import table_rows
from seasonboard.answers.rows import Rows, page_in_memory
from seasonboard.paging import FIRST, PageAsked
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.compare.page import RATE_NAMES, compare_page
from seasonboard.ui.compare.undo_window import UndoScreen
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Block, Opens, Paper, What
from seasonboard.ui.widgets.page import Page


class CompareScreen(BoardScreen[CompareAnswer]):
    """The comparisons as a forest, the rates, and what was left out."""

    QUESTION = COMPARE
    HELP = (
        "How often guarded and bare sites were hurt, compared in several ways, each taking away "
        "more of what else could tip the balance. ▸ marks the headline. In the picture ■ is the "
        "ratio and ├──┤ its confidence interval; left of the line at 1 guarded sites were hurt "
        "less often. ◂ and ▸ at an end: the interval goes on beyond the picture. Under the dashed "
        "line the headline holds however often one looks (╞═▪═╡); e is its anytime evidence (20 or "
        "more is strong). Decliners are those who said no to a guard. At control sites a guard can "
        "do nothing; at their neighbours it could do harm."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("t", "next_unit", "unit", "Rates per 1000 exposures, or per 1000 hours",
            "compare.unit"),
        key("w", "doubt", "doubt", "What would undo the headline", "compare.doubt"),
    ]  # fmt: skip
    per = Per.EXPOSURES

    def draw(self, answer: CompareAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return compare_page(shown_per(answer, self.per), paper)

    def action_next_unit(self) -> None:
        """Show the rates per hours, or again per exposures; the cursor goes to them."""
        self.per = Per.HOURS if self.per is Per.EXPOSURES else Per.EXPOSURES
        self._draw_anew()
        if self.answer is not None:
            for name in reversed(RATE_NAMES):  # both groups come into sight
                self.query_one(Page).go_to_name(name)

    def action_doubt(self) -> None:
        """Show what would undo the headline; it is worked out only when it is asked for."""
        if self.answer is not None and self.answer.undo is not None:
            self.has_answered()
        else:
            self.options = CompareOptions(is_whole=True)
            self.action_ask()
            self.options = CompareOptions()

    def has_answered(self) -> None:
        """Show what would undo the headline, where the answer has it."""
        super().has_answered()
        if self.answer and self.answer.undo and self.app.screen is self:
            question_text = self.answer_source.question_text
            self.app.push_screen(UndoScreen(self.answer.undo, question_text))

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the strata of a comparison, injuries elsewhere, or what every screen can open."""
        if self.answer is not None and opens.key == BURDEN.name:
            rows = table_rows(BURDEN, self.answer, "What injuries cost")
            return rows.title, partial(page_in_memory, rows)
        if opens.what is What.TABLE:
            return "Injuries elsewhere", self._elsewhere
        if opens.what is not What.STRATA or self.answer is None:
            return super().rows_of(opens)
        comparison = self.answer.comparison(opens.key)
        return "Strata", partial(strata_rows, comparison)

    def _elsewhere(self, page: PageAsked = FIRST) -> Rows:
        found = self.answer.controls if self.answer is not None else None
        title = "Injuries at sites that no guard in scope covers"
        return page_in_memory(table_rows(CONTROL_ROWS, found, title), page)


SCREEN = CompareScreen
