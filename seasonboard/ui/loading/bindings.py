"""The keys of the screen that loads files."""

from textual.binding import Binding, BindingType

LOAD_BINDINGS: list[BindingType] = [
    Binding("ctrl+s", "write", "write", tooltip="Write the plan", id="load.write", priority=True),
    Binding("escape", "back", "back", tooltip="Stop, or go back", id="load.back", priority=True),
    Binding(
        "tab",
        "complete",
        "complete",
        tooltip="Complete the path",
        id="load.complete",
        priority=True,
    ),
    Binding(
        "down",
        "walk(1)",
        "next",
        show=False,
        tooltip="The next line",
        id="load.next",
        priority=True,
    ),
    Binding(
        "up",
        "walk(-1)",
        "previous",
        show=False,
        tooltip="The line before",
        id="load.previous",
        priority=True,
    ),
    Binding(
        "pagedown", "turn(1)", "on", show=False, tooltip="Read on", id="load.on", priority=True
    ),
    Binding(
        "pageup", "turn(-1)", "back", show=False, tooltip="Read back", id="load.up", priority=True
    ),
    Binding(
        "end",
        "to_end(True)",
        "end",
        show=False,
        tooltip="To the end of what is told",
        id="load.end",
        priority=True,
    ),
    Binding(
        "home",
        "to_end(False)",
        "top",
        show=False,
        tooltip="To the top of what is told",
        id="load.top",
        priority=True,
    ),
]
