"""Asking: nothing blocks, late answers are dropped, what stands on screen says how old it is."""

from textual.widgets import Static

from seasonboard.answers.source import AnswerSource
from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.ui.app.app import NOT_OPENED, SeasonboardApp
from seasonboard.ui.board import answer_screen as asking
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.windows.rows import RowsScreen
from tests.patience import PATIENCE
from tests.ui.board import opened, page, press, press_held, running, settle, state, text, until
from tests.ui.stand_in import StandIn


async def test_a_late_answer_is_dropped():
    answer_source = StandIn(is_deaf=True)
    async with opened(answer_source) as pilot:
        first = await press_held(pilot, "r")
        answer_source._gate = None
        await pilot.press("r")
        await until(pilot, lambda: state(pilot) == "")
        await settle(pilot)  # the data checks are counted after the answer, and added to it
        newest = pilot.app.screen.answer
        assert len(answer_source.asked) == 3
        first.set()
        await settle(pilot)
        assert pilot.app.screen.answer is newest


async def test_rows_of_an_older_asking_are_dropped():
    answer_source = StandIn(is_deaf=True)
    async with opened(answer_source) as pilot:
        await press(pilot, "enter")
        gate = await press_held(pilot, "o")
        answer_source._gate = None
        await press(pilot, "o")
        assert "days lost ▴" in text(pilot)
        gate.set()
        await settle(pilot)
        assert "days lost ▴" in text(pilot)
        assert "name ▴" not in text(pilot)


async def test_last_answer_stays_and_is_marked_old_until_the_new_one_is_there(pilot, answer_source):
    assert (state(pilot), page(pilot).is_old) == ("", False)
    before = text(pilot).splitlines()[5:]
    answer_source.hold()
    await pilot.press("r")
    await pilot.pause()
    assert (state(pilot), page(pilot).is_old) == (asking.ASKING_OLD, True)
    assert text(pilot).splitlines()[5:] == before
    answer_source.let_go()
    await settle(pilot)
    assert (state(pilot), page(pilot).is_old) == ("", False)


async def test_keys_are_heard_while_a_question_runs(pilot, answer_source):
    await press_held(pilot, "r")
    before = page(pilot).block
    await pilot.press("down", "question_mark")
    await pilot.pause()
    assert "Here" in text(pilot)
    await pilot.press("escape")
    assert page(pilot).block is not before
    assert page(pilot).is_old
    assert not answer_source.waited_in_vain
    answer_source.let_go()


async def test_x_and_escape_stop_the_question_and_say_so(pilot, answer_source):
    await press(pilot, "x", "escape")
    assert (state(pilot), answer_source.stops) == ("", 0), "there is none to stop"
    for key in ("x", "escape"):
        answer_source.hold()
        await pilot.press("r")
        await pilot.press(key)
        await settle(pilot)
        assert state(pilot) == asking.STOPPED_OLD
        assert "Are guarded athletes hurt less?" in text(pilot)
        answer_source.let_go()
        await press(pilot, "r")
        assert state(pilot) == ""


async def test_first_question_can_be_stopped_too():
    answer_source = StandIn()
    answer_source.hold()
    app = SeasonboardApp(lambda: answer_source, screen="compare")
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: bool(answer_source.asked))
        assert state(pilot) == asking.ASKING
        await pilot.press("x")
        await settle(pilot)
        assert state(pilot) == asking.STOPPED
        answer_source.let_go()
        await press(pilot, "r")
        assert "No difference shown yet" in text(pilot)


async def test_a_refusal_is_said_in_place_over_the_last_answer(pilot, answer_source):
    answer_source.problem = StoreError("“[/x]” could not be read.", "Ask [again] later.")
    await press(pilot, "r")
    for part in ("“[/x]” could not be read.", "Ask [again] later.", "No difference shown yet"):
        assert part in text(pilot)
    assert page(pilot).is_old
    answer_source.problem = None
    await press(pilot, "r")
    assert "could not be read" not in text(pilot)
    answer_source.problem = StoreError("The [rows] are gone.", "Look [/there].")
    await press(pilot, "enter")
    assert "The [rows] are gone. Look [/there]." in text(pilot)


async def test_a_refused_clock_says_what_to_do(games):
    await press(games, "s", *["right"] * 7, "enter", *"prac", "enter")
    assert "No practice ticks the clock" in text(games)


async def test_quitting_stops_a_running_question_and_does_not_wait_for_it():
    answer_source = StandIn()
    async with opened(answer_source) as pilot:
        await press_held(pilot, "r")
        await pilot.press("q")
        await settle(pilot)
    assert answer_source.stops
    assert not answer_source.waited_in_vain
    assert pilot.app.return_code == 0


async def test_leaving_a_table_that_is_still_asked_stops_it(pilot, answer_source):
    await press_held(pilot, "enter")
    assert isinstance(pilot.app.screen, RowsScreen)
    await press(pilot, "escape")
    assert answer_source.stops == 1
    assert isinstance(pilot.app.screen, CompareScreen)


async def test_each_screen_asks_again_by_key_and_for_another_scope(pilot, answer_source):
    await press(pilot, "7", "6")
    assert [what for what, *_ in answer_source.asked] == ["compare", "games"]
    await press(pilot, "s", "right", "enter", *"lacr", "enter", "escape")
    await press(pilot, "7")
    assert [what for what, *_ in answer_source.asked] == ["compare", "games"] * 2
    assert answer_source.asked[-1][1].teams == ("HB-WLAX",)
    await press(pilot, "r")
    assert answer_source.asked[-1] == answer_source.asked[-2]


async def test_stopping_one_screen_lets_the_other_ask_again(pilot, answer_source):
    for key in "r7":
        await press_held(pilot, key)
    await pilot.press("x")
    await settle(pilot)
    answer_source.let_go()
    await press(pilot, "6")
    asked = [what for what, *_ in answer_source.asked]
    assert asked == ["compare", "compare", "games", "compare"]
    assert state(pilot) == ""


def _fails():
    raise StoreLockedError("“[season].duckdb” is held by process 12.", "Close it [there] first.")


async def test_a_store_that_cannot_be_opened_is_said_plainly():
    app = SeasonboardApp(_fails)
    async with running(app, lambda _: True) as pilot:
        shown = text(pilot)
        assert "“[season].duckdb” is held by process 12." in shown
        assert "Close it [there] first." in shown
        assert "Traceback" not in shown
        await press(pilot, "6", "7", "d", "question_mark")
        assert "The board could not be opened" in text(pilot)
        assert "Are guarded athletes hurt less?" not in text(pilot)
        await press(pilot, "escape", "q")
    assert app.return_code == NOT_OPENED


async def test_first_paint_does_not_wait_for_the_store():
    answer_source = StandIn()
    gate = StandIn().hold()
    app = SeasonboardApp(lambda: gate.wait(PATIENCE) and answer_source, screen="compare")
    async with app.run_test(size=(80, 24)) as pilot:
        assert "opening" in str(app.query_one("#opening", Static).render())
        gate.set()
        await until(pilot, lambda: "No difference shown yet" in text(pilot))


def test_stand_in_offers_only_what_an_answer_source_offers():
    offered = {name for name in dir(StandIn()) if not name.startswith("_")}
    held_back = {"reader", "is_deaf", "problem", "asked", "stops", "covered", "total", "names"}
    own = {"hold", "let_go", "waited_in_vain", "answered"}
    assert offered - held_back - own <= set(dir(AnswerSource))
