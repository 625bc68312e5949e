"""Take-up: steps, where their order breaks, wear, and seasons at the edge."""

import pytest

from seasonboard.answers.questions import TAKE_UP
from seasonboard.answers.take_up.parts import TakeUpBy, TakeUpOptions
from seasonboard.answers.take_up.report import REPORT
from seasonboard.scope import read_scope
from seasonboard.stats.proportions import wilson
from tests.queries.build import at, day, drawn, guard, offer, order

QUESTION, SCOPE = TAKE_UP, {"kind": "chest"}


@pytest.fixture
def season():
    """A took the guard and wears it; B declined and got one for return; C waits; E, F none.

    F wears one of which nothing else is recorded.
    """
    season = drawn(
        """
          A  B  C  E  F
      G1  .  .  .  .  .
      P2  g  r  .  .  .
      G3  g  .  .  .  g
      P4  .  .  .  .  .
    """,
        roster={"A": {"position_group": "wing"}, "B": {"position_group": "back"}},
    )
    season.guards.append(guard("g-C", "C"))
    season.stages = [
        *order("g-A", "A", {"requested": at(1), "fitted": at(2, 6)})[1],
        *order("r-B", "B", {"fitted": at(2, 6)})[1],
        *order("g-C", "C", {"requested": at(3)})[1],
    ]
    season.offers = [
        offer("O1", "A", day(1), "accepted"),
        offer("O2", "B", day(1), "declined", reason="looks"),
        offer("O3", "C", day(2), "undecided", reason="[/x] asks the coach"),
    ]
    return season


def test_steps_count_athletes_and_the_order_is_told_where_it_breaks(ask, season):
    answer = ask(season)
    whole = answer.whole
    assert [(step.step, step.count) for step in whole.steps] == [
        ("eligible", 5), ("offered", 3), ("accepted", 1), ("fitted", 2), ("worn", 3),
    ]  # fmt: skip
    assert (whole.declined, whole.undecided, whole.waiting) == (1, 1, 1)
    assert whole.step("accepted").of_before == wilson(1, 3)
    assert whole.step("fitted").of_before == wilson(1, 1), "of those who accepted"
    assert whole.step("fitted").without_before == 1
    assert whole.step("worn").of_before == wilson(2, 2)
    assert whole.step("worn").of_eligible == wilson(3, 5)
    assert {one.what: one.athletes for one in answer.breaks} == {
        "fitted though the last answer recorded was no": 1,
        "worn without being recorded as fitted": 1,
    }


def test_fitted_without_an_offer_is_told_by_purpose(ask, season):
    season.offers = []
    breaks = {one.what: one.athletes for one in ask(season).breaks}
    assert breaks["fitted without an offer recorded, all for return after an injury"] == 1
    assert breaks["fitted without an offer recorded, preventive"] == 1


def test_wear_counts_sessions_since_the_fitting_by_group(ask, season):
    """A: worn on 2 and 3 of 2, 3, 4; B: on 2 of 2, 3, 4."""
    answer = ask(season, TakeUpOptions(TakeUpBy.POSITION_GROUP))
    worn = answer.whole.worn
    assert (worn.successes, worn.trials, worn.clusters) == (3, 6, 2)
    groups = {g.group: (g.worn.successes, g.worn.trials) for g in answer.groups}
    assert groups == {"back": (1, 3), "wing": (2, 3), "not recorded": (0, 0)}
    (week,) = answer.whole.weeks
    assert (week.week.isoweekday(), week.worn) == (1, worn)


def test_reasons_are_counted_as_they_were_written(ask, season):
    answer = ask(season)
    assert [(r.answer, r.reason, r.count) for r in answer.reasons] == [
        ("declined", "looks", 1),
        ("undecided", "[/x] asks the coach", 1),
    ]
    assert "[/x] asks the coach" in REPORT.as_text(answer)


def test_several_kinds_count_athletes_once_and_stand_apart_below(ask, season):
    """A accepted a vest too, and was fitted with none: of the vest nothing is out of order."""
    season.offers.append(offer("O4", "A", day(1), "accepted", kind="vest"))
    season.offers.append(offer("O5", "E", day(1), "accepted", kind="vest"))
    answer = ask(season, TakeUpOptions(TakeUpBy.KIND), kind="chest,vest")
    assert answer.whole.step("accepted").count == 2
    assert answer.whole.step("fitted").of_before == wilson(1, 2)
    kinds = {kind.group: [step.count for step in kind.steps] for kind in answer.kinds}
    assert kinds == {"chest": [5, 3, 1, 2, 3], "vest": [5, 2, 2, 0, 0]}
    assert answer.groups == answer.kinds


def test_the_sentence_says_all_steps_and_the_interval(ask, season):
    summary = ask(season).summary.answer
    assert summary.startswith(
        "Of 5 athletes on the roster 3 were offered a chest guard: 1 accepted, "
    )
    assert "worn in 50 % of 6 sessions taken part in (95 % interval: " in summary


SAYS = {
    "nothing at all": "Nobody to offer a guard to yet",
    "a roster and no session": "Nobody yet: of 1 athlete on the roster nobody was offered",
    "no guards": "Nobody yet: of 3 athletes",
    "no injuries": "Of 3 athletes on the roster 0 were offered",
}


@pytest.mark.parametrize("edge", list(SAYS))
def test_what_is_not_there_is_said(edge_board, edge):
    this = edge_board(edge)
    answer = this.ask(TAKE_UP, read_scope(SCOPE, this.scope_values))
    assert answer.summary.answer.startswith(SAYS[edge])


def test_a_day_before_everything_knows_the_roster_alone(ask, season):
    answer = ask(season, through="2026-08-01")
    assert [step.count for step in answer.whole.steps] == [5, 0, 0, 0, 0]
