"""Claims in small: nothing is claimed without an effect but what the sentence itself excepts."""

import numpy as np
import pytest

from seasonboard.answers.claims.rules import ClaimWord
from seasonboard.stats.ratios import Strata, mantel_haenszel
from tests.truthfulness.care import SCENARIOS, care_season, quick
from tests.truthfulness.claims import ALLOWED, CareResult, claims_report

LOOKS = 40
BY_NAME = {one.name: one for one in SCENARIOS}


def result(name, *, ratios=(1.0,), looks=LOOKS):
    scenario = BY_NAME[name]
    return CareResult(
        scenario, {r: [care_season(scenario, r, (7, n)) for n in range(looks)] for r in ratios}
    )


def test_quick_ratio_is_the_displayed_one():
    rng = np.random.default_rng(7)
    t1, t0 = rng.integers(1, 9, (2, 80))
    a = rng.random(80) < 0.4
    rows = np.stack([a, ~a, t1, t0], axis=1).astype(int)
    names = ("value", "low", "high", "std_error", "injuries_guarded", "informative_injuries")
    found, product = quick(rows), mantel_haenszel(Strata(*rows.T.tolist()))
    for name in names:
        assert getattr(found, name) == pytest.approx(getattr(product, name), rel=1e-12)


@pytest.mark.long
def test_careful_athletes_are_seen_through_by_control_sites_where_care_is_of_the_whole_body():
    found = result("careful 1.5, ρ 1")
    assert found.ratio() < 0.6, "care passes for a guard"
    assert found.share(1.0, "controls_ring") > 0.8
    assert found.share(1.0, "word", ClaimWord.CONDITIONAL) <= ALLOWED
    assert found.share(1.0, "word", ClaimWord.SEEN) > 0.3, "seen, and never claimed"


@pytest.mark.long
@pytest.mark.parametrize(
    ("name", "ring"),
    [("wear lost 50%", "wear_rings"), ("attendance lost 30%", "attendance_rings")],
)
def test_lost_records_ring_and_carry_no_claim(name, ring):
    found = result(name)
    assert found.share(1.0, ring) > 0.5
    assert found.share(1.0, "word", ClaimWord.CONDITIONAL) <= ALLOWED


@pytest.mark.long
def test_a_strong_effect_is_claimed_and_no_check_rings_on_its_own():
    found = result("nothing amiss", ratios=(1.0, 0.6, 0.3))
    assert found.share(0.3, "word", ClaimWord.CONDITIONAL) > 0.5
    for ring in ("wear_rings", "attendance_rings", "controls_ring"):
        assert found.share(1.0, ring) <= 0.15
    text = claims_report([found, result("careful 1.5, ρ 0", ratios=(1.0, 0.6, 0.3), looks=3)],
                         looks=LOOKS, command="python -m …")  # fmt: skip
    assert "- False claimed, with complete records: at most 0.0 %" in text
    assert "| nothing amiss |" in text
