"""Tasks by keyboard alone: each is played, its keys are counted, and help tells the same."""

from dataclasses import dataclass

import pytest
from textual.widgets import Input

from seasonboard.answers.source import AnswerSource
from seasonboard.help.topics import topic_markdown
from seasonboard.store.store import open_store
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.widgets.sentence import ScopeSentence
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import press, running, settle, text, until
from tests.ui.kept import answered, typing
from tests.ui.terminal import Terminal

WALKS = topic_markdown("walks")
GLYPHS = {
    "enter": "↵", "escape": "esc", "right": "→", "down": "↓", "end": "End", "pageup": "PgUp",
    "pagedown": "PgDn", "backspace": "⌫",
}  # fmt: skip


@dataclass(frozen=True)
class Typed:
    """Something that is typed letter by letter; help tells only what it is."""

    what: str
    letters: str = ""


Key = str | Typed


@dataclass(frozen=True)
class Task:
    """One row of the table in help: what is done, and with which keys."""

    name: str
    keys: tuple[Key, ...]

    def told(self):
        """Return the keys as help writes them."""
        return " ".join(
            key.what if isinstance(key, Typed) else f"`{GLYPHS.get(key, key)}`" for key in self.keys
        )

    def count(self):
        """Return how many keys that is; a path is as long as it is."""
        typed = [key for key in self.keys if isinstance(key, Typed)]
        number = len(self.keys) - len(typed) + sum(len(key.letters) for key in typed)
        paths = [key.what for key in typed if not key.letters]
        return " and ".join([str(number), *paths])

    def pressed(self, **typed):
        """Return the keys one by one; a path is given by its name."""
        found: list[str] = []
        for key in self.keys:
            found += (key.letters or typed[key.what]) if isinstance(key, Typed) else [key]
        return found


FIND = Task("find an athlete by a part of the name", ("f", Typed("letters", "ald"), "enter"))
RECORDS = Task("see the athlete's games, guards and injuries", ("pagedown",))
SENTENCE = Task(
    "another team, another day, and both as before",
    (
        *("s", "right", "enter", Typed("letters", "sof"), "enter"),
        *("right", "right", "enter", "pageup", "enter", "backspace"),
    ),
)
COMPARE = Task("guarded against unguarded, per exposure and per hour", ("6", "t"))
LOAD = Task(
    "load a file, read what was refused to its end", ("l", "f", Typed("the path"), "enter", "end")
)
SAVE = Task("save the page that is shown", ("e", "w", "enter", "enter"))
REPORT = Task("the client's report: the weekly sheet, from Week", ("e", "h", "t", "enter", "enter"))
AGREE = Task("decide the order of prints in the meeting, from Week", ("g", "a", "y"))
LEAVE = Task("leave any window without a change", ("escape",))
LEAVE_TYPED = Task(
    "leave a window in which something was typed: it asks first", ("escape", "escape")
)
QUIT = Task("leave, and come back to the same store and screen", ("q",))
TASKS = (FIND, RECORDS, SENTENCE, COMPARE, LOAD, SAVE, REPORT, AGREE, LEAVE, LEAVE_TYPED, QUIT)


@pytest.mark.parametrize("task", TASKS, ids=[task.name for task in TASKS])
def test_help_tells_the_keys_and_how_many_they_are(task):
    assert f"| {task.name} | {task.told()} | {task.count()} |" in WALKS


def test_help_lists_no_other_task():
    table = WALKS.partition("| by keyboard alone | keys | in all |")[2].partition("\n\n")[0]
    assert len(table.strip().splitlines()) - 1 == len(TASKS)


async def play(pilot, task, **typed):
    """Press the keys of a task; whatever they open, what has the keyboard is in sight."""
    for key in task.pressed(**typed):
        if len(key) > 1 and key not in GLYPHS:
            pilot.app.screen.query_one(Input).value = key  # a path, letter by letter, takes long
            await settle(pilot)
        else:
            await press(pilot, key)
        if key != "q":
            assert pilot.app.focused is not None, key
            assert pilot.app.focused.region.area, key


@pytest.fixture
async def sample(sample_store):
    """Open the sample season on Week."""
    with open_store(sample_store) as store:
        board = AnswerSource(store, "invented sample season")
        async with running(SeasonboardApp(lambda: board)) as pilot:
            yield pilot


@pytest.fixture
async def own(board):
    """Open a store of one's own on Week."""
    async with typing(board) as pilot:
        yield pilot


async def test_an_athlete_is_found_by_letters_and_shown_with_games_guards_and_injuries(sample):
    await play(sample, FIND)
    assert isinstance(sample.app.screen, RowsScreen)
    assert "Valdaraz (" in text(sample)
    seen = text(sample)
    await play(sample, RECORDS)
    seen += text(sample)
    for told in ("Now:", "Last sessions:", "Next game:", " guard G", "injury", "return", "game"):
        assert told in seen
    recorded = " ".join(str(cell) for row in sample.app.screen._rows.rows for cell in row)
    assert "wore G" in recorded


@pytest.mark.long
async def test_team_and_day_are_changed_in_the_sentence_and_both_taken_back(sample):
    before = sample.app.scope
    *keys, back = SENTENCE.keys
    await play(sample, Task("", tuple(keys)))
    (team,) = sample.app.scope.teams
    assert "softball" in sample.app.answer_source.scope_values.name_of("team", team)
    assert (before.through - sample.app.scope.through).days == 7
    assert isinstance(sample.app.focused, ScopeSentence)
    await play(sample, Task("", (back,)))
    assert sample.app.scope == before


@pytest.mark.long
async def test_guarded_and_bare_are_compared_per_exposure_and_per_hour(sample):
    for key, shown in zip(COMPARE.keys, ("In the same sessions", "per 1000 h"), strict=True):
        await play(sample, Task("", (key,)))
        await answered(sample)
        assert isinstance(sample.app.screen, CompareScreen)
        assert shown in text(sample)


@pytest.mark.long
async def test_refused_rows_are_read_to_the_last_one(own, tmp_path):
    lines = [f"G1,A{n:03},full" for n in range(10, 100)]
    refused = tmp_path / "attendance.csv"
    refused.write_text("\n".join(["session,athlete,part", *lines]), "utf-8")
    *keys, end = LOAD.keys
    await play(own, Task("", tuple(keys)), **{"the path": str(refused)})
    assert "A010" in text(own)
    assert "A099" not in text(own)
    await play(own, Task("", (end,)))
    assert "A099" in text(own)
    assert "more." not in text(own)
    await press(own, "home")
    assert "A010" in text(own)


@pytest.mark.parametrize(
    ("task", "files", "part"),
    [(SAVE, "*", "What changed this week"), (REPORT, "*.html", "Weekly meeting sheet")],
    ids=["page", "report"],
)
async def test_page_and_report_are_saved(sample, tmp_path, monkeypatch, task, files, part):
    monkeypatch.setattr("seasonboard.saving.files._folder", lambda: tmp_path)
    await play(sample, task)
    await until(sample, lambda: any(tmp_path.glob(files)))
    (saved,) = tmp_path.iterdir()
    assert part in saved.read_text("utf-8")


WINDOWS = (
    ("f",), ("s", "enter"), ("s", "right", "right", "right", "enter"), ("e",), ("enter",), ("m",),
    ("question_mark",), ("comma",), ("ctrl+p",), ("l",), ("l", "a"), ("l", "f"), ("l", "i"), ("g",),
)  # fmt: skip
TYPED_IN = (("s", "right", "right", "right", "enter"), ("l", "f"), ("l", "d"))


@pytest.mark.long
async def test_every_window_is_left_with_escape_and_nothing_has_changed(own):
    scope, settings = own.app.scope, own.app.settings
    last = own.app.answer_source.entry_writer.last()
    for keys in WINDOWS:
        await press(own, *keys)
        assert not isinstance(own.app.screen, BoardScreen), keys
        await play(own, LEAVE)
        while not isinstance(own.app.screen, BoardScreen):  # one that was opened on another
            await play(own, LEAVE)
        if isinstance(own.app.focused, ScopeSentence):
            await play(own, LEAVE)
        assert isinstance(own.app.focused, Page), keys
        assert (own.app.scope, own.app.settings) == (scope, settings)
        assert own.app.answer_source.entry_writer.last() == last


@pytest.mark.long
async def test_what_was_typed_is_asked_about_before_it_is_lost(own):
    scope, last = own.app.scope, own.app.answer_source.entry_writer.last()
    first, second = LEAVE_TYPED.pressed()
    for keys in TYPED_IN:
        await press(own, *keys, "x")
        window = own.app.screen
        await press(own, first)
        assert window in own.app.screen_stack, "still there: it asks"
        await press(own, second)
        assert window not in own.app.screen_stack
        assert own.app.scope == scope
        assert own.app.answer_source.entry_writer.last() == last
        while not isinstance(own.app.focused, Page):
            await press(own, "escape")


@pytest.mark.long
def test_who_comes_back_finds_the_same_store_and_screen(sample_store, tmp_path):
    env = {name: str(tmp_path) for name in ("HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME")}
    first = Terminal("--store", sample_store, env=env)
    first.until_it_says("What changed this week")
    first.press("7")
    first.until_it_says("How many games are played")
    first.press(*QUIT.pressed())
    first.ended()
    again = Terminal(env=env)
    try:
        store = sample_store.name[:5]
        again.until(lambda shown: "How many games are played" in shown and store in shown)
    finally:
        again.kill()


@pytest.mark.long
def test_keys_that_come_after_q_open_nothing_any_more(sample_store, tmp_path):
    env = {name: str(tmp_path) for name in ("HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME")}
    board = Terminal("--store", sample_store, env=env)
    board.until_it_says("What changed this week")
    board.press("q" + "esflsq" * 3)
    assert board.ended() == 0


@pytest.mark.long
async def test_every_team_of_the_sample_is_had_by_typing_its_name(sample_store):
    with open_store(sample_store) as store:
        board = AnswerSource(store, "invented sample season")
        app = SeasonboardApp(lambda: board, screen="roster")
        async with running(app) as pilot:
            teams = board.scope_values.values["team"]
            assert len(teams) > 10
            for team in teams:
                sentence = app.screen.query_one(ScopeSentence)
                steps = ["right"] * (sentence.parts.index("team") - sentence.at)
                await press(pilot, "s", *steps, "enter", *team.name, "enter", "escape")
                assert app.scope.teams == (team.value,), team.name
