"""`seasonboard ask compare`."""

import click

from seasonboard.answers.checks.counting import with_doubts
from seasonboard.answers.compare.answer import CompareAnswer, shown_per
from seasonboard.answers.compare.cards import COMPARE_CARDS
from seasonboard.answers.compare.hours import Per
from seasonboard.answers.compare.json import compare_json
from seasonboard.answers.compare.text import compare_csv, compare_text
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope

_CARDS = (
    "exposures",
    "rate",
    "rate per hour",
    "same session",
    "alike athletes",
    "same athlete",
    "other side",
    "crude",
    "decliners",
    "areas",
    "clustered",
    "peek-proof",
    "needed",
    "verdict",
    "left out",
)


@click.command("compare")
@answers(COMPARE_CARDS[name] for name in _CARDS)
@click.option(
    "--per",
    type=click.Choice([per.value for per in Per]),
    default=Per.EXPOSURES.value,
    show_default=True,
    help="Show the rates per 1000 exposures, or per 1000 hours where minutes are recorded.",
)
def ask_compare(board: StoreAnswers, scope: Scope, *, per: str) -> Told[CompareAnswer]:
    """Are guarded athletes hurt less? Rates, and the ratio compared in several ways.

    JSON: per; guarded, unguarded {injuries, exposures, rate, low, high; hours,
    injuries_in_hours, injuries_without_minutes, exposures_without_minutes, rate_per_1000_hours,
    low_hours, high_hours, why (where one is null)}; comparisons [{comparison,
    injuries_…, exposures_…, strata, informative_strata, rate_ratio, low, high, p, method, exact,
    clustered, score, homogeneity}]; decliners {the same}; peek_proof {rate_ratio, low, high,
    e_value, looks_valid}; peek_proof_by_week; needed {ratio, power, guarded_exposures, games};
    areas [{area, rate_ratio, low, high, p, p_adjusted}]; verdict; data_checks [{check, count}] that
    touch it; answer, caveats, left_out, scope. Exposures are site-exposures, rates per 1000;
    hours are those of site-exposures with minutes recorded. Ratios stay per exposure.
    """
    answer = with_doubts(board.compare(scope), board.doubts(scope, "compare"))
    answer = shown_per(answer, Per(per))
    return Told(answer, compare_json, compare_text, compare_csv)
