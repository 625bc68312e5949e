"""The clocks of plays and minutes: a published clock asked through the front door, tick by tick.

Freireich et al. 1963 and the Stanford heart transplants (Crowley & Hu 1977) as plays: an athlete
plays games of so many plays, so that every published time lies somewhere within a game. Restricted
means as R 4.2.2 with survival 3.5-3 gives them, of the Stanford table in whole days from day 1 on,
the first with a transplant, each group for itself, less the day before it, which R counts too:
summary(survfit(Surv(pmax(start, 1), stop, event) ~ 1, d[d$stop > 1, ]), rmean = horizon)$table
"""

import pytest
from pytest import approx

from seasonboard.answers.games.parts import Clock
from seasonboard.answers.questions import GAMES
from seasonboard.scope import read_scope
from tests import front_door
from tests.outside.traps import follow, survival
from tests.published import FREIREICH_PLACEBO, FREIREICH_TREATED, RESTRICTED_MEANS
from tests.queries.build import drawn

STANFORD_MEANS = {
    (False, 100): (71.746453908, 4.662166354),
    (False, 365): (181.463300824, 26.677653821),
    (True, 100): (68.458648225, 8.112740208),
    (True, 365): (172.904368220, 26.024086473),
}
"""By transplant and horizon: mean and error."""


@pytest.fixture
def plays(board, tmp_path):
    """Load intervals with games of so many plays."""

    def load(intervals, size):
        folder = tmp_path / "plays"
        front_door.write_season(folder, intervals, plays=size)
        return board(folder)

    return load


@pytest.mark.parametrize("size", [1, 7])
def test_freireich_in_plays_is_as_published_whatever_the_games(plays, size):
    this = plays(front_door.freireich(), size)
    for horizon, guarded, bare, *difference in RESTRICTED_MEANS:
        found, groups = follow(this, horizon, Clock.PLAYS)
        for name, expected in (("guarded", guarded), ("unguarded", bare)):
            mean = groups[name]["restricted_mean"]
            assert (mean["mean"], mean["std_error"]) == approx(expected, abs=1e-6)
        gap = found["restricted_mean_difference"]
        assert [gap[name] for name in ("difference", "low", "high")] == approx(difference, abs=1e-5)
    assert found["clock"] == "plays"
    curves = {name: survival(group) for name, group in groups.items()}
    for tick, _, share, _ in FREIREICH_TREATED:
        assert curves["guarded"][tick] == approx(share, abs=1e-6)
    for tick, _, share in FREIREICH_PLACEBO:
        assert curves["unguarded"][tick] == approx(share, abs=1e-6)
    assert found["log_rank"]["chi_square"] == approx(16.792941, abs=1e-6)


@pytest.mark.long
def test_stanford_in_plays_has_the_means_of_r_with_late_entry(plays):
    this = plays(front_door.stanford(), 30)
    for (guarded, horizon), (mean, error) in STANFORD_MEANS.items():
        found, groups = follow(this, horizon, Clock.PLAYS)
        own = groups["guarded" if guarded else "unguarded"]
        assert own["restricted_mean"]["mean"] == approx(mean - 1, abs=1e-6)
        assert own["restricted_mean"]["std_error"] == approx(error, abs=1e-6)
    assert found["log_rank"]["chi_square"] == approx(0.175086, abs=1e-6)
    assert {n: (g["ticks"], g["injuries"]) for n, g in groups.items()} == {
        "guarded": (25999, 45),
        "unguarded": (5955, 30),
    }


def test_a_game_without_plays_is_not_on_the_clock_and_an_injury_in_it_ends_follow_up(board):
    season = drawn("""
            A    B
        G1  .    .
        G2  .    .!
        G3  .!   .
    """)
    counts = {("G1", "A"): 40, ("G3", "A"): 25, ("G1", "B"): 30}
    for row in season.attendance:
        row["plays"] = counts.get((row["session"], row["athlete"]))
    this = board(season)
    found, groups = follow(this, clock=Clock.PLAYS)
    bare = groups["unguarded"]
    assert (bare["ticks"], bare["injuries"]) == (40 + 25 + 30, 1)
    assert survival(bare)[65] == 0
    assert survival(bare)[30] == 1
    lacking = {row["why"]: row["count"] for row in found["left_out"] if "plays" in row["why"]}
    assert lacking == {
        "athletes' sessions: no plays recorded: not on this clock": 3,
        "injuries: no plays recorded in that session: not on this clock": 1,
    }
    at_risk = this.tick_rows(
        read_scope({"kind": "chest"}, this.scope_values), GAMES.options()(Clock.PLAYS), 65
    )
    assert at_risk.title == "Play 65: who was at risk"
    assert [row[0] for row in at_risk.rows] == ["A"]


def test_a_minute_that_has_begun_counts_whole(board):
    season = drawn("""
            A
        G1  .
        G2  .!
    """)
    for row, minutes in zip(season.attendance, (12.5, 3), strict=True):
        row["minutes"] = minutes
    _, groups = follow(board(season), clock=Clock.MINUTES)
    assert (groups["unguarded"]["ticks"], survival(groups["unguarded"])[16]) == (16, 0)
