"""Grids with a day in every row and a person in every column."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.date_grid import DOWN, DateGrid, GridDay
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.heading_days import HeadingDay, heading_day, with_order
from seasonboard.store.intake.legends import ATTENDANCE, usual_meaning
from seasonboard.store.intake.sheet_look import FEWEST, LONGEST_MARK, Rows, SheetLook
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.time_words import half_of, time_of


def find_days_down(rows: Rows, synonyms: Synonyms, marks: CellMarks) -> DateGrid | None:
    """Return a grid with days down; None when the sheet is none."""
    return _DownLook(rows, synonyms, marks).down()


@dataclass(frozen=True, slots=True)
class _DownLook(SheetLook):
    """Looks for days down."""

    def down(self) -> DateGrid | None:
        """Return a grid with days down."""
        width = len(self.rows[0]) if self.rows else 0
        for column in range(min(4, width)):
            days = [heading_day(row[column], self.synonyms.months) for row in self.rows]
            dated = [row for row, one in enumerate(days) if one and (one.month or one.numbers)]
            if len(dated) < FEWEST and not (dated and len(self.rows) - dated[0] <= 2 * FEWEST):
                continue
            head = dated[0] - 1
            columns = self._person_columns(head, column, dated) if head >= 0 else []
            if len(columns) >= FEWEST:
                grid = self._down(head, column, with_order(days, None), columns)
                if grid.days:  # else the columns hold no mark
                    return grid
        return None

    def _person_columns(self, head: int, column: int, dated: Sequence[int]) -> list[int]:
        """Return the columns of people: named like one, with marks below, and nothing else."""
        columns = []
        for place in range(column + 1, len(self.rows[head])):
            name = self.rows[head][place].strip()
            if not name or self.synonyms.is_heading(name) or self._label(name):
                continue
            if self._is_site(name):
                continue
            cells = [c for row in dated if (c := self.rows[row][place].strip())]
            known = sum(usual_meaning(cell, ATTENDANCE) is not None for cell in cells)
            if known * 2 >= len(cells) and all(len(cell) <= LONGEST_MARK for cell in cells):
                columns.append(place)
        likely = [p for p in columns if _is_like_a_name(self.rows[head][p])]
        return columns if len(likely) * 2 >= max(1, len(columns)) else []

    def _is_site(self, heading: str) -> bool:
        """Say whether a heading is a part of the body, as in lists of injuries with ticks."""
        bare, _ = self.synonyms.parted_from_sides(heading)
        areas = self.synonyms.words.get("area", {})
        kinds = self.synonyms.words.get("kind", {})
        return bare in {*areas, *areas.values(), *kinds, *kinds.values()}

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
            if current is None or not marks or self.is_total(row, texts[:1], marks, columns):
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
        return DateGrid(DOWN, self.titles(top), labels, days, frame, cells, left)

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
            "setting": self.setting,
            "label": str.strip,
        }
        return readers[kind](text)


_BESIDE_DAYS = {
    "half": {"am pm", "half", "am", "pm", "part of day"},
    "time": {"time", "start", "start time", "starts"},
    "setting": {"what", "type", "setting", "session", "p g", "g p", "game or practice", "kind"},
    "label": {"opponent", "opp", "vs", "event", "label", "description", "title"},
}


def _written(day: HeadingDay) -> str:
    return f"{day.month}/{day.day}"


def _is_like_a_name(text: str) -> bool:
    words = re.findall(r"[^\W\d_]{2,}", text)
    return len(words) >= 2 or (len(words) == 1 and "," in text) or bool(words and text.istitle())
