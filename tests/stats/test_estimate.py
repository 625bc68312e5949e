"""An estimate holds a figure with its confidence interval, or why it is not known."""

from dataclasses import FrozenInstanceError, dataclass

import pytest

from seasonboard.stats.estimate import Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class _Share(Estimate):
    trials: int


def test_a_figure_stands_with_its_interval():
    share = Estimate(0.4, 0.2, 0.6, 0.9, "wilson")
    assert (share.value, share.low, share.high) == (0.4, 0.2, 0.6)
    assert (share.level, share.method, share.why) == (0.9, "wilson", "")
    assert share.has_interval


@pytest.mark.parametrize("limits", [(None, None), (0.0, None), (None, 1.0)])
def test_with_one_limit_or_none_it_has_no_interval(limits):
    assert not Estimate(0.4, *limits).has_interval


def test_what_is_not_known_says_why():
    assert Estimate(None, why="nothing was counted").why == "nothing was counted"
    with pytest.raises(ValueError, match="says why"):
        Estimate(None)


def test_more_of_it_stands_in_a_subclass():
    share = _Share(0.4, 0.2, 0.6, trials=10)
    assert (share.value, share.trials) == (0.4, 10)
    with pytest.raises(ValueError, match="says why"):
        _Share(None, trials=0)


def test_it_does_not_change():
    with pytest.raises(FrozenInstanceError):
        Estimate(0.4).value = 0.5  # type: ignore[misc]  # that it cannot is the test
