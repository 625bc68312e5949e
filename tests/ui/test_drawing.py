"""The drawing functions: from an answer and a size to lines, without a terminal."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.stats.ratios import Strata, mantel_haenszel
from seasonboard.ui.compare.forest import DOUBLE, Axis, axis, whisker
from seasonboard.ui.compare.page import compare_page
from seasonboard.ui.games.curves import at_risk_trend, survival_picture
from seasonboard.ui.games.page import games_page
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.pictures.canvas import HEAVY, LIGHT, Canvas
from seasonboard.ui.pictures.curve_steps import MARGIN, Line, Step, axes_of, from_curve
from seasonboard.ui.pictures.curves import curve_rows, tick_rows
from seasonboard.ui.pictures.plotext_trend import Trend, trend
from seasonboard.ui.themes import DARK_COLOURS, PLAIN, ink
from tests.ui.stand_in import StandIn, frames, lines_of, strata, ticks

EIGHT = Axis(8, 25)
PAPER = Paper(78, 20)


def _ratio(a, b, t1=1000, t0=1000):
    return mantel_haenszel(Strata([a], [b], [t1], [t0]))


def _games(number=12, options=None, **sizes):
    return StandIn(frames(games_ticks=ticks(number, **sizes))).answered(GAMES, options)


def _curves(answer, paper=PAPER):
    return [line.plain for line in survival_picture(answer, paper)]


def test_lines_differ_by_their_dots_and_where_they_run_as_one_each_fourth_is_missing():
    canvas = Canvas(3, 3, styles={LIGHT: "", HEAVY: ""}, tints={})
    canvas.across(1, 0, 5, HEAVY)
    canvas.across(5, 0, 5, LIGHT)
    canvas.across(9, 0, 5, HEAVY)
    canvas.across(9, 0, 5, LIGHT)
    assert [line.plain for line in canvas.lines()] == ["⠒⠒⠒", "⠐⠐⠐", "⠒⠐⠒"]


DOT_ROWS = {0x01: 0, 0x08: 0, 0x02: 1, 0x10: 1, 0x04: 2, 0x20: 2, 0x40: 3, 0x80: 3}


def levels(rows, columns, bottom):
    """Read the share at each column of dots from the drawn letters alone, at its middle."""
    drawn = {}
    for number, line in enumerate(rows):
        for column, letter in enumerate(line[MARGIN : MARGIN + columns]):
            bits = ord(letter) - 0x2800 if 0x2800 <= ord(letter) < 0x2900 else 0
            for bit, row in DOT_ROWS.items():
                if bits & bit:
                    x = 2 * column + (bit in {0x08, 0x10, 0x20, 0x80})
                    drawn.setdefault(x, []).append(4 * number + row)
    return {
        x: [1 - (y - 1) / (4 * (len(rows) - 1)) * (1 - bottom) for y in rows_]
        for x, rows_ in drawn.items()
    }


def assert_drawn_as_they_are(lines, axes, ink_=PLAIN):
    """Check every step of every curve against what is drawn, to half a dot."""
    half = 0.5 / 4 * (1 - axes.bottom) / (axes.rows - 1) + 1e-9
    for line in lines:
        rows = [label.plain + body.plain for label, body in curve_rows([line], axes, ink_)]
        read = levels(rows, axes.columns, axes.bottom)
        for step, after in itertools.pairwise(line.steps):
            first, last = (axes.dot_column(tick) for tick in (step.tick, after.tick))
            between = range(first + 1, last)
            shown = [share for x in between for share in read.get(x, ())]
            assert len(between) < 2 or shown, "a line has no gap of two dots"
            assert all(abs(share - step.level) <= half for share in shown)


@pytest.mark.parametrize("width", [78, 118, 198])
def test_a_drawn_level_is_its_number_to_half_a_dot(width):
    for height in (12, 20, 40):
        answer = _games()
        curves = [from_curve("x", HEAVY, group.compared, limits=False) for group in answer.groups]
        axes = axes_of(curves, Paper(width, height))
        assert_drawn_as_they_are([replace(one, weight=w) for one in curves for w in (1, 2)], axes)


@given(
    st.lists(st.floats(0, 1), min_size=1, max_size=30).map(lambda values: sorted(values)[::-1]),
    st.integers(60, 200),
    st.integers(8, 60),
)
def test_any_curve_is_drawn_to_half_a_dot(shares, width, height):
    steps = tuple(Step(tick, share, None, None) for tick, share in enumerate([1.0, *shares]))
    line = Line("x", HEAVY, steps, {1: 9}, len(shares))
    assert_drawn_as_they_are([line], axes_of([line], Paper(width, height)))


def test_an_axis_that_does_not_start_at_nothing_is_marked_as_cut():
    shown = "\n".join(_curves(_games()))
    assert "≈ from 40 %" in shown
    line = Line("x", HEAVY, (Step(0, 1.0, None, None), Step(9, 0.0, None, None)), {}, 9)
    assert axes_of([line], PAPER).bottom == 0
    (axis, _) = tick_rows([1], "days", axes_of([line], PAPER), PLAIN)
    assert "└" in axis.plain


def test_canvas_tints_one_group_the_other_or_both():
    canvas = Canvas(
        3, 1, styles={}, tints={LIGHT: "on red", HEAVY: "on blue", LIGHT | HEAVY: "on green"}
    )
    canvas.tint(0, -3, 9, LIGHT)
    canvas.tint(1, 0, 0, HEAVY)
    canvas.tint(2, 0, 0, LIGHT)
    canvas.tint(2, 0, 0, HEAVY)
    (line,) = canvas.lines()
    assert [str(span.style) for span in line.spans] == ["on red", "on blue", "on green"]


def test_axis_has_one_in_its_middle_and_its_reach_at_its_ends():
    places = [EIGHT.cell_of(ratio) for ratio in (1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 8)]
    assert places == [0, 4, 8, 12, 16, 20, 24]


def test_axis_is_the_shortest_that_holds_the_limits():
    ratio = _ratio(40, 50)
    assert axis([ratio], 25).reach == 2
    assert axis([ratio, _ratio(4, 13)], 25).reach == 8
    assert axis([replace(ratio, low=0.001)], 25).reach == 8


@pytest.mark.parametrize(
    ("low", "point", "high", "drawn"),
    [
        (0.25, 0.5, 2.0, "    ├───■───┼───┤        "),
        (None, 0.5, 2.0, "◂───────■───┼───┤        "),
        (0.01, 0.5, 2.0, "◂───────■───┼───┤        "),
        (0.25, 0.5, 80.0, "    ├───■───┼───────────▸"),
        (0.25, 0.5, None, "    ├───■───┼───────────▸"),
        (0.5, None, None, "        ├───┼───────────▸"),
        (0.0, 0.0, 2.0, "◂───────────┼───┤        "),
        (0.001, 0.01, 0.05, "◂           │            "),
        (20.0, 30.0, 40.0, "            │           ▸"),
        (None, None, None, "            │            "),
        (0.5, 1.0, 2.0, "        ├───■───┤        "),
        (1.0, 1.0, 1.0, "            ■            "),
    ],
)
def test_whisker_draws_what_is_known_and_points_where_it_goes_on(low, point, high, drawn):
    ratio = replace(_ratio(4, 13), low=low, value=point, high=high, why="not known")
    assert whisker(ratio, EIGHT) == drawn
    double = whisker(ratio, EIGHT, DOUBLE)
    assert double.translate(str.maketrans("╞═╪▪╡", "├─┼■┤")) == drawn


@given(st.integers(0, 30), st.integers(0, 30), st.integers(60, 2000), st.integers(60, 2000))
@settings(max_examples=40)
def test_whisker_fits_its_axis_whatever_the_counts(a, b, t1, t0):
    drawn = whisker(_ratio(a, b, t1, t0), EIGHT)
    assert len(drawn) == EIGHT.width
    assert set(drawn) <= set(" │┼─├┤■◂▸")


def test_compare_page_fits_its_paper_with_large_counts_written_out():
    rows = strata((("crude", "all", 12345, 65432, 10**7, 10**7, 1),))
    large = StandIn(frames(compare_strata=rows)).answered(COMPARE)
    answer = StandIn().answered(COMPARE)
    for width in (50, 78, 110, 198):
        for block in compare_page(answer, Paper(width, 30)):
            assert all(line.cell_len <= max(width, 74) for line in block.lines)
    page = "\n".join(lines_of(compare_page(large, PAPER)))
    assert "12,345 v 65,432" in page
    assert "10,000,000" in page


@pytest.mark.parametrize("level", [0.8, 0.9, 0.99])
def test_headings_say_the_level_asked_for(level):
    shown = "\n".join(lines_of(compare_page(StandIn().answered(COMPARE, level=level), PAPER)))
    assert f"{level * 100:g} %" in shown
    assert "95 %" not in shown


def test_curves_stand_over_their_ticks_and_end_in_words():
    lines = _curves(_games())
    text = "\n".join(lines)
    assert "guarded 88 %" in text
    assert "bare 76 %" in text
    ticks_line = next(line for line in lines if line.strip().startswith("game"))
    guarded = next(line for line in lines if line.strip().startswith("guarded"))
    assert ticks_line.split()[1:] == [str(tick) for tick in range(1, 13)]
    assert guarded.split()[1:-3] == [
        "30",
        "28",
        "26",
        "24",
        "21",
        "19",
        "17",
        "15",
        "13",
        "10",
        "8",
        "6",
    ]
    axis_line = lines[lines.index(ticks_line) - 1]
    marks = [place for place, letter in enumerate(axis_line) if letter == "┬"]
    assert all(ticks_line[mark] != " " for mark in marks)


def test_limits_are_tints_with_colour_and_dashes_without():
    answer = _games()
    plain = "\n".join(_curves(answer))
    styles = ink(DARK_COLOURS, tinted=True)
    tinted = survival_picture(answer, replace(PAPER, ink=styles))
    assert "╍" in plain
    assert "╌" in plain
    assert not {"╍", "╌"} & set("".join(line.plain for line in tinted))
    used = {str(span.style) for line in tinted for span in line.spans}
    for tint in (styles.guarded_tint, styles.bare_tint, styles.both_tint):
        assert any(tint in style for style in used), tint


def test_axis_of_shares_starts_under_the_lowest_limit():
    answer = _games()
    lowest = min(p.low for group in answer.groups for p in group.compared.points if p.low)
    lines = _curves(answer)
    labels = [int(line.split()[0]) for line in lines if " % ┤" in line]
    assert labels[0] == 100
    assert labels[-1] / 100 <= lowest < labels[-2] / 100 + 0.2
    assert len({a - b for a, b in itertools.pairwise(labels)}) == 1


def test_tails_in_which_both_are_thin_are_cut_and_it_is_said():
    long = _games(16, GamesOptions(min_at_risk=12))
    cut = "as played, not of like athletes; to 10, then under 12 at risk"
    assert cut in "\n".join(_curves(long))


def test_labels_at_the_ends_never_cover_each_other():
    answer = _games()
    alike = replace(answer, unguarded=replace(answer.guarded, name="unguarded"))
    assert "\n".join(_curves(alike, Paper(78, 12))).count("88 %") == 2


@given(
    st.integers(1, 40),
    st.integers(0, 60),
    st.integers(0, 60),
    st.integers(40, 200),
    st.integers(4, 40),
    st.sampled_from(list(Clock)),
)
@settings(max_examples=25)
def test_games_page_is_drawn_for_any_counts_and_paper(number, guarded, bare, width, height, clock):
    answer = _games(number, GamesOptions(clock=clock), of_guarded=guarded, of_bare=bare)
    for styles in (Paper(1, 1).ink, ink(DARK_COLOURS, tinted=True)):
        paper = Paper(width, height, styles)
        for block in games_page(answer, paper):
            for line in block.lines:
                assert line.cell_len <= max(width, 78)
                assert not {"None", "nan", "inf"} & set(line.plain.split())


def test_trend_stands_in_line_with_the_curves():
    answer = _games()
    paper = Paper(118, 24)
    curve = _curves(answer, paper)
    course = [line.plain for line in at_risk_trend(answer, paper)]
    upright = {line.index("│") for line in (*curve, *course) if "│" in line[:12]}
    assert len(upright) == 1
    assert "● guarded" in course[0]
    assert any("●●" in line for line in course[1:])


def test_trend_without_ticks_is_nothing_and_with_zeros_lies_on_its_axis():
    assert trend([Trend((), (), "·")], (0, 1), [], columns=20, rows=5) == []
    flat = trend([Trend((1, 2), (0, 0), "·")], (0, 2), [1], columns=20, rows=5)
    assert "·" in flat[-2]
