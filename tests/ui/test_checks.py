"""The data checks on the board: their screen, and the line on Compare and Games."""

import threading
from dataclasses import dataclass, field, replace

import pytest
from textual.widgets import DataTable

from seasonboard.answers.base import Doubtful
from seasonboard.answers.checks.all_checks import ALL_CHECKS, touching
from seasonboard.errors import StoreError
from seasonboard.scope import View
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.checks.screen import ChecksScreen
from seasonboard.ui.windows.method_card import CardScreen
from seasonboard.ui.windows.rows import RowsScreen
from tests.patience import PATIENCE
from tests.ui.board import SMALL, go_to, opened, page, press, settle, text, until
from tests.ui.stand_in import StandIn


@dataclass
class SlowCounting(StandIn):
    """Counts only when it is let to; or not at all."""

    counted: threading.Event = field(default_factory=threading.Event)
    is_broken: bool = False

    def doubts(self, scope, answer):
        self.counted.wait(PATIENCE)
        if self.is_broken:
            raise StoreError("The question was stopped.")
        number = 7 if scope.purpose is View.PREVENTIVE else 8
        return (Doubtful(f"of-{answer}", number),)


async def test_a_line_opens_the_checks_of_an_answer_and_0_all_of_them(pilot, answer_source):
    for key, name in (("7", "games"), ("6", "compare")):
        await press(pilot, key)
        await go_to(pilot, "data checks")
        assert "attendance-not-recorded 12" in text(pilot)
        await press(pilot, "enter")
        table = pilot.app.screen.query_one(DataTable)
        assert table.row_count == len(touching(name))
        await press(pilot, "escape")
    await press(pilot, "0")
    assert isinstance(pilot.app.screen, ChecksScreen)
    assert ALL_CHECKS.keys() <= {block.name for block in page(pilot)._blocks}
    await go_to(pilot, "worn-while-out")
    await press(pilot, "enter")
    assert "There are no rows" in text(pilot)
    await go_to(pilot, "stages-missing")
    await press(pilot, "enter")
    assert isinstance(pilot.app.screen, RowsScreen)
    assert answer_source.asked[-1][0::2] == ("check_rows", "stages-missing")
    await press(pilot, "escape", "m")
    assert isinstance(pilot.app.screen, CardScreen)
    assert ALL_CHECKS["stages-missing"].query in text(pilot)


@pytest.mark.parametrize("screen", ["compare", "games"])
async def test_the_answer_is_shown_before_the_checks_are_counted(screen):
    answer_source = SlowCounting()
    app = SeasonboardApp(lambda: answer_source, screen=screen)
    async with app.run_test(size=SMALL) as pilot:
        await until(pilot, lambda: getattr(app.screen, "answer", None) is not None)
        assert app.screen.answer.summary.doubts is None
        answer_source.counted.set()
        await settle(pilot)
        await go_to(pilot, "data checks")
        assert f"of-{screen} 7" in text(pilot)


async def test_counts_of_another_scope_are_dropped():
    answer_source = SlowCounting()
    answer_source.counted.set()
    async with opened(answer_source) as pilot:
        app = pilot.app
        answer_source.counted.clear()
        first = app.scope
        app.scope = replace(first, purpose=View.ALL)
        await until(pilot, lambda: app.screen.answer.summary.scope != first)
        assert app.screen.answer.summary.doubts is None
        app.scope = first
        await until(pilot, lambda: app.screen.answer.summary.scope == first)
        answer_source.counted.set()
        await settle(pilot)
        assert app.screen.answer.summary.doubts == (Doubtful("of-compare", 7),)


async def test_an_answer_stands_when_its_checks_cannot_be_counted():
    answer_source = SlowCounting(is_broken=True)
    answer_source.counted.set()
    async with opened(answer_source) as pilot:
        await go_to(pilot, "data checks")
        assert "not counted yet" in text(pilot)
