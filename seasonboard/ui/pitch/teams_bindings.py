"""The keys of the window in which a prospect's teams are listed, and how it is laid out."""

from textual.binding import BindingType

from seasonboard.ui.keys import key

CSS = """
TeamsScreen { align: left top; background: $ground; }
TeamsScreen #title { height: 1; background: $chosen; color: $chosen-text; text-style: bold; }
TeamsScreen TeamList { height: 1fr; border: none; }
TeamsScreen #says { height: auto; max-height: 10; padding: 0 1; text-style: bold; }
TeamsScreen #path { display: none; background: $chosen; color: $chosen-text; margin: 0 1; }
TeamsScreen #path.-shown { display: block; }
"""

BINDINGS: list[BindingType] = [
    key("enter", "change", "change", "Change the team under the cursor", "teams.change"),
    key("a", "add", "add", "Add a team", "teams.add"),
    key("minus,delete", "remove", "remove", "Remove the team under the cursor", "teams.remove"),
    key("u", "undo", "undo", "Take back the last change of the teams", "teams.undo"),
    key("f", "file", "file", "Read the teams from a table", "teams.file"),
    key("o", "served", "as served", "Teams like those that are served", "teams.served"),
    key("ctrl+s", "take", "done", "Plan with these teams", "teams.take", priority=True),
    key("escape", "leave", "leave", "Leave the teams as they were", "teams.leave", priority=True),
    key("down", "walk(1)", "next", "The next team", "teams.next", is_quiet=True),
    key("up", "walk(-1)", "previous", "The team before", "teams.previous", is_quiet=True),
    key("tab", "complete", "complete", "Complete the path", "teams.complete", is_quiet=True,
        priority=True),
]  # fmt: skip
