"""From headings to the columns of one table, where a file uses the table's own names."""

from collections.abc import Collection

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.cleaning import cleaned
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.problems import Findings, as_shown
from seasonboard.stored_column import StoredTable
from seasonboard.terms import nearest

REJECTED = "rejected_"
"""Columns of this beginning, as files of rejected rows have them, are passed over."""

_ATHLETE = ("athlete_name", "athlete_jersey", "athlete_team", "athlete_department")
_SESSION = ("session_on", "session_time", "session_team", "session_setting")
_GUARD = ("guard_kind", "guard_side")
_ORDER = ("order_note",)
_WEAR = ("worn_beside",)
BY_NAME = (*_ATHLETE, *_SESSION, *_GUARD, *_ORDER, *_WEAR)
"""Columns that may stand in for a key: an athlete's name, a session's day, a guard's kind; and the
note of an order, in which remakes and cancellations are told."""


def own_columns(table: StoredTable) -> list[str]:
    """Return the headings that a file in the table's own words may have."""
    names = set(table.names)
    by_name: list[str] = []
    if table.name != "roster" and names & {"athlete", "guard"}:
        by_name += _ATHLETE
    if "guard" in names and "athlete" not in names:
        by_name.append("athlete")
    if table.name in {"attendance", "wear"}:
        by_name += _SESSION
    if "guard" in names and table.name != "guards":
        by_name += _GUARD
    if table.name in {"guards", "stages"}:
        by_name += _ORDER
    if table.name == "wear":
        by_name += _WEAR
    return [*table.names, *by_name]


def fits(table: StoredTable, grid: Grid) -> bool:
    """Say whether a sheet has the table's own headings, all that it needs and no others."""
    names = [heading.casefold() for heading in grid.headings]
    known = own_columns(table)
    others = [name for name in names if name not in known and not name.startswith(REJECTED)]
    return not others and not _missing(table, names)


def own_text(table: StoredTable, grid: Grid, label: str, findings: Findings) -> pl.DataFrame | None:
    """Return the rows of one sheet as clean text under the table's own column names.

    Args:
        table: The table.
        grid: The sheet.
        label: The file, for messages.
        findings: Takes what is wrong with the header, and notes on cleaned cells.

    Returns:
        The columns the sheet has, `file_no` and `file_row`; None when the header cannot be used.
    """
    places = _places(table, grid, label, findings)
    if places is None:
        return None
    text = grid.body.select("file_row", **{name: pl.col(one) for name, one in places.items()})
    if places:
        text = text.filter(~pl.all_horizontal(pl.col(list(places)).is_null()))
    return numbered(cleaned(text, label, findings), label, findings)


def numbered(text: pl.DataFrame, label: str, findings: Findings) -> pl.DataFrame:
    """Return rows with the number of their file."""
    return text.with_columns(file_no=pl.lit(findings.labels.index(label), pl.UInt32))


def stands_in(table: StoredTable, name: str, given: Collection[str]) -> bool:
    """Say whether other columns name what the key column `name` would."""
    if name == "athlete" and table.name != "roster":
        return "athlete_name" in given or "athlete_jersey" in given
    if name == "session" and table.name != "sessions":
        return "session_on" in given
    if name == "guard" and table.name != "guards":
        people = {"athlete", "athlete_name", "athlete_jersey"}
        return "guard_kind" in given and bool(people & set(given))
    return False


def _missing(table: StoredTable, names: list[str]) -> list[str]:
    return [
        name for name in table.required if name not in names and not stands_in(table, name, names)
    ]


def _places(
    table: StoredTable, grid: Grid, label: str, findings: Findings
) -> dict[str, str] | None:
    """Match headings to columns: column name → column of the body."""
    places: dict[str, str] = {}
    known_names = own_columns(table)
    usable = True
    for heading, column in grid.places.items():
        known = heading.casefold()
        base = known.rpartition(" (")[0]
        if known.startswith(REJECTED):
            continue
        if known in known_names:
            places[known] = column
            continue
        near = None
        name: str | None = heading
        if base in places:
            said = "stands twice in the header; keep one."
            name, usable = heading.rpartition(" (")[0], False
        elif heading.startswith("(") or not heading:
            said, name = f"column {column.removeprefix('column_')} has values but no heading.", None
        else:
            said = f"is not a column of {table.name}: {', '.join(table.names)}."
            names = [heading.casefold() for heading in grid.headings]
            near = nearest(heading, [one for one in table.names if one not in names])
        shown = as_shown(name) if name else None
        findings.refuse(Problem(label, grid.header_row, None, shown, said, near))
    missing = _missing(table, [*places])
    for one in missing:
        said = f"the column is missing; {table.name} needs {', '.join(table.required)}."
        findings.refuse(Problem(label, grid.header_row, one, None, said))
    return places if usable and not missing else None
