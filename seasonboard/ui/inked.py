"""Lines of a page as pieces with their colours, for a drawing."""

from rich.cells import cell_len
from rich.console import Console
from rich.style import Style
from rich.text import Text

from seasonboard.saving.pictures import Run

_CONSOLE = Console(color_system="truecolor", legacy_windows=False)


def runs(line: Text) -> list[Run]:
    """Return the pieces of a line, each with where it stands, its colour and its ground."""
    found, at = [], 0
    for segment in line.render(_CONSOLE):
        style = segment.style or Style()
        colour, ground = _hex(style, of_text=True), _hex(style, of_text=False)
        cells = cell_len(segment.text)
        found.append(Run(segment.text, at, cells, colour, ground, bool(style.bold)))
        at += cells
    return found


def _hex(style: Style, *, of_text: bool) -> str:
    colour = style.color if of_text else style.bgcolor
    return "" if colour is None or colour.is_default else colour.get_truecolor().hex
