"""The parts of help that come from the screens, the commands and the descriptions of tables."""

from importlib import import_module

_MAKERS = {
    "columns": "seasonboard.help.generated",
    "questions": "seasonboard.help.generated",
    "commands": "seasonboard.cli.help",
    "keys": "seasonboard.ui.key_tables",
    "screens": "seasonboard.ui.key_tables",
}
"""Where each is made, by a function such as `keys_markdown`; loaded when it is read."""


def help_part(name: str) -> str:
    """Return one part as Markdown, by the name that stands in the files of the topics."""
    made: str = getattr(import_module(_MAKERS[name]), f"{name}_markdown")()
    return made
