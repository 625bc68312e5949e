"""The random numbers under the sample season."""

import numpy as np
import pytest

from seasonboard.sample.draws import Draws, ranks_within, spans

PINNED = [0.0907495644718983, 0.49632975190181194, 0.6155500192036499]


def test_the_stream_is_pinned():
    """A change of the numbers of a stream would change every season ever made."""
    assert Draws(20260815, 0).uniform(3).tolist() == pytest.approx(PINNED, abs=1e-15)


def test_parts_have_streams_of_their_own():
    assert Draws(1, 0).uniform(5).tolist() != Draws(1, 1).uniform(5).tolist()


def test_pick_follows_its_weights_and_never_a_weight_of_nought():
    shares = np.bincount(Draws(3, 1).pick(100_000, (1.0, 0.0, 3.0)), minlength=3) / 100_000
    assert shares.tolist() == pytest.approx([0.25, 0.0, 0.75], abs=0.01)


def test_skewed_has_the_asked_median():
    values = Draws(4, 1).skewed(100_000, 7.0, shape=2.0)
    assert np.median(values) == pytest.approx(7.0, abs=0.15)
    assert values.mean() > 8.0


def test_below_covers_every_number_under_its_limit():
    assert set(Draws(5, 1).below(1_000, 4).tolist()) == {0, 1, 2, 3}


def test_ranks_within_count_from_nought_in_each_group():
    group = np.array([2, 1, 2, 1, 2])
    ranks = ranks_within(group, np.array([0.3, 0.9, 0.1, 0.2, 0.2]))
    assert ranks.tolist() == [2, 1, 0, 0, 1]


def test_spans_lay_runs_end_to_end():
    rows, owner = spans(np.array([10, 50, 7]), np.array([2, 0, 3]))
    assert rows.tolist() == [10, 11, 7, 8, 9]
    assert owner.tolist() == [0, 0, 2, 2, 2]
