"""A canvas of braille dots, two across and four down in each cell, over tinted areas."""

from collections.abc import Iterator

from rich.text import Text

LIGHT, HEAVY, THIRD, FOURTH = 1, 2, 4, 8
DOTS_ACROSS, DOTS_DOWN = 2, 4
_BRAILLE = 0x2800
_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""Of the braille letters (Unicode chapter 21.1): the bit of each dot, by row and column."""
_EVERY = {LIGHT: 2, HEAVY: 1, THIRD: 3, FOURTH: 5}
"""A line has a dot at every such place, so that they differ without colour."""
_BY_WEIGHT = (HEAVY, LIGHT, THIRD, FOURTH)
SAMPLES = {LIGHT: "⠂⠂⠂", HEAVY: "⠒⠒⠒", THIRD: "⠂⠐⠀", FOURTH: "⠂⠀⠐"}
"""What a piece of each line looks like."""


class Canvas:
    """Dots that lines are drawn with; the heavy line is whole, the others have gaps.

    Where the light and the heavy one run as one each fourth dot is missing. `styles` are those of
    the lines, `tints` the backgrounds of the light, the heavy and the shared area; a canvas without
    `tints` draws no areas. With `is_sparse` both lines have half their dots.
    """

    def __init__(
        self,
        width: int,
        height: int,
        *,
        styles: dict[int, str],
        tints: dict[int, str],
        is_sparse: bool = False,
    ) -> None:
        """Make an empty canvas of `width` by `height` cells."""
        self.width = width
        self.height = height
        self._styles = styles
        self._tints = tints
        self._thinning = 2 if is_sparse else 1
        self._dots: dict[tuple[int, int], int] = {}
        self._letters: dict[tuple[int, int], tuple[str, str]] = {}
        self._areas: dict[tuple[int, int], int] = {}

    def across(self, y: int, first: int, last: int, weight: int) -> None:
        """Draw from the dot in column `first` to that in column `last`, in dot row `y`."""
        for x in range(first, last + 1):
            self._dot(x, y, weight)

    def down(self, x: int, first: int, last: int, weight: int) -> None:
        """Draw from the dot in row `first` to that in row `last`, whichever is higher."""
        for y in range(min(first, last), max(first, last) + 1):
            self._dot(x, y, weight)

    def tint(self, column: int, first: int, last: int, weight: int) -> None:
        """Colour the cells of one column from row `first` to row `last`."""
        for row in range(max(0, first), min(self.height - 1, last) + 1):
            self._areas[row, column] = self._areas.get((row, column), 0) | weight

    def put(self, row: int, column: int, letter: str, style: str) -> None:
        """Set a letter where nothing is drawn; what was set first stays."""
        self._letters.setdefault((row, column), (letter, style))

    def lines(self) -> Iterator[Text]:
        """Return the canvas line by line."""
        for row in range(self.height):
            text = Text()
            for column in range(self.width):
                letter, style = self._shown(row, column)
                ground = self._tints.get(self._areas.get((row, column), 0), "")
                text.append(letter, f"{style} {ground}".strip())
            yield text

    def _dot(self, x: int, y: int, weight: int) -> None:
        self._dots[x, y] = self._dots.get((x, y), 0) | weight

    def _shown(self, row: int, column: int) -> tuple[str, str]:
        bits = weights = 0
        for down, of_row in enumerate(_BITS):
            for beside, bit in enumerate(of_row):
                x, y = column * DOTS_ACROSS + beside, row * DOTS_DOWN + down
                drawn = self._dots.get((x, y), 0)
                if drawn and self._is_seen(x + y, drawn):
                    bits, weights = bits | bit, weights | drawn
        if not bits:
            return self._letters.get((row, column), (" ", ""))
        return chr(_BRAILLE + bits), next(self._styles[w] for w in _BY_WEIGHT if weights & w)

    def _is_seen(self, at: int, weights: int) -> bool:
        if weights == LIGHT | HEAVY and self._thinning == 1:
            return at % 4 != 3
        return any(at % (self._thinning * _EVERY[w]) == 0 for w in _BY_WEIGHT if weights & w)
