"""`seasonboard ask remakes`."""

from functools import partial

import click

from seasonboard.answers.remakes.cards import REMAKES_CARDS
from seasonboard.answers.remakes.json import remakes_json
from seasonboard.answers.remakes.parts import WINDOW, RemakesAnswer, RemakesBy, RemakesOptions
from seasonboard.answers.remakes.text import remakes_csv, remakes_text
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope


@click.command("remakes")
@answers(REMAKES_CARDS.values())
@click.option(
    "--by",
    type=click.Choice([by.value for by in RemakesBy]),
    default=RemakesBy.KIND.value,
    show_default=True,
    help="What the groups are.",
)
@click.option(
    "--window",
    type=int,
    default=WINDOW,
    show_default=True,
    help="Days after fitting within which a remake is looked at.",
)
@click.option(
    "--group-reasons", is_flag=True, help="In text, the reasons of every group too (JSON has them)."
)
def ask_remakes(
    board: StoreAnswers, scope: Scope, *, by: str, window: int, group_reasons: bool
) -> Told[RemakesAnswer]:
    """What came back, and why? Remakes and replacements among fitted guards.

    JSON: by, window; all, groups [{group, fitted, remakes, replacements, reason_not_recorded,
    share, low, high, within_30_days {share, low, high} (named after the window), limits {low,
    high}, outside_limits (false where too few to tell), reading, sessions_worn, per_100_worn
    {value, limit_low, limit_high, outside_limits}, reasons}]; reasons [{reason, counts_as, count,
    share, before_fitting}]; months [{month, fitted, remakes, share, low, high, outside_limits}];
    chains {firsts, redone, redone_exact, redone_within, units, longest, days_to_stay,
    chains_fitted}; life {value, low, high}; guards_in_use; bare_exposures_waiting; waits; answer,
    caveats, left_out, scope. Purpose, outcome and setting do not filter this answer.
    """
    answer = board.remakes(scope, RemakesOptions(RemakesBy(by), window))
    return Told(
        answer, remakes_json, partial(remakes_text, group_reasons=group_reasons), remakes_csv
    )
