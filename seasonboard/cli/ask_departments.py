"""`seasonboard ask departments`."""

import click

from seasonboard.answers.departments.cards import DEPARTMENTS_CARDS
from seasonboard.answers.departments.json import departments_json
from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.departments.text import departments_csv, departments_text
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope


@click.command("departments")
@answers(DEPARTMENTS_CARDS.values())
def ask_departments(board: StoreAnswers, scope: Scope) -> Told[DepartmentsAnswer]:
    """How is each client doing? One row a department, those first that need attention most.

    JSON: departments [{department, name, plan, open, late, turnaround {median, low, high, unit},
    ready_for_next_game {count, orders, share, low, high}, remakes {count, fitted, share, low,
    high}, allotment {prints_per_week, week, week_prints, week_used, used, weeks_over, queue},
    availability and availability_before {sessions, available, recorded, not_known, share},
    worn_share {count, sessions, share, low, high}, overdue_decisions, trends {weeks, turnaround,
    remakes, availability, worn}, attention [sentence]}]; answer, caveats, left_out, scope.
    Purpose, outcome and setting do not filter this answer.
    """
    answer = board.departments(scope)
    return Told(answer, departments_json, departments_text, departments_csv)
