"""Every screen and every key of the board as Markdown, from the screens themselves."""

from collections.abc import Iterable
from importlib import import_module

from textual.binding import Binding
from textual.keys import format_key

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.all_screens import SCREENS
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.log.menu import forms

_PLACES = (
    (
        "On every screen",
        *("app.app:SeasonboardApp", "app.curtain:CurtainApp", "app.entries:EntriesApp"),
    ),
    (
        "On a page",
        *("board.board_screen:BoardScreen", "board.answer_screen:AskingScreen"),
        *("saving.save_windows:SavableScreen", "widgets.page:Page"),
    ),
    ("In the sentence on top", "widgets.sentence:ScopeSentence"),
    ("Among rows", "widgets.row_table:RowTable", "windows.rows:RowsScreen"),
    ("In a list", "windows.chooser:Chooser", "windows.finder:Finder"),
    ("On a method card", "windows.method_card:CardScreen", "windows.query_text:QueryScreen"),
    ("In help", "windows.help:HelpScreen", "windows.help:TopicScreen", "windows.tour:TourScreen"),
    ("On the list of sessions", "log.sessions_screen:SessionsScreen"),
    ("On the sheet of a session", "log.sheet_keys:SheetKeys", "log.sheet_screen:SheetScreen"),
    ("In a form", "forms.form_screen:FormScreen", "forms.read_only:NotKept"),
    (
        "In a question",
        "windows.value_entry:EntryScreen",
        "windows.confirm:AskScreen",
    ),
    ("Where files are loaded", "loading.screen:LoadScreen", "app.welcome:HowToLoad"),
    ("In a meeting", "week.meeting_screen:MeetingScreen"),
    ("In the list of a prospect's teams", "pitch.teams_window:TeamsScreen"),
)
"""Where keys hold, and the classes that bind them."""
_WRITTEN = {"ctrl+": "^", "⏎": "↵", "space": "␣", "Esc": "esc"}


def screens_markdown() -> str:
    """Return every screen: its key, its question and how it is read."""
    return "\n\n".join(
        f"## {board.key} · {board.title}: {board.asks}\n\n{SCREENS[board.name].HELP}"
        for board in WITH_SCREENS
    )


def keys_markdown() -> str:
    """Return every key with what it does, by where it holds."""
    parts = []
    for heading, *names in _PLACES:
        places = (name.partition(":") for name in names)
        bound = [getattr(import_module(f"seasonboard.ui.{one[0]}"), one[2]) for one in places]
        parts.append(_table(heading, bound))
    for board in WITH_SCREENS:
        kinds = SCREENS[board.name].__mro__
        own = kinds[: kinds.index(BoardScreen)]
        if any("BINDINGS" in kind.__dict__ for kind in own):
            parts.append(_table(f"On {board.title}", own))
    log = [f"| `{form.key}` | {form.title}: {form.asks} |" for form in forms(is_kept=True)]
    return "\n\n".join([*parts, "\n".join([*_head("In the Log"), *log])])


def _head(heading: str) -> list[str]:
    return [f"## {heading}", "", "| key | does |", "| --- | --- |"]


def _table(heading: str, bound: Iterable[type]) -> str:
    """Return the keys that classes bind, in their order."""
    bindings = (one for kind in bound for one in kind.__dict__.get("BINDINGS", ()))
    rows = [f"| {_keys(b)} | {_does(b)} |" for b in bindings if isinstance(b, Binding)]
    return "\n".join([*_head(heading), *dict.fromkeys(rows)])


def _does(binding: Binding) -> str:
    is_screen = binding.action.startswith("show_board")
    return f"{binding.description}: {binding.tooltip}" if is_screen else binding.tooltip


def _keys(binding: Binding) -> str:
    """Return a binding's keys as they are written: `^s`, `↵`, `pgdn`."""
    keys = [binding.key_display] if binding.key_display else map(format_key, binding.key.split(","))
    shown = " ".join(dict.fromkeys(f"`{key}`" for key in keys))
    for old, new in _WRITTEN.items():
        shown = shown.replace(old, new)
    return shown
