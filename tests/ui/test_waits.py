"""The curve of what is not yet there, by age."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.stats.waiting_times import Ending, wait_curve
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.themes import DARK_COLOURS, ink
from seasonboard.ui.turnaround.waiting_curve import wait_picture
from tests.ui.board import check

DAYS = [4, 6, 6, 7, 8, 8, 9, 9, 10, 10, 11, 12, 12, 14, 15, 18, 20, 22, 9, 13]
ENDINGS = [*[Ending.FINISHED] * 18, Ending.OPEN, Ending.CANCELLED]


def drawn(days, endings, paper):
    return [line.plain.rstrip() for line in wait_picture(wait_curve(days, endings), "days", paper)]


def test_curve_falls_from_all_and_the_orders_still_followed_stand_below():
    check("\n".join(drawn(DAYS, ENDINGS, Paper(78, 30))), "picture-waits")


def test_limits_are_dashes_without_colour_and_tints_with_it():
    curve = wait_curve(DAYS, ENDINGS)
    plain = "".join(line.plain for line in wait_picture(curve, "days", Paper(78, 30)))
    styles = ink(DARK_COLOURS, tinted=True)
    tinted = wait_picture(curve, "days", Paper(78, 30, styles))
    assert "╌" in plain
    assert "╌" not in "".join(line.plain for line in tinted)
    used = " ".join(str(span.style) for line in tinted for span in line.spans)
    assert styles.guarded_tint in used


def test_curve_says_that_it_ends_before_the_orders_do():
    told = "drawn while 5 or more are followed; the longest is 22 days"
    assert told in "\n".join(drawn(DAYS, ENDINGS, Paper(78, 30)))
    assert "drawn while" not in "\n".join(drawn([3] * 9, [Ending.FINISHED] * 9, Paper(78, 30)))


def test_without_an_order_there_is_no_curve():
    assert drawn([], [], Paper(78, 30)) == []


@pytest.mark.parametrize("ending", list(Ending))
def test_one_order_is_drawn_whatever_became_of_it(ending):
    assert drawn([3], [ending], Paper(78, 30))


@given(
    st.lists(st.tuples(st.integers(0, 1500), st.sampled_from(Ending)), min_size=1, max_size=40),
    st.integers(58, 200),
    st.integers(8, 60),
)
@settings(max_examples=40)
def test_curve_fits_its_paper_whatever_the_orders(orders, width, height):
    days, endings = zip(*orders, strict=True)
    assert all(len(line) <= width for line in drawn(days, endings, Paper(width, height)))
