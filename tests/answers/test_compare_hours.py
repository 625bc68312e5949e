"""Rates per hour: the same on screen, in text and in JSON; not known where nobody took the time."""

import pytest

from seasonboard.answers.compare.answer import shown_per
from seasonboard.answers.compare.hours import Per
from seasonboard.answers.questions import COMPARE
from seasonboard.scope import read_scope
from tests.queries.build import drawn

GRID = """
        A    B    C
    G1  g    .!   .
    G2  g!   .    .!
    G3  .    .    .
"""


@pytest.fixture
def compared(board):
    """Answer on three games of 90 minutes; nobody took the time of B in the first."""

    def answer(*, is_timed=True):
        season = drawn(GRID)
        for row in season.attendance:
            unseen = (row["session"], row["athlete"]) == ("G1", "B")
            row["minutes"] = 90 if is_timed and not unseen else None
        opened = board(season)
        return opened.ask(COMPARE, read_scope({"kind": "chest"}, opened.scope_values))

    return answer


def test_hours_and_injuries_are_those_of_sessions_with_minutes(compared):
    """Guarded: A in G1 and G2, one injury. Bare: C in G1 and G2 with one injury; afterwards A, B
    and C are set aside as hurt before, and B's injury has no minutes."""
    guarded, bare = (
        COMPARE.report().as_object(compared(), "compare")[name] for name in ("guarded", "unguarded")
    )
    assert (guarded["hours"], guarded["injuries_in_hours"]) == (3.0, 1)
    assert guarded["rate_per_1000_hours"] == pytest.approx(1000 / 3)
    assert guarded["low_hours"] < 1000 / 3 < guarded["high_hours"]
    assert (bare["hours"], bare["injuries_in_hours"]) == (3.0, 1)
    assert (bare["injuries_without_minutes"], bare["exposures_without_minutes"]) == (1, 1)
    assert (bare["injuries"], bare["exposures"]) == (2, 3)
    assert "why" not in guarded
    assert "why" not in bare


def test_shown_per_hour_the_rest_is_told_as_left_out_and_ratios_stay(compared):
    answer = compared()
    per_hour = shown_per(answer, Per.HOURS)
    assert per_hour.comparisons == answer.comparisons
    more = [left for left in per_hour.summary.left_out if left not in answer.summary.left_out]
    assert [(left.what, left.count) for left in more] == [("injuries", 1), ("site-exposures", 1)]
    assert all("no minutes recorded" in left.why for left in more)
    told = COMPARE.report().as_text(per_hour)
    assert "3.0 site-hours" in told
    assert "333.33 per 1000 hours" in told
    assert "The ratios stay per exposure" in told
    assert "per 1000 hours" not in COMPARE.report().as_text(answer)
    assert shown_per(answer, Per.EXPOSURES) == answer


def test_without_minutes_the_rate_per_hour_is_not_known_and_says_why(compared):
    answer = shown_per(compared(is_timed=False), Per.HOURS)
    assert answer.summary.left_out == compared(is_timed=False).summary.left_out
    assert COMPARE.report().as_text(answer).count("not known: no minutes recorded") == 2
    for name in ("guarded", "unguarded"):
        found = COMPARE.report().as_object(answer, "compare")[name]
        assert found["rate"] is not None
        assert found["hours"] is found["rate_per_1000_hours"] is found["high_hours"] is None
        assert found["why"] == "not known: no minutes recorded"
