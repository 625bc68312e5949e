"""Grids with a day in every column, or else in every row, as trainers keep them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import polars as pl

from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.date_grid import ACROSS, DateGrid, GridDay
from seasonboard.store.intake.days_down import find_days_down
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.heading_days import HeadingDay, heading_day, month_of, with_order
from seasonboard.store.intake.sheet_look import (
    FEWEST,
    GAME,
    LONGEST_MARK,
    Rows,
    SheetLook,
    is_number,
    numbered_labels,
)
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.time_words import half_of, time_of

_SOUGHT = 15
"""The row of days is sought among so many."""


def find_date_grid(rows: Rows, synonyms: Synonyms, marks: CellMarks) -> DateGrid | None:
    """Return the grid that a sheet is; None when it is a table of records.

    Args:
        rows: Its cells as text, from the first row on, all of one length.
        synonyms: Knows months, headings, words of games and practices, totals.
        marks: Formulas tell totals.
    """
    across = _AcrossLook(rows, synonyms, marks).across()
    return across or find_days_down(rows, synonyms, marks)


@dataclass(frozen=True, slots=True)
class _AcrossLook(SheetLook):
    """Looks for days across."""

    def across(self) -> DateGrid | None:
        """Return a grid with days across."""
        for head in range(min(_SOUGHT, len(self.rows))):
            days = self._days_of(self.rows[head], head)
            columns = [place for place, one in enumerate(days) if one is not None and one.month]
            if len(columns) < FEWEST or not self._holds_marks(head, columns):
                continue
            days = with_order(days, None)
            return self._across(head, {p: one for p in columns if (one := days[p]) is not None})
        return None

    def _days_of(self, cells: Sequence[str], head: int) -> list[HeadingDay | None]:
        """Read one row as days; bare numbers take the month of the band above them."""
        days = [heading_day(cell, self.synonyms.months) for cell in cells]
        bare = [one for one in days if one and not one.month and not one.numbers]
        if len(bare) < FEWEST:
            return [one and (replace(one, month=99) if one.numbers else one) for one in days]
        above = self.rows[head - 1] if head else [""] * len(cells)
        title = month_of(" ".join(" ".join(row) for row in self.rows[:head]), self.synonyms.months)
        month, filled = 0, []
        for place, one in enumerate(days):
            month = month_of(above[place], self.synonyms.months) or month
            own = month or title
            filled.append(replace(one, month=own) if one and not one.month and own else one)
        numbers = [(one.month, one.day) for one in filled if one and one.month]
        runs = [day for _, day in numbers]
        falls = sum(later <= earlier for earlier, later in pairwise(runs))
        months = len({month for month, _ in numbers})
        return filled if falls < max(1, months) else [None] * len(cells)

    def _holds_marks(self, head: int, columns: Sequence[int]) -> bool:
        below = [
            cell
            for row in self.rows[head + 1 :]
            for place in columns
            if (cell := row[place].strip())
        ]
        short = sum(len(cell) <= LONGEST_MARK for cell in below)
        dated = sum(heading_day(cell, self.synonyms.months) is not None for cell in below[:200])
        numbers = sum(is_number(cell) for cell in below)
        return bool(below) and short >= 0.9 * len(below) and max(dated, numbers) < 0.5 * len(below)

    def _across(self, head: int, days: Mapping[int, HeadingDay]) -> DateGrid:
        first, last = min(days), max(days)
        below = list(range(head + 1, len(self.rows)))
        beside = [*range(first), *range(last + 1, len(self.rows[head]))]
        named = [
            p for p in range(first) if any(self.rows[row][p].strip() for row in (head, *below))
        ]
        band = head > 0 and any(month_of(c, self.synonyms.months) for c in self.rows[head - 1])
        top = head - 1 if band else head
        rows_beside = self._rows_beside(top, head, sorted(days))
        grid_days = tuple(
            self._grid_day(place, self.rows[head][place], day, [r[place] for r in rows_beside])
            for place, day in sorted(days.items())
        )
        extra = {self.rows.index(row) for row in rows_beside if row in self.rows}
        people, left = self._people(
            [row for row in below if row not in extra], named, sorted(days), head
        )
        left += [
            (0, self.rows[head][p].strip())
            for p in beside
            if p > first and self.rows[head][p].strip()
        ]
        cells = pl.DataFrame(
            [(row + 1, p + 1, self.rows[row][p].strip() or None) for row in people for p in days],
            schema={"person": pl.UInt32, "day": pl.UInt32, "mark": pl.String},
            orient="row",
        )
        labels = tuple(self.rows[head][place].strip() for place in named)
        frame = pl.DataFrame(
            [(row + 1, *(self.rows[row][p].strip() or None for p in named)) for row in people],
            schema={"place": pl.UInt32, **dict.fromkeys(numbered_labels(labels), pl.String)},
            orient="row",
        )
        return DateGrid(
            ACROSS, self.titles(top), numbered_labels(labels), grid_days, frame, cells, tuple(left)
        )

    def _rows_beside(self, top: int, head: int, columns: Sequence[int]) -> list[Sequence[str]]:
        """Return the rows next to the days that say what each is: P or G, AM or PM, a time."""
        near = [*range(max(0, top - 2), top), *range(head + 1, min(head + 4, len(self.rows)))]
        return [
            self.rows[row]
            for row in near
            if self._tells(
                [self.rows[row][p].strip() for p in columns], self._label_words(row, columns[0])
            )
        ]

    def _label_words(self, row: int, first: int) -> str:
        return folded(" ".join(self.rows[row][:first]))

    def _tells(self, cells: Sequence[str], label: str) -> bool:
        filled = [cell for cell in cells if cell]
        if len(filled) * 2 < len(cells):
            return label in {"opponent", "opp", "vs", "event"} and bool(filled)
        settings = sum(bool(self.setting(cell)) for cell in filled)
        halves = sum(bool(half_of(cell)) for cell in filled)
        times = sum(bool(time_of(cell)) for cell in filled)
        known = label in {"", "p g", "g p", "type", "what", "setting", "session", "am pm", "time"}
        is_name = bool(label) and not known
        return not is_name and max(settings, halves, times) >= 0.6 * len(filled)

    def _grid_day(
        self, place: int, heading: str, day: HeadingDay, beside: Sequence[str]
    ) -> GridDay:
        half = time = setting = label = ""
        for text in (day.rest, *beside):
            setting = setting or self.setting(text)
            half = half or half_of(text)
            time = time or time_of(text)
            if GAME.match(text.strip()):
                label = text.strip()
        return GridDay(place + 1, heading.strip(), day, half, time, setting, label)

    def _people(
        self, below: Sequence[int], named: Sequence[int], columns: Sequence[int], head: int
    ) -> tuple[list[int], list[tuple[int, str]]]:
        """Part the rows below the days into people and what is none, with its text."""
        people: list[int] = []
        left: list[tuple[int, str]] = []
        gap = False
        for row in below:
            cells = self.rows[row]
            own = [cells[place].strip() for place in named if cells[place].strip()]
            marks = [cells[place].strip() for place in columns if cells[place].strip()]
            if not own and not marks:
                gap = gap or bool(people)
            elif not own or self.is_total(row, own, marks, columns) or (gap and not marks):
                left.append((row + 1, own[0] if own else marks[0]))
            elif list(cells) == list(self.rows[head]):
                left.append((row + 1, "the headings again"))
            else:
                people.append(row)
        return people, left
