"""Help on the board: the topics of the terminal, chosen from a list and read to their end."""

import pytest
from rich.text import Text
from textual.widgets import Static

from seasonboard.help.rendering import rendered
from seasonboard.help.topics import titles, topic_markdown
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.windows.chooser import Chooser
from seasonboard.ui.windows.help import HelpScreen, TopicScreen
from seasonboard.wiring import help_part
from tests.ui.board import LARGE, SMALL, opened, press, running, shown_in_all_colours, text, words
from tests.ui.stand_in import StandIn


@pytest.mark.parametrize("size", [(120, 60)])
async def test_topics_are_listed_with_their_titles(pilot):
    await press(pilot, "question_mark", "h")
    assert isinstance(pilot.app.screen, Chooser)
    listed = text(pilot)
    await press(pilot, "end")
    listed += text(pilot)
    for name, title in titles().items():
        assert f"{name} " in listed
        assert title[:40] in listed


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_a_topic_reads_as_in_the_terminal_and_leads_back(pilot, size):
    await press(pilot, "question_mark", "h", *"safe", "enter")
    assert isinstance(pilot.app.screen, TopicScreen)
    seen = text(pilot)
    for _ in range(3):
        await press(pilot, "pagedown")
        seen += text(pilot)
    width = pilot.app.screen.query_one(Static).size.width
    lines = Text.from_ansi(rendered(topic_markdown("safe"), width, styled=True)).plain
    assert [line for line in lines.splitlines() if line not in seen] == []
    await press(pilot, "escape")
    assert isinstance(pilot.app.screen, HelpScreen)


async def test_keys_and_screens_are_listed_on_the_board_too():
    app = SeasonboardApp(StandIn, screen="compare", help_part=help_part)
    async with running(app, size=LARGE) as pilot:
        await press(pilot, "question_mark", "h", *"keys", "enter")
        assert "What came back, and why?" in text(pilot)
        await press(pilot, "escape", "h", *"screens", "enter")
        assert "Made to be read aloud" in words(pilot)


async def test_a_topic_reads_the_same_without_colour(monkeypatch):
    async def load():
        async with opened() as pilot:
            await press(pilot, "question_mark", "h", *"load", "enter")
            return text(pilot)

    (shown,) = await shown_in_all_colours(load, monkeypatch)
    assert "attendance.csv" in shown
