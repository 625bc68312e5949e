"""Published answers, asked by the command line of seasons made from published tables.

Freireich et al. 1963 (6-MP and placebo): curve, medians and log-rank as printed in Kleinbaum &
Klein, Survival Analysis, chapter 2. Stanford heart transplants, Crowley & Hu 1977: rates in whole
days; same-session ratios are Mantel-Haenszel over days, worked out by hand from the same table.
"""

import pytest
from pytest import approx

from tests import front_door
from tests.published import FREIREICH_PLACEBO, FREIREICH_TREATED, RESTRICTED_MEANS


@pytest.fixture(scope="module")
def freireich_games(run, freireich_store):
    return run("ask", "games", "--store", freireich_store, "--format", "json").json


def curve(answer, group):
    (found,) = (g for g in answer["groups"] if g["group"] == group)
    return {point["tick"]: point for point in found["curve"]}


def comparisons(answer):
    return {c["comparison"]: c for c in answer["comparisons"]}


def test_freireich_curves_are_the_published_ones(freireich_games):
    guarded = curve(freireich_games, "guarded")
    for tick, at_risk, survival, error in FREIREICH_TREATED:
        assert guarded[tick]["at_risk"] == at_risk
        assert guarded[tick]["survival"] == approx(survival, abs=1e-6)
        assert guarded[tick]["std_error"] == approx(error, abs=1.5e-6)
    bare = curve(freireich_games, "unguarded")
    for tick, at_risk, survival in FREIREICH_PLACEBO:
        assert bare[tick]["at_risk"] == at_risk
        assert bare[tick]["survival"] == approx(survival, abs=1e-6)


def test_freireich_medians_and_log_rank_are_the_published_ones(freireich_games):
    medians = {g["group"]: g["median"] for g in freireich_games["groups"]}
    assert medians["guarded"]["value"] == 23
    assert medians["guarded"]["low"] == 13
    assert medians["guarded"]["high"] is None
    assert (medians["unguarded"]["low"], medians["unguarded"]["value"]) == (4, 8)
    assert medians["unguarded"]["high"] == 11
    assert freireich_games["log_rank"]["chi_square"] == approx(16.792941, abs=1e-6)
    assert freireich_games["log_rank"]["expected"] == approx(19.2505, abs=1e-4)


@pytest.mark.parametrize(
    ("horizon", "guarded", "bare", "difference", "low", "high"), RESTRICTED_MEANS
)
def test_freireich_restricted_means(
    run, freireich_store, horizon, guarded, bare, difference, low, high
):
    """As R's survival package gives them: print(survfit(...), rmean = horizon)."""
    answer = run(
        "ask", "games", "--store", freireich_store, "--horizon", horizon, "--format", "json"
    ).json
    for group, (mean, error) in zip(answer["groups"], (guarded, bare), strict=True):
        assert group["restricted_mean"]["mean"] == approx(mean, abs=1e-6)
        assert group["restricted_mean"]["std_error"] == approx(error, abs=1e-6)
    found = answer["restricted_mean_difference"]
    assert (found["difference"], found["low"], found["high"]) == (
        approx(difference, abs=1e-6),
        approx(low, abs=1e-5),
        approx(high, abs=1e-5),
    )


def test_freireich_crude_and_same_session_ratios(run, freireich_store):
    answer = run("ask", "compare", "--store", freireich_store, "--format", "json").json
    found = comparisons(answer)
    assert found["crude"]["rate_ratio"] == approx((9 / 359) / (21 / 182), abs=1e-12)
    assert found["crude"]["rate_ratio"] == approx(0.217270, abs=1e-6)
    same = found["same session"]
    assert same["rate_ratio"] == approx(0.207378, abs=1e-6)
    assert same["low"] == approx(0.088220, abs=1e-6)
    assert same["high"] == approx(0.487481, abs=1e-6)
    assert answer["verdict"] == "guarded sites were hurt less often"


@pytest.mark.long
def test_stanford_crude_and_same_session_point_opposite_ways(run, stanford_store):
    answer = run("ask", "compare", "--store", stanford_store, "--format", "json").json
    found = comparisons(answer)
    assert found["crude"]["injuries_guarded"] + found["crude"]["injuries_unguarded"] == 75
    assert found["crude"]["rate_ratio"] == approx(0.343571, abs=1e-6)
    same = found["same session"]
    assert same["rate_ratio"] == approx(1.130408, abs=1e-6)
    assert (same["low"], same["high"]) == approx((0.635545, 2.010594), abs=1e-6)


@pytest.mark.long
def test_the_answer_sentence_is_not_fooled_by_the_crude_ratio(run, stanford_store):
    answer = run("ask", "compare", "--store", stanford_store, "--format", "json").json
    assert answer["verdict"] == "too few injuries to tell"
    assert answer["answer"].startswith("Too few injuries to tell")
    assert "1.13 times" in answer["answer"]
    assert "crude ratio, 0.34, points the other way" in answer["answer"]


@pytest.mark.long
def test_stanford_log_rank_with_late_entry(run, stanford_store):
    answer = run(
        "ask", "games", "--store", stanford_store, "--min-at-risk", 1, "--format", "json"
    ).json
    assert answer["log_rank"]["chi_square"] == approx(0.175086, abs=1e-6)
    exposures = {g["group"]: (g["ticks"], g["injuries"]) for g in answer["groups"]}
    assert exposures == {"guarded": (25999, 45), "unguarded": (5955, 30)}


@pytest.mark.long
def test_ever_never_misleads_most(stanford_store):
    """Counting the waiting as guarded days gives 0.172; by the days worn it is 0.344.

    Deaths and days as in Crowley & Hu 1977: never 30 in 3287 days, ever 45 in 28667."""
    days, deaths = {True: 0, False: 0}, {True: 0, False: 0}
    intervals = front_door.stanford()
    ever = {i.athlete for i in intervals if i.guarded}
    for i in intervals:
        days[i.athlete in ever] += i.stop - i.start
        deaths[i.athlete in ever] += i.event
    assert (deaths[False], days[False]) == (30, 3287)
    assert (deaths[True], days[True]) == (45, 28667)
    assert approx(0.171992, abs=1e-6) == (45 / 28667) / (30 / 3287)


@pytest.mark.long
def test_the_misleading_tally_is_given_on_demand_only(run, stanford_store):
    asked = ("ask", "games", "--store", stanford_store, "--format", "json")
    assert "misleading_ever_never" not in run(*asked).json
    rows = run(*asked, "--naive").json["misleading_ever_never"]
    first = {row["group"]: row["at_risk"] for row in rows if row["tick"] == 1}
    assert first == {"ever guarded": 69, "never guarded": 34}
