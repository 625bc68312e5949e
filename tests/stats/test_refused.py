"""What no statistic takes: it says what is wrong, and gives no number."""

import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from seasonboard.stats import special
from seasonboard.stats.anytime_valid import RiskSet, anytime_valid
from seasonboard.stats.clustered_ratio import AthleteCells, clustered_ratio
from seasonboard.stats.clustered_shares import ClusterSums, clustered_share
from seasonboard.stats.competing import CauseTick, cumulative_incidence
from seasonboard.stats.control_charts import p_chart, u_chart
from seasonboard.stats.days_lost import burden, severity, union_days
from seasonboard.stats.exact_ratio import exact_ratio
from seasonboard.stats.indirect_standardisation import MultiplicativeRates
from seasonboard.stats.proportions import clopper_pearson, wilson
from seasonboard.stats.queueing import waits
from seasonboard.stats.rates import injury_rate
from seasonboard.stats.ratios import Strata, mantel_haenszel
from seasonboard.stats.recurrent import AtRisk, Events, mean_cumulative
from seasonboard.stats.sample_size import exposures_needed
from seasonboard.stats.season_ahead import Cell
from seasonboard.stats.survival import TickCount, kaplan_meier, quantile
from seasonboard.stats.waiting_times import Ending, wait_curve, wait_quantile
from seasonboard.stats.working_time import working_days
from tests.stats.test_prints_ahead import DEMAND, ahead
from tests.stats.test_recurrent import over
from tests.stats.test_season_ahead import CELLS, simulate
from tests.stats.test_two_rates import two_rates

DONE, INF, NAN = Ending.FINISHED, math.inf, math.nan
ONE, NEW_YEAR = TickCount(1, 5, 0, 5, 0), date(2024, 1, 1)
LEVEL = "a confidence level lies between 0 and 1"
OUT_OF_PLACE = r"1 events of units not at risk at their tick, at positions: 0"


def ends(*ticks: CauseTick) -> object:
    return cumulative_incidence(ticks, ("first", "second"))


def needed(**asked: float) -> object:
    return exposures_needed(**{"ratio": 0.7, "rate": 0.01, "bare_per_guarded": 1.0, **asked})


REFUSED: tuple[tuple[str, Callable[..., object], tuple[object, ...]], ...] = (
    *(
        ("more injuries than sites at risk, or fewer than 0", anytime_valid, ([set_],))
        for set_ in (RiskSet(1, 9, 2, 0), RiskSet(9, 1, 0, 2), RiskSet(9, 9, -1, 1))
    ),
    (LEVEL, lambda: anytime_valid([RiskSet(5, 5, 1, 0)], level=1.0), ()),
    (LEVEL, lambda: exact_ratio(1, [2], [1.0], level=95), ()),
    (LEVEL, lambda: kaplan_meier([ONE], level=95), ()),
    (LEVEL, lambda: needed(level=0.0), ()),
    *((LEVEL, lambda at: injury_rate(1, 10, level=at), (at,)) for at in (0, 1, -0.5, 95, NAN)),
    *((LEVEL, special.two_sided, (at,)) for at in (0, 1, -1, 2, NAN)),
    ("days", severity, ([-1], [False])),
    ("days", severity, ([1, 2], [False])),
    ("0 or more", burden, (-1, 2)),
    ("who goes from 0 to 1", lambda: union_days([2], [1], [1], size=2), ()),
    ("differ in length", lambda: union_days([0], [1, 2], [1], size=1), ()),
    ("between 0 and its size", p_chart, ([5], [4])),
    ("differ in length", u_chart, ([5], [4, 5])),
    ("negative", u_chart, ([-1], [4])),
    ("the columns differ in length", clustered_ratio, (AthleteCells(*[[1]] * 5, [1, 2]),)),
    ("tick 4: 2 counts of 0 or more are needed", ends, (CauseTick(4, 5, (1,)),)),
    ("tick 4: 2 counts of 0 or more are needed", ends, (CauseTick(4, 5, (3, -1)),)),
    ("tick 4: 6 injuries, 5 at risk", ends, (CauseTick(4, 5, (3, 3)),)),
    ("ticks must rise: 4 follows 4", ends, (CauseTick(4, 5, (0, 0)),) * 2),
    ("4 guarded injuries of 3", exact_ratio, (4, [2, 1], [1.0, 1.0])),
    *(("exposures in both groups", exact_ratio, (1, [2], [at])) for at in (0.0, -1.0, INF, NAN)),
    ("set others aside", wait_curve, ([-1], [DONE])),
    ("set others aside", wait_curve, ([NAN], [DONE])),
    ("differ in number", wait_curve, ([1, 2], [DONE])),
    ("open, finished or cancelled", wait_curve, ([1], [7])),
    ("between 0 and 1", wait_quantile, (wait_curve([1], [DONE]), 1)),
    ("before the first at 1", working_days, ([NEW_YEAR] * 2, [NEW_YEAR, date(2023, 1, 1)])),
    ("differ in number", working_days, ([NEW_YEAR], [])),
    ("without exposures there is no rate", MultiplicativeRates, ([], [], [])),
    ("without exposures there is no rate", MultiplicativeRates, ([("a",)], [0], [0])),
    (
        "cells, injuries and exposures differ in length",
        *(MultiplicativeRates, ([("a",), ("b",)], [1], [10, 10])),
    ),
    ("zip", MultiplicativeRates, ([("a", 1), ("b",)], [1, 1], [10, 10])),
    ("zip", MultiplicativeRates([("a", 1)], [1], [10]).rate, (("a",),)),
    *(
        (r"between|give", ahead, (replace(DEMAND, **wrong),))
        for wrong in ({"remake_share": -0.1}, {"athletes": -1}, {"weeks": 0}, {"scan_weeks": 0})
    ),
    ("5 of 4 is not a share", wilson, (5, 4)),
    ("5 of 4 is not a share", clopper_pearson, (5, 4)),
    ("order of arrival", waits, ([[1, 0]], [[1, 1]], 1)),
    ("order of arrival", waits, ([[INF, 0]], [[1, 1]], 1)),
    ("not known", waits, ([[0, NAN]], [[1, 1]], 1)),
    ("negative", waits, ([[0, 1]], [[1, -1]], 1)),
    ("negative or not known", waits, ([[0, 1]], [[1, NAN]], 1)),
    ("one shape", waits, ([[0, 1]], [[1]], 1)),
    ("one shape", waits, ([0, 1], [1, 1], 1)),
    ("no server", waits, ([[0, 1]], [[1, 1]], 0)),
    ("3 injuries without exposures", injury_rate, (3, 0)),
    ("counts are 0 or more", injury_rate, (-1, 10)),
    ("counts are 0 or more", injury_rate, (1, -10)),
    ("1 spells that hold no tick, at positions: 0", over, ([(1, 2, 2)], [])),
    ("spells that hold no tick", over, ([(1, -1, 2)], [])),
    (OUT_OF_PLACE, over, ([(1, 0, 4)], [(1, 5, 1)])),
    ("at positions: 1", over, ([(1, 1, 4)], [(1, 2, 1), (1, 1, 1)])),
    ("not at risk", over, ([(1, 0, 4), (2, 2, 4)], [(2, 2, 1)])),
    ("not at risk", over, ([(1, 0, 4)], [(9, 2, 1)])),
    ("not at risk", over, ([(5, 0, 4)], [(1, 2, 1)])),
    ("not at risk", over, ([], [(1, 2, 1)])),
    ("not at risk", over, ([(1, 0, 4)], [(1, 0, 1)])),
    ("events counted below 0", over, ([(1, 0, 4)], [(1, 2, -1)])),
    (
        "unit, entry, leaving and sites differ in length",
        *(mean_cumulative, (AtRisk([1, 2], [0], [3]), Events([], [], []))),
    ),
    (
        "unit, tick and events differ in length",
        *(mean_cumulative, (AtRisk([1], [0], [3]), Events([1], [], [1]))),
    ),
    (
        "fewer than 0 sites",
        *(mean_cumulative, (AtRisk([1], [0], [3], sites=[-1]), Events([], [], []))),
    ),
    ("ratio is not 1", lambda: needed(ratio=1.0), ()),
    ("are above 0", lambda: needed(ratio=0.0), ()),
    ("are above 0", lambda: needed(rate=0.0), ()),
    ("are above 0", lambda: needed(bare_per_guarded=0.0), ()),
    ("power lies between 0 and 1, not 1.0", lambda: needed(power=1.0), ()),
    (r"give|more", lambda: simulate((Cell(-1, 0, 0, 1),), share=0.5), ()),
    (r"give|more", lambda: simulate(CELLS, share=1.5), ()),
    (r"give|more", lambda: simulate(CELLS, n=0), ()),
    ("ticks must rise: 3 follows 3", kaplan_meier, ([replace(ONE, tick=3), replace(ONE, tick=3)],)),
    *(
        ("tick 7", kaplan_meier, ([TickCount(7, *counted, 0, 0)],))
        for counted in ((3, 4), (0, 0), (3, -1))
    ),
    *(("between 0 and 1", quantile, (kaplan_meier([ONE]), share)) for share in (0, 1, 50, -0.1)),
    ("3 of 2", clustered_share, (ClusterSums(1, 3, 2, 9, 6, 4),)),
    ("injuries without exposures", two_rates, (1, 0, 3, 500)),
    ("injuries without exposures", two_rates, (1, 500, 3, 0)),
    ("0 or more", two_rates, (-1, 10, 3, 500)),
    ("differ in length", mantel_haenszel, (Strata([1, 2], [1], [10], [10]),)),
)


@pytest.mark.parametrize(("message", "statistic", "given"), REFUSED)
def test_what_cannot_be_is_refused(message, statistic, given):
    with pytest.raises(ValueError, match=message):
        statistic(*given)
