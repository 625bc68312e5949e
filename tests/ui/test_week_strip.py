"""Days as columns, counts as rows."""

from datetime import date, timedelta

import pytest

from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.week.day_strip import week_strip

MONDAY = date(2026, 11, 9)
WEEK = [MONDAY + timedelta(days=number) for number in range(7)]


def drawn(days, rows, width=78):
    return [line.plain for line in week_strip(days, rows, Paper(width, 20))]


def test_each_day_is_a_column_and_a_day_without_any_is_a_dot():
    assert drawn(WEEK, [("games", [0, 0, 2, 0, 0, 1, 0]), ("injuries", [0] * 6 + [1234])]) == [
        "                 Mon 9  Tue 10  Wed 11  Thu 12  Fri 13  Sat 14  Sun 15",
        " games               ·       ·       2       ·       ·       1       ·",
        " injuries            ·       ·       ·       ·       ·       ·   1,234",
    ]


def test_a_row_with_a_count_stands_out():
    _, none, some = week_strip(WEEK, [("games", [0] * 7), ("injuries", [1] * 7)], Paper(78, 20))
    assert not [span for span in none.spans if "bold" in str(span.style)]
    assert [span for span in some.spans if "bold" in str(span.style)]


def test_the_last_days_are_shown_where_there_is_no_room_for_all_and_it_is_said():
    shown = drawn(WEEK, [("games", [1, 2, 3, 4, 5, 6, 7])], width=38)
    assert shown[1].split() == ["games", "5", "6", "7"]
    assert shown[-1] == " the last 3 of 7 days"
    assert max(map(len, shown)) <= 38


def test_without_days_there_is_nothing():
    assert drawn([], [("games", [])]) == []


def test_counts_that_do_not_match_the_days_are_refused():
    with pytest.raises(ValueError, match="more or fewer counts"):
        drawn(WEEK, [("games", [1])])
