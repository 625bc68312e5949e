"""What is hidden of small tables, against published examples and a count of every possibility.

The rule is that of the US Centers for Medicare & Medicaid Services, Cell Size Suppression Policy
(2020): 1 to 10 may not be shown nor worked out, 0 and 11 may. Hiding more so that the first ones
cannot be worked out is secondary suppression: Hundepool et al. (2012), Statistical Disclosure
Control, chapter 4.
"""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.disclosure.count_table import CountTable
from seasonboard.disclosure.reconstruction import disclosed, highest
from seasonboard.disclosure.renewal import MaskedTable, worked_out_beside
from seasonboard.disclosure.suppression import hidden_counts


def line(*counts):
    table = CountTable()
    names = [table.show(name, count) for name, count in zip("abcdef", counts, strict=False)]
    table.adds_up(table.show("total", sum(counts)), names)
    return table


def grid(rows, columns, counts):
    """Return a table of rows and columns with both margins."""
    table = CountTable()
    for row, own in zip(rows, counts, strict=True):
        names = [table.show(f"{row}/{at}", n) for at, n in zip(columns, own, strict=True)]
        table.adds_up(table.show(f"{row}/all", sum(own)), names)
    for at, own in zip(columns, zip(*counts, strict=True), strict=True):
        names = [f"{row}/{at}" for row in rows]
        table.adds_up(table.show(f"all/{at}", sum(own)), names)
    margin = [f"{row}/all" for row in rows]
    table.adds_up(table.show("all", sum(map(sum, counts))), margin)
    table.adds_up("all", [f"all/{at}" for at in columns])
    return table


@pytest.mark.parametrize(
    ("counts", "hidden"),
    [
        ((0, 11, 25), ""),  # 0 and 11 may be shown
        ((12, 3, 25), "ab"),  # the 3, and the smallest other that is not 0
        ((12, 0, 4), "ac"),  # hiding the 0 would not help: 0 and 4 are at most 4
        ((10, 30), "ab"),
        ((40, 11, 0), ""),
        ((5, 7, 30), "ab"),  # 5 and 7 protect each other: 12 together, each 1 to 11
        ((5, 6, 30), "abc"),  # 11 together and no 0 among them: each at most 10
    ],
)
def test_a_line_with_its_total(counts, hidden):
    table = line(*counts)
    assert hidden_counts(table) == frozenset(hidden)
    assert disclosed(table, hidden_counts(table)) == ()


def test_the_total_is_hidden_when_nothing_else_helps():
    assert hidden_counts(line(4, 0, 0)) == {"a", "total"}


def test_one_small_count_in_a_table_of_two_by_two_takes_all_four():
    table = grid("ab", "xy", [[3, 20], [30, 40]])
    assert hidden_counts(table) == {"a/x", "a/y", "b/x", "b/y"}


def test_what_the_handbook_says_can_be_worked_out_of_its_table():
    """Investment of enterprises by activity and region, the cell II/C sensitive.

    Fischetti & Salazar (2000), Networks 36, 205-226, the example that Hundepool et al. (2012),
    section 4.2.2, work through: the four cells leave 5 to 30 for the 22. Table and range are
    quoted from memory; the range follows from the table by hand: II/A is 0 at least, and II/A
    and II/C are 30 together.
    """
    investment = [[20, 50, 10], [8, 19, 22], [17, 32, 12]]
    table = grid(("I", "II", "III"), "ABC", investment)
    for name in list(table.cells):
        table.cells[name] *= 100  # in hundreds, so that none is small, and one of few groups
    table.close.add("II/C")
    pattern = {"II/C", "II/A", "III/A", "III/C"}
    assert highest(table, pattern, "II/C") == 3000 - 1  # a hidden count is no 0
    assert highest(table, pattern - {"III/A"}, "II/C") == 2200
    hidden = hidden_counts(table)
    assert "II/C" in hidden
    assert disclosed(table, hidden) == ()


def test_a_count_of_few_groups_is_hidden_though_it_is_large():
    table = line(40, 50, 60)
    table.close.add("a")
    assert hidden_counts(table) == {"a", "b"}


def test_a_figure_that_tells_a_range_goes_before_a_count_does():
    table = CountTable()
    table.show("all", 60)
    table.bounded(table.unpublished("part", 57), 55)
    table.within("all", ["part"])
    assert hidden_counts(table) == {"part", "all without part"}


def every_way(table, hidden):
    """Return all values of the hidden counts of a line that fit its total, none of them 0."""
    names = [name for name in "abc" if name in hidden]
    rest = table.cells["total"] - sum(table.cells[n] for n in "abc" if n not in hidden)
    each = itertools.product(range(1, rest + 1), repeat=len(names))
    return names, [ways for ways in each if sum(ways) == rest]


@given(st.tuples(*[st.integers(0, 16)] * 3))
def test_every_hidden_count_may_be_eleven_counting_all_possibilities(counts):
    table = line(*counts)
    hidden = hidden_counts(table)
    if "total" not in hidden:
        names, ways = every_way(table, hidden)
        for name, values in zip(names, zip(*ways, strict=True), strict=False):
            if table.cells[name] < 11:
                assert max(values) >= 11
    shown = set("abc") - hidden
    assert not any(0 < table.cells[name] < 11 for name in shown)


def masked(*counts):
    table = line(*counts)
    return MaskedTable(table, hidden_counts(table))


@pytest.mark.parametrize(
    ("before", "now", "is_renewed"),
    [
        ((40, 50), (40, 50), True),
        ((40, 50), (43, 50), False),  # 3 more
        ((40, 50), (37, 50), False),  # corrected by 3: one less of 3 tells as much
        ((40, 50), (51, 50), True),  # 11 more
        ((40, 50), (29, 50), True),
        ((40, 50), (51, 52), False),
        ((40, 3, 20), (40, 3, 31), True),
        ((40, 3, 20), (40, 14, 20), False),  # the 20 that is shown now tells the 3 of then
        ((40, 50), (40, 50, 4), False),  # a new part of 4
        ((40, 50), (40, 50, 14), True),
    ],
)
def test_a_block_is_renewed_where_counts_change_by_nothing_or_by_many(before, now, is_renewed):
    assert (worked_out_beside(masked(*now), [masked(*before)]) == ()) is is_renewed


def test_the_release_before_the_last_is_compared_too():
    out = [masked(40, 50), masked(60, 50)]
    assert worked_out_beside(masked(42, 50), out)


def test_counts_that_do_not_add_up_are_refused():
    table = line(3, 4)
    with pytest.raises(ValueError, match="do not add up"):
        table.adds_up("total", ["a"])
    with pytest.raises(ValueError, match="negative"):
        table.show("less", -1)
    with pytest.raises(ValueError, match="is 3, not 5 to"):
        table.bounded("a", 5)
