"""From rows of text to the columns of one table."""

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.cleaning import clean_word, cleaned, trimmed
from seasonboard.store.intake.findings import Findings, as_shown
from seasonboard.store.intake.layout import read_rows
from seasonboard.store.intake.sources import Source
from seasonboard.store.intake.tables import TABLES, Table
from seasonboard.terms import nearest


def read_text(source: Source, found: Findings) -> pl.DataFrame | None:
    """Return the rows of one file as clean text under the table's own column names.

    Args:
        source: The file.
        found: Takes what is wrong with the header, ragged rows, and notes on cleaned cells.

    Returns:
        The columns the file has, `file_no` and `file_row`, blank rows left out; None when the
        header cannot be used.

    Raises:
        IntakeError: The file is not a CSV file in UTF-8.
    """
    rows = read_rows(source.data, source.label, found)
    cells = rows.drop("file_row")
    written = [cell or "" for cell in cells.row(0)]
    heading = [clean_word(cell) for cell in written]
    body = trimmed(cells.slice(1))
    places = _places(TABLES[source.table], heading, body, source.label, found)
    if places is None:
        _tell_separator(written, source.label, found)
        return None
    text = pl.concat([rows.slice(1).select("file_row"), body.select(**places)], how="horizontal")
    text = text.filter(~pl.all_horizontal(pl.col(list(places)).is_null()))
    text = cleaned(text, source.label, found)
    number = found.labels.index(source.label)
    return text.with_columns(file_no=pl.lit(number, pl.UInt32))


def _places(
    table: Table, heading: list[str], body: pl.DataFrame, label: str, found: Findings
) -> dict[str, str] | None:
    """Match headings to columns: column name → column of `body`."""
    places: dict[str, str] = {}
    usable = True
    for place, (name, column) in enumerate(zip(heading, body.columns, strict=True), 1):
        known = name.casefold()
        if not name and body[column].null_count() == body.height:
            continue  # spreadsheets leave empty columns behind
        if known in places:
            said = f"stands twice in the header, again as column {place}; keep one."
        elif known in table.names:
            places[known] = column
            continue
        elif not name:
            said = f"column {place} has values but no heading."
        else:
            said = f"is not a column of {table.name}: {', '.join(table.names)}."
        usable = usable and known not in places
        near = nearest(name, [one for one in table.names if one not in heading]) if name else None
        found.refuse(Problem(label, 1, None, as_shown(name) if name else None, said, near))
    missing = [name for name in table.required if name not in places]
    for name in missing:
        said = f"the column is missing; {table.name} needs {', '.join(table.required)}."
        found.refuse(Problem(label, 1, name, None, said))
    return places if usable and not missing else None


def _tell_separator(written: list[str], label: str, found: Findings) -> None:
    for mark, called in ((";", "semicolons"), ("\t", "tabs")):
        if len(written) == 1 and mark in written[0]:
            said = f"seems to be separated by {called}; save it with commas."
            found.refuse(Problem(label, None, None, None, said))
