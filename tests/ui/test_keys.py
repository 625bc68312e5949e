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
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.windows.help import HelpScreen
from seasonboard.ui.windows.method_card import CardScreen, card_text
from seasonboard.ui.windows.rows import RowsScreen
from seasonboard.ui.windows.value_entry import EntryScreen
from tests.ui.board import go_to, page, press, text

BOARDS = ["compare", "games", "pitch"]


async def stops(pilot, key):
    """Press a key until the cursor stays; return where it stood."""
    shown = page(pilot)
    walked = [shown.block]
    for _ in range(60):
        await pilot.press(key)
        if shown.block is walked[-1]:
            break
        walked.append(shown.block)
    return walked


@pytest.mark.long
@pytest.mark.parametrize("screen", BOARDS)
async def test_cursor_stops_at_every_number_and_back_in_sight_and_each_has_a_card(pilot, screen):
    await press(pilot, "home")
    down, up = await stops(pilot, "down"), await stops(pilot, "up")
    names = [block.name for block in down if block]
    assert len(set(names)) == len(names) > 10
    assert up == down[::-1]
    assert page(pilot).scroll_offset.y == 0
    for key in ("pagedown", "down", "pagedown", "down", "down", "pageup", "up", "end", "home"):
        await press(pilot, key)
        assert "▌" in text(pilot), key
    cards = {block.card for block in page(pilot)._blocks if block.name}
    assert cards <= ALL_CARDS.keys()
    await press(pilot, "m")
    assert isinstance(pilot.app.screen, CardScreen)
    assert ALL_CARDS[up[-1].card].title in text(pilot)
    await press(pilot, "escape")
    assert isinstance(pilot.app.screen, BoardScreen)


def test_card_tells_everything_it_holds():
    for card in ALL_CARDS.values():
        shown = card_text(card).plain
        parts = (card.title, card.what, card.formula, card.reading, card.source, card.query)
        assert all(part.strip() in shown for part in parts)


@pytest.mark.long
@pytest.mark.parametrize(
    ("screen", "opened"),
    [
        ("compare", {"answer": "injury_rows", "rate guarded": "athlete_rows"}),
        ("games", {"answer": "injury_rows", "tick 3": "tick_rows"}),
        (
            "pitch",
            {
                "said 2": "injury_rows",
                "effect ratio": "athlete_rows",
                "team women's soccer": "athlete_rows",
                "figure all prints": "order_rows",
            },
        ),
    ],
)
async def test_enter_opens_the_rows_and_escape_leads_back(pilot, answer_source, opened):
    for line, asked in opened.items():
        await go_to(pilot, line)
        before = text(pilot)
        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, RowsScreen)
        what, _, how = answer_source.asked[-1]
        assert what == asked
        if what == "tick_rows":
            assert how == (GamesOptions(), 3)
            assert "Game 3" in text(pilot)
        assert pilot.app.screen.query_one(DataTable).row_count == len(answer_source.names)
        await press(pilot, "escape")
        assert text(pilot) == before


async def test_find_goes_from_match_to_match_and_says_when_there_is_none(pilot):
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
    await press(pilot, "end", "enter")
    assert "There are no rows" in text(pilot)


async def test_clock_key_takes_one_clock_after_the_other_and_buttons_step(games, answer_source):
    for _ in Clock:  # an answer no longer waited for need not be asked
        await press(games, "k")
    clocks = [how.clock for _, _, how in answer_source.asked if isinstance(how, GamesOptions)]
    assert clocks == [*Clock, Clock.GAMES]
    await press(games, "n")
    await games.click("#step-1")
    await press(games, "shift+tab", "enter")
    assert answer_source.asked[-1][2] in {GamesOptions(min_at_risk=6), GamesOptions(min_at_risk=5)}


STEPS = [
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
async def test_options_are_typed_or_stepped_and_refused_in_words(games, answer_source):
    screen = games.app.screen
    for typed in ("0", "x", "-"):
        await press(games, "n", typed, "enter")
        assert isinstance(games.app.screen, EntryScreen)
        explain = games.app.screen.query_one("#explain", Static)
        assert "is not a count" in str(explain.render())
        await press(games, "escape")
        assert "not taken yet" in str(explain.render())
        await press(games, "escape")
    assert len(answer_source.asked) == 1
    for keys, options in STEPS:
        screen.ask_with(GamesOptions())
        await press(games, *keys)
        assert screen.options == options, keys
        assert answer_source.asked[-1][2] == options
        assert games.app.screen is screen


@pytest.mark.parametrize("screen", BOARDS)
async def test_footer_hides_nothing_at_eighty_columns(pilot, screen):
    for keys in ((), ("s",), ("escape",), ("enter",)):
        await press(pilot, *keys)
        foot = " ".join(" ".join(text(pilot).splitlines()[-2:]).split())
        for active in pilot.app.screen.active_bindings.values():
            if active.binding.show:
                key = pilot.app.get_key_display(active.binding)
                assert f"{key} {active.binding.description}" in foot


@pytest.mark.long
@pytest.mark.parametrize("screen", BOARDS)
@pytest.mark.parametrize("size", [(120, 76)])
async def test_help_and_palette_name_every_key(pilot, screen):
    """On the page, in a table, in the sentence, on another screen; help on the page alone."""
    app = pilot.app
    for keys in ((), ("enter",), ("escape", "s"), ("escape", "7")):
        await press(pilot, *keys)
        ours = [one for one in app.screen.active_bindings.values() if one.binding.id]
        commands = list(app.get_system_commands(app.screen))
        enabled = {one.binding.action: one for one in ours if one.enabled and one.node is not None}
        enabled.pop("command_palette", None)
        assert len(enabled) > 12
        for one in enabled.values():
            title = one.binding.description
            assert any(command.title.startswith(title) for command in commands), one
        if not keys:
            offered = {command.help for command in commands}
            await press(pilot, "question_mark")
            assert isinstance(app.screen, HelpScreen)
            shown = text(pilot)
            for binding in (one.binding for one in ours):
                assert binding.tooltip in shown, binding
                assert binding.tooltip in offered or binding.action == "command_palette"
            assert "does not show that a guard" in shown
            await press(pilot, "escape")


async def test_palette_runs_what_it_offers(pilot):
    await press(pilot, "ctrl+p", *"games", "down", "enter")
    assert isinstance(pilot.app.screen, GamesScreen)


def test_no_two_bindings_of_a_screen_share_a_key():
    for screen in (CompareScreen, GamesScreen, PitchScreen):
        kept = (SeasonboardApp, BoardScreen, *BoardScreen.__mro__[1:2], screen, Page)
        bound = [b for where in kept for b in where.__dict__.get("BINDINGS", ())]
        keys = sorted(key for b in bound if isinstance(b, Binding) for key in b.key.split(","))
        assert all(one != two for one, two in pairwise(keys))


async def test_mouse_does_as_the_keys_do(pilot):
    line = next(n for n, row in enumerate(text(pilot).splitlines()) if "alike" in row)
    await pilot.click(offset=(20, line))
    assert page(pilot).block.name == "alike athletes"
    await pilot.click(offset=(20, line), times=2)
    await press(pilot)
    assert isinstance(pilot.app.screen, RowsScreen)
    await press(pilot, "escape")
    await pilot.click(offset=(text(pilot).splitlines()[-1].index("method"), 23))
    await press(pilot)
    assert isinstance(pilot.app.screen, CardScreen)
