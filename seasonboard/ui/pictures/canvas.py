"""A canvas of character cells: lines of two weights that join, over tinted areas."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product

from rich.text import Text

LIGHT, HEAVY = 1, 2
_UP, _RIGHT, _DOWN, _LEFT = range(4)
_LETTERS = (
    " ╴╸╷┐┑╻┒┓╶─╾┌┬┭┎┰┱╺╼━┍┮┯┏┲┳",
    "╵┘┙│┤┥╽┧┪└┴┵├┼┽┟╁╅┕┶┷┝┾┿┢╆╈",
    "╹┚┛╿┦┩┃┨┫┖┸┹┞╀╃┠╂╉┗┺┻┡╄╇┣╊╋",
)
STROKES = dict(zip(product((0, LIGHT, HEAVY), repeat=4), "".join(_LETTERS), strict=True))
"""The box-drawing letter for each joint: weights of the arms up, right, down, left."""


@dataclass(slots=True)
class _Cell:
    arms: list[int] = field(default_factory=lambda: [0, 0, 0, 0])
    weights: set[int] = field(default_factory=set)
    letter: str = ""
    style: str = ""
    tints: set[int] = field(default_factory=set)


class Canvas:
    """Cells that lines are drawn on; where two lines of different weight run as one, `═` stands.

    `styles` are those of the light and the heavy lines, `tints` the backgrounds of the light, the
    heavy and the shared area; a canvas without `tints` draws no areas.
    """

    def __init__(
        self, width: int, height: int, *, styles: dict[int, str], tints: dict[int, str]
    ) -> None:
        """Make an empty canvas of `width` by `height` cells."""
        self.width = width
        self.height = height
        self._styles = styles
        self._tints = tints
        self._cells = [[_Cell() for _ in range(width)] for _ in range(height)]

    def across(self, row: int, first: int, last: int, weight: int) -> None:
        """Draw from the middle of column `first` to the middle of column `last`."""
        for column in range(first, last + 1):
            if column > first:
                self._arm(row, column, _LEFT, weight)
            if column < last:
                self._arm(row, column, _RIGHT, weight)

    def down(self, column: int, first: int, last: int, weight: int) -> None:
        """Draw from the middle of row `first` to the middle of row `last`, whichever is higher."""
        top, bottom = min(first, last), max(first, last)
        for row in range(top, bottom + 1):
            if row > top:
                self._arm(row, column, _UP, weight)
            if row < bottom:
                self._arm(row, column, _DOWN, weight)

    def tint(self, column: int, first: int, last: int, weight: int) -> None:
        """Colour the cells of one column from row `first` to row `last`."""
        for row in range(max(0, first), min(self.height - 1, last) + 1):
            self._cells[row][column].tints.add(weight)

    def put(self, row: int, column: int, letter: str, style: str) -> None:
        """Set a letter where nothing is drawn; what was set first stays."""
        if 0 <= row < self.height and 0 <= column < self.width:
            cell = self._cells[row][column]
            if not cell.letter:
                cell.letter, cell.style = letter, style

    def lines(self) -> Iterator[Text]:
        """Return the canvas line by line."""
        for row in self._cells:
            text = Text()
            for cell in row:
                letter, style = self._shown(cell)
                text.append(letter, style)
            yield text

    def _arm(self, row: int, column: int, side: int, weight: int) -> None:
        if 0 <= row < self.height and 0 <= column < self.width:
            cell = self._cells[row][column]
            cell.arms[side] = max(cell.arms[side], weight)
            cell.weights.add(weight)

    def _shown(self, cell: _Cell) -> tuple[str, str]:
        key = 0 if len(cell.tints) > 1 else next(iter(cell.tints), -1)
        ground = self._tints.get(key, "")
        if not cell.weights:
            return cell.letter or " ", f"{cell.style} {ground}".strip()
        up, right, down, left = cell.arms
        if len(cell.weights) > 1 and not up and not down:
            return "═", f"{self._styles[HEAVY]} {ground}".strip()
        letter = STROKES[up, right, down, left]
        return letter, f"{self._styles[max(cell.weights)]} {ground}".strip()
