"""Departments: how is each client doing?"""

from functools import partial

from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.departments.report import DEPARTMENT_ROWS
from seasonboard.answers.questions import DEPARTMENTS
from seasonboard.answers.report import table_rows
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.departments.page import departments_page
from seasonboard.ui.layout.blocks import What


class DepartmentsScreen(WorkScreen[DepartmentsAnswer]):
    """How is each client doing?"""

    QUESTION = DEPARTMENTS
    PAGE = staticmethod(departments_page)
    HELP = (
        "One department after the other, those first that need attention, with the reasons. Block "
        "letters are weeks, the last one at the right; · is a week without a figure."
    )
    ROWS = (
        (
            What.DEPARTMENTS,
            "Departments",
            partial(table_rows, DEPARTMENT_ROWS, title="Departments"),
        ),
    )


SCREEN = DepartmentsScreen
