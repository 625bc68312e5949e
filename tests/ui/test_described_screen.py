"""A question without a screen of its own has one of the tables that its report has for people."""

import pytest

from seasonboard.answers.questions import REMAKES
from seasonboard.answers.remakes.report import MONTHS, REASONS
from seasonboard.ui import all_screens
from seasonboard.ui.board.described_screen import described_page
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.windows.rows import RowsScreen
from tests.answers.worked.remakes import ANSWER
from tests.ui.board import opened, press, text
from tests.ui.stand_in import StandIn


class WorkedAnswer(StandIn):
    def ask(self, *_: object) -> object:
        return ANSWER


def lines_of(width: int) -> list[str]:
    blocks = described_page(REMAKES, ANSWER, Paper(width, 40))
    return [line.plain for block in blocks for line in block.lines]


@pytest.mark.parametrize("table", [REASONS, MONTHS], ids=lambda one: one.name)
def test_every_row_of_a_table_is_a_line_with_all_that_people_read_of_it(table):
    lines, fields = lines_of(140), table.read_fields(ANSWER)
    for row in table.rows(ANSWER):
        cells = [one.read(row) for one in fields]
        assert [line for line in lines if all(cell in line for cell in cells)], cells
    heads = [one.heading_of(ANSWER) for one in fields]
    assert [line for line in lines if all(head in line for head in heads)], heads


@pytest.mark.parametrize("width", [60, 78, 119, 200])
def test_no_line_is_wider_than_the_page(width):
    assert max(map(len, lines_of(width))) <= width


async def test_it_is_walked_opened_and_explained_like_any_other(monkeypatch):
    monkeypatch.setattr(all_screens, "find_spec", lambda _: None)
    async with opened(WorkedAnswer(), screen="remakes") as pilot:
        assert ANSWER.summary.answer in text(pilot)
        await press(pilot, "m")
        assert "Remakes among fitted guards" in text(pilot)
        await press(pilot, "escape", "enter")
        assert REASONS.field("before_fitting").heading in text(pilot)
        assert isinstance(pilot.app.screen, RowsScreen)
