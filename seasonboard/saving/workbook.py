"""Workbooks: text in text cells, figures unrounded, nothing that runs and nothing hidden."""

import io
from collections.abc import Iterable, Mapping
from datetime import date, datetime
from typing import Any

from seasonboard.errors import SeasonboardError
from seasonboard.saving.text import harmless

MOST_ROWS = 1_048_575
"""Rows of a sheet below its headings (Excel specifications and limits)."""
MOST_LETTERS = 32_767
"""Letters of a cell (the same)."""
_FIRST_YEAR = 1900
"""Before it a workbook has no dates."""

Sheet = Any
"""Of xlsxwriter, which has no types."""
Style = Mapping[str, Any]
PLAIN: Style = {}
BOLD: Style = {"bold": True}
_DAY: Style = {"num_format": "yyyy-mm-dd"}
_INSTANT: Style = {"num_format": "yyyy-mm-dd hh:mm"}


class Workbook:
    """A workbook that is being written."""

    def __init__(self, title: str, hint: str, created: datetime | None = None) -> None:
        """Begin one; `hint` says what to do where it would not take something."""
        import xlsxwriter

        self._out, self._hint = io.BytesIO(), hint
        inert = {"strings_to_formulas": False, "strings_to_urls": False}
        options = {"in_memory": True, "strings_to_numbers": False} | inert
        self._book = xlsxwriter.Workbook(self._out, options)
        at = {} if created is None else {"created": created}
        self._book.set_properties({"title": harmless(title), **at})
        self._styles: dict[tuple[tuple[str, Any], ...], Any] = {}

    def sheet(self, name: str) -> Sheet:
        """Add a sheet."""
        return self._book.add_worksheet(name)

    def check_rows(self, count: int) -> None:
        """Refuse more rows than a sheet takes.

        Raises:
            SeasonboardError: There are.
        """
        if count > MOST_ROWS:
            raise self._too_large(f"{count:,} rows are")

    def write_text(
        self, sheet: Sheet, row: int, column: int, text: str, style: Style = PLAIN
    ) -> None:
        """Write text into a text cell; nothing where there is none.

        Raises:
            SeasonboardError: It is longer than a cell takes.
        """
        plain = harmless(text)
        if len(plain.encode("utf-16-le")) // 2 > MOST_LETTERS:
            raise self._too_large("a text is")
        if plain:
            sheet.write_string(row, column, plain, self._style(style))

    def write_column(
        self, sheet: Sheet, column: int, cells: Iterable[object], first: int, number: Style = PLAIN
    ) -> None:
        """Write cells below each other, days and instants as such; `number` styles figures.

        Raises:
            SeasonboardError: As `write_text`.
        """
        for row, cell in enumerate(cells, start=first):
            if isinstance(cell, bool):
                self.write_text(sheet, row, column, "yes" if cell else "no")
            elif isinstance(cell, date) and cell.year < _FIRST_YEAR:
                self.write_text(sheet, row, column, cell.isoformat())
            elif isinstance(cell, datetime):
                at = cell.replace(tzinfo=None)
                sheet.write_datetime(row, column, at, self._style(_INSTANT))
            elif isinstance(cell, date):
                sheet.write_datetime(row, column, cell, self._style(_DAY))
            elif isinstance(cell, str):
                self.write_text(sheet, row, column, cell)
            elif cell is not None:
                sheet.write_number(row, column, cell, self._style(number))

    def data(self) -> bytes:
        """End it and return what it is."""
        self._book.close()
        return self._out.getvalue()

    def _style(self, style: Style) -> Any:  # noqa: ANN401 - xlsxwriter has no types
        if not style:
            return None
        key = tuple(style.items())
        if key not in self._styles:
            self._styles[key] = self._book.add_format(dict(style))
        return self._styles[key]

    def _too_large(self, what: str) -> SeasonboardError:
        return SeasonboardError(
            f"{what} more than a workbook takes; nothing was written.", self._hint
        )
