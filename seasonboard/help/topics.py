"""The topics: Markdown files beside this module, with the parts that the program makes."""

import re
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from pathlib import Path

from seasonboard.errors import SeasonboardError

MakePart = Callable[[str], str]
"""Makes a part of a topic as Markdown, by the name that stands in its file as `{{name}}`."""

TOPICS = (
    *("walks", "board", "screens", "keys", "record", "log"),
    *("load", "own-files", "tables", "exchange", "safe"),
    *("ask", "commands", "draw", "documents", "prospect", "outsiders"),
    *("truth", "words", "completion", "changes"),
)
"""The topics in the order of the list: the board, the records, what goes out, the rest."""

_PART = re.compile(r"^\{\{(\w+)\}\}$", re.MULTILINE)


def titles() -> Mapping[str, str]:
    """Return the title of every topic, the first line of its file, in the order of the list."""
    return {name: _source(name).partition("\n")[0].lstrip("# ") for name in TOPICS}


def topic_markdown(name: str, make_part: MakePart | None = None) -> str:
    """Return a topic as Markdown; what `make_part` would make is pointed to without it.

    Raises:
        SeasonboardError: There is no such topic; the nearest are named.
    """
    if name not in TOPICS:
        near = get_close_matches(name.casefold(), TOPICS, cutoff=0.4)
        hint = f"Nearest: {', '.join(near)}. " if near else ""
        raise SeasonboardError(
            f"There is no help topic “{name}”.", f"{hint}“seasonboard help” lists every topic."
        )
    make = make_part or (lambda _: f"`seasonboard help {name}` prints this.")
    return _PART.sub(lambda match: make(match[1]), _source(name))


def _source(name: str) -> str:
    return Path(__file__).with_name(f"{name}.md").read_text("utf-8")
