"""Small pictures, drawn from figures and a size without a terminal: marks, axes, bars, charts."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import product
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from seasonboard.answers.roster.parts import NOT_JOINED, StripCell
from seasonboard.answers.roster.words import STRIP_KEY
from seasonboard.answers.sparkline import sparkline
from seasonboard.stats.waiting_times import Ending, wait_curve
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.orders.day_axis import DayAxis, order_line
from seasonboard.ui.pictures.canvas import HEAVY, LIGHT, SAMPLES, THIRD
from seasonboard.ui.pictures.control_chart import KEY, ChartPoint, control_chart
from seasonboard.ui.pictures.marks import bar, share_line, strip
from seasonboard.ui.take_up.page import step_bar
from seasonboard.ui.themes import DARK_COLOURS, PLAIN, ink
from seasonboard.ui.turnaround.waiting_curve import group_picture, wait_picture
from seasonboard.ui.week.day_strip import week_strip
from tests.ui.board import check

PAPER = Paper(78, 20)
COLOURED = ink(DARK_COLOURS, tinted=True)
STATES = ("full", "limited", "out", "not recorded", NOT_JOINED)
SHARES = st.floats(0, 1)


MARKS = {(NOT_JOINED, False): " ", ("not recorded", False): "·", ("out", False): "○"}
MARKS |= {
    ("full", True): "●",
    ("full", False): "•",
    ("limited", True): "◐",
    ("limited", False): "◐",
}


def test_strip_tells_by_shape_what_happened_and_by_colour_nothing_more():
    styles: dict[str, str] = {}
    for state, worn in product(STATES, (True, False)):
        drawn = strip([StripCell(state, worn)], COLOURED)
        assert drawn.plain == MARKS.get((state, worn), drawn.plain)
        assert state == NOT_JOINED or drawn.plain in STRIP_KEY
        style = " ".join(sorted({str(span.style) for span in drawn.spans}))
        assert styles.setdefault(drawn.plain, style) == style
    assert len(styles) > 4


@given(st.lists(st.tuples(st.sampled_from(STATES), st.booleans()), max_size=40))
def test_strip_takes_one_cell_a_session(season):
    shown = strip([StripCell(state, worn) for state, worn in season], COLOURED)
    assert cell_len(shown.plain) == len(season)


@pytest.mark.parametrize(
    ("values", "floor", "drawn"),
    [
        ([], None, ""),
        ([None, None], None, "··"),
        ([1, 2, 3, 4, 5, 6, 7, 8], None, "▁▂▃▄▅▆▇█"),
        ([1, None, 8], None, "▁·█"),
        ([6, 7, 8], 0, "▇██"),
        ([5, 5], None, "▄▄"),
        ([0, 0], None, "▁▁"),
        ([-2, 2], 0, "▁█"),
    ],
)
def test_a_sparkline_lies_between_least_and_largest_with_gaps(values, floor, drawn):
    assert sparkline(values, floor=floor) == drawn


@pytest.mark.parametrize(
    ("share", "drawn"),
    [(0, "    "), (0.001, "▏   "), (0.5, "██  "), (0.6, "██▍ "), (1, "████"), (1.2, "████")],
)
def test_bar_shows_anything_above_nothing_and_never_more_than_all(share, drawn):
    assert bar(share, 4) == drawn


@pytest.mark.parametrize(
    ("share", "interval", "limits", "most", "drawn"),
    [
        (0.5, (0.2, 0.8), None, 1.0, "  ├──■──┤  "),
        (0.5, (0.2, 0.8), (0.1, 0.9), 1.0, " ┊├──■──┤┊ "),
        (0.0, (0.0, 0.3), None, 1.0, "■──┤       "),
        (0.5, (None, None), (0.3, 0.7), 1.0, "   ┊ ■ ┊   "),
        (0.1, (0.05, 0.4), None, 0.2, "   ├─■────▸"),
        (0.9, (0.5, 1.0), None, 0.2, "          ▸"),
        (0.1, (None, None), (0.0, 0.9), 0.2, "┊    ■     "),
        (None, (None, None), None, 1.0, "           "),
    ],
)
def test_share_line_points_where_it_goes_on(share, interval, limits, most, drawn):
    assert share_line(share, interval, 11, limits=limits, most=most) == drawn


@given(SHARES, st.tuples(SHARES, SHARES).map(sorted), st.integers(2, 60), st.floats(0.1, 1))
def test_share_line_is_as_wide_as_asked(share, limits, width, most):
    low, high = limits
    drawn = share_line(share, (low, high), width, limits=(low, high), most=most)
    assert cell_len(drawn) == width
    assert ("■" in drawn) == (share <= most)


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
    for axis in (AXIS, DayAxis(NOW, NOW, NOW)):
        assert order_line(axis, marks, ahead, width, PLAIN).cell_len == width


VALUES = (12, 13, 14, 12.5, 21, 13, 12, None, 13, 6, 14, 15)
WEEKS = [
    ChartPoint(f"{n} Sep", value, 8.9, 18.1, is_outside=value in {21, 6}, is_counted=n <= 10)
    for n, value in enumerate(VALUES, 1)
]


def chart(points, centre=13.5, paper=PAPER):
    return "\n".join(line.plain.rstrip() for line in control_chart(points, centre, paper))


def test_marks_lie_between_their_limits_and_those_beyond_have_a_shape_of_their_own():
    check(chart(WEEKS), "picture-control-chart")


def test_limits_may_differ_from_group_to_group():
    sizes = (0.3, 0.2, 0.1, 0.2, 0.3)
    groups = [ChartPoint(f"g{n}", 0.4, 0.4 - size, 0.4 + size) for n, size in enumerate(sizes)]
    check(chart(groups, 0.4), "picture-control-chart-groups")


def test_what_lies_beyond_is_told_by_the_statistic_not_by_the_drawing():
    on_the_line = ChartPoint("a", 18.1, 8.9, 18.1)
    assert "▲" not in chart([on_the_line] * 3).splitlines()[0]
    assert chart([replace(on_the_line, is_outside=True)] * 3).count("▲") == 3 + KEY.count("▲")


def test_a_value_that_is_not_known_is_a_gap():
    missing = replace(WEEKS[4], value=None)
    picture = chart([*WEEKS[:4], missing, *WEEKS[5:]]).removesuffix(KEY)
    assert picture.count("●") + picture.count("▼") + picture.count("○") == 10


def test_without_a_value_there_is_no_chart_and_values_all_alike_without_limits_are_drawn():
    assert control_chart([], 1.0, PAPER) == []
    assert control_chart([ChartPoint("a", None, 1, 2)], 1.5, PAPER) == []
    assert chart([ChartPoint("a", 3.0)] * 4, None).count("●") == 4 + KEY.count("●")


def test_the_last_points_are_drawn_where_there_is_no_room_for_all_and_it_is_said():
    told = chart(WEEKS, paper=Paper(20, 20))
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


WAITED = [4, 6, 6, 7, 8, 8, 9, 9, 10, 10, 11, 12, 12, 14, 15, 18, 20, 22, 9, 13]
HIGH = Paper(78, 30)
ENDINGS = [*[Ending.FINISHED] * 18, Ending.OPEN, Ending.CANCELLED]


def waits(days, endings, paper=HIGH):
    return [line.plain.rstrip() for line in wait_picture(wait_curve(days, endings), "days", paper)]


def test_curve_falls_from_all_and_the_orders_still_followed_stand_below():
    check("\n".join(waits(WAITED, ENDINGS)), "picture-waits")


def test_limits_are_dashes_without_colour_and_tints_with_it():
    curve = wait_curve(WAITED, ENDINGS)
    plain = "".join(line.plain for line in wait_picture(curve, "days", HIGH))
    styles = ink(DARK_COLOURS, tinted=True)
    tinted = wait_picture(curve, "days", Paper(78, 30, styles))
    assert "╌" in plain
    assert "╌" not in "".join(line.plain for line in tinted)
    used = " ".join(str(span.style) for line in tinted for span in line.spans)
    assert styles.guarded_tint in used


def test_curve_says_that_it_ends_before_the_orders_do():
    told = "drawn while 5 or more are followed; the longest is 22 days"
    assert told in "\n".join(waits(WAITED, ENDINGS))
    assert "drawn while" not in "\n".join(waits([3] * 9, [Ending.FINISHED] * 9))


def test_without_an_order_there_is_no_curve_and_one_is_drawn_whatever_became_of_it():
    assert waits([], []) == []
    assert all(waits([3], [ending]) for ending in Ending)


@given(
    st.lists(st.tuples(st.integers(0, 1500), st.sampled_from(Ending)), min_size=1, max_size=40),
    st.integers(58, 200),
    st.integers(8, 60),
)
@settings(max_examples=40)
def test_curve_fits_its_paper_whatever_the_orders(orders, width, height):
    days, endings = zip(*orders, strict=True)
    assert all(len(line) <= width for line in waits(days, endings, Paper(width, height)))


def groups(*sizes):
    """Return groups of so many orders, the nth fitted after n days and more."""
    return [
        SimpleNamespace(
            name=f"group {nth}",
            curve=wait_curve(range(nth, nth + size), [Ending.FINISHED] * size),
        )
        for nth, size in enumerate(sizes, 1)
    ]


def test_groups_are_drawn_together_each_with_its_stroke_and_its_name_at_its_end():
    rows = [line.plain.rstrip() for line in group_picture(groups(30, 20, 9), "days", HIGH)]
    ends = dict(reversed(row.split("  ")[-1].split(" ", 1)) for row in rows if "⠂ group" in row)
    ends |= dict(reversed(row.split("  ")[-1].split(" ", 1)) for row in rows if "⠒ group" in row)
    assert ends == {"group 1": SAMPLES[HEAVY], "group 2": SAMPLES[LIGHT]}
    assert any(row.endswith(f"{SAMPLES[THIRD]} group 3") for row in rows)
    followed = [row.split() for row in rows if row.lstrip().startswith("group")]
    assert [row[1] for row in followed] == ["1", "2", "3"]
    assert [row[2] for row in followed] == ["30", "20", "9"], "all are followed at the start"
    assert "largest of" not in "\n".join(rows)


def test_only_the_largest_groups_are_drawn_and_it_is_said():
    rows = "\n".join(line.plain for line in group_picture(groups(6, 7, 8, 9, 10), "days", HIGH))
    assert "the 4 largest of 5 groups" in " ".join(rows.split())
    assert "group 1" not in rows
    assert group_picture([], "days", HIGH) == []


@given(st.lists(st.integers(1, 60), min_size=1, max_size=6), st.integers(58, 200))
@settings(max_examples=20)
def test_groups_fit_their_paper(sizes, width):
    lines = group_picture(groups(*sizes), "days", Paper(width, 24))
    assert all(cell_len(line.plain.rstrip()) <= width for line in lines)


def step_line(name, count, first, beside="", width=78):
    return step_bar(name, count, first, beside, Paper(width, 20)).plain.rstrip()


def test_bar_is_the_share_of_the_first_step_and_words_stand_beside():
    assert step_line("eligible", 1412, 1412) == " eligible   1,412  ████████████████████████"
    assert step_line("offered", 706, 1412, "50 % of the step before") == (
        " offered      706  ████████████              50 % of the step before"
    )


def test_nobody_at_the_first_step_is_no_bar_and_no_line_is_wider_than_the_paper():
    assert step_line("worn", 0, 0) == " worn           0"
    beside = "99 % (98–100) of the step before"
    for width in (40, 57, 78, 198):
        assert len(step_line("[/x] a very long step", 12, 12, beside, width)) <= width


MONDAY = date(2026, 11, 9)
DAYS = [MONDAY + timedelta(days=number) for number in range(7)]


def week(days, rows, width=78):
    return [line.plain for line in week_strip(days, rows, Paper(width, 20))]


def test_each_day_is_a_column_and_a_day_without_any_is_a_dot():
    assert week(DAYS, [("games", [0, 0, 2, 0, 0, 1, 0]), ("injuries", [0] * 6 + [1234])]) == [
        "                 Mon 9  Tue 10  Wed 11  Thu 12  Fri 13  Sat 14  Sun 15",
        " games               ·       ·       2       ·       ·       1       ·",
        " injuries            ·       ·       ·       ·       ·       ·   1,234",
    ]


def test_a_row_with_a_count_stands_out():
    _, none, some = week_strip(DAYS, [("games", [0] * 7), ("injuries", [1] * 7)], Paper(78, 20))
    assert not [span for span in none.spans if "bold" in str(span.style)]
    assert [span for span in some.spans if "bold" in str(span.style)]


def test_the_last_days_are_shown_where_there_is_no_room_for_all_and_it_is_said():
    shown = week(DAYS, [("games", [1, 2, 3, 4, 5, 6, 7])], width=38)
    assert shown[1].split() == ["games", "5", "6", "7"]
    assert shown[-1] == " the last 3 of 7 days"
    assert max(map(len, shown)) <= 38


def test_without_days_there_is_nothing_and_counts_that_do_not_match_them_are_refused():
    assert week([], [("games", [])]) == []
    with pytest.raises(ValueError, match="more or fewer counts"):
        week(DAYS, [("games", [1])])
