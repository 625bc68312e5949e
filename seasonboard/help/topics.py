"""The topics: Markdown files beside this module, with the parts that the program makes."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from seasonboard.errors import SeasonboardError

MakePart = Callable[[str], str]
"""Makes a part of a topic as Markdown, by the name that stands in its file as `{{name}}`."""

TOPICS = (
    *("walks", "board", "screens", "keys", "record", "log"),
    *("load", "tables", "exchange", "safe"),
    *("ask", "commands", "documents", "prospect", "outsiders"),
    *("truth", "words", "completion", "changes"),
)
"""The topics in the order of the list: the board, the records, what goes out, the rest."""

_FOLDER = Path(__file__).parent
_PART = re.compile(r"^\{\{(\w+)\}\}$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Topic:
    """One topic: its name and its title, which is the first line of its file."""

    name: str
    title: str


def all_topics() -> tuple[Topic, ...]:
    """Return every topic, in the order of the list."""
    return tuple(Topic(name, _source(name).partition("\n")[0].lstrip("# ")) for name in TOPICS)


def topic_markdown(name: str, make_part: MakePart | None = None) -> str:
    """Return a topic as Markdown.

    Args:
        name: One of `TOPICS`.
        make_part: Makes the parts that come from screens and commands; None: they are pointed to.

    Raises:
        SeasonboardError: There is no such topic; the nearest are named.
    """
    if name not in TOPICS:
        near = get_close_matches(name.casefold(), TOPICS, cutoff=0.4)
        hint = f"Nearest: {', '.join(near)}. " if near else ""
        raise SeasonboardError(
            f"There is no help topic “{name}”.", f"{hint}“seasonboard help” lists every topic."
        )

    def part(match: re.Match[str]) -> str:
        if match[1] == "columns":
            from seasonboard.help.columns import columns_markdown

            return columns_markdown()
        return make_part(match[1]) if make_part else f"`seasonboard help {name}` prints this."

    return _PART.sub(part, _source(name))


def list_markdown() -> str:
    """Return the list of topics, a line each, as Markdown."""
    rows = [f"| {topic.name} | {topic.title} |" for topic in all_topics()]
    return "\n".join(["| topic | about |", "| --- | --- |", *rows])


def _source(name: str) -> str:
    return (_FOLDER / f"{name}.md").read_text("utf-8")
