"""What may be said of orders, remakes, wearing and contact, and what is missing for it."""

from datetime import date
from types import SimpleNamespace

import pytest

from seasonboard.answers.base import Summary
from seasonboard.answers.claims.work_claims import (
    contact_claim,
    ready_claim,
    remade_claim,
    turnaround_claim,
    worn_claim,
)
from seasonboard.answers.remakes.groups import Within
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.scope import Scope
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import wilson
from seasonboard.terms import Stage

SCOPE = Scope(date(2026, 11, 14), kinds=("shin",))


def made(decided=(40, 100), undecided=0, median=(14.0, 13.0, 15.0), orders=120, **options):
    return SimpleNamespace(
        summary=Summary("", "", (), (), SCOPE),
        options=TurnaroundOptions(**options),
        whole=SimpleNamespace(
            orders=orders,
            median=Estimate(*median, why="" if median[0] else "not reached"),
            ready=SimpleNamespace(share=wilson(*decided), undecided=undecided),
        ),
    )


def test_turnaround_and_readiness_are_said_with_limits():
    assert turnaround_claim(made()).sentence == (
        "Half of the guards were fitted within 14 days of being requested (95 %: 13 to 15; "
        "through 14 Nov 2026)."
    )
    assert ready_claim(made()).sentence.startswith("40 % of guards were fitted before the team's")
    assert "95 %: 31 % to 50 %" in ready_claim(made()).sentence  # Wilson, 40 of 100
    assert ready_claim(made(end=Stage.SHIPPED)) is None


@pytest.mark.parametrize(
    ("claim", "missing"),
    [
        (turnaround_claim(made(orders=7)), "at least 11 orders (7 so far)"),
        (turnaround_claim(made(median=(None, 9.0, None))), "half of the orders fitted (not rea"),
        (turnaround_claim(made(median=(14.0, 9.0, None))), "limits on both sides"),
        (ready_claim(made((4, 9))), "at least 11 orders of which it is decided (9 so far)"),
        (ready_claim(made((30, 30), undecided=4)), "the games that 4 orders still wait for"),
    ],
)
def test_what_orders_do_not_show_yet_is_said_to_be_missing(claim, missing):
    assert not claim.is_supported
    assert missing in claim.missing


def remade(fitted, remakes, within):
    whole = SimpleNamespace(fitted=fitted, remakes=remakes, within=within)
    return remade_claim(SimpleNamespace(summary=Summary("", "", (), (), SCOPE), whole=whole))


def test_remakes_are_said_within_days_of_fitting():
    claim = remade(200, 24, Within(0.09, 0.06, 0.14, days=30))
    assert claim.sentence.startswith("9 % of fitted guards were remade within 30 days of fitting")
    assert claim.is_for_outsiders
    assert not remade(200, 8, Within(0.04, 0.02, 0.08, days=30)).is_for_outsiders
    assert remade(200, 0, Within(0.0, 0.0, 0.02, days=30)).is_for_outsiders
    few, unknown = (
        remade(9, 0, Within(0.0, 0.0, 0.3, days=30)),
        Within(None, why="too new", days=30),
    )
    assert few.missing == "at least 11 fitted guards (9 so far)"
    assert remade(20, 0, unknown).missing == "guards followed for 30 days (too new)"


@pytest.mark.parametrize(
    ("share", "is_supported", "is_for_outsiders"),
    [
        (ClusteredShare(0.7, 0.65, 0.75, successes=700, trials=1000, clusters=40), True, True),
        (ClusteredShare(0.995, 0.98, 1.0, successes=995, trials=1000, clusters=40), True, False),
        (ClusteredShare(0.7, 0.5, 0.85, successes=70, trials=100, clusters=6), False, False),
        (ClusteredShare(None, why="nothing was counted"), False, True),
    ],
)
def test_wearing_is_said_of_eleven_athletes_or_more(share, is_supported, is_for_outsiders):
    answer = SimpleNamespace(
        summary=Summary("", "", (), (), SCOPE), whole=SimpleNamespace(worn=share)
    )
    claim = worn_claim(answer)
    assert (claim.is_supported, claim.is_for_outsiders) == (is_supported, is_for_outsiders)


def test_contact_is_mechanics_without_a_source_and_no_number_of_injuries():
    claim = contact_claim()
    assert "0.60 to 0.65 of the mean pressure" in claim.sentence
    assert "tells nothing about injuries" in claim.sentence
    assert "without a source" in claim.rests_on
