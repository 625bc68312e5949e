"""An order on its axis of days."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.ui.orders.day_axis import DayAxis, order_line
from seasonboard.ui.themes import PLAIN

NOW = date(2026, 11, 13)
AXIS = DayAxis(date(2026, 11, 3), NOW, date(2026, 11, 18))


def day(number):
    return date(2026, 11, number)


@pytest.mark.parametrize(
    ("stages", "game", "drawn"),
    [
        ([("r", 4), ("s", 6)], 16, " r─s──────│┄┄◆  "),
        ([("r", 4), ("s", 13)], 14, " r────────s◆    "),
        ([("r", 4), ("s", 4)], 16, " s────────│┄┄◆  "),
        ([("r", 4)], None, " r────────│┄┄┄┄┄"),
        ([("r", 4)], 25, " r────────│┄┄┄┄┄"),
        ([("r", 1), ("s", 5)], 16, "‹─s───────│┄┄◆  "),
        ([], 16, "          │┄┄◆  "),
        ([("r", 4)], 13, " r────────◆     "),
    ],
)
def test_line_shows_stages_the_last_day_known_and_the_next_game(stages, game, drawn):
    marks = [(letter, day(number)) for letter, number in stages]
    line = order_line(AXIS, marks, day(game) if game else None, 16, PLAIN)
    assert line.plain == drawn


def test_dates_stand_over_their_columns_and_give_way_to_the_last_day_known():
    assert AXIS.dates(30) == "3 Nov           13 Nov  18 Nov"
    assert AXIS.dates(16) == "3 Nov  13 Nov   "


@given(
    st.lists(st.integers(-90, 30), max_size=8).map(sorted),
    st.none() | st.integers(0, 90),
    st.integers(8, 120),
)
def test_line_has_the_width_it_is_given_whatever_the_days(stages, game, width):
    marks = [("x", NOW + timedelta(days=number)) for number in stages]
    ahead = None if game is None else NOW + timedelta(days=game)
    assert order_line(AXIS, marks, ahead, width, PLAIN).cell_len == width


def test_an_axis_of_one_day_holds_it():
    assert order_line(DayAxis(NOW, NOW, NOW), [("r", NOW)], NOW, 8, PLAIN).cell_len == 8
