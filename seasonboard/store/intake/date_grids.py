"""Grids with a day in every column, or else in every row, as trainers keep them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.date_grid import (
    ACROSS,
    DOWN,
    FEWEST,
    GAME,
    LONGEST_MARK,
    DateGrid,
    GridDay,
    LeftOut,
    SheetLook,
    is_number,
)
from seasonboard.store.intake.legends import ATTENDANCE, usual_meaning
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import folded
from seasonboard.store.intake.written_times import (
    HeadingDay,
    half_of,
    heading_day,
    month_of,
    time_of,
    with_order,
)

_SOUGHT, _SOUGHT_COLUMNS = 15, 4
"""The row of days is sought among so many, the column of days among so many."""
_NO_MONTH = 99
"""Stands for the month of a heading such as 5/9 until the whole row settles it."""
_OPPONENTS = {"opponent", "opp", "vs", "event"}
_BESIDE_DAYS = {
    "half": {"am pm", "half", "am", "pm", "part of day"},
    "time": {"time", "start", "start time", "starts"},
    "setting": {"what", "type", "setting", "session", "p g", "g p", "game or practice", "kind"},
    "label": {*_OPPONENTS, "label", "description", "title"},
}
_ROWS_BESIDE = {"", "p g", "g p", "type", "what", "setting", "session", "am pm", "time"}


def find_date_grid(
    rows: Sequence[Sequence[str]], synonyms: Synonyms, marks: CellMarks
) -> DateGrid | None:
    """Return the grid that a sheet is; None when it is a table of records.

    `rows` are its cells as text, from the first row on, all of one length; formulas in `marks` tell
    totals.
    """
    trimmed = [[cell.strip() for cell in row] for row in rows]
    across = _AcrossLook(trimmed, synonyms, marks).across()
    return across or _DownLook(trimmed, synonyms, marks).down()


@dataclass(frozen=True, slots=True)
class _AcrossLook(SheetLook):
    """Looks for days across."""

    def across(self) -> DateGrid | None:
        """Return a grid with days across."""
        for head, cells in enumerate(self.rows[:_SOUGHT]):
            days = self._days_of(cells, head)
            columns = [column for column, one in enumerate(days) if one and one.month]
            if len(columns) >= FEWEST and self._holds_marks(head, columns):
                ordered = with_order(days)
                return self._grid(head, {at: one for at in columns if (one := ordered[at])})
        return None

    def _days_of(self, cells: Sequence[str], head: int) -> list[HeadingDay | None]:
        """Read one row as days; bare numbers take the month of the band above them."""
        days = [heading_day(cell, self.synonyms.months) for cell in cells]
        bare = [one for one in days if one and not one.month and not one.numbers]
        if len(bare) < FEWEST:
            return [replace(one, month=_NO_MONTH) if one and one.numbers else one for one in days]
        above = self.rows[head - 1] if head else [""] * len(cells)
        title = self._month(" ".join(" ".join(row) for row in self.rows[:head]))
        month, filled = 0, []
        for one, over in zip(days, above, strict=True):
            month = self._month(over) or month
            own = month or title
            filled.append(replace(one, month=own) if one and not one.month and own else one)
        numbers = [(one.month, one.day) for one in filled if one and one.month]
        falls = sum(later <= earlier for (_, earlier), (_, later) in pairwise(numbers))
        months = len({month for month, _ in numbers})
        return filled if falls < max(1, months) else [None] * len(cells)

    def _month(self, text: str) -> int:
        return month_of(text, self.synonyms.months)

    def _holds_marks(self, head: int, columns: Sequence[int]) -> bool:
        below = [cell for row in self.rows[head + 1 :] for at in columns if (cell := row[at])]
        short = sum(len(cell) <= LONGEST_MARK for cell in below)
        dated = sum(heading_day(cell, self.synonyms.months) is not None for cell in below[:200])
        numbers = sum(is_number(cell) for cell in below)
        return bool(below) and short >= 0.9 * len(below) and max(dated, numbers) < 0.5 * len(below)

    def _grid(self, head: int, days: Mapping[int, HeadingDay]) -> DateGrid:
        header, first, last = self.rows[head], min(days), max(days)
        below = range(head + 1, len(self.rows))
        named = [at for at in range(first) if any(self.rows[row][at] for row in (head, *below))]
        band = head > 0 and any(self._month(cell) for cell in self.rows[head - 1])
        top = head - 1 if band else head
        near = [*range(max(0, top - 2), top), *below[:3]]
        beside = [row for row in near if self._tells(row, sorted(days))]
        grid_days = [self._grid_day(head, at, day, beside) for at, day in sorted(days.items())]
        people, rest = self._people([one for one in below if one not in beside], named, head, days)
        rest += [(0, cell) for cell in header[last + 1 :] if cell]
        people_named = {row + 1: [self.rows[row][at] for at in named] for row in people}
        labels = [header[at] for at in named]
        grid = self.date_grid(ACROSS, labels, grid_days, people_named, rest)
        return replace(grid, titles=self.titles(top))

    def _tells(self, row: int, columns: Sequence[int]) -> bool:
        """Say whether a row next to the days says what each is: P or G, AM or PM, a time."""
        label = folded(" ".join(self.rows[row][: columns[0]]))
        filled = [cell for at in columns if (cell := self.rows[row][at])]
        if len(filled) * 2 < len(columns):
            return label in _OPPONENTS and bool(filled)
        readers = (self.setting, half_of, time_of)
        most = max(sum(bool(read(cell)) for cell in filled) for read in readers)
        return label in _ROWS_BESIDE and most >= 0.6 * len(filled)

    def _grid_day(self, head: int, at: int, day: HeadingDay, beside: Sequence[int]) -> GridDay:
        texts = (day.rest, *(self.rows[row][at] for row in beside))
        half, time, setting = (
            next(filter(None, map(read, texts)), "") for read in (half_of, time_of, self.setting)
        )
        label = next((text for text in reversed(texts) if GAME.match(text)), "")
        return GridDay(at + 1, self.rows[head][at], day, half, time, setting, label)

    def _people(
        self, below: Sequence[int], named: Sequence[int], head: int, days: Mapping[int, HeadingDay]
    ) -> tuple[list[int], list[LeftOut]]:
        """Part the rows below the days into people and what is none, with its text."""
        columns = sorted(days)
        people: list[int] = []
        rest: list[LeftOut] = []
        gap = False
        for row in below:
            cells = self.rows[row]
            own = [cells[at] for at in named if cells[at]]
            marks = [cells[at] for at in columns if cells[at]]
            if not own and not marks:
                gap = gap or bool(people)
            elif not own or self.is_total(row, own, marks, columns) or (gap and not marks):
                rest.append((row + 1, (own or marks)[0]))
            elif cells == self.rows[head]:
                rest.append((row + 1, "the headings again"))
            else:
                people.append(row)
        return people, rest


@dataclass(frozen=True, slots=True)
class _DownLook(SheetLook):
    """Looks for days down, with a person in every column."""

    def down(self) -> DateGrid | None:
        """Return a grid with days down."""
        width = len(self.rows[0]) if self.rows else 0
        for column in range(min(_SOUGHT_COLUMNS, width)):
            days = [heading_day(row[column], self.synonyms.months) for row in self.rows]
            dated = [row for row, one in enumerate(days) if one and (one.month or one.numbers)]
            if len(dated) < FEWEST and not (dated and len(self.rows) - dated[0] <= 2 * FEWEST):
                continue
            head = dated[0] - 1
            columns = self._person_columns(head, column, dated) if head >= 0 else []
            if len(columns) >= FEWEST:
                grid = self._grid(head, column, with_order(days), columns)
                if grid.days:  # else the columns hold no mark
                    return grid
        return None

    def _person_columns(self, head: int, column: int, dated: Sequence[int]) -> list[int]:
        """Return the columns of people: named like one, with marks below, and nothing else."""
        header, columns = self.rows[head], []
        for at in range(column + 1, len(header)):
            name = header[at]
            if not name or self.synonyms.is_heading(name) or _says(name) or self._is_site(name):
                continue
            cells = [cell for row in dated if (cell := self.rows[row][at])]
            known = sum(usual_meaning(cell, ATTENDANCE) is not None for cell in cells)
            if known * 2 >= len(cells) and all(len(cell) <= LONGEST_MARK for cell in cells):
                columns.append(at)
        likely = sum(_is_like_a_name(header[at]) for at in columns)
        return columns if likely * 2 >= max(1, len(columns)) else []

    def _is_site(self, heading: str) -> bool:
        """Say whether a heading is a part of the body, as in lists of injuries with ticks."""
        bare, _ = self.synonyms.parted_from_sides(heading)
        spellings = [self.synonyms.words.get(name, {}) for name in ("area", "kind")]
        return any(bare in one or bare in one.values() for one in spellings)

    def _grid(
        self, head: int, column: int, days: Sequence[HeadingDay | None], columns: Sequence[int]
    ) -> DateGrid:
        header = self.rows[head]
        others = set(range(len(header))) - {column, *columns}
        beside = {at: kind for at in sorted(others) if (kind := _says(header[at]))}
        grid_days = []
        rest: list[LeftOut] = []
        current: HeadingDay | None = None
        for row in range(head + 1, len(self.rows)):
            cells = self.rows[row]
            texts = [cell for cell in cells if cell]
            written = cells[column]
            current = days[row] if days[row] is not None else current if not written else None
            marks = [cells[at] for at in columns if cells[at]]
            if not texts:
                continue
            if current is None or not marks or self.is_total(row, texts[:1], marks, columns):
                rest.append((row + 1, texts[0]))
                current = current if not written else None
                continue
            values = {kind: self._value(kind, cells[at]) for at, kind in beside.items()}
            day = written or f"{current.month}/{current.day}"
            heading = " ".join(filter(None, (day, values.get("half", ""))))
            grid_days.append(GridDay(row + 1, heading, current, **values))
        rest += [(0, header[at]) for at in sorted(others - beside.keys()) if header[at]]
        jerseys = self._jerseys(head, columns)
        labels = ("name", "jersey") if jerseys else ("name",)
        top = head - 1 if jerseys else head
        people = {at + 1: [header[at], *jerseys.get(at, [])] for at in columns}
        grid = self.date_grid(DOWN, labels, grid_days, people, rest)
        return replace(grid, titles=self.titles(top))

    def _jerseys(self, head: int, columns: Sequence[int]) -> dict[int, list[str]]:
        above = {at: self.rows[head - 1][at] for at in columns} if head else {}
        numbers = [text for text in above.values() if re.fullmatch(r"#?\d{1,3}", text)]
        if len(numbers) * 2 < len(columns):
            return {}
        return {at: [text.removeprefix("#")] for at, text in above.items()}

    def _value(self, kind: str, text: str) -> str:
        readers = {"half": half_of, "time": time_of, "setting": self.setting}
        return readers[kind](text) if kind in readers else text


def _says(heading: str) -> str:
    """Return what a column beside the days says: half, time, setting, label, or nothing."""
    words = folded(heading)
    return next((kind for kind, known in _BESIDE_DAYS.items() if words in known), "")


def _is_like_a_name(text: str) -> bool:
    words = re.findall(r"[^\W\d_]{2,}", text)
    return len(words) >= 2 or (len(words) == 1 and "," in text) or bool(words and text.istitle())
