"""Finding anything: what is typed, what is opened, and that leaving changes nothing."""

from textual.widgets import Input, OptionList

from seasonboard.errors import StoreError
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.windows.finder import Finder
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import press, settle, text, until


async def test_what_is_typed_is_found_and_how_many_more_is_said(pilot):
    await press(pilot, "f")
    await press(pilot, *"Lee")
    shown = text(pilot)
    assert "3 found; 1 more: type on to see them" in shown
    assert "[/x] Lee" in shown
    await press(pilot, *"xyz")
    assert "Nothing holds all of that." in text(pilot)


async def test_an_athlete_a_guard_or_a_session_opens_and_escape_leads_back(pilot, answer_source):
    await press(pilot, "f", *"A7", "enter")
    assert isinstance(pilot.app.screen, RowsScreen)
    what, scope, athlete = answer_source.asked[-1]
    assert (what, athlete) == ("athlete_timeline", "A7")
    assert scope.departments is None
    assert "Compare › Name of A7 (A7)" in text(pilot)
    await press(pilot, "escape")
    assert isinstance(pilot.app.screen, CompareScreen)
    await press(pilot, "f", *"G12", "enter", "escape")
    assert answer_source.asked[-1][::2] == ("athlete_timeline", "A9")
    await press(pilot, "f", *"S40", "enter")
    assert answer_source.asked[-1][::2] == ("session_rows", "S40")
    await press(pilot, "f", *"G12", "enter")
    assert "Compare › Session S40 › Name of A9" in text(pilot)
    await press(pilot, "escape")
    assert "Name of A9" not in text(pilot)
    assert "Session S40" in text(pilot)


async def test_a_department_or_team_goes_into_the_sentence_and_leaving_changes_nothing(pilot):
    before, scope = text(pilot), pilot.app.scope
    await press(pilot, "f", *"harb", "down", "escape")
    assert (pilot.app.scope, text(pilot)) == (scope, before)
    await press(pilot, "f", *"harb", "enter")
    assert pilot.app.scope.departments == ("harbour",)
    await press(pilot, "f", *"women", "enter")
    assert pilot.app.scope.departments is None
    assert pilot.app.scope.teams == ("HB-WLAX",)
    assert isinstance(pilot.app.screen, CompareScreen)


async def test_arrows_walk_the_list_while_typing_goes_on(pilot, answer_source):
    await press(pilot, "f", *"Lee", "up", "down", "down", "down", "enter")
    assert answer_source.asked[-1][2] in {"S40", "A9"}


async def test_only_the_answer_to_what_stands_there_is_shown(pilot, answer_source):
    """A slow search of the first letter is followed by one of all that was typed meanwhile."""
    await press(pilot, "f")
    gate = answer_source.hold()
    await pilot.press("A")
    await until(pilot, lambda: answer_source.asked[-1][2] == "A")
    await pilot.press("7")
    await pilot.pause()
    assert isinstance(pilot.app.screen, Finder)
    assert pilot.app.screen.query_one(OptionList).option_count == 0
    answer_source._gate = None
    gate.set()
    await settle(pilot)
    assert [how for what, _, how in answer_source.asked if what == "find"] == ["", "A", "A7"]
    assert pilot.app.screen.query_one(OptionList).option_count == 1


async def test_enter_before_the_answer_takes_the_first_line_once_it_is_there(pilot, answer_source):
    await press(pilot, "f")
    answer_source.hold()
    await pilot.press(*"A7", "enter")
    assert isinstance(pilot.app.screen, Finder)
    answer_source.let_go()
    await until(pilot, lambda: isinstance(pilot.app.screen, RowsScreen))


async def test_a_search_that_fails_says_why(pilot, answer_source):
    answer_source.problem = StoreError("The [store] is gone.", "Look [/there].")
    await press(pilot, "f", *"x")
    assert "The [store] is gone. Look [/there]." in text(pilot)
    answer_source.problem = None
    assert pilot.app.screen.query_one(Input).value == "x"
