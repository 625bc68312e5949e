"""The keys of a form, and how it is laid out."""

from textual.binding import Binding, BindingType

CSS = """
FormScreen { align: left top; background: $ground; }
FormScreen #title { height: 1; background: $chosen; color: $chosen-text; text-style: bold; }
FormScreen #fields { height: 1fr; scrollbar-size-vertical: 1; }
FormScreen #told { height: auto; max-height: 8; padding: 0 1; text-style: bold; }
FormScreen #keys { height: 1; color: $quiet; }
"""

BINDINGS: list[BindingType] = [
    Binding("ctrl+s", "save", "save", tooltip="Save what is typed", id="form.save",
            priority=True),
    Binding("escape", "leave", "leave", tooltip="Leave without saving", id="form.leave",
            priority=True),
    Binding("down", "walk(1)", "next", show=False, tooltip="The next line", id="form.next",
            priority=True),
    Binding("up", "walk(-1)", "previous", show=False, tooltip="The line before",
            id="form.previous", priority=True),
    Binding("tab", "move(1)", "on", show=False, tooltip="The next field", id="form.on",
            priority=True),
    Binding("shift+tab", "move(-1)", "back", show=False, tooltip="The field before",
            id="form.back", priority=True),
]  # fmt: skip
