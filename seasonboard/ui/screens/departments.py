"""Departments: how is each client doing?"""

from collections.abc import Sequence
from functools import partial
from typing import ClassVar

from seasonboard.answers.departments import answer as departments
from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.rows import held
from seasonboard.answers.work_rows import department_rows
from seasonboard.ui.blocks import Block, Paper
from seasonboard.ui.departments_page import departments_page
from seasonboard.ui.screens.asking import Request
from seasonboard.ui.screens.behind import Behind
from seasonboard.ui.screens.work import WorkScreen


class DepartmentsScreen(WorkScreen[DepartmentsAnswer]):
    """How is each client doing?"""

    NAME = "departments"
    QUESTION = departments.QUESTION
    HELP = (
        "One department after the other, those first that need attention, with the reasons. Block "
        "letters are weeks, the last one at the right; · is a week without a figure."
    )
    OPENS: ClassVar[str] = "departments"

    def ask_for(self, request: Request) -> DepartmentsAnswer:
        """Ask for the departments."""
        return self.asker.departments(request.scope)

    def draw(self, answer: DepartmentsAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return departments_page(answer, paper)

    def rows_behind(self, opens: str) -> Behind | None:
        """Return the departments as a table, or one's orders."""
        if opens != self.OPENS or self.answer is None:
            return super().rows_behind(opens)
        return "Departments", partial(held, department_rows(self.answer))
