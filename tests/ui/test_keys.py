"""Every key does what the footer, the help and the palette say."""

from itertools import pairwise

import pytest
from textual.binding import Binding
from textual.widgets import DataTable, Input, Static

from seasonboard.answers.all_cards import ALL_CARDS
from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.games.screen import GamesScreen
from seasonboard.ui.pitch.screen import PitchScreen
from seasonboard.ui.pitch.teams_window import TeamsScreen
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.widgets.sentence import ScopeSentence
from seasonboard.ui.windows.chooser import Chooser
from seasonboard.ui.windows.help import HelpScreen
from seasonboard.ui.windows.method_card import CardScreen, card_text
from seasonboard.ui.windows.rows import RowsScreen
from seasonboard.ui.windows.value_entry import EntryScreen
from tests.ui.board import go_to, opened, page, press, text
from tests.ui.stand_in import StandIn

BOARDS = ["compare", "games", "pitch"]


async def test_letters_change_between_screens():
    async with opened() as pilot:
        for key, screen in (("7", GamesScreen), ("6", CompareScreen), ("7", GamesScreen)):
            await press(pilot, key)
            assert isinstance(pilot.app.screen, screen)


async def test_first_screen_is_the_one_asked_for():
    async with opened(screen="games") as pilot:
        assert isinstance(pilot.app.screen, GamesScreen)


@pytest.mark.long
@pytest.mark.parametrize("screen", BOARDS)
async def test_down_and_up_stop_at_every_number_and_back(screen):
    async with opened(screen=screen) as pilot:
        shown = page(pilot)
        await press(pilot, "home")
        down = [shown.block]
        for _ in range(60):
            await pilot.press("down")
            if shown.block is down[-1]:
                break
            down.append(shown.block)
        up = [shown.block]
        for _ in range(60):
            await pilot.press("up")
            if shown.block is up[-1]:
                break
            up.append(shown.block)
        names = [block.name for block in down if block]
        assert len(set(names)) == len(names) > 10
        assert up == down[::-1]
        assert shown.scroll_offset.y == 0


@pytest.mark.long
@pytest.mark.parametrize("screen", BOARDS)
async def test_cursor_is_always_in_sight(screen):
    async with opened(screen=screen) as pilot:
        for key in ("pagedown", "down", "pagedown", "down", "down", "pageup", "up", "end", "home"):
            await press(pilot, key)
            assert "▌" in text(pilot), key


@pytest.mark.long
@pytest.mark.parametrize("screen", BOARDS)
async def test_every_number_has_its_method_card(screen):
    async with opened(screen=screen) as pilot:
        shown = page(pilot)
        for block in list(shown._blocks):
            if block.is_stop:
                assert block.card in ALL_CARDS, block.name
        await press(pilot, "m")
        assert isinstance(pilot.app.screen, CardScreen)
        block = shown.block
        assert block is not None
        assert ALL_CARDS[block.card].title in text(pilot)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, BoardScreen)


def test_card_tells_everything_it_holds():
    for card in ALL_CARDS.values():
        told = card_text(card).plain
        parts = (card.title, card.what, card.formula, card.reading, card.source, card.query)
        assert all(part.strip() in told for part in parts)


@pytest.mark.long
@pytest.mark.parametrize(
    ("screen", "line", "asked"),
    [
        ("compare", "answer", "injury_rows"),
        ("compare", "rate guarded", "athlete_rows"),
        ("games", "answer", "injury_rows"),
        ("games", "tick 3", "tick_rows"),
        ("pitch", "range injuries", "injury_rows"),
        ("pitch", "effect ratio", "athlete_rows"),
        ("pitch", "team women's soccer", "athlete_rows"),
        ("pitch", "figure all prints", "order_rows"),
    ],
)
async def test_enter_opens_the_rows_and_escape_leads_back(screen, line, asked):
    answer_source = StandIn()
    async with opened(answer_source, screen=screen) as pilot:
        await go_to(pilot, line)
        before = text(pilot)
        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, RowsScreen)
        assert answer_source.asked[-1][0] == asked
        assert pilot.app.screen.query_one(DataTable).row_count == len(answer_source.names)
        await press(pilot, "escape")
        assert text(pilot) == before


async def test_tick_opens_who_was_at_risk_at_it():
    answer_source = StandIn()
    async with opened(answer_source, screen="games") as pilot:
        await go_to(pilot, "tick 3")
        await press(pilot, "enter")
        assert answer_source.asked[-1][2] == (GamesOptions(), 3)
        assert "Game 3" in text(pilot)


async def test_find_goes_from_match_to_match_and_says_when_there_is_none():
    async with opened() as pilot:
        await press(pilot, "slash", *"guarded", "enter")
        first = page(pilot).block
        await press(pilot, "enter")
        assert page(pilot).block is not first
        find = pilot.app.screen.query_one("#find", Input)
        assert not find.has_class("-invalid")
        await press(pilot, *"xyz")
        assert find.has_class("-invalid")
        await press(pilot, "escape")
        assert isinstance(pilot.app.focused, Page)
        assert not find.has_class("-shown")


async def test_clock_key_takes_one_clock_after_the_other():
    answer_source = StandIn()
    async with opened(answer_source, screen="games") as pilot:
        for _ in range(3):  # an answer no longer waited for need not be asked
            await press(pilot, "k")
    clocks = [how.clock for _, _, how in answer_source.asked if isinstance(how, GamesOptions)]
    assert clocks == [Clock.GAMES, Clock.SESSIONS, Clock.SEASON_GAMES, Clock.GAMES]


STEPS: list[tuple[tuple[str, ...], GamesOptions]] = [
    (("n", "8", "enter"), GamesOptions(min_at_risk=8)),
    (("n", "down", "down", "enter"), GamesOptions(min_at_risk=7)),
    (("n", "up", "enter"), GamesOptions(min_at_risk=4)),
    (("h", "6", "enter"), GamesOptions(horizon=6)),
    (("h", "up", "enter"), GamesOptions(horizon=11)),
    (("h", "6", "enter", "h", "backspace", "enter"), GamesOptions()),
    (("n", "8", "escape", "escape"), GamesOptions()),
    (("n", "8", "escape", "enter"), GamesOptions(min_at_risk=8)),
    (("n", "escape"), GamesOptions()),
]


@pytest.mark.long
async def test_options_are_typed_or_stepped():
    answer_source = StandIn()
    async with opened(answer_source, screen="games") as pilot:
        screen = pilot.app.screen
        assert isinstance(screen, GamesScreen)
        for keys, options in STEPS:
            screen._ask_with(GamesOptions())
            await press(pilot, *keys)
            assert screen.options == options, keys
            assert answer_source.asked[-1][2] == options
            assert pilot.app.screen is screen


@pytest.mark.long
async def test_options_that_cannot_be_are_refused_in_words():
    answer_source = StandIn()
    async with opened(answer_source, screen="games") as pilot:
        for typed in ("0", "x", "-"):
            await press(pilot, "n", typed, "enter")
            assert isinstance(pilot.app.screen, EntryScreen)
            explain = pilot.app.screen.query_one("#explain", Static)
            assert "is not a count" in str(explain.render())
            await press(pilot, "escape")
            assert "not taken yet" in str(explain.render())
            await press(pilot, "escape")
        assert len(answer_source.asked) == 1


async def test_buttons_step_like_keys():
    answer_source = StandIn()
    async with opened(answer_source, screen="games") as pilot:
        await press(pilot, "n")
        await pilot.click("#step-1")
        await press(pilot, "shift+tab", "enter")
        assert answer_source.asked[-1][2] in {
            GamesOptions(min_at_risk=6),
            GamesOptions(min_at_risk=5),
        }


@pytest.mark.parametrize("screen", BOARDS)
async def test_footer_hides_nothing_at_eighty_columns(screen):
    async with opened(screen=screen) as pilot:
        for keys in ((), ("s",), ("escape",), ("enter",)):
            await press(pilot, *keys)
            foot = " ".join(" ".join(text(pilot).splitlines()[-2:]).split())
            for active in pilot.app.screen.active_bindings.values():
                if active.binding.show:
                    key = pilot.app.get_key_display(active.binding)
                    assert f"{key} {active.binding.description}" in foot


async def test_a_click_on_a_key_does_what_the_key_does():
    async with opened() as pilot:
        last = text(pilot).splitlines()[-1]
        await pilot.click(offset=(last.index("method"), 23))
        await press(pilot)
        assert isinstance(pilot.app.screen, CardScreen)


@pytest.mark.long
@pytest.mark.parametrize("screen", BOARDS)
async def test_help_and_palette_name_every_key(screen):
    async with opened(screen=screen, size=(120, 60)) as pilot:
        app = pilot.app
        assert isinstance(app, SeasonboardApp)
        active = list(app.screen.active_bindings.values())
        ours = [a.binding for a in active if a.binding.id]
        assert all(b.tooltip and b.description for b in ours)
        offered = {command.help for command in app.get_system_commands(app.screen)}
        await press(pilot, "question_mark")
        assert isinstance(app.screen, HelpScreen)
        told = text(pilot)
        for binding in ours:
            assert binding.tooltip in told, binding
            assert binding.tooltip in offered or binding.action == "command_palette"
        assert "does not show that a guard" in told


async def test_palette_runs_what_it_offers():
    async with opened() as pilot:
        await press(pilot, "ctrl+p", *"games", "down", "enter")
        assert isinstance(pilot.app.screen, GamesScreen)


async def test_r_asks_again():
    answer_source = StandIn()
    async with opened(answer_source) as pilot:
        await press(pilot, "r")
        assert [what for what, *_ in answer_source.asked] == ["compare", "compare"]


async def test_a_line_without_rows_says_so():
    async with opened() as pilot:
        await press(pilot, "end", "enter")
        assert "There are no rows" in text(pilot)


async def test_every_binding_can_be_remapped_and_no_two_share_a_key():
    boards = (CompareScreen, GamesScreen, PitchScreen)
    windows = (RowsScreen, Chooser, CardScreen, HelpScreen, EntryScreen, TeamsScreen)
    for where in (*boards, *windows, Page, ScopeSentence, SeasonboardApp):
        own = [b for b in where.__dict__.get("BINDINGS", ()) if isinstance(b, Binding)]
        assert all(binding.id for binding in own), where
    for screen in boards:
        kept = (SeasonboardApp, BoardScreen, *BoardScreen.__mro__[1:2], screen, Page)
        bound = [b for where in kept for b in where.__dict__.get("BINDINGS", ())]
        keys = sorted(key for b in bound if isinstance(b, Binding) for key in b.key.split(","))
        assert all(one != two for one, two in pairwise(keys))


async def test_mouse_puts_the_cursor_and_opens_with_a_second_click():
    async with opened() as pilot:
        shown = page(pilot)
        line = next(n for n, row in enumerate(text(pilot).splitlines()) if "alike" in row)
        await pilot.click(offset=(20, line))
        assert shown.block is not None
        assert shown.block.name == "alike athletes"
        await pilot.click(offset=(20, line), times=2)
        await press(pilot)
        assert isinstance(pilot.app.screen, RowsScreen)


async def test_mouse_goes_to_another_screen():
    async with opened() as pilot:
        column = text(pilot).splitlines()[0].index("Games")
        await pilot.click(offset=(column, 0))
        await press(pilot)
        assert isinstance(pilot.app.screen, GamesScreen)
