"""`seasonboard ask compare`."""

import click

from seasonboard.answers.as_json import compare_json
from seasonboard.answers.board import Board
from seasonboard.answers.cards import CARDS
from seasonboard.answers.checks_asked import with_doubts
from seasonboard.answers.compare import CompareAnswer
from seasonboard.answers.compare_text import compare_csv, compare_text
from seasonboard.cli.asking import Told, answers
from seasonboard.scope import Scope

_CARDS = (
    "exposures",
    "rate",
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
@answers(CARDS[name] for name in _CARDS)
def ask_compare(board: Board, scope: Scope) -> Told[CompareAnswer]:
    """Are guarded athletes hurt less? Rates, and the ratio compared in several ways.

    JSON: guarded, unguarded {injuries, exposures, rate, low, high}; comparisons [{comparison,
    injuries_…, exposures_…, strata, informative_strata, rate_ratio, low, high, p, method, exact,
    clustered, score, homogeneity}]; decliners {the same}; peek_proof {rate_ratio, low, high,
    e_value, looks_valid}; peek_proof_by_week; needed {ratio, power, guarded_exposures, games};
    areas [{area, rate_ratio, low, high, p, p_adjusted}]; verdict; data_checks [{check, count}] that
    touch it; answer, caveats, left_out, scope. Exposures are site-exposures, rates per 1000.
    """
    answer = with_doubts(board.compare(scope), board.doubts(scope, "compare"))
    return Told(answer, compare_json, compare_text, compare_csv)
