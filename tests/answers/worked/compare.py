"""Two comparisons, one hardly known, decliners, two areas, two weeks, and two draws of turns."""

from datetime import date
from typing import NamedTuple

import polars as pl

from seasonboard.answers.base import Summary
from seasonboard.answers.claims.rules import ClaimVerdict, ClaimWord
from seasonboard.answers.compare.burden import Burdens, GroupBurden
from seasonboard.answers.compare.comparisons import AreaRatio, Comparison, Stratum
from seasonboard.answers.compare.control_sites import ControlSites
from seasonboard.answers.compare.drawn_turns import Draw, DrawnTurns
from seasonboard.answers.compare.fixed_questions import FixedQuestion
from seasonboard.answers.compare.hours import Hours, Per
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.compare.recording_checks import AttendanceCheck, Recording, WearCheck
from seasonboard.answers.compare.undo import Undo
from seasonboard.answers.compare.weekly_looks import Look, Watched
from seasonboard.looks import Looks
from seasonboard.scope import Scope
from seasonboard.stats.anytime_valid import AnytimeValid
from seasonboard.stats.clustered_ratio import ClusteredRatio
from seasonboard.stats.days_lost import severity
from seasonboard.stats.drawn_turns import InjuriesNeeded
from seasonboard.stats.e_value import EValue
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.exact_ratio import ExactRatio
from seasonboard.stats.negative_control import ControlRatio, CorrectedRatio
from seasonboard.stats.rates import HourlyRate, Rate
from seasonboard.stats.ratios import ChiSquare, RateRatio
from seasonboard.stats.sample_size import SampleSize
from seasonboard.stats.tipping_points import WearFlips


class Limits(NamedTuple):
    """Exact limits that are not worked out from a sum."""

    exact: ExactRatio


def ratio(n):
    """Return a ratio all figures of which differ, by some number."""
    return RateRatio(
        *(n + 0.25, n + 0.125, n + 0.5, 0.9, f"method {n}"),
        injuries_guarded=n + 1, injuries_unguarded=n + 2, exposures_guarded=n + 301,
        exposures_unguarded=n + 302, strata=n + 12, informative_strata=n + 8,
        informative_injuries=n + 9, p=0.031, std_error=None,
        guarded_sum=Limits(ExactRatio(n + 0.1, n + 0.6, 0.041, None, None, None, f"exact {n}")),
        score=ChiSquare(n + 3.75, n + 4, 0.051, f"score {n}"),
        homogeneity=ChiSquare(n + 5.75, n + 6, 0.061, f"homogeneity {n}"),
    )  # fmt: skip


def clustered(n):
    return ClusteredRatio(n + 0.25, n + 0.2, n + 0.7, why=f"clustered {n}", athletes=n + 7)


UNKNOWN = RateRatio(
    *(None, None, None, 0.9, "none", "nobody was hurt"),
    injuries_guarded=0, injuries_unguarded=3, exposures_guarded=21, exposures_unguarded=22,
    strata=5, informative_strata=4, informative_injuries=2, p=None, std_error=None,
    guarded_sum=Limits(ExactRatio(None, None, None, None, None, None, "no exact limits")),
    score=ChiSquare(None, None, None, "no score test"),
    homogeneity=ChiSquare(None, None, None, "one stratum"),
)  # fmt: skip
NOW = AnytimeValid(
    *(0.75, 0.35, 1.45, 0.9, ""), why="early days", anytime_evidence=12.5, injuries=33
)
RECORDING = Recording(
    AttendanceCheck(
        *(81, 91, 182, 192),
        ClusteredRatio(1.12, 1.02, 1.22, 0.9, why="clustered", std_error=0.05, athletes=83),
    ),
    WearCheck(9, 3, 4, 1.6, 0.011, "9 injured owners, under 10"),
    1.4,
)
ANSWER = CompareAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20), level=0.9)),
    guarded=Rate(2.5, 1.5, 3.5, injuries=15, exposures=6000),
    unguarded=Rate(None, None, None, why="nobody was bare", injuries=16, exposures=0),
    comparisons=(
        Comparison("same session", ratio(1), clustered(1), (Stratum("S", 5, 7, 9, 8),)),
        Comparison(
            *("crude", UNKNOWN), ClusteredRatio(None, why="no athlete informs it", athletes=0), ()
        ),
    ),
    decliners=Comparison("decliners", ratio(40), clustered(40), ()),
    areas=(AreaRatio("knee", ratio(60), 0.071), AreaRatio("hand", UNKNOWN, None)),
    watched=Watched(
        NOW,
        (
            Look(
                date(2026, 9, 7),
                AnytimeValid(0.8, 0.3, 1.6, anytime_evidence=1.5, injuries=11, why="few"),
            ),
            Look(date(2026, 9, 14), NOW),
        ),
    ),
    sample_size=SampleSize(0.7, 0.8, 5400, 1234),
    games_needed=57,
    verdict="no difference shown yet",
    hours=(
        Hours(HourlyRate(1.25, 0.75, 1.75, injuries=13, hours=10400.5), 5900, 4, 105, ""),
        Hours(
            HourlyRate(None, why="no hours", injuries=0, hours=0.0),
            0,
            6,
            107,
            "no minutes recorded",
        ),
    ),
    controls=ControlSites(
        ControlRatio(0.62, 0.42, 0.91, 0.9, why="far ones", injuries=71, std_error=0.2),
        ControlRatio(1.3, 0.8, 2.1, why="beside it", injuries=72),
        CorrectedRatio(2.02, 1.2, 3.4, 0.9, why="corrected", p=0.081),
        pl.DataFrame(
            [("far", "foot", "A1", "S1", 1, 2, 3, 4, 5)],
            (
                *("nearness", "area", "athlete", "session", "injuries", "sites_guarded"),
                *("sites_unguarded", "exposures_guarded", "exposures_unguarded"),
            ),
            orient="row",
        ),
    ),
    burden=Burdens(
        (
            GroupBurden(
                *("guarded", Estimate(11.5, 4.3, 21.3, 0.9), severity([3, 9, 40], [False] * 3)),
                *(9304, {"acute sudden": 2}, {"direct contact": 1}, 4, {"no day lost": 6}),
            ),
            GroupBurden(
                *("bare", Estimate(19.9, why="few hurt"), severity([5, 2, 4], [False, True, True])),
                *(34405, {"repetitive gradual": 3}, {"non-contact": 7}, 8, {}),
            ),
        ),
        Estimate(0.58, 0.21, 1.45, 0.9, why="burden"),
        {"not recorded as there": 9},
    ),
    fixed=FixedQuestion(
        *(date(2026, 8, 1), "alike athletes", 12, date(2026, 8, 3), date(2026, 8, 20)),
    ),
    looks=Looks(17, date(2026, 8, 5), "a folder", "as counted"),
    recording=RECORDING,
    claim=ClaimVerdict(ClaimWord.SEEN, ("quiet control sites", "a check of wear")),
    per=Per.HOURS,
    undo=Undo(
        Estimate(0.24, 0.1, 0.58, 0.9),
        EValue(7.8, 2.84, "why no E-value"),
        WearFlips(2, 7, ratio(80), "why no flips"),
        unrecorded=4,
        attendance_share=0.144,
        all_flipped=Estimate(0.9, 0.45, 1.8, 0.9, why="bounds"),
        bias=Estimate(0.35, 0.15, 0.95, 0.9, why="few draws"),
        recording=RECORDING,
    ),
    drawn_turns=DrawnTurns(
        (
            Draw("T01", date(2026, 8, 1), 9, 14, 3, "B 12", None),
            Draw("T02", date(2026, 8, 4), 8, 11, 0, None, "no study"),
        ),
        Comparison("drawn turns", ratio(70), clustered(70), ()),
        Watched(
            AnytimeValid(0.85, 0.45, 1.55, 0.9, "", "soon", anytime_evidence=2.5, injuries=29), ()
        ),
        Estimate(0.65, 0.15, 2.25, 0.9, "fieller", "thin"),
        InjuriesNeeded(0.7, 0.8, 7.5, 812, 683, "not far"),
        AttendanceCheck(21, 31, 41, 51, ClusteredRatio(None, why="few", athletes=3)),
        5,
    ),
)
