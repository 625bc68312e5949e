"""The scope sentence: walked, clicked, changed part by part."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.widgets import Input, OptionList, Static

from seasonboard.scope import PARTS, Outcome, Settings, View
from seasonboard.sentence import Phrase
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.widgets.sentence import MORE, ScopeSentence, lay_out
from seasonboard.ui.windows.chooser import Chooser
from seasonboard.ui.windows.scope_choices import present
from seasonboard.ui.windows.value_entry import EntryScreen
from tests.ui.board import check, opened, press, text
from tests.ui.stand_in import StandIn, known

PHRASES = st.lists(
    st.builds(Phrase, st.text(min_size=1, max_size=30), st.sampled_from(["team", "purpose", ""])),
    max_size=8,
)


def _at(pilot, part):
    """Return the keys that go to a part of the sentence."""
    sentence = pilot.app.screen.query_one(ScopeSentence)
    by = sentence.parts.index(part) - sentence.at
    return ("s", *["right" if by > 0 else "left"] * abs(by))


@given(PHRASES, st.integers(1, 60))
def test_no_line_of_the_sentence_is_too_wide_and_no_part_is_lost(phrases, width):
    lines = lay_out(phrases, width)
    for line in lines:
        assert sum(cell_len(phrase.text) for phrase in line) <= max(width, 2)
    summary = {phrase.part for line in lines for phrase in line if phrase.part}
    assert summary == {phrase.part for phrase in phrases if phrase.part}


async def test_focus_goes_into_the_sentence_and_back(pilot):
    await press(pilot, "s")
    assert isinstance(pilot.app.focused, ScopeSentence)
    await press(pilot, "right", "enter")
    assert isinstance(pilot.app.screen, Chooser)
    await press(pilot, "escape")
    assert isinstance(pilot.app.focused, ScopeSentence)
    await press(pilot, "escape")
    assert isinstance(pilot.app.focused, Page)
    await press(pilot, *_at(pilot, MORE), "enter")
    check(text(pilot), "parts-80x24")


SAID = [
    ("department", ("h", "a", "r", "enter"), "departments", ("harbour",)),
    ("team", (*"soccer at", "enter"), "teams", ("LF-WSOC",)),
    ("team", ("down", "tab", "down", "tab", "enter"), "teams", ("LF-WSOC", "HB-WLAX")),
    ("season", ("down", "enter"), "seasons", ("2026 fall",)),
    ("purpose", ("down", "enter"), "purpose", View.RETURN),
    ("kind", (*"thu", "enter"), "kinds", ("thumb",)),
    ("kind", (*"all", "enter"), "kinds", ("shin", "thumb")),
    ("outcome", ("down", "enter"), "outcome", Outcome.ANY),
    ("setting", ("home", "enter"), "setting", Settings.GAMES),
    ("through", ("up", "enter"), "through", date(2026, 11, 13)),
    ("through", ("pageup", "enter"), "through", date(2026, 11, 7)),
    ("through", ("pageup", "pagedown", "down", "enter"), "through", date(2026, 11, 14)),
    ("through", (*"2026-10-01", "enter"), "through", date(2026, 10, 1)),
    ("through", (*"last", "enter"), "through", date(2026, 11, 14)),
]


UNSAID = [
    ("sport", (*"socc", "enter"), "sports", ("soccer",)),
    ("sex", ("down", "enter"), "sexes", ("women",)),
    ("position group", (*"def", "enter"), "position_groups", ("defence",)),
    ("area", (*"hand", "enter"), "areas", ("hand",)),
    ("side", (*"left", "enter"), "sides", ("left",)),
    ("level", ("home", "enter"), "level", 0.8),
]


@pytest.mark.long
async def test_each_part_is_changed_in_its_window_said_or_not(pilot, answer_source):
    for part, keys, name, value in (*SAID, *UNSAID):
        pilot.app.scope = answer_source.opening_scope()
        await press(pilot)
        sentence = pilot.app.screen.query_one(ScopeSentence)
        sentence.at = 0
        if (part, keys, name, value) in SAID:
            await press(pilot, *_at(pilot, part), "enter", *keys)
        else:
            await press(pilot, *_at(pilot, MORE), "enter")
            assert all(one in text(pilot) for one in PARTS[:-1])
            await press(pilot, *part.replace(" ", "")[:4], "enter", *keys)
            assert sentence.has_focus
        assert isinstance(pilot.app.screen, CompareScreen)
        assert getattr(pilot.app.scope, name) == value, (part, keys)
        assert getattr(answer_source.asked[-1][1], name) == value


async def test_list_of_parts_offers_only_those_that_the_screen_uses(monkeypatch):
    uses = frozenset({"team", "through", "kind", "side"})
    monkeypatch.setattr(CompareScreen, "USES", uses)
    async with opened() as pilot:
        assert pilot.app.screen.query_one(ScopeSentence).parts == ["team", "through", "kind", MORE]
        await press(pilot, *_at(pilot, MORE), "enter")
        options = pilot.app.screen.query_one(OptionList)
        offered = [str(option.prompt).split()[0] for option in options.options]
        assert offered == [part for part in PARTS if part in uses]


async def test_list_narrows_as_one_types_and_no_mark_or_that_of_all_means_all(pilot):
    await press(pilot, *_at(pilot, "team"), "enter")
    options = pilot.app.screen.query_one(OptionList)
    assert options.option_count == 3
    await press(pilot, *"lacrosse")
    assert options.option_count == 1
    await press(pilot, "q")
    assert options.option_count == 0
    await press(pilot, "enter", "tab", "backspace")
    assert options.option_count == 1
    await press(pilot, "escape")
    assert pilot.app.scope.teams is None
    for keys in (("down", "tab", "up", "tab"), ("down", "tab", "tab")):
        await press(pilot, "escape", *_at(pilot, "team"), "enter", *keys, "enter")
        assert isinstance(pilot.app.screen, CompareScreen)
        assert pilot.app.scope.teams is None


async def test_what_is_lit_is_taken_with_what_was_marked_and_the_marked_stay_in_sight(pilot):
    await press(pilot, *_at(pilot, "team"), "enter", *"women's lac", "tab", *["backspace"] * 3)
    await press(pilot, *"soc")
    options = pilot.app.screen.query_one(OptionList)
    assert [option.prompt.plain[0] for option in options.options] == ["○", "●"]
    assert options.highlighted == 0
    await press(pilot, "enter")
    assert pilot.app.scope.teams == ("LF-WSOC", "HB-WLAX")


async def test_a_team_of_another_department_than_the_chosen_one_says_why_it_is_not_offered(pilot):
    await press(pilot, *_at(pilot, "team"), "enter", *"soccer", "enter")
    assert pilot.app.scope.teams == ("LF-WSOC",)
    await press(pilot, *_at(pilot, MORE), "enter", *"department", "enter", *"harb", "enter")
    assert (pilot.app.scope.departments, pilot.app.scope.teams) == (("harbour",), None)
    await press(pilot, *_at(pilot, "team"), "enter", *"soccer")
    assert "not offered: its" in text(pilot)
    await press(pilot, "enter", "escape")
    assert pilot.app.scope.teams is None


async def test_a_day_that_is_none_is_refused_in_words(pilot, answer_source):
    await press(pilot, *_at(pilot, "through"), "enter")
    value = pilot.app.screen.query_one("#value", Input)
    for typed in ("2026-13-45", "yesterday", "[/x]"):
        value.value = typed
        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, EntryScreen)
        told = str(pilot.app.screen.query_one("#explain", Static).render())
        assert f"“{typed}” is not a date" in told
    await press(pilot, "up")
    assert value.value == "2026-11-14"
    await press(pilot, "escape")
    assert len(answer_source.asked) == 1


async def test_mouse_opens_the_part_under_it_and_nothing_between_parts(pilot):
    row = text(pilot).splitlines()[2]
    await pilot.click(offset=(row.index("·"), 2))
    await press(pilot)
    assert isinstance(pilot.app.screen, CompareScreen)
    await pilot.click(offset=(row.index("time loss"), 2))
    await press(pilot)
    assert isinstance(pilot.app.screen, Chooser)
    assert "Outcome" in text(pilot)


async def test_choice_applies_to_every_screen(pilot):
    await press(pilot, *_at(pilot, "department"), "enter", *"harb", "enter", "escape")
    first = text(pilot).splitlines()[1]
    assert "Harbour College" in first
    await press(pilot, "7")
    assert text(pilot).splitlines()[1] == first


def test_every_part_has_words_for_its_present_value():
    assert all(present(part, StandIn().opening_scope(), known()) for part in PARTS)
