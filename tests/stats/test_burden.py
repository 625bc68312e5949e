"""Days lost per 1000 exposures of two groups, and limits from drawing athletes."""

import numpy as np
import pytest

from seasonboard.stats.clustered_burden import FEWEST_HURT, MANY, AthleteDays, group_burdens


def test_a_burden_is_days_over_exposures_by_hand():
    """30 days in 600 guarded exposures, 90 in 1,200 bare: 50 and 75 per 1000, two thirds."""
    found = group_burdens(AthleteDays([30, 0, 0], [0, 60, 30], [200, 200, 200], [400, 400, 400]))
    values = [one.value for one in (found.guarded, found.unguarded, found.ratio)]
    assert values == pytest.approx([50, 75, 2 / 3])
    for one in (found.guarded, found.unguarded, found.ratio):
        assert (one.low, one.high) == (None, None)
        assert f"fewer than {FEWEST_HURT} athletes" in one.why


@pytest.mark.parametrize(
    ("columns", "whys"),
    [
        (([], [], [], []), ("no exposures", "no exposures", "no exposures of a group")),
        (([0], [3], [0], [9]), ("no exposures", "", "no exposures of a group")),
        (([3], [0], [9], [9]), ("", "", "no day lost bare to compare with")),
    ],
)
def test_what_is_not_known_says_why(columns, whys):
    found = group_burdens(AthleteDays(*columns))
    for one, why in zip((found.guarded, found.unguarded, found.ratio), whys, strict=True):
        assert (one.value is None) == bool(why)
        assert one.why.startswith(why or "no limits")


@pytest.mark.parametrize("many", [MANY - 20, 4 * MANY])
def test_limits_are_those_of_drawing_every_athlete_one_by_one(many):
    """Against a plain bootstrap that draws all athletes, those without a day lost too."""
    chance = np.random.default_rng(many)
    is_hurt = np.arange(many) < 24
    sums = np.stack([
        np.where(is_hurt & (np.arange(many) % 2 == 0), chance.integers(1, 30, many), 0),
        np.where(is_hurt & (np.arange(many) % 2 == 1), chance.integers(1, 60, many), 0),
        chance.integers(1, 40, many), chance.integers(10, 60, many),
    ], axis=1).astype(float)  # fmt: skip
    found = group_burdens(AthleteDays(*sums.T.tolist()))
    picks = chance.integers(0, many, size=(6000, many))
    drawn = sums[picks].sum(axis=1)
    plain = {
        "guarded": 1000 * drawn[:, 0] / drawn[:, 2],
        "unguarded": 1000 * drawn[:, 1] / drawn[:, 3],
        "ratio": drawn[:, 0] / drawn[:, 2] / (drawn[:, 1] / drawn[:, 3]),
    }
    for name, values in plain.items():
        one = getattr(found, name)
        assert [one.low, one.high] == pytest.approx(np.quantile(values, [0.025, 0.975]), rel=0.15)
    assert group_burdens(AthleteDays(*sums.T.tolist())) == found, "the same seed, the same numbers"
