"""What tells settings, totals and titles in the rows of a sheet with days across or down."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.synonyms import Synonyms

Rows = Sequence[Sequence[str]]
FEWEST, LONGEST_MARK = 3, 14
"""Days or people that make a grid, and letters of a mark."""
GAME = re.compile(r"^(?:vs?\.?\s|@|at\s)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class SheetLook:
    """What both layouts look at in the rows of one sheet."""

    rows: Rows
    synonyms: Synonyms
    marks: CellMarks

    def setting(self, text: str) -> str:
        """Return `game` or `practice` of a cell that says so; else nothing."""
        word = folded(text)
        if GAME.match(text.strip()):
            return "game"
        for known in ("game", "practice"):
            if word == known:
                return known
        return str(self.synonyms.words.get("setting", {}).get(word, ""))

    def is_total(
        self, row: int, own: Sequence[str], marks: Sequence[str], columns: Sequence[int]
    ) -> bool:
        """Say whether a row of a grid is its totals: by its first words, formulas or numbers."""
        first = folded(own[-1]).split(" ")
        if first[0] in self.synonyms.totals or folded(own[0]) in self.synonyms.totals:
            return True
        formulas = sum((row + 1, place + 1) in self.marks.formulas for place in columns)
        return bool(marks) and (
            formulas * 2 >= len(marks)
            or (all(map(is_number, marks)) and any(float(mark) > 1 for mark in marks))
        )

    def titles(self, top: int) -> tuple[str, ...]:
        """Return what stands in the rows above row `top`, each text once."""
        cells = (cell.strip() for row in self.rows[:top] for cell in row)
        return tuple(dict.fromkeys(cell for cell in cells if cell))


def is_number(text: str) -> bool:
    """Say whether a cell is a plain number."""
    return re.fullmatch(r"\d+(?:\.\d+)?", text) is not None


def numbered_labels(labels: Sequence[str]) -> tuple[str, ...]:
    """Return labels so that none stands twice; a blank one is called after its place."""
    seen: dict[str, int] = {}
    named = []
    for place, label in enumerate(labels, 1):
        own = label or f"column {place}"
        seen[own] = seen.get(own, 0) + 1
        named.append(own if seen[own] == 1 else f"{own} ({seen[own]})")
    return tuple(named)
