"""Pictures of one line: each mark is one cell wide and tells by its shape."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from seasonboard.answers.roster.parts import NOT_JOINED, StripCell
from seasonboard.answers.roster.words import STRIP_KEY
from seasonboard.answers.sparkline import sparkline
from seasonboard.ui.pictures.marks import bar, share_line, strip
from seasonboard.ui.themes import DARK_COLOURS, PLAIN, ink

COLOURED = ink(DARK_COLOURS, tinted=True)
STATES = ("full", "limited", "out", "not recorded", NOT_JOINED)
SHARES = st.floats(0, 1)


def cells(*states):
    return [StripCell(state, worn) for state, worn in states]


def test_strip_tells_full_guarded_full_bare_limited_out_and_not_recorded():
    season = cells(
        (NOT_JOINED, False),
        ("not recorded", False),
        ("full", True),
        ("full", False),
        ("limited", True),
        ("limited", False),
        ("out", False),
    )
    assert strip(season, PLAIN).plain == " ·●•◐◐○"


def test_every_mark_of_the_strip_is_explained_in_its_key():
    for state in STATES[:4]:
        for worn in (True, False):
            assert strip(cells((state, worn)), PLAIN).plain in STRIP_KEY


def test_strip_tells_nothing_by_colour_that_its_shape_does_not_tell():
    seen: dict[str, set[str]] = {}
    for state in STATES:
        for worn in (True, False):
            drawn = strip(cells((state, worn)), COLOURED)
            styles = {str(span.style) for span in drawn.spans}
            seen.setdefault(drawn.plain, set()).add(" ".join(sorted(styles)))
    assert all(len(styles) == 1 for styles in seen.values()), seen


@given(st.lists(st.tuples(st.sampled_from(STATES), st.booleans()), max_size=40))
def test_strip_takes_one_cell_a_session(season):
    assert cell_len(strip(cells(*season), COLOURED).plain) == len(season)


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
def test_a_sparkline_lies_between_least_and_largest_with_gaps_where_nothing_is_known(
    values, floor, drawn
):
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
def test_share_line_draws_what_is_known_and_points_where_it_goes_on(
    share, interval, limits, most, drawn
):
    assert share_line(share, interval, 11, limits=limits, most=most) == drawn


@given(SHARES, st.tuples(SHARES, SHARES).map(sorted), st.integers(2, 60), st.floats(0.1, 1))
def test_share_line_is_as_wide_as_asked(share, limits, width, most):
    low, high = limits
    drawn = share_line(share, (low, high), width, limits=(low, high), most=most)
    assert cell_len(drawn) == width
    assert ("■" in drawn) == (share <= most)
