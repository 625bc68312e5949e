"""Lines of a page as pieces with their colours, for a drawing."""

import re

from rich.cells import cell_len
from rich.console import Console
from rich.style import Style
from rich.text import Text

from seasonboard.saving.pictures import Run

_PIECE = re.compile(r"\S+(?: \S+)*")
_CONSOLE = Console(color_system="truecolor", legacy_windows=False)


def styled_runs(line: Text) -> list[Run]:
    """Return the pieces of a line, each with where it stands and its colour.

    A gap of blanks parts pieces, so that none has to keep blanks to stand where it should; grounds
    come before the text on them.
    """
    runs, at = [], 0
    for segment in line.render(_CONSOLE):
        style, text = segment.style or Style(), segment.text
        colour, ground = _hex(style, of_text=True), _hex(style, of_text=False)
        if ground:
            runs.append(Run("", at, cell_len(text), ground=ground))
        for piece in _PIECE.finditer(text):
            start = at + cell_len(text[: piece.start()])
            wide = cell_len(piece.group())
            runs.append(Run(piece.group(), start, wide, colour, is_bold=bool(style.bold)))
        at += cell_len(text)
    return runs


def _hex(style: Style, *, of_text: bool) -> str:
    colour = style.color if of_text else style.bgcolor
    return "" if colour is None or colour.is_default else colour.get_truecolor().hex
