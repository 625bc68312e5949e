"""`seasonboard ask take-up`."""

import click

from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.answers.take_up.cards import TAKE_UP_CARDS
from seasonboard.answers.take_up.json import take_up_json
from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpBy, TakeUpOptions
from seasonboard.answers.take_up.text import take_up_csv, take_up_text
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope


@click.command("take-up")
@answers(TAKE_UP_CARDS.values())
@click.option(
    "--by",
    type=click.Choice([by.value for by in TakeUpBy]),
    default=TakeUpBy.TEAM.value,
    show_default=True,
    help="What the groups are.",
)
def ask_take_up(board: StoreAnswers, scope: Scope, *, by: str) -> Told[TakeUpAnswer]:
    """Who was offered a guard, and who wears it? Steps from the roster to the session.

    JSON: by; steps [{step: eligible, offered, accepted, fitted or worn; athletes; of_before,
    of_eligible {share, low, high}; without_before}], declined, undecided, waiting, worn_share
    {worn, sessions, athletes, share, low, high}, weeks [{week (its Monday), as worn_share}] of
    all; kinds [the same for each kind, where there are several], groups [the same by --by, with
    group]; reasons [{answer, reason, count}]; out_of_order [{what, athletes}]; answer, caveats,
    left_out, scope. Purpose, outcome and setting do not filter this answer.
    """
    answer = board.take_up(scope, TakeUpOptions(TakeUpBy(by)))
    return Told(answer, take_up_json, take_up_text, take_up_csv)
