"""Nothing waits for a long question: not leaving, not another screen, not the tables."""

import pytest
from textual.binding import Binding

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.all_screens import SCREENS
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import opened, page, press, settle, state, text, until
from tests.ui.stand_in import StandIn


async def test_leaving_does_not_wait_for_a_long_question():
    answer_source = StandIn()
    async with opened(answer_source) as pilot:
        answer_source.hold()
        await pilot.press("r")
        await until(pilot, lambda: len(answer_source.asked) == 2)
        await pilot.press("q")
        await settle(pilot)
    assert answer_source.stops
    assert not answer_source.waited_in_vain


async def test_keys_are_heard_while_a_question_runs():
    answer_source = StandIn()
    async with opened(answer_source) as pilot:
        answer_source.hold()
        await pilot.press("r")
        await until(pilot, lambda: len(answer_source.asked) == 2)
        before = page(pilot).block
        await pilot.press("down", "question_mark")
        await pilot.pause()
        assert "Keys" in text(pilot)
        await pilot.press("escape")
        assert page(pilot).block is not before
        assert page(pilot).is_old
        assert not answer_source.waited_in_vain
        answer_source.let_go()


async def test_rows_of_an_older_asking_are_dropped():
    answer_source = StandIn(is_deaf=True)
    async with opened(answer_source) as pilot:
        await press(pilot, "enter")
        screen = pilot.app.screen
        assert isinstance(screen, RowsScreen)
        gate = answer_source.hold()
        await pilot.press("o")
        await until(pilot, lambda: len(answer_source.asked) == 3)
        answer_source._gate = None
        await press(pilot, "o")
        assert "days lost ▴" in text(pilot)
        gate.set()
        await settle(pilot)
        assert "days lost ▴" in text(pilot)
        assert "name ▴" not in text(pilot)


async def test_state_line_is_empty_once_the_answer_is_there():
    async with opened() as pilot:
        assert state(pilot) == ""
        assert not page(pilot).is_old


@pytest.mark.parametrize("name", [board.name for board in WITH_SCREENS])
def test_every_binding_of_every_screen_says_what_it_does(name):
    for where in SCREENS[name].__mro__:
        for binding in where.__dict__.get("BINDINGS", ()):
            if isinstance(binding, Binding) and where.__module__.startswith("seasonboard"):
                assert binding.tooltip, (where, binding)
                assert binding.id, (where, binding)
                assert binding.description, (where, binding)


@pytest.mark.long
@pytest.mark.parametrize("keys", [(), ("enter",), ("s",), ("7",)])
async def test_palette_offers_every_action_that_a_key_has(keys):
    """On the page, in a table, in the sentence, on another screen."""
    async with opened() as pilot:
        await press(pilot, *keys)
        app = pilot.app
        assert isinstance(app, SeasonboardApp)
        active = [each for each in app.screen.active_bindings.values() if each.enabled]
        ours = {each.binding.action for each in active if each.binding.id}
        ours -= {"command_palette"}
        offered = {command.title for command in app.get_system_commands(app.screen)}
        assert len(ours) > 12
        for each in active:
            if each.binding.action in ours and each.node is not None:
                assert any(title.startswith(each.binding.description) for title in offered), each
