"""The keys of the window in which a prospect's teams are listed, and how it is laid out."""

from textual.binding import Binding, BindingType

CSS = """
TeamsScreen { align: left top; background: $ground; }
TeamsScreen #title { height: 1; background: $chosen; color: $chosen-text; text-style: bold; }
TeamsScreen TeamList { height: 1fr; border: none; }
TeamsScreen #says { height: auto; max-height: 10; padding: 0 1; text-style: bold; }
TeamsScreen #path { display: none; background: $chosen; color: $chosen-text; margin: 0 1; }
TeamsScreen #path.-shown { display: block; }
"""

BINDINGS: list[BindingType] = [
    Binding("enter", "change", "change", key_display="↵",
            tooltip="Change the team under the cursor", id="teams.change"),
    Binding("a", "add", "add", tooltip="Add a team", id="teams.add"),
    Binding("minus,delete", "remove", "remove", key_display="-",
            tooltip="Remove the team under the cursor", id="teams.remove"),
    Binding("u", "undo", "undo", tooltip="Take back the last change of the teams", id="teams.undo"),
    Binding("f", "file", "file", tooltip="Read the teams from a table", id="teams.file"),
    Binding("o", "served", "as served", tooltip="Teams like those that are served",
            id="teams.served"),
    Binding("ctrl+s", "take", "done", tooltip="Plan with these teams", id="teams.take",
            priority=True),
    Binding("escape", "leave", "leave", tooltip="Leave the teams as they were", id="teams.leave",
            priority=True),
    Binding("down", "walk(1)", "next", show=False, tooltip="The next team", id="teams.next"),
    Binding("up", "walk(-1)", "previous", show=False, tooltip="The team before",
            id="teams.previous"),
    Binding("tab", "complete", "complete", show=False, tooltip="Complete the path",
            id="teams.complete", priority=True),
]  # fmt: skip
