"""Ranges a reader can work out, beside trying every table of small whole numbers."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.disclosure.cell_suppression import cells_to_suppress, suppress
from seasonboard.disclosure.disclosure_risk import disclosures
from seasonboard.disclosure.published_figures import (
    CountRange,
    HiddenCount,
    PublishedItem,
    ShownCount,
    ShownInterval,
    ShownRate,
    ShownRatio,
)
from seasonboard.disclosure.release import Policy, Release, adds_up
from tests.privacy.made import THREE, feasible, line, shown, table
from tests.stats.laws import law

MOST = 6

counts = st.sampled_from([0, 0, 1, 2, 3, 4])
small_tables = st.one_of(
    st.lists(counts, min_size=1, max_size=3).map(lambda counts: line(*counts)),
    st.lists(st.lists(counts, min_size=2, max_size=2), min_size=2, max_size=2).map(
        lambda rows: table("ab", "xy", rows)
    ),
)


def every_table(release: Release) -> Iterator[dict[str, int]]:
    """Return every way to fill the inner cells with 0 to `MOST`, with the sums it gives."""
    totals = {equation.totals[0]: equation for equation in release.equations}
    inner = [cell for cell in release.cells if cell not in totals]
    for values in product(range(MOST + 1), repeat=len(inner)):
        cells = dict(zip(inner, values, strict=True))
        while len(cells) < len(release.cells):
            for total, equation in totals.items():
                parts = [cell for cell in equation.cells if cell != total]
                if all(part in cells for part in parts):
                    cells[total] = sum(cells[part] for part in parts)
        yield cells


def agrees(item: PublishedItem, cells: dict[str, int], true: dict[str, int]) -> bool:
    """Say whether a table would have been published as it was: one kind of item after another."""
    if isinstance(item, ShownCount):
        return cells[item.cell] == true[item.cell]
    if isinstance(item, HiddenCount):
        return cells[item.cell] >= 1
    if isinstance(item, ShownRate):
        above, below = cells[item.numerator], cells[item.denominator]
        shown = true[item.numerator] * item.per / true[item.denominator]
        return below > 0 and f"{above * item.per / below:.1f}" == f"{shown:.1f}"
    return True


def given_away(knowing, plain, release: Release) -> list[str]:
    """Return the counts of 1 or 2 that cannot be 3, unless all that is known is “1 or 2”."""
    return [
        cell
        for cell, value in release.cells.items()
        if 1 <= value < 3
        and knowing[cell][1] < 3
        and not (knowing[cell] == (1, 2) and plain[cell][1] >= 3)
    ]


def tried(release: Release, least: int = 1) -> dict[str, tuple[int, int]]:
    true = dict(release.cells)
    items = [i for i in release.items if not (isinstance(i, HiddenCount) and not least)]
    fits = [t for t in every_table(release) if all(agrees(i, t, true) for i in items)]
    return {cell: (min(t[cell] for t in fits), max(t[cell] for t in fits)) for cell in true}


def capped(release: Release) -> Release:
    """Tell the reader that inner cells are at most `MOST`, as `every_table` takes them to be."""
    totals = {total for equation in release.equations for total in equation.totals}
    caps = tuple(CountRange(cell, 0, MOST) for cell in release.cells if cell not in totals)
    return replace(release, items=(*release.items, *caps))


@pytest.mark.long
@law
@given(small_tables)
def test_after_hiding_the_ranges_are_those_of_every_table_that_fits(release):
    left = suppress(release, cells_to_suppress(release, THREE))
    ranges = tried(left)
    assert feasible(capped(left), least_hidden=1) == ranges
    assert disclosures(left, THREE) == ()
    assert given_away(ranges, tried(left, least=0), release) == []


@pytest.mark.long
@law
@given(small_tables)
def test_where_zeros_are_hidden_too_each_can_be_two(release):
    policy = Policy(2, "Smaller still, so that every table can be tried.", zeros_shown=False)
    left = suppress(release, cells_to_suppress(release, policy))
    ranges = tried(left, least=0)
    assert feasible(capped(left)) == ranges
    assert disclosures(left, policy) == ()
    assert [c for c, v in release.cells.items() if v < 2 and ranges[c][1] < 2] == []


@pytest.mark.long
@law
@given(small_tables, st.randoms(use_true_random=False))
def test_whatever_is_hidden_the_ranges_and_leaks_are_those_of_every_table(release, random):
    cells = [cell for cell, value in release.cells.items() if value and random.random() < 0.5]
    left = suppress(release, set(cells))
    ranges = tried(left)
    assert feasible(capped(left), least_hidden=1) == ranges
    disclosed = given_away(ranges, tried(left, least=0), release)
    assert [one.cell for one in disclosures(capped(left), THREE)] == disclosed


@pytest.mark.long
@law
@given(st.lists(st.integers(1, 5), min_size=3, max_size=3), st.sampled_from([1, 10, 100]))
def test_shares_of_a_total_nobody_shows(parts, per):
    whole = line(*parts)
    rates = tuple(ShownRate(f"share {c}", c, "total", per, 1) for c in "abc")
    release = replace(whole, items=rates)
    assert feasible(capped(release)) == tried(release)


@pytest.mark.parametrize("shown_too", [(), ("AE",), ("other AE",)])
def test_a_dash_for_a_rate_that_cannot_be_told_contradicts_nothing(shown_too):
    """Nobody was exposed: a dash stands for each of the values."""
    cells = {"n": 0, "AE": 0, "other": 0, "other AE": 0}
    worked = (
        ShownRate("rate", "n", "AE"),
        ShownInterval("limits", "n", "AE"),
        ShownRatio("ratio", "n", "AE", "other", "other AE"),
    )
    ranges = feasible(Release(cells, (), (*map(ShownCount, shown_too), *worked)))
    assert all(low == 0 for low, _ in ranges.values())


def test_a_known_cell_may_follow_from_another_that_follows():
    """The rate gives a, a and the total give b."""
    whole = line(5, 6)
    release = Release(
        {**whole.cells, "exposures": 500},
        whole.equations,
        (ShownCount("total"), ShownCount("exposures"), ShownRate("rate", "a", "exposures")),
    )
    assert feasible(release) == {
        "a": (5, 5), "b": (6, 6), "total": (11, 11), "exposures": (500, 500),
    }  # fmt: skip


@pytest.mark.parametrize("digits", [0, 1, 2])
@pytest.mark.parametrize("exposures", [90, 1000, 10_000, 40_000])
def test_the_rounding_of_a_rate_decides_how_much_it_tells(exposures, digits):
    """Every count whose rate is written alike, tried one by one."""
    cells = {"injuries": exposures // 40 + 1, "exposures": exposures}
    rate = ShownRate("rate", "injuries", "exposures", 1000, digits)
    release = Release(cells, (), (ShownCount("exposures"), rate))
    written = f"{cells['injuries'] * 1000 / exposures:.{digits}f}"
    fits = [n for n in range(2000) if f"{n * 1000 / exposures:.{digits}f}" == written]
    assert feasible(release)["injuries"] == (fits[0], fits[-1])


def test_a_coarse_rate_of_many_exposures_tells_little():
    """24.5 and 25.5 are written 24 and 26, as halves go to the even digit."""
    cells = {"injuries": 250, "exposures": 10_000}
    items = (ShownCount("exposures"), ShownRate("rate", "injuries", "exposures", 1000, 0))
    assert feasible(Release(cells, (), items))["injuries"] == (246, 254)


@pytest.mark.parametrize("method", ["garwood", "wilson"])
@pytest.mark.parametrize("count", [0, 1, 4, 11, 60])
def test_limits_give_back_the_counts_that_have_them(method, count):
    cells = {"n": count, "of": 60}
    item = ShownInterval("limits", "n", "of", method, 100, 0)
    release = Release(cells, (), (ShownCount("of"), item))
    written = item.text(cells)
    fits = [n for n in range(61) if item.text({"n": n, "of": 60}) == written]
    assert feasible(release)["n"] == (fits[0], fits[-1])


def test_a_ratio_gives_one_count_from_the_other():
    cells = {"guarded": 4, "bare": 20, "g AE": 1000, "b AE": 2000}
    shown_too = tuple(ShownCount(c) for c in ("bare", "g AE", "b AE"))
    release = Release(
        cells, (), (*shown_too, ShownRatio("ratio", "guarded", "g AE", "bare", "b AE"))
    )
    assert feasible(release)["guarded"] == (4, 4)


def test_a_ring_of_sums_tells_more_than_each_sum():
    """a + b = 22, b + c = 47, a + c = 33: a is (22 + 33 - 47) / 2 = 4."""
    cells = {"a": 4, "b": 18, "c": 29, "ab": 22, "bc": 47, "ac": 33}
    sums = tuple(adds_up(pair, tuple(pair)) for pair in ("ab", "bc", "ac"))
    release = Release(cells, sums, tuple(ShownCount(pair) for pair in ("ab", "bc", "ac")))
    assert {cell: feasible(release)[cell] for cell in "abc"} == {
        "a": (4, 4),
        "b": (18, 18),
        "c": (29, 29),
    }


def test_what_is_linked_to_nothing_has_no_upper_end():
    release = line(4, 20, hidden={"a", "total"})
    assert feasible(release, least_hidden=1) == {"a": (1, None), "b": (20, 20), "total": (21, None)}


def test_a_circle_of_sums_without_an_upper_end():
    release = table("ab", "xy", [[3, 4], [5, 6]])
    nothing_told = replace(release, items=shown(release.cells, set(release.cells)))
    ranges = feasible(nothing_told, least_hidden=1)
    assert ranges["a/x"] == (1, None)
    assert ranges["all/all"] == (4, None)
