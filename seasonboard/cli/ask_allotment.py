"""`seasonboard ask allotment`."""

import click

from seasonboard.answers.allotment.cards import ALLOTMENT_CARDS
from seasonboard.answers.allotment.parts import AllotmentAnswer
from seasonboard.answers.allotment.text import allotment_csv, allotment_json, allotment_text
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope


@click.command("allotment")
@answers(ALLOTMENT_CARDS.values())
def ask_allotment(board: StoreAnswers, scope: Scope) -> Told[AllotmentAnswer]:
    """Do the prints keep to the plan? Prints by week against allotments and printers' hours.

    JSON: departments [{department, name, plan, prints_per_week, printers, weeks [{week (its
    Monday), is_whole, asked, prints, hours, without_hours, queue, is_over, hours_share}],
    whole_weeks, prints, weeks_over, used (why where null), hours, hours_share (hours_why where
    null), without_hours, queue, longest_queue}]; answer, caveats, left_out, scope. Purpose, outcome
    and setting do not filter this answer.
    """
    answer = board.allotment(scope)
    return Told(answer, allotment_json, allotment_text, allotment_csv)
