"""What can be said aloud of a pitch: three figures, each in large digits beside its sentences."""

from itertools import zip_longest
from typing import TYPE_CHECKING

from rich.cells import cell_len
from rich.text import Text
from textual.renderables.digits import DIGITS, DIGITS3X3_BOLD

from seasonboard.answers.pitch.words import sayings
from seasonboard.ui.layout.blocks import INJURIES, Block, Opens, Paper, What
from seasonboard.ui.layout.format import clean, fit, wrap

if TYPE_CHECKING:
    from seasonboard.answers.pitch.parts import PitchAnswer

_WIDE = 16
_READABLE = 100
_SHAPES = DIGITS3X3_BOLD


def large(number: str) -> list[str]:
    """Return a number in digits three lines tall; as it is, where one has no such shape."""
    plain = number.replace(",", "").replace("−", "-")
    if not plain or not set(plain) <= set(DIGITS):
        return [number]
    places = [DIGITS.index(letter) * 3 for letter in plain]
    return ["".join(_SHAPES[place + line].ljust(3) for place in places) for line in range(3)]


def said_blocks(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return the figures with what is said of each, a block each."""
    blocks = []
    for number, (figure, text) in enumerate(sayings(answer)):
        value, _, unit = figure.partition(" ")
        left = [*large(value), unit]
        if cell_len(left[0]) > _WIDE - 2:
            left = [value, unit]
        room = min(paper.width - _WIDE - 2, _READABLE)
        lines = []
        for mark, line in zip_longest(left, wrap(clean(text), room), fillvalue=""):
            lines.append(Text.assemble(" ", (fit(mark, _WIDE), paper.ink.strong), line))
        name = f"said {number + 1}" if number else "answer"
        is_of_prints = "print" in unit
        card = "pitch/prints ahead" if is_of_prints else "pitch/season ahead"
        opens = Opens(What.ORDERS) if is_of_prints else INJURIES
        blocks.append(Block((*lines, Text("")), name, card, opens))
    return blocks
