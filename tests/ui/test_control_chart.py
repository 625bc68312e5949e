"""Values between their limits."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.pictures.control_chart import KEY, ChartPoint, control_chart
from seasonboard.ui.themes import DARK_COLOURS, ink
from tests.ui.board import check

VALUES = (12, 13, 14, 12.5, 21, 13, 12, None, 13, 6, 14, 15)
WEEKS = [
    ChartPoint(
        f"{number + 1} Sep", value, 8.9, 18.1, is_outside=value in {21, 6}, is_counted=number < 10
    )
    for number, value in enumerate(VALUES)
]
PAPER = Paper(78, 20)


def drawn(points, centre=13.5, paper=PAPER):
    return "\n".join(line.plain.rstrip() for line in control_chart(points, centre, paper))


def test_marks_lie_between_their_limits_and_those_beyond_have_a_shape_of_their_own():
    check(drawn(WEEKS), "picture-control-chart")


def test_limits_may_differ_from_group_to_group():
    sizes = (0.3, 0.2, 0.1, 0.2, 0.3)
    groups = [ChartPoint(f"g{n}", 0.4, 0.4 - size, 0.4 + size) for n, size in enumerate(sizes)]
    check(drawn(groups, 0.4), "picture-control-chart-groups")


def test_what_lies_beyond_is_told_by_the_statistic_not_by_the_drawing():
    on_the_line = ChartPoint("a", 18.1, 8.9, 18.1)
    assert "▲" not in drawn([on_the_line] * 3).splitlines()[0]
    assert drawn([replace(on_the_line, is_outside=True)] * 3).count("▲") == 3 + KEY.count("▲")


def test_a_value_that_is_not_known_is_a_gap():
    missing = [replace(week, value=None) if week.label == "5 Sep" else week for week in WEEKS]
    picture = drawn(missing).removesuffix(KEY)
    assert picture.count("●") + picture.count("▼") + picture.count("○") == 10


def test_without_a_value_there_is_no_chart():
    assert control_chart([], 1.0, PAPER) == []
    assert control_chart([ChartPoint("a", None, 1, 2)], 1.5, PAPER) == []


def test_values_all_alike_and_without_limits_are_drawn():
    assert drawn([ChartPoint("a", 3.0)] * 4, None).count("●") == 4 + KEY.count("●")


def test_the_last_points_are_drawn_where_there_is_no_room_for_all_and_it_is_said():
    told = drawn(WEEKS, paper=Paper(20, 20))
    assert "the last 10 of 12" in told
    assert "12 Sep" in told


@given(
    st.lists(st.none() | st.floats(0, 500, allow_subnormal=False), max_size=60),
    st.integers(30, 200),
    st.integers(3, 20),
)
def test_chart_fits_its_paper_whatever_the_values(values, width, rows):
    points = [ChartPoint(f"{n} Sep", value, 1.0, 400.0) for n, value in enumerate(values)]
    for paper in (Paper(width, 20), Paper(width, 20, ink(DARK_COLOURS, tinted=True))):
        lines = control_chart(points, 20.0, paper, rows=rows)
        assert all(cell_len(line.plain) <= width for line in lines)
        assert not lines or len(lines) > rows
