"""Whole answers on seasons whose numbers were worked out by hand."""

import math

import pytest

from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.paging import MOST_ROWS
from seasonboard.scope import read_scope


def scope(board, **asked):
    return read_scope({"kind": "chest"} | asked, board.scope_values)


@pytest.fixture
def this(edge_board):
    """Return the board of this season.

        A    B    C    E    F    H
    G1  .    .    .    .    g    g
    G2  g    .!   .    .    g    g
    P3  g    .    .    -    g    g?
    G4  g!   .    .*   o    g    g
    G5  .    .    .    .    g    g
    """
    return edge_board("some of everything")


def test_rates_and_ratios_worked_by_hand(this):
    """Guarded: F 5, H 3 (then set aside), A 3 with one injury. Bare: A 1, B 2 with one, C 4 with
    one, E 3. Headline, by Mantel-Haenszel over sessions; G2: 0 of 3 guarded, 1 of 3 bare. G4: 1 of
    2 guarded (A, F), 1 of 1 bare (C). Numerator 1·1/3, denominator 1·3/6 + 1·2/3."""
    answer = this.ask(COMPARE, scope(this))
    guarded, bare = answer.guarded, answer.unguarded
    assert (guarded.injuries, guarded.exposures) == (1, 11)
    assert (bare.injuries, bare.exposures) == (2, 10)
    assert (guarded.value, bare.value) == pytest.approx((1000 / 11, 200))
    crude = answer.comparison("crude").ratio
    assert crude.value == pytest.approx((1 / 11) / (2 / 10))
    assert (crude.exposures_guarded, crude.exposures_unguarded) == (11, 10)
    same = answer.comparison("same session")
    assert same.ratio.value == pytest.approx((1 / 3) / (3 / 6 + 2 / 3))
    assert (same.ratio.injuries_guarded, same.ratio.injuries_unguarded) == (1, 2)
    assert same.ratio.informative_strata == 2
    behind = [(s.label.split(" · ")[1], s.injuries_guarded, s.injuries_unguarded, s.informs)
              for s in same.strata]  # fmt: skip
    assert behind == [("G2", 0, 1, True), ("G4", 1, 1, True)]
    assert answer.summary.answer.startswith("Too few injuries to tell: 1 guarded, 2 bare.")


def test_curves_follow_what_was_worn_at_each_own_game(this):
    """Bare: four at game 1; B of B, C, E hurt at game 2; C of C, E at game 3; E ends at 3.
    Guarded: F and H at 1, with A from 2; A hurt at 3, when H is gone: hurt at practice after 2."""
    answer = this.ask(GAMES, scope(this), GamesOptions(min_at_risk=1))
    bare = [
        (p.tick, p.at_risk, p.injuries, p.entered, p.left) for p in answer.unguarded.curve.points
    ]
    assert bare == [(1, 4, 0, 4, 1), (2, 3, 1, 0, 0), (3, 2, 1, 0, 1)]
    guarded = [
        (p.tick, p.at_risk, p.injuries, p.entered, p.left) for p in answer.guarded.curve.points
    ]
    assert guarded == [(1, 2, 0, 2, 0), (2, 3, 0, 1, 1), (3, 2, 1, 0, 0), (4, 1, 0, 0, 1)]
    assert [p.survival for p in answer.unguarded.curve.points] == pytest.approx([1, 2 / 3, 1 / 3])
    assert answer.unguarded.median.value == 3
    assert answer.guarded.median.value == 3
    ends = {ending.why: ending.count for ending in answer.guarded.endings}
    assert ends == {"another injury to the site": 1, "no further session yet": 1}
    assert {e.why: e.count for e in answer.unguarded.endings} == {
        "put a guard on or took it off": 1,
        "no further session yet": 1,
    }


def test_the_restricted_mean_is_the_area_under_the_curve_up_to_the_horizon(this):
    """Games begun uninjured up to 3: guarded 1 + 1 + 1, bare 1 + 1 + 2/3."""
    answer = this.ask(GAMES, scope(this), GamesOptions(min_at_risk=1, horizon=3))
    assert answer.guarded.restricted_mean.value == pytest.approx(3)
    assert answer.unguarded.restricted_mean.value == pytest.approx(1 + 1 + 2 / 3)
    assert answer.one_mix.difference.value == pytest.approx(1 / 3)
    assert math.isfinite(answer.one_mix.difference.low)


def test_the_clock_of_sessions_also_counts_practices(this):
    answer = this.ask(
        GAMES, scope(this, outcome="any"), GamesOptions(Clock.SESSIONS, min_at_risk=1)
    )
    injured = [(p.tick, p.injuries) for p in answer.guarded.curve.points if p.injuries]
    assert injured == [(3, 1), (4, 1)]


def test_rows_add_up_to_the_answer(this):
    answer = this.ask(COMPARE, scope(this))
    injuries = this.injury_rows(scope(this))
    assert injuries.total == len(injuries.rows) == 4
    assert [row[-1] for row in injuries.rows] == ["yes", "yes", "yes", "no: no day lost"]
    athletes = this.athlete_rows(scope(this))
    names = [column.name for column in athletes.columns]
    for group, rate in (("guarded", answer.guarded), ("unguarded", answer.unguarded)):
        for count, whole in (("exposures", rate.exposures), ("injuries", rate.injuries)):
            at = names.index(f"{count}_{group}")
            assert sum(row[at] for row in athletes.rows) == whole
    assert not athletes.is_cut
    assert athletes.total <= MOST_ROWS


def test_who_stands_behind_a_tick_is_who_was_at_risk_in_it(this):
    options = GamesOptions(min_at_risk=1)
    answer = this.ask(GAMES, scope(this), options)
    for group, worn in ((answer.guarded, "guarded"), (answer.unguarded, "bare")):
        for point in group.curve.points:
            rows = this.tick_rows(scope(this), options, point.tick)
            at = [column.name for column in rows.columns].index("worn")
            assert sum(row[at] == worn for row in rows.rows) == point.at_risk
    assert rows.title == "Game 3: who was at risk"
