"""Method cards: what each number is, in plain words; the same text on every screen.

They stand in `cards.md` beside the answer they explain, in the order in which `--explain` prints
them: a section each, or only a heading such as `compare/exposures` for a card of another answer.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

_LABELS = ("Formula", "Reading it", "Source", "Query")


@dataclass(frozen=True, slots=True)
class Card:
    """How one number is made."""

    title: str
    what: str
    formula: str
    reading: str
    source: str
    query: str


@cache
def read_cards(folder: str) -> Mapping[str, Card]:
    """Return the method cards in a folder of `answers/` by name, in their order.

    Raises:
        ValueError: A card lacks a title or one of its parts; the message names file and card.
    """
    path = Path(__file__).parent / folder / "cards.md"
    _, *sections = path.read_text("utf-8").split("\n## ")
    return dict(_named_card(section, path) for section in sections)


def _named_card(section: str, path: Path) -> tuple[str, Card]:
    heading, _, body = section.strip().partition("\n")
    name, _, title = heading.partition(": ")
    if not title and not body:
        folder, _, name = name.partition("/")
        return name, read_cards(folder)[name]
    what, *parts = (" ".join(part.split()) for part in re.split(r"^- ", body, flags=re.MULTILINE))
    texts = dict(part.split(": ", 1) for part in parts if ": " in part)
    if not title or not what or tuple(texts) != _LABELS:
        parts_of = ", ".join(_LABELS)
        raise ValueError(f"{path}: card “{name}” needs a title, a text, and the parts {parts_of}")
    return name, Card(title, what, *texts.values())
