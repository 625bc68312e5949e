"""Small tables on which tallies of injuries are known to go wrong: the right figure, not the usual.

Every input is invented; the links lead to where that kind of trouble is described. Where an input
has one row per athlete and game, injuries are laid at the chest, a midline site, so that one
athlete-exposure is one site-exposure. Each test also works out the tempting wrong figure, to show
that it differs.
"""

import math
from datetime import date

import pytest
from pytest import approx

from seasonboard.errors import IntakeError
from seasonboard.scope import read_scope
from seasonboard.stats.clustered_ratio import AthleteCells, clustered_ratio
from seasonboard.stats.ratios import Strata, mantel_haenszel
from seasonboard.store.intake.plan import plan_load
from tests.front_door import Interval
from tests.outside.traps import bare, compare, crude, sessions, worn_to_games
from tests.queries import build
from tests.reused import ReusedStore


def test_being_listed_on_the_roster_is_not_an_exposure(board):
    """An athlete-exposure is one athlete who took part; dressed or injured and not playing is out.

    https://bjsm.bmj.com/content/46/14/960 ; https://m.booksci.cn/literature/143901788.htm
    """
    season = sessions(("G1", "2026-09-05"), ("P2", "2026-09-08"), ("G3", "2026-09-12"))
    season.roster = [build.member(f"A0{n}") for n in range(1, 9)]
    took_part = {"G1": 5, "P2": 8, "G3": 6}
    season.attendance = [
        {"session": s, "athlete": f"A0{n}", "part": "full" if n <= played else "out"}
        for s, played in took_part.items()
        for n in range(1, 9)
    ]
    season.injuries = [
        build.injury("I1", "A02", date(2026, 9, 5), session="G1"),
        build.injury("I2", "A04", date(2026, 9, 12), session="G3"),
    ]
    this = board(season)
    games = compare(this, setting="games", purpose="all").unguarded
    assert (games.injuries, games.exposures) == (2, 11)
    assert games.value == approx(181.8182, abs=1e-4)
    assert (games.low, games.high) == (approx(22.01903, abs=1e-5), approx(656.7898, abs=1e-4))
    every = compare(this, purpose="all").unguarded
    assert (every.injuries, every.exposures) == (2, 19)
    assert every.value == approx(105.2632, abs=1e-4)
    assert (every.low, every.high) == (approx(12.74786, abs=1e-5), approx(380.2467, abs=1e-4))
    listed = 1000 * 2 / 16
    assert listed == 125
    assert games.value > 1.4 * listed


LOGGED = (
    ("I1", "B1", "2026-10-03", "G1"), ("I2", "B2", "2026-10-07", None),
    ("I3", "B3", "2026-10-10", "G2"), ("I4", "B2", "2026-10-17", "G3"),
    ("I5", "B9", "2026-10-10", "G2"),
)  # fmt: skip


def logged_injuries():
    """Return five on the roster, B2 not in the last game's attendance, and B9 on no roster."""
    season = sessions(("G1", "2026-10-03"), ("G2", "2026-10-10"), ("G3", "2026-10-17"))
    season.roster = [build.member(f"B{n}") for n in range(1, 6)]
    season.attendance = [
        {"session": s, "athlete": f"B{n}", "part": "full"}
        for s in ("G1", "G2", "G3")
        for n in range(1, 6)
        if (s, n) != ("G3", 2)
    ]
    season.injuries = [
        build.injury(key, who, date.fromisoformat(on), session=s) for key, who, on, s in LOGGED
    ]
    return season


def test_injuries_that_meet_no_exposure_are_told_one_by_one_and_not_dropped(board, tmp_path):
    """Of five records two count; an unknown athlete is refused at the door, two are told with why.

    https://pmc.ncbi.nlm.nih.gov/articles/PMC3418955
    """
    season = logged_injuries()
    refused = season.write(tmp_path / "refused")
    with ReusedStore() as store, pytest.raises(IntakeError) as caught:
        plan_load(store, [refused])
    (problem,) = caught.value.problems
    assert "B9" in str(problem)
    season.injuries.pop()
    this = board(season)
    answer = compare(this, purpose="all")
    rate = answer.unguarded
    assert (rate.injuries, rate.exposures) == (2, 14)
    assert rate.value == approx(142.8571, abs=1e-4)
    assert (rate.low, rate.high) == (approx(17.30066, abs=1e-5), approx(516.0491, abs=1e-4))
    told = {left.why: left.count for left in answer.summary.left_out if left.what == "injuries"}
    assert told == {
        "no session recorded": 1,
        "the athlete is not recorded as taking part in that session": 1,
    }
    assert rate.injuries + sum(told.values()) + len(caught.value.problems) == len(LOGGED)
    rows = this.injury_rows(read_scope({"kind": "chest", "purpose": "all"}, this.scope_values)).rows
    assert {row[0]: row[-1] for row in rows} == {
        "I1": "yes",
        "I3": "yes",
        "I4": "no: not recorded as taking part",
    }
    everything = 1000 * len(LOGGED) / rate.exposures
    assert everything == approx(357.1429, abs=1e-4)
    assert everything != rate.value


def test_first_injuries_go_over_the_exposures_up_to_the_first_injury(board):
    """The session of the first injury still counts; the view `all` takes every injury.

    https://bjsm.bmj.com/content/48/17/1287 ; https://doi.org/10.1093/aje/kwp265
    """
    season = sessions(*((f"G{n:02}", f"2026-09-{n:02}") for n in range(1, 11)))
    played = {"D1": 10, "D2": 10, "D3": 6, "D4": 10, "D5": 8}
    season.roster = [build.member(athlete) for athlete in played]
    season.attendance = [
        {"session": f"G{n:02}", "athlete": athlete, "part": "full"}
        for athlete, last in played.items()
        for n in range(1, last + 1)
    ]
    hurt = [("D1", 4), ("D1", 9), ("D3", 6), ("D4", 2), ("D4", 3), ("D4", 7)]
    season.injuries = [
        build.injury(f"I{k}", athlete, date(2026, 9, n), session=f"G{n:02}")
        for k, (athlete, n) in enumerate(hurt)
    ]
    this = board(season)
    first, every = compare(this).unguarded, compare(this, purpose="all").unguarded
    assert (first.injuries, first.exposures, first.value) == (3, 30, approx(100))
    assert (first.low, first.high) == approx((20.6224, 292.2424), abs=1e-4)
    assert (every.injuries, every.exposures) == (6, 44)
    assert every.value == approx(136.3636, abs=1e-4)
    assert (every.low, every.high) == (approx(50.04305, abs=1e-5), approx(296.8062, abs=1e-4))
    mixed = 1000 * first.injuries / every.exposures
    assert mixed == approx(68.18182, abs=1e-5)


def test_days_lost_to_an_open_injury_are_a_lower_bound_marked_with_a_plus(board):
    """Full days between onset and return; open ones up to the through date, that day included.

    https://bjsm.bmj.com/content/54/2/70
    """
    logged = {
        "I1": ("2026-09-01", "2026-09-04"), "I2": ("2026-09-03", "2026-09-08"),
        "I3": ("2026-09-10", "2026-09-11"), "I4": ("2026-08-20", None), "I5": ("2026-09-02", None),
        "I6": ("2026-09-05", "2026-09-16"), "I7": ("2026-09-14", "2026-09-14"),
    }  # fmt: skip
    season = sessions(*((f"G-{key}", on) for key, (on, _) in logged.items()))
    season.roster = [build.member(f"E{key}") for key in logged]
    for key, (on, back) in logged.items():
        season.attendance.append({"session": f"G-{key}", "athlete": f"E{key}", "part": "full"})
        returned = date.fromisoformat(back) if back else None
        cells = {"session": f"G-{key}", "returned_on": returned}
        season.injuries.append(build.injury(key, f"E{key}", date.fromisoformat(on), **cells))
    season.sessions.append(build.session("P-last", date(2026, 9, 30)))
    this = board(season)
    asked = {"kind": "chest", "through": "2026-09-30"}
    rows = this.injury_rows(read_scope(asked, this.scope_values)).rows
    days = {row[0]: row[8] for row in rows}
    assert days == {
        "I1": "2", "I2": "4", "I3": "0", "I4": "41+", "I5": "28+", "I6": "10", "I7": "0",
    }  # fmt: skip
    assert sum(int(shown.rstrip("+")) for shown in days.values()) == 85, "at least 85 in all"
    closed = [int(shown) for shown in days.values() if not shown.endswith("+")]
    assert sum(closed) == 16, "closed ones alone would miss most of it"
    lost = compare(this, through="2026-09-30").unguarded
    every = compare(this, through="2026-09-30", outcome="any").unguarded
    assert (lost.injuries, every.injuries) == (5, 7), "an open injury is time lost, 0 days is not"


def test_no_guarded_injury_is_no_proof_and_has_finite_limits(board):
    """The displayed limits are mid-P; the exact conditional ones (p doubled) stand beside them.

    https://github.com/statsmodels/statsmodels/issues/8313
    """
    guarded = [Interval(f"g{n}", 0, 103, False, True) for n in range(4)]
    unguarded = bare(*((f"u{n}", 110 if n == 5 else 109, True) for n in range(6)))
    answer = compare(board(guarded + unguarded))
    ratio = answer.comparison("crude").ratio
    assert (ratio.injuries_guarded, ratio.exposures_guarded) == (0, 412)
    assert (ratio.injuries_unguarded, ratio.exposures_unguarded) == (6, 655)
    assert (answer.guarded.value, answer.guarded.low) == (0, 0)
    assert answer.guarded.high == approx(8.95359091, abs=1e-7)
    bare_rate = (answer.unguarded.value, answer.unguarded.low, answer.unguarded.high)
    assert bare_rate == approx((9.16030534, 3.36167062, 19.9381283), abs=1e-6)
    assert (ratio.value, ratio.low) == (0, 0)
    assert ratio.high == approx(1.02947713, abs=1e-7)
    assert ratio.p == approx(0.0535132446, abs=1e-9)
    assert ratio.method.startswith("mid-P")
    assert (ratio.exact.low, ratio.exact.high) == (0, approx(1.35023988, abs=1e-7))
    assert ratio.exact.p == approx(0.107026489, abs=1e-8)
    assert answer.verdict == "too few injuries to tell"
    assert "100" not in answer.summary.answer
    patched = (0.5 / 412) / (6.5 / 655)
    assert patched == approx(0.1223, abs=1e-4), "half an injury added without a word"
    assert ratio.value != patched


def test_with_ten_injuries_the_method_decides_so_it_is_named(board):
    """Wald on the log says yes, mid-P yes, exact (p doubled) no: named, and too few to tell.

    https://sphweb.bumc.bu.edu/otlt/mph-modules/ep/ep713_randomerror/ada_files/ada_equation38.html
    ; https://github.com/statsmodels/statsmodels/issues/2718
    """
    guarded = [Interval(f"g{n}", 0, 240, True, True) for n in range(2)]
    unguarded = bare(*((f"u{n}", 50, True) for n in range(8)))
    answer = compare(board(guarded + unguarded))
    ratio = answer.comparison("crude").ratio
    assert ratio.value == approx(0.208333333, abs=1e-9)
    assert (ratio.low, ratio.high) == approx((0.0302230045, 0.901006089), abs=1e-8)
    assert ratio.p == approx(0.0341868464, abs=1e-8)
    assert ratio.method == "mid-P, exact conditional"
    exact = ratio.exact
    assert (exact.low, exact.high) == approx((0.0215522874, 1.04394717), abs=1e-8)
    assert exact.p == approx(0.0585845077, abs=1e-8)
    wald = ratio.value * math.exp(1.959964 * math.sqrt(1 / 2 + 1 / 8))
    assert wald == approx(0.9810534, abs=1e-6)
    assert ratio.high < wald < 1 < exact.high
    assert answer.verdict == "too few injuries to tell"
    assert "2 guarded, 8 bare" in answer.summary.answer
    assert "significant" not in answer.summary.answer


def test_guards_worn_to_games_turn_the_crude_ratio_around(board):
    """Mantel-Haenszel over games and practices; the crude figure is shown and warned of.

    https://pubmed.ncbi.nlm.nih.gov/8129105/
    """
    this = board(worn_to_games())
    answer = compare(this)
    alike, wrong = (answer.comparison(name).ratio for name in ("alike athletes", "crude"))
    assert (wrong.exposures_guarded, wrong.exposures_unguarded) == (800, 1700)
    assert wrong.value == approx(1.859375, abs=1e-9)
    assert (wrong.exact.low, wrong.exact.high) == (
        approx(0.8404669, abs=1e-7),
        approx(4.065729, abs=1e-6),
    )
    assert alike.value == approx(0.714285714, abs=1e-9)
    assert (alike.low, alike.high) == approx((0.288298389, 1.7697084), abs=1e-7)
    settings = [s.label for s in answer.comparison("alike athletes").strata]
    assert len(settings) == 2
    assert [crude(this, setting=s).value for s in ("games", "practices")] == [
        approx(0.75, abs=1e-12),
        approx(0.666666667, abs=1e-9),
    ]
    assert "crude ratio, 1.86, points the other way" in answer.summary.answer


TEAMS = (
    ("guarded", 180, 1), ("guarded", 150, 9), ("guarded", 170, 0), ("guarded", 160, 1),
    ("unguarded", 175, 2), ("unguarded", 150, 13), ("unguarded", 165, 3), ("unguarded", 170, 5),
)  # fmt: skip


def test_injuries_that_bunch_by_team_make_the_model_interval_too_narrow():
    """With the team as the unit the interval holds 1, the model's does not.

    The convention here is the cluster-robust sandwich without small-sample factor. A
    quasi-Poisson interval with t(6), 0.0502 to 4.56, is wider still and says the same.
    https://pubmed.ncbi.nlm.nih.gov/17513915/
    """
    arms = [("guarded", 2), ("unguarded", 2), ("guarded", 1), ("unguarded", 1)]
    columns = [[row[k] if row[0] == arm else 0 for row in TEAMS] for arm, k in arms]
    model = mantel_haenszel(Strata(*([sum(column)] for column in columns)))
    by_team = clustered_ratio(AthleteCells([0] * 8, range(8), *columns))
    assert model.value == approx(0.4782609, abs=1e-7)
    assert model.high < 1
    assert model.p < 0.05
    assert by_team.athletes == 8
    assert math.sqrt(by_team.low * by_team.high) == approx(model.value), "about the same ratio"
    squared = sum(
        (hurt / whole - exposed / 660) ** 2
        for (arm, exposed, hurt) in TEAMS
        for whole in [11 if arm == "guarded" else 23]
    )
    assert by_team.std_error == approx(math.sqrt(squared))
    assert by_team.high == approx(model.value * math.exp(1.959964 * math.sqrt(squared)))
    assert by_team.low < 1 < by_team.high
