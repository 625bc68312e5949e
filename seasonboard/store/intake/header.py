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
    by_name = [
        (_ATHLETE, table.name != "roster" and names & {"athlete", "guard"}),
        (("athlete",), "guard" in names and "athlete" not in names),
        (_SESSION, table.name in {"attendance", "wear"}),
        (_GUARD, "guard" in names and table.name != "guards"),
        (_ORDER, table.name in {"guards", "stages"}),
        (_WEAR, table.name == "wear"),
    ]
    return [*table.names, *(name for many, may_be in by_name if may_be for name in many)]


def fits(table: StoredTable, grid: Grid) -> bool:
    """Say whether a sheet has the table's own headings, all that it needs and no others."""
    names = [heading.casefold() for heading in grid.headings]
    others = {name for name in names if not name.startswith(REJECTED)} - set(own_columns(table))
    return not others and not _missing(table, names)


def own_text(table: StoredTable, grid: Grid, label: str, findings: Findings) -> pl.DataFrame | None:
    """Return the rows of one sheet as clean text under the table's own column names.

    They have the columns of the sheet, `file_no` and `file_row`; None when the header cannot be
    used, which `findings` then say.
    """
    columns = _columns(table, grid, label, findings)
    if columns is None:
        return None
    text = grid.body.select("file_row", **{name: pl.col(one) for name, one in columns.items()})
    if columns:
        text = text.filter(~pl.all_horizontal(pl.col(list(columns)).is_null()))
    return numbered(cleaned(text, label, findings), label, findings)


def numbered(text: pl.DataFrame, label: str, findings: Findings) -> pl.DataFrame:
    """Return rows with the number of their file."""
    return text.with_columns(file_no=pl.lit(findings.labels.index(label), pl.UInt32))


def stands_in(table: StoredTable, name: str, names: Collection[str]) -> bool:
    """Say whether other columns, `names`, name what the key column `name` would."""
    if name == "athlete" and table.name != "roster":
        return "athlete_name" in names or "athlete_jersey" in names
    if name == "session" and table.name != "sessions":
        return "session_on" in names
    if name == "guard" and table.name != "guards":
        people = {"athlete", "athlete_name", "athlete_jersey"}
        return "guard_kind" in names and not people.isdisjoint(names)
    return False


def _missing(table: StoredTable, names: Collection[str]) -> list[str]:
    return [one for one in table.required if one not in names and not stands_in(table, one, names)]


def _columns(
    table: StoredTable, grid: Grid, label: str, findings: Findings
) -> dict[str, str] | None:
    """Match headings to columns: column name → column of the body."""
    columns: dict[str, str] = {}
    own = own_columns(table)
    usable = True
    for heading, column in grid.places.items():
        name = heading.casefold()
        if name.startswith(REJECTED):
            continue
        if name in own:
            columns[name] = column
            continue
        near = None
        shown: str | None = as_shown(heading)
        if name.rpartition(" (")[0] in columns:
            said = "stands twice in the header; keep one."
            shown, usable = as_shown(heading.rpartition(" (")[0]), False
        elif heading.startswith("(") or not heading:
            said = f"column {column.removeprefix('column_')} has values but no heading."
            shown = None
        else:
            said = f"is not a column of {table.name}: {', '.join(table.names)}."
            names = {heading.casefold() for heading in grid.headings}
            near = nearest(heading, [one for one in table.names if one not in names])
        findings.refuse(Problem(label, grid.header_row, None, shown, said, near))
    missing = _missing(table, columns)
    for one in missing:
        said = f"the column is missing; {table.name} needs {', '.join(table.required)}."
        findings.refuse(Problem(label, grid.header_row, one, None, said))
    return columns if usable and not missing else None
