"""Departments: how is each client doing?"""

from collections.abc import Sequence

from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.departments.report import DEPARTMENT_ROWS
from seasonboard.answers.questions import DEPARTMENTS
from seasonboard.ui.board.row_sources import RowSource, table_source
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.departments.page import departments_page
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.layout.opens import Opens, What


class DepartmentsScreen(WorkScreen[DepartmentsAnswer]):
    """How is each client doing?"""

    QUESTION = DEPARTMENTS
    HELP = (
        "One department after the other, those first that need attention, with the reasons. Block "
        "letters are weeks, the last one at the right; · is a week without a figure."
    )

    def draw(self, answer: DepartmentsAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return departments_page(answer, paper)

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the departments as a table, or one's orders."""
        if opens.what is not What.DEPARTMENTS or self.answer is None:
            return super().rows_of(opens)
        return table_source(DEPARTMENT_ROWS, self.answer, "Departments")


SCREEN = DepartmentsScreen
