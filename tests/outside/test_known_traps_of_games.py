"""Small tables on which games before an injury are easily counted wrongly.

Every input is invented; the links lead to where that kind of trouble is described. One athlete is
one site, at risk in the games that the table gives. Each test also works out the tempting wrong
figure, to show that it differs.
"""

import math

import pytest
from pytest import approx

from seasonboard.answers.games.parts import Clock
from tests.front_door import Interval
from tests.outside.traps import bare, crude, follow, survival

GUARDED_FROM = {"U1": 3, "U2": 6, "U3": 9, "U7": 5}
LAST_GAME = {
    "U1": (12, False), "U2": (12, False), "U3": (11, True), "U4": (2, True),
    "U5": (4, True), "U6": (12, False), "U7": (3, True),
}  # fmt: skip


def test_games_before_the_guard_came_are_not_guarded_games(board):
    """What was worn is looked up game by game; U7 was hurt in game 3, before a guard for game 5.

    https://pmc.ncbi.nlm.nih.gov/articles/PMC7415259 ;
    https://pmc.ncbi.nlm.nih.gov/articles/PMC10126672
    """
    intervals = []
    for athlete, (last, hurt) in LAST_GAME.items():
        first = GUARDED_FROM.get(athlete, 99)
        begins = min(first - 1, last)
        intervals.append(Interval(athlete, 0, begins, hurt and begins == last, False))
        if begins < last:
            intervals.append(Interval(athlete, begins, last, hurt, True))
    this = board(intervals)
    ratio = crude(this)
    assert (ratio.injuries_guarded, ratio.exposures_guarded) == (1, 20)
    assert (ratio.injuries_unguarded, ratio.exposures_unguarded) == (3, 36)
    assert ratio.value == approx(0.6)
    assert (ratio.exact.low, ratio.exact.high) == (
        approx(0.01142915, abs=1e-8),
        approx(7.472593, abs=1e-6),
    )
    assert ratio.exact.p == approx(1)
    arms = {
        ever: [v for k, v in LAST_GAME.items() if (k in GUARDED_FROM) is ever]
        for ever in (True, False)
    }
    (a, t1), (b, t0) = ((sum(h for _, h in arm), sum(n for n, _ in arm)) for arm in arms.values())
    assert (a, t1, b, t0) == (2, 38, 2, 18)
    assert (a / t1) / (b / t0) == approx(0.4736842, abs=1e-7)
    found, _ = follow(this)
    ever = {(p["group"], p["tick"]): p["at_risk"] for p in found["misleading_ever_never"]}
    assert ever["ever guarded", 1] == 3, "marked as misleading, three count from game 1"


ENTRIES = (("X1", 0, 4, 0), ("X2", 0, 2, 1), ("X3", 2, 2, 1), ("X4", 2, 5, 1), ("X5", 3, 6, 0))


def test_who_enters_when_another_is_hurt_was_not_yet_at_risk(board):
    """Spells are (entry, exit]; one that holds no game is refused by name and not dropped unseen.

    https://github.com/CamDavidsonPilon/lifelines/issues/497 ;
    https://github.com/CamDavidsonPilon/lifelines/issues/1166
    """
    intervals = [Interval(name, a, b, bool(e), False) for name, a, b, e in ENTRIES]
    with pytest.raises(ValueError, match="X3"):
        board(intervals)
    kept = [i for i in intervals if i.athlete != "X3"]
    _, groups = follow(board(kept), clock=Clock.SEASON_GAMES)
    curve = {p["tick"]: (p["at_risk"], p["survival"]) for p in groups["unguarded"]["curve"]}
    assert curve[2] == (2, approx(0.5))
    assert curve[5] == (2, approx(0.25))
    assert curve[3][0] == 2, "X4 is at risk from game 3 on"
    at_two = [row for row in ENTRIES if row[1] <= 2 <= row[2]]
    wrong = math.prod(1 - row[3] / len(at_two) for row in at_two)
    assert wrong != approx(curve[2][1]), "entry counted as at risk"


SAME_GAME = (
    ("Y1", 3, True), ("Y2", 3, False), ("Y3", 3, False), ("Y4", 5, True),
    ("Y5", 5, True), ("Y6", 5, False), ("Y7", 8, False), ("Y8", 8, True),
)  # fmt: skip


def test_who_leaves_in_the_game_of_an_injury_was_still_at_risk_in_it(board):
    """Greenwood's error and log-log limits, as R's survfit(conf.type = "log-log") gives them.

    https://github.com/CamDavidsonPilon/lifelines/issues/1415
    """
    _, groups = follow(board(bare(*SAME_GAME)))
    points = {p["tick"]: p for p in groups["unguarded"]["curve"]}
    right = {
        3: (0.875, 0.1169267933, 0.3870000140, 0.9813929659),
        5: (0.525, 0.2041369026, 0.1221261517, 0.8208142697),
        8: (0.2625, 0.2118279815, 0.0127311488, 0.6636808213),
    }
    for tick, values in right.items():
        found = [points[tick][k] for k in ("survival", "std_error", "low", "high")]
        assert found == approx(list(values), abs=1e-9)
    wrong, share = {}, 1.0
    for tick in right:
        hurt = sum(e for _, n, e in SAME_GAME if n == tick)
        share *= 1 - hurt / sum(n > tick or (n == tick and e) for _, n, e in SAME_GAME)
        wrong[tick] = share
    assert wrong == {3: approx(5 / 6), 5: approx(0.4166667, abs=1e-7), 8: 0}


LONG_SEASON = (
    ("Z1", 6, True), ("Z2", 9, True), ("Z3", 12, False), ("Z4", 12, False), ("Z5", 12, False),
    ("Z6", 12, False), ("Z7", 3, True), ("Z8", 12, False), ("Z9", 12, False), ("Z10", 10, False),
)  # fmt: skip


def test_a_median_that_is_not_reached_is_said_to_be_not_reached(board):
    """The mean within the first 12 games is the honest figure, not the mean of the injured.

    https://github.com/CamDavidsonPilon/lifelines/issues/755
    """
    this = board(bare(*LONG_SEASON))
    _, groups = follow(this, horizon=12)
    group = groups["unguarded"]
    assert group["median"]["value"] is None
    assert group["median"]["why"]
    last = group["curve"][-1]
    assert (last["tick"], last["survival"]) == (12, approx(0.7))
    assert (last["low"], last["high"]) == approx((0.328716593, 0.891949041), abs=1e-9)
    assert group["restricted_mean"]["horizon"] == 12
    assert group["restricted_mean"]["mean"] == approx(10.2, abs=1e-12)
    injured = [played for _, played, hurt in LONG_SEASON if hurt]
    assert sum(injured) / len(injured) == 6


TOUCHES_HALF = (
    ("CA1", 6, True), ("CA2", 7, True), ("CA3", 9, True), ("CA4", 13, True),
    ("CA5", 3, False), ("CA6", 40, False), ("CA7", 57, False),
)  # fmt: skip


def test_a_curve_that_touches_one_half_has_its_median_there(board):
    """The first game with half or fewer uninjured; R's middle of the flat stretch would be 11.

    Summed as logarithms the share lands a hair above one half, and the median four games late.
    https://github.com/CamDavidsonPilon/lifelines/issues/902
    """
    _, groups = follow(board(bare(*TOUCHES_HALF)))
    assert groups["unguarded"]["median"]["value"] == 9
    assert survival(groups["unguarded"])[9] == approx(0.5)
    by_logs, total = {}, 0.0
    for tick, at_risk in ((6, 6), (7, 5), (9, 4), (13, 3)):
        total += math.log(1 - 1 / at_risk)
        by_logs[tick] = math.exp(total)
    assert min(tick for tick, share in by_logs.items() if share <= 0.5) == 13
