"""What Games says beside its two curves: other ends, repeats, one mix, the wrong tally."""

import pytest
from pytest import approx

from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.questions import GAMES
from seasonboard.scope import read_scope
from tests.answers.edges import EDGES
from tests.queries.build import day, injury


def followed(this, *, naive=False, min_at_risk=1, clock=Clock.GAMES, **asked):
    options = GamesOptions(clock, min_at_risk=min_at_risk, naive=naive)
    return this.ask(GAMES, read_scope({"kind": "chest"} | asked, this.scope_values), options)


CLOCKS = {Clock.GAMES: True, Clock.SESSIONS: False}
"""The clocks asked at the edges, and whether the misleading tally is asked for."""


@pytest.fixture(scope="module")
def at_edge(edge_board):
    """Give the answer at an edge on a clock; each is asked for once."""
    answers = {}

    def ask(edge, clock):
        if (edge, clock) not in answers:
            answers[edge, clock] = followed(edge_board(edge), clock=clock, naive=CLOCKS[clock])
        return answers[edge, clock]

    return ask


def every_edge(test):
    return pytest.mark.parametrize("edge", list(EDGES))(
        pytest.mark.parametrize("clock", list(CLOCKS))(test)
    )


@every_edge
def test_the_misleading_tally_is_there_only_when_asked_for(at_edge, edge, clock):
    found = GAMES.report().as_object(at_edge(edge, clock), "games")
    assert ("misleading_ever_never" in found) is CLOCKS[clock]
    if CLOCKS[clock]:
        rows = found["misleading_ever_never"]
        assert {r["group"] for r in rows} <= {"ever guarded", "never guarded"}
        assert sum(r["at_risk"] for r in rows) == sum(g["ticks"] for g in found["groups"])


@every_edge
def test_shares_of_every_cause_and_the_uninjured_add_up_to_one(at_edge, edge, clock):
    for found in at_edge(edge, clock).incidence:
        for at, free in enumerate(found.survival):
            shares = [curve.points[at].share for curve in found.causes]
            if free.share is None:
                assert set(shares) == {None}
            else:
                assert free.share + sum(shares) == approx(1, abs=1e-12)


def test_an_injury_elsewhere_takes_its_share_of_the_season(board):
    """A is hurt at the chest, B breaks a leg and is not back: a quarter each of four."""
    knee = injury("leg", "B", day(2), session="G2", area="knee", side="left")
    this = board(
        """
            A    B    C    E
        G1  .    .    .    .
        G2  .!   .    .    .
        G3  .    o    .    .
        """,
        injuries=[knee],
        roster={"A": {"position_group": "back"}, "B": {"position_group": "wing"}},
    )
    rows = GAMES.report().as_object(followed(this), "games")["cumulative_incidence"]
    last = {r["cause"]: r["share"] for r in rows if r["group"] == "unguarded" and r["tick"] == 3}
    assert last == {
        "injury": 0.25, "injury elsewhere": 0.25, "another injury to the site": 0,
        "left the roster": 0,
    }  # fmt: skip


def test_where_no_guarded_site_has_a_bare_one_alike_there_is_no_common_mix(board):
    roster = {a: {"position_group": "back" if a in "AB" else "wing"} for a in "ABCE"}
    this = board("    A  B  C  E\nG1  .! .  g! g\nG2  -  .  -  g", roster=roster)
    why = "no guarded site had a bare one alike beside it"
    found = GAMES.report().as_object(followed(this), "games")
    assert (found["one_mix"]["curves"], found["one_mix"]["why"]) == (None, why)
    assert found["restricted_mean_difference"]["why"] == why
    assert why in found["answer"]


MIXED = """
        A    B    C    E    F    H    I    J
    G1  .    .    g    g    .    .    g    g
    G2  .!   .    g    g    .    .    g!   g
"""


def test_two_kinds_of_athletes_are_brought_to_one_mix(board):
    """Backs: bare 1/2 hurt, guarded 0/2. Wings: bare 0/2, guarded 1/2. At one mix both 3/4."""
    roster = {a: {"position_group": "back" if a in "ABCE" else "wing"} for a in "ABCEFHIJ"}
    found = GAMES.report().as_object(followed(board(MIXED, roster=roster)), "games")
    mix = found["one_mix"]
    assert mix["horizon"] == 2
    last = {p["group"]: p["survival"] for p in mix["curves"] if p["tick"] == 2}
    assert last == {"guarded": approx(0.75), "unguarded": approx(0.75)}
    assert found["restricted_mean_difference"]["difference"] == approx(0)
    assert (mix["guarded"]["mean"], mix["unguarded"]["mean"]) == (2, 2)
