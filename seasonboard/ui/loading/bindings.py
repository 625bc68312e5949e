"""The keys of the screen that loads files, and how it is laid out."""

from textual.binding import Binding, BindingType

LOAD_CSS = """
LoadScreen { align: left top; background: $ground; }
LoadScreen #title { height: 1; background: $chosen; color: $chosen-text; text-style: bold; }
LoadScreen #path { background: $chosen; color: $chosen-text; margin: 0 1; }
LoadScreen #asks, LoadScreen #told { height: auto; max-height: 6; padding: 0 1; }
LoadScreen #told { text-style: bold; }
LoadScreen #body { height: 1fr; padding: 0 1; scrollbar-size-vertical: 1; }
LoadScreen #body Static { height: auto; }
LoadScreen Choices { display: none; }
LoadScreen Choices.-shown { display: block; }
LoadScreen #keys { height: 1; color: $quiet; }
"""

LOAD_BINDINGS: list[BindingType] = [
    Binding("ctrl+s", "write", "write", tooltip="Write the plan", id="load.write", priority=True),
    Binding("escape", "back", "back", tooltip="Stop, or go back", id="load.back", priority=True),
    Binding("tab", "complete", "complete", tooltip="Complete the path", id="load.complete",
            priority=True),
    Binding("down", "walk(1)", "next", show=False, tooltip="The next line", id="load.next",
            priority=True),
    Binding("up", "walk(-1)", "previous", show=False, tooltip="The line before",
            id="load.previous", priority=True),
    Binding("pagedown", "turn(1)", "on", show=False, tooltip="Read on", id="load.on",
            priority=True),
    Binding("pageup", "turn(-1)", "back", show=False, tooltip="Read back", id="load.up",
            priority=True),
    Binding("end", "to_end(True)", "end", show=False, tooltip="To the end of what is told",
            id="load.end", priority=True),
    Binding("home", "to_end(False)", "top", show=False, tooltip="To the top of what is told",
            id="load.top", priority=True),
]  # fmt: skip
