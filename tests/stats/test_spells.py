"""Spells become counts per tick: at risk in (entry, exit]."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.spells import spell_counts
from seasonboard.stats.survival import TickCount, kaplan_meier
from tests.front_door import reference_rows
from tests.stats.laws import law
from tests.stats.spells import counts

SPELLS = st.lists(
    st.tuples(st.integers(0, 12), st.integers(1, 9), st.booleans()).map(
        lambda drawn: (drawn[0], drawn[0] + drawn[1], drawn[2])
    ),
    max_size=30,
)


@law
@given(SPELLS)
def test_counts_agree_with_counting_one_by_one(spells):
    columns = [list(column) for column in zip(*spells, strict=True)] or [[], [], []]
    assert spell_counts(*columns) == counts(spells)


def test_a_spell_without_a_tick_is_refused_with_its_position():
    """Nobody can be at risk between equal entry and exit."""
    with pytest.raises(ValueError, match="between entry and exit of 1 spells: 2"):
        spell_counts([0, 0, 2, 2, 3], [4, 2, 2, 5, 6], [False, True, True, True, False])


def test_columns_of_different_length_are_refused():
    with pytest.raises(ValueError, match="differ in length"):
        spell_counts([0], [1, 2], [True])


def test_the_small_published_set_with_late_entry():
    """Ten (start, stop] rows of Therneau & Grambsch 2000, appendix E.2, with risk sets as there."""
    rows = reference_rows("left_truncated_small.csv")
    found = spell_counts(
        [int(r["start"]) for r in rows],
        [int(r["stop"]) for r in rows],
        [r["event"] == "1" for r in rows],
    )
    at_risk = {c.tick: (c.at_risk, c.injuries) for c in found if c.injuries}
    assert at_risk == {2: (2, 1), 3: (3, 1), 6: (5, 1), 7: (4, 1), 8: (4, 1), 9: (5, 2)}


def test_one_spell_is_a_curve_of_one_athlete():
    assert spell_counts([0], [2], [True]) == [TickCount(1, 1, 0, 1, 0), TickCount(2, 1, 1, 0, 0)]
    assert kaplan_meier(spell_counts([0], [2], [True])).points[-1].survival == 0.0
