"""Wide paper: what stands side by side, where it lies, and how the cursor walks through it."""

from dataclasses import replace

import pytest
from rich.text import Text

from seasonboard.ui.layout.blocks import Block, PageColumn, Paper
from seasonboard.ui.layout.columns import WIDE, in_columns, lay_out
from seasonboard.ui.layout.tables import Head, fitted
from tests.ui.board import page, press, text


def _section(name, lines):
    def draw(paper):
        return [Block((Text("x" * paper.width),), name=f"{name} {n}") for n in range(lines)]

    return draw


SECTIONS = [_section("a", 4), _section("b", 2), _section("c", 3)]


def test_narrow_paper_has_one_column():
    blocks = in_columns(SECTIONS, Paper(WIDE - 1, 40))
    assert all(block.column is None for block in blocks)
    assert {len(block.lines[0].plain) for block in blocks} == {WIDE - 1}


def test_wide_paper_has_two_even_columns_in_the_order_of_reading():
    paper = Paper(WIDE, 40)
    blocks = in_columns(SECTIONS, paper)
    assert [block.name for block in blocks] == [
        block.name for block in in_columns(SECTIONS, replace(paper, width=80))
    ]
    left, right = dict.fromkeys(block.column for block in blocks)
    assert [block.name[0] for block in blocks if block.column == left] == ["a"] * 4
    assert left.x == 0
    assert left.width < right.x
    assert right.x + right.width <= WIDE + 1
    for block in blocks:
        assert len(block.lines[0].plain) == block.column.width - 1


def test_lines_of_two_columns_share_a_line_and_what_follows_stands_below_both():
    left, right = PageColumn(0, 10), PageColumn(12, 10)
    blocks = [
        Block((Text("top"),)),
        Block((Text("a"), Text("b")), column=left),
        Block((Text("c"),), column=right),
        Block((Text("end"),)),
    ]
    laid = lay_out(blocks, 24)
    shown = [[(piece.text.plain, piece.column.x) for piece in line] for line in laid.lines]
    assert shown == [[("top", 0)], [("a", 0), ("c", 12)], [("b", 0)], [("end", 0)]]
    assert laid.tops == (0, 1, 1, 3)


def test_a_name_does_not_grow_away_from_its_figures():
    heads = (Head("name", 10, grows=True, most=20), Head("n", 5, is_number=True))
    assert fitted(heads, Paper(200, 10))[1] == {0: 20, 1: 5}
    assert fitted(heads, Paper(24, 10))[1] == {0: 16, 1: 5}


@pytest.mark.long
@pytest.mark.parametrize("size", [(200, 60)])
async def test_cursor_walks_both_columns_and_the_mouse_hits_the_one_it_points_at(pilot):
    shown = page(pilot)
    columns = {b.name: b.column for b in shown._blocks if b.name and b.column}
    right = next(name for name, column in columns.items() if column.x)
    names = []
    for _ in range(40):
        await press(pilot, "down")
        names.append(shown.block.name)
    assert right in names
    assert text(pilot).count("▌") >= 1
    await press(pilot, "home")
    number = [block.name for block in shown._blocks].index(right)
    column = columns[right]
    y = shown.region.y + shown._laid.tops[number] - shown.scroll_offset.y
    await pilot.click(offset=(column.x + 3, y + len(shown._blocks[number].lines) - 1))
    assert shown.block.name == right
