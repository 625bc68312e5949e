"""The rows behind the working season: roster, one athlete, departments, steps, the week."""

from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.departments.report import DEPARTMENT_ROWS
from seasonboard.answers.report import table_rows
from seasonboard.answers.roster.athlete import AthleteTimeline
from seasonboard.answers.roster.athlete_report import LATEST_FIRST
from seasonboard.answers.roster.athletes_table import GUARD_ROWS
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.rows import Rows
from seasonboard.answers.take_up.parts import TakeUpAnswer
from seasonboard.answers.take_up.report import STEP_ROWS
from seasonboard.answers.week.parts import WeekItem


def roster_rows(answer: RosterAnswer) -> Rows:
    """Return the roster, one row a guard, and one for everybody without any."""
    return table_rows(GUARD_ROWS, answer, "Roster")


def timeline_rows(timeline: AthleteTimeline) -> Rows:
    """Return one athlete's season, the latest first."""
    return table_rows(LATEST_FIRST, timeline, f"{timeline.name} ({timeline.athlete})")


def department_rows(answer: DepartmentsAnswer) -> Rows:
    """Return the figures of every department, unrounded."""
    return table_rows(DEPARTMENT_ROWS, answer, "Departments")


def take_up_rows(answer: TakeUpAnswer) -> Rows:
    """Return every step of every group."""
    return table_rows(STEP_ROWS, answer, "Steps")


def week_rows(item: WeekItem) -> Rows:
    """Return the rows behind one item of the week."""
    return table_rows(item.table, item, item.title)
