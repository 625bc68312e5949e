"""Grids with a day in every column or row and a mark in every cell, as trainers keep them."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import polars as pl

from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.heading_days import HeadingDay, heading_day, month_of, with_order
from seasonboard.store.intake.legends import ATTENDANCE, WEAR, usual_meaning
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.time_words import half_of, time_of

ACROSS, DOWN = "dates across", "dates down"

_SOUGHT = 15
"""The row or column of days is sought among so many."""
_FEWEST = 3
_LONGEST_MARK = 14
_GAME = re.compile(r"^(?:vs?\.?\s|@|at\s)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class GridDay:
    """One session of a grid: its day, and what stands beside it of half day, time and setting.

    `place` is its column (days across) or row (days down), counted from 1.
    """

    place: int
    heading: str
    day: HeadingDay
    half: str = ""
    time: str = ""
    setting: str = ""
    label: str = ""


@dataclass(frozen=True, slots=True)
class DateGrid:
    """A grid found in a sheet.

    Attributes:
        layout: `dates across` or `dates down`.
        titles: What stands above it, line by line.
        labels: The headings of the columns beside the days, such as “#” and “Player”.
        days: Its sessions.
        people: `place`, and the text under each of the labels.
        cells: `person` (a place of `people`), `day` (a place of `days`), `mark` (null: blank).
        left_out: Row and what stands there, of rows that are no person and no day; row 0 is a
            column.
    """

    layout: str
    titles: tuple[str, ...]
    labels: tuple[str, ...]
    days: tuple[GridDay, ...]
    people: pl.DataFrame
    cells: pl.DataFrame
    left_out: tuple[tuple[int, str], ...]

    @property
    def marks(self) -> list[str]:
        """Return the different marks, folded, the most frequent first; a blank is none of them."""
        marks = self.cells["mark"].drop_nulls().str.to_lowercase().value_counts(sort=True)
        return marks["mark"].to_list()


Rows = Sequence[Sequence[str]]


def find_date_grid(rows: Rows, synonyms: Synonyms, marks: CellMarks) -> DateGrid | None:
    """Return the grid that a sheet is; None when it is a table of records.

    Args:
        rows: Its cells as text, from the first row on, all of one length.
        synonyms: Knows months, headings, words of games and practices, totals.
        marks: Formulas tell totals.
    """
    seeker = _Seeker(rows, synonyms, marks)
    return seeker.across() or seeker.down()


@dataclass(frozen=True, slots=True)
class _Seeker:
    """Looks for a grid in the rows of one sheet."""

    rows: Rows
    synonyms: Synonyms
    marks: CellMarks

    def across(self) -> DateGrid | None:
        """Return a grid with days across."""
        for head in range(min(_SOUGHT, len(self.rows))):
            days = self._days_of(self.rows[head], head)
            columns = [place for place, one in enumerate(days) if one is not None and one.month]
            if len(columns) < _FEWEST or not self._holds_marks(head, columns):
                continue
            days = with_order(days, None)
            return self._across(head, {p: one for p in columns if (one := days[p]) is not None})
        return None

    def _days_of(self, cells: Sequence[str], head: int) -> list[HeadingDay | None]:
        """Read one row as days; bare numbers take the month of the band above them."""
        days = [heading_day(cell, self.synonyms.months) for cell in cells]
        bare = [one for one in days if one and not one.month and not one.numbers]
        if len(bare) < _FEWEST:
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
        short = sum(len(cell) <= _LONGEST_MARK for cell in below)
        dated = sum(heading_day(cell, self.synonyms.months) is not None for cell in below[:200])
        numbers = sum(_is_number(cell) for cell in below)
        return bool(below) and short >= 0.9 * len(below) and max(dated, numbers) < 0.5 * len(below)

    def _across(self, head: int, days: Mapping[int, HeadingDay]) -> DateGrid:
        first, last = min(days), max(days)
        below = list(range(head + 1, len(self.rows)))
        beside = [*range(first), *range(last + 1, len(self.rows[head]))]
        named = [p for p in beside if self.rows[head][p].strip() and p < first]
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
            schema={"place": pl.UInt32, **dict.fromkeys(_numbered(labels), pl.String)},
            orient="row",
        )
        return DateGrid(
            ACROSS, self._titles(top), _numbered(labels), grid_days, frame, cells, tuple(left)
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
        settings = sum(bool(self._setting(cell)) for cell in filled)
        halves = sum(bool(half_of(cell)) for cell in filled)
        times = sum(bool(time_of(cell)) for cell in filled)
        known = label in {"", "p g", "g p", "type", "what", "setting", "session", "am pm", "time"}
        is_name = bool(label) and not known
        return not is_name and max(settings, halves, times) >= 0.6 * len(filled)

    def _setting(self, text: str) -> str:
        word = folded(text)
        if _GAME.match(text.strip()):
            return "game"
        for known in ("game", "practice"):
            if word == known:
                return known
        return str(self.synonyms.words.get("setting", {}).get(word, ""))

    def _grid_day(
        self, place: int, heading: str, day: HeadingDay, beside: Sequence[str]
    ) -> GridDay:
        half = time = setting = label = ""
        for text in (day.rest, *beside):
            setting = setting or self._setting(text)
            half = half or half_of(text)
            time = time or time_of(text)
            if _GAME.match(text.strip()):
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
            elif not own or self._is_total(row, own, marks, columns) or (gap and not marks):
                left.append((row + 1, own[0] if own else marks[0]))
            elif list(cells) == list(self.rows[head]):
                left.append((row + 1, "the headings again"))
            else:
                people.append(row)
        return people, left

    def _is_total(
        self, row: int, own: Sequence[str], marks: Sequence[str], columns: Sequence[int]
    ) -> bool:
        first = folded(own[-1]).split(" ")
        if first[0] in self.synonyms.totals or folded(own[0]) in self.synonyms.totals:
            return True
        formulas = sum((row + 1, place + 1) in self.marks.formulas for place in columns)
        return bool(marks) and (
            formulas * 2 >= len(marks)
            or (all(map(_is_number, marks)) and any(float(mark) > 1 for mark in marks))
        )

    def _titles(self, top: int) -> tuple[str, ...]:
        cells = (cell.strip() for row in self.rows[:top] for cell in row)
        return tuple(dict.fromkeys(cell for cell in cells if cell))

    def down(self) -> DateGrid | None:
        """Return a grid with days down."""
        width = len(self.rows[0]) if self.rows else 0
        for column in range(min(4, width)):
            days = [heading_day(row[column], self.synonyms.months) for row in self.rows]
            dated = [row for row, one in enumerate(days) if one and (one.month or one.numbers)]
            if len(dated) < _FEWEST and not (dated and len(self.rows) - dated[0] <= 2 * _FEWEST):
                continue
            head = dated[0] - 1
            columns = self._person_columns(head, column, dated) if head >= 0 else []
            if len(columns) >= _FEWEST:
                return self._down(head, column, with_order(days, None), columns)
        return None

    def _person_columns(self, head: int, column: int, dated: Sequence[int]) -> list[int]:
        """Return the columns of people: named like one, with marks below, and nothing else."""
        columns = []
        for place in range(column + 1, len(self.rows[head])):
            name = self.rows[head][place].strip()
            if not name or self.synonyms.is_heading(name) or self._label(name):
                continue
            cells = [c for row in dated if (c := self.rows[row][place].strip())]
            known = sum(usual_meaning(cell, ATTENDANCE) is not None for cell in cells)
            if known * 2 >= len(cells) and all(len(cell) <= _LONGEST_MARK for cell in cells):
                columns.append(place)
        likely = [p for p in columns if _is_like_a_name(self.rows[head][p])]
        return columns if len(likely) * 2 >= max(1, len(columns)) else []

    def _label(self, heading: str) -> str:
        """Return what a column beside the days says: half, time, setting, label, or nothing."""
        words = folded(heading)
        for kind, known in _BESIDE_DAYS.items():
            if words in known:
                return kind
        return ""

    def _down(
        self, head: int, column: int, days: Sequence[HeadingDay | None], columns: Sequence[int]
    ) -> DateGrid:
        beside = {
            place: kind
            for place, name in enumerate(self.rows[head])
            if place != column and place not in columns and (kind := self._label(name))
        }
        grid_days, left = [], []
        current: HeadingDay | None = None
        for row in range(head + 1, len(self.rows)):
            cells = self.rows[row]
            texts = [cell.strip() for cell in cells if cell.strip()]
            written = cells[column].strip()
            current = days[row] if days[row] is not None else current if not written else None
            marks = [cells[p].strip() for p in columns if cells[p].strip()]
            if not texts:
                continue
            if current is None or not marks or self._is_total(row, texts[:1], marks, columns):
                left.append((row + 1, texts[0]))
                current = current if not written else None
                continue
            told = {kind: self._beside_value(kind, cells[place]) for place, kind in beside.items()}
            heading = " ".join(filter(None, (written or _written(current), told.get("half", ""))))
            grid_days.append(GridDay(row + 1, heading, current, **told))
        left += [
            (0, name.strip())
            for place, name in enumerate(self.rows[head])
            if name.strip() and place not in {column, *columns, *beside}
        ]
        return self._down_grid(head, columns, tuple(grid_days), tuple(left))

    def _down_grid(
        self,
        head: int,
        columns: Sequence[int],
        days: tuple[GridDay, ...],
        left: tuple[tuple[int, str], ...],
    ) -> DateGrid:
        jerseys = self._jerseys(head, columns)
        labels = ("name", "jersey") if jerseys else ("name",)
        frame = pl.DataFrame(
            [
                (p + 1, self.rows[head][p].strip(), *((jerseys[p],) if jerseys else ()))
                for p in columns
            ],
            schema={"place": pl.UInt32, **dict.fromkeys(labels, pl.String)},
            orient="row",
        )
        cells = pl.DataFrame(
            [
                (p + 1, day.place, self.rows[day.place - 1][p].strip() or None)
                for day in days
                for p in columns
            ],
            schema={"person": pl.UInt32, "day": pl.UInt32, "mark": pl.String},
            orient="row",
        )
        top = head - 1 if jerseys else head
        return DateGrid(DOWN, self._titles(top), labels, days, frame, cells, left)

    def _jerseys(self, head: int, columns: Sequence[int]) -> dict[int, str]:
        if head == 0:
            return {}
        above = {place: self.rows[head - 1][place].strip() for place in columns}
        numbers = [text for text in above.values() if re.fullmatch(r"#?\d{1,3}", text)]
        if len(numbers) * 2 < len(columns):
            return {}
        return {place: text.removeprefix("#") for place, text in above.items()}

    def _beside_value(self, kind: str, text: str) -> str:
        readers: dict[str, Callable[[str], str]] = {
            "half": half_of,
            "time": time_of,
            "setting": self._setting,
            "label": str.strip,
        }
        return readers[kind](text)


_BESIDE_DAYS = {
    "half": {"am pm", "half", "am", "pm", "part of day"},
    "time": {"time", "start", "start time", "starts"},
    "setting": {"what", "type", "setting", "session", "p g", "g p", "game or practice", "kind"},
    "label": {"opponent", "opp", "vs", "event", "label", "description", "title"},
}


def grid_holds(grid: DateGrid, name: str) -> str:
    """Return what a grid is of, `attendance` or `wear`, by its titles, labels and name."""
    words = set(folded(" ".join((*grid.titles, *grid.labels, name))).split())
    return WEAR if words & {"worn", "wear", "wore", "guard", "guards", "brace"} else ATTENDANCE


def _written(day: HeadingDay) -> str:
    return f"{day.month}/{day.day}"


def _is_number(text: str) -> bool:
    return re.fullmatch(r"\d+(?:\.\d+)?", text) is not None


def _is_like_a_name(text: str) -> bool:
    words = re.findall(r"[^\W\d_]{2,}", text)
    return len(words) >= 2 or (len(words) == 1 and "," in text) or bool(words and text.istitle())


def _numbered(labels: Sequence[str]) -> tuple[str, ...]:
    """Return labels so that none stands twice; a blank one is called after its place."""
    seen: dict[str, int] = {}
    named = []
    for place, label in enumerate(labels, 1):
        own = label or f"column {place}"
        seen[own] = seen.get(own, 0) + 1
        named.append(own if seen[own] == 1 else f"{own} ({seen[own]})")
    return tuple(named)
