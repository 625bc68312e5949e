"""Pictures are sound SVG, read without colour, and place figures where they belong."""

import re
from datetime import date, timedelta
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.documents.svg import curves, ranges
from seasonboard.documents.svg.axes import Scale, ratio_ends, ratio_ticks, steps, whole_steps
from seasonboard.documents.svg.drawing import MOST_LINES, SMALL, STROKES, WIDE, PictureWords
from seasonboard.documents.svg.week_strip import week_strip
from tests.documents.conftest import HOSTILE, STEERING

S = "{http://www.w3.org/2000/svg}"
WEEK = PictureWords("w", "t", "d")
NAMES = st.sampled_from((*HOSTILE, STEERING, "guarded", "山田太郎", "x" * 80))
SHARES = st.floats(0, 1)
RATIOS = st.none() | st.floats(0, 500)


def looked_at(svg):
    """Parse a picture and check what holds of every one."""
    root = ET.fromstring(svg)
    assert root.find(f"{S}title").text
    assert root.find(f"{S}desc") is not None
    assert not re.search(r"nan|inf\b|script|href|style=|url\(", re.sub(r">[^<]*<", "><", svg))
    for text in root.iter(f"{S}text"):
        assert int(text.get("font-size", 14)) >= 11
    for box in root.iter(f"{S}rect"):
        assert float(box.get("width")) >= 0
    return root


def letters(root):
    return [t.text or "" for t in root.iter(f"{S}text")]


@st.composite
def curve(draw):
    falls = sorted(draw(st.lists(SHARES, min_size=0, max_size=6)), reverse=True)
    counts = tuple((n, draw(st.integers(0, 10**6))) for n in range(draw(st.integers(0, 5))))
    return curves.CurveLine(draw(NAMES), tuple(enumerate(falls)), counts)


@settings(max_examples=40)
@given(lines=st.lists(curve(), max_size=MOST_LINES), until=st.integers(0, 400))
def test_any_curves_can_be_drawn(lines, until):
    words = PictureWords("c", "Curves", "What they show", "games", counts="at risk")
    looked_at(curves.falling(words, lines, until=until))


@settings(max_examples=40)
@given(rows=st.lists(st.tuples(NAMES, RATIOS, RATIOS, RATIOS), max_size=8))
def test_any_ratios_can_be_drawn(rows):
    words = PictureWords("r", "Ratios", "What they show", "guarded ÷ bare", "fewer", "more")
    made = [ranges.ForestRow(n, v, *_ordered(low, high), note=n) for n, v, low, high in rows]
    looked_at(ranges.forest(words, made))


def _ordered(low, high):
    return (low, high) if None in (low, high) else tuple(sorted((low, high)))


def test_lines_are_told_apart_by_stroke_and_named_above_them():
    lines = [
        curves.CurveLine(name, ((0, 1.0), (3, share)), ((0, 20), (3, 9)), "end")
        for name, share in (("guarded", 0.91), ("bare", 0.9))
    ]
    words = PictureWords("c", "t", "d", "games played", counts="at risk")
    root = looked_at(curves.falling(words, lines, until=4))
    assert {"guarded end", "bare end", "at risk", "20", "9", "games played"} <= set(letters(root))
    assert "The upright axis begins at 90 %." in letters(root)
    dashes = {p.get("stroke-dasharray") for p in root.iter(f"{S}path") if p.get("fill") == "none"}
    assert {STROKES[0].dash or None, STROKES[1].dash} <= dashes
    ys = [float(t.get("y")) for t in root.iter(f"{S}text") if (t.text or "").endswith(" end")]
    assert abs(ys[0] - ys[1]) >= SMALL
    assert len({stroke.dash for stroke in STROKES}) == len(STROKES)
    with pytest.raises(ValueError, match="told apart"):
        curves.falling(words, lines * 3, until=4)


def test_a_limit_that_is_not_known_ends_in_an_arrow_and_none_is_said_so():
    words = PictureWords("f", "t", "d")
    known = looked_at(ranges.forest(words, [ranges.ForestRow("a", 1, 0.5, 2)]))
    open_ = looked_at(ranges.forest(words, [ranges.ForestRow("a", 1, 0.5, None)]))
    tips = [[p.get("d").count("L") for p in root.iter(f"{S}path")] for root in (known, open_)]
    assert tips[1].count(2) == tips[0].count(2) + 1
    assert "not known" in letters(
        looked_at(ranges.forest(words, [ranges.ForestRow("a", None, None, None)]))
    )


def test_a_season_shows_both_ranges_around_its_median():
    row = ranges.RangeRow("games kept", "4 (−4 to 13)", 4, -1, 9, -4, 13)
    root = looked_at(ranges.season_ranges(PictureWords("p", "t", "d", "games"), [row]))
    (median,) = root.iter(f"{S}circle")
    (thick,) = root.iter(f"{S}rect")
    x, wide = float(thick.get("x")), float(thick.get("width"))
    assert x < float(median.get("cx")) < x + wide
    assert {"games kept", "4 (−4 to 13)", "games"} <= set(letters(root))


def test_a_week_shows_each_count():
    days = [date(2026, 11, 9) + timedelta(n) for n in range(7)]
    root = looked_at(week_strip(WEEK, days, [("games", [0, 0, 1, 0, 0, 2, 12])]))
    assert [t for t in letters(root) if t.isdigit()] == ["1", "2", "12"]
    assert len(list(root.iter(f"{S}circle"))) == 1 + 2 + 3
    assert "15 Nov" in letters(root)
    with pytest.raises(ValueError, match="more or fewer"):
        week_strip(WEEK, days, [("games", [1])])
    looked_at(week_strip(WEEK, [], [("games", [])]))


def test_axes_have_round_figures():
    assert steps(0, 1) == [0, 0.2, 0.4, 0.6, 0.8, 1]
    assert steps(0.7, 1) == [0.7, 0.8, 0.9, 1]
    assert whole_steps(12) == [0, 2, 4, 6, 8, 10, 12]
    assert whole_steps(0) == [0]
    assert ratio_ends([0.19, 1.66]) == (0.1, 2)
    assert ratio_ticks(0.1, 2) == [0.1, 0.2, 0.5, 1, 2]
    across = Scale(0.1, 10, 0, WIDE, is_log=True)
    assert across(1) == pytest.approx(WIDE / 2)
    assert (across(0), across(99)) == (0, WIDE)
