"""The keys of the screen that loads files, and how it is laid out."""

from seasonboard.ui.keys import bindings, key

LOAD_CSS = """
LoadScreen { align: left top; background: $ground; }
LoadScreen #title { height: 1; background: $chosen; color: $chosen-text; text-style: bold; }
LoadScreen #path { background: $chosen; color: $chosen-text; margin: 0 1; }
LoadScreen #files { display: none; height: 1fr; margin: 0 1; padding: 0; border: none; }
LoadScreen #files { background: $ground; color: $text; scrollbar-size: 1 1; }
LoadScreen #files > .option-list--option-highlighted {
    background: $chosen; color: $chosen-text; text-style: bold;
}
LoadScreen.-listing #files { display: block; }
LoadScreen.-listing #body { height: auto; max-height: 6; }
LoadScreen #asks, LoadScreen #told { height: auto; max-height: 6; padding: 0 1; }
LoadScreen #told { text-style: bold; }
LoadScreen #body { height: 1fr; padding: 0 1; scrollbar-size-vertical: 1; }
LoadScreen #body Static { height: auto; }
LoadScreen Choices { display: none; min-height: 3; max-height: 40%; }
LoadScreen.-brief Choices { max-height: 65%; }
LoadScreen Choices.-shown { display: block; }
LoadScreen #keys { height: 1; color: $quiet; }
"""

LOAD_BINDINGS = bindings(
    key("ctrl+s", "write", "write", "Write the plan", "load.write", priority=True),
    key("escape", "back", "back", "Stop, or go back", "load.back", priority=True),
    key("minus,delete", "leave_out", "leave out",
        "Leave out the sheet or heading of the line, or read it after all", "load.leave_out"),
    key("tab", "complete", "complete", "Complete the path", "load.complete", priority=True),
    key("down", "walk(1)", "next", "The next line", "load.next", is_quiet=True, priority=True),
    key("up", "walk(-1)", "previous", "The line before", "load.previous", is_quiet=True,
        priority=True),
    key("pagedown", "turn(1)", "on", "Read on", "load.on", is_quiet=True, priority=True),
    key("pageup", "turn(-1)", "back", "Read back", "load.up", is_quiet=True, priority=True),
    key("end", "to_end(True)", "end", "To the end of what is told", "load.end", is_quiet=True,
        priority=True),
    key("home", "to_end(False)", "top", "To the top of what is told", "load.top", is_quiet=True,
        priority=True),
)  # fmt: skip
