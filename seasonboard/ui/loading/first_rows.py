"""The first rows of a plan as lines, under the columns that they go to."""

from collections.abc import Sequence

from rich.cells import cell_len

from seasonboard.load_dialog import FirstRows
from seasonboard.ui.layout.format import MISSING, clean, fit

_WIDEST = 28
"""Cells that a column takes at most."""


def first_rows_lines(first: FirstRows, width: int) -> list[str]:
    """Return the rows as a table of numbered lines; columns without room go on below them."""
    columns = [
        [name, *(MISSING if row[place] is None else clean(str(row[place])) for row in first.cells)]
        for place, name in enumerate(first.columns)
    ]
    lines: list[str] = []
    for band in _bands(columns, width - 3):
        for number, row in enumerate(zip(*band, strict=True)):
            lines.append(f"{number or '':>2} {' '.join(row)}".rstrip())
    return lines


def _bands(columns: Sequence[list[str]], width: int) -> list[list[list[str]]]:
    """Part columns, cells of one width each, into as many as stand side by side."""
    bands: list[list[list[str]]] = []
    room = 0
    for column in columns:
        wide = min(_WIDEST, max(map(cell_len, column)), max(1, width))
        if not bands or room < wide:
            bands.append([])
            room = width
        bands[-1].append([fit(one, wide) for one in column])
        room -= wide + 1
    return bands
