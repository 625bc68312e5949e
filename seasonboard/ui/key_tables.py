"""Every screen and every key of the board as Markdown, from the screens themselves."""

from collections.abc import Iterator
from importlib import import_module
from pkgutil import walk_packages

from textual.binding import Binding
from textual.keys import format_key

import seasonboard.ui
from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.all_screens import screen_class
from seasonboard.ui.log.menu import forms

_WHERE = {
    "app": "On every screen",
    **dict.fromkeys(("board", "screen", "page"), "On a page"),
    **{question.name: f"On {question.title}" for question in WITH_SCREENS},
    "sentence": "In the sentence on top",
    **dict.fromkeys(("row_table", "rows"), "Among rows"),
    **dict.fromkeys(("chooser", "finder"), "In a list"),
    **dict.fromkeys(("card", "query"), "On a method card"),
    "log_sessions": "On the list of sessions",
    "sheet": "On the sheet of a session",
    "form": "In a form",
    "load": "Where files are loaded",
    "meeting": "In a meeting",
    "teams": "In the list of a prospect's teams",
    **dict.fromkeys(("help", "topic", "tour"), "In help"),
}
"""Where keys work, by what the ids of their bindings begin with, in the order of the table."""
_ELSEWHERE = "In other windows"
_WRITTEN = {"ctrl+": "^", "⏎": "↵", "space": "␣", "Esc": "esc"}


def screens_markdown() -> str:
    """Return every screen: its key, its question and how it is read."""
    return "\n\n".join(
        f"## {one.key} · {one.title}: {one.asks}\n\n{screen_class(one.name).HELP}"
        for one in WITH_SCREENS
    )


def keys_markdown() -> str:
    """Return every key with what it does, by where it works."""
    rows: dict[str, list[str]] = {where: [] for where in (*_WHERE.values(), _ELSEWHERE)}
    for binding in _bindings():
        is_screen = binding.action.startswith("show_board")
        begins = "app" if is_screen else (binding.id or "").partition(".")[0]
        where = _WHERE.get(begins, _ELSEWHERE)
        title = f"{binding.description}: " if is_screen else ""
        rows[where].append(f"| {_keys(binding)} | {title}{binding.tooltip} |")
    listed = forms(is_kept=True)
    rows["In the Log"] = [f"| `{one.key}` | {one.title}: {one.asks} |" for one in listed]
    return "\n\n".join(
        "\n".join([f"## {where}", "", "| key | does |", "| --- | --- |", *dict.fromkeys(own)])
        for where, own in rows.items()
        if own
    )


def _bindings() -> Iterator[Binding]:
    """Give every binding of the board, as each class lists its own."""
    for module in walk_packages(seasonboard.ui.__path__, "seasonboard.ui."):
        kinds = (one for one in vars(import_module(module.name)).values() if isinstance(one, type))
        for kind in dict.fromkeys(kinds):
            if kind.__module__ == module.name:
                own = kind.__dict__.get("BINDINGS", ())
                yield from (one for one in own if isinstance(one, Binding))


def _keys(binding: Binding) -> str:
    """Return a binding's keys as they are written: `^s`, `↵`, `pgdn`."""
    keys = [binding.key_display] if binding.key_display else map(format_key, binding.key.split(","))
    shown = " ".join(dict.fromkeys(f"`{key}`" for key in keys))
    for old, new in _WRITTEN.items():
        shown = shown.replace(old, new)
    return shown
