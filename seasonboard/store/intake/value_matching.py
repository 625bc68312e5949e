"""What the values of a sheet say of its columns, where the headings do not or say otherwise."""

from dataclasses import replace

import polars as pl

from seasonboard.store.intake.column_text import WrittenAs
from seasonboard.store.intake.mapping_draft import SAMPLE, MappingDraft, cells_of, examples
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_years import SeasonYears
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.time_words import NOON, UNKNOWN_TIMES, time_of
from seasonboard.store.intake.values import read_values
from seasonboard.stored_column import CellType, StoredColumn, StoredTable

_READABLE = 0.5


def match_values(draft: MappingDraft, synonyms: Synonyms) -> None:
    """Give a required column of closed words the one heading all of whose values are such words.

    A heading that was taken for mere text may be given away; one that another column needs is not.
    """
    for name in draft.table.required:
        column = draft.table.column(name)
        if not column.words or name in {*draft.columns, *draft.constants, *draft.without}:
            continue
        loose = [
            (one, many[0])
            for one, many in draft.columns.items()
            if len(many) == 1 and one in draft.table.names and _is_loose(draft.table.column(one))
        ]
        fitting = [
            (owner, heading)
            for owner, heading in [*((None, free) for free in draft.free()), *loose]
            if _says(column, cells_of(draft.sheet.grid, heading).head(SAMPLE), synonyms)
        ]
        if len(fitting) == 1:
            ((owner, heading),) = fitting
            draft.columns[name] = (heading,)
            if owner is not None:
                del draft.columns[owner]


def _is_loose(column: StoredColumn) -> bool:
    return column.holds is CellType.TEXT and not column.required


def _says(column: StoredColumn, cells: pl.Series, synonyms: Synonyms) -> bool:
    plain = replace(column, required=False, refers=None)
    return len(cells) > 0 and _readable(plain, cells, synonyms) == 1


def fits_column(draft: MappingDraft, name: str, heading: str, synonyms: Synonyms) -> bool:
    """Say whether all values under a heading are what a column holds."""
    column = replace(draft.table.column(name), required=False, refers=None)
    cells = cells_of(draft.sheet.grid, heading).head(SAMPLE)
    return len(cells) > 0 and _readable(column, cells, synonyms, draft.years) == 1


def check_values(draft: MappingDraft, synonyms: Synonyms) -> None:
    """Ask about columns whose values are mostly not what the column holds."""
    for name, headings in draft.columns.items():
        if name not in draft.table.names or len(headings) > 1:
            continue
        if headings[0] not in draft.sheet.grid.places:
            continue
        column = replace(draft.table.column(name), required=False, refers=None)
        if column.holds in {CellType.KEY, CellType.TEXT}:
            continue
        cells = cells_of(draft.sheet.grid, headings[0]).head(SAMPLE)
        if len(cells) and _readable(column, cells, synonyms, draft.years) < _READABLE:
            said = f"“{headings[0]}” holds {examples(draft.sheet.grid, headings[0])}, which is not "
            said += f"{column.holds.value} of {name}"
            said += f" ({', '.join(column.words)})" if column.words else ""
            said += f". Name another column with --column {name}=…, or translate the values in the "
            said += "mapping."
            draft.ask(name, said)


def _readable(
    column: StoredColumn, cells: pl.Series, synonyms: Synonyms, years: SeasonYears | None = None
) -> float:
    text = pl.DataFrame({"file_no": 0, "file_row": 0, column.name: cells})
    table = StoredTable("sample", "", (), (column,))
    shares = []
    for order in ("dmy", "mdy"):
        how = WrittenAs(synonyms, dates=order, time=NOON, years=years)
        read = read_values(table, text, Findings(["sample"]), how)
        missing = cells.str.to_lowercase().is_in(list(synonyms.missing))
        shares.append((read[column.name].is_not_null() | missing).mean())
    return max(float(str(share)) for share in shares)


def add_time(draft: MappingDraft) -> None:
    """Join a column of times to the one of days; without one, noon is put, and told."""
    for column in draft.table.columns:
        if column.holds is not CellType.INSTANT or column.name not in draft.columns:
            continue
        (day, *rest) = draft.columns[column.name]
        cells = cells_of(draft.sheet.grid, day).head(SAMPLE)
        if rest or bool(cells.str.contains(":").all()) or "time" in draft.constants:
            continue
        times = [one for one in draft.free() if _are_times(cells_of(draft.sheet.grid, one))]
        if len(times) == 1:
            draft.columns[column.name] = (day, times[0])
        elif not bool(cells.str.contains(r":|^[0-9]{5}\.").any()):
            draft.constants["time"] = NOON


def _are_times(cells: pl.Series) -> bool:
    """Say whether cells hold times of day: `18:30`, `6.30 pm`, `4 PM`, `TBA`."""
    texts = cells.head(SAMPLE).to_list()
    read = [one for one in texts if time_of(one)]
    return bool(read) and all(time_of(one) or one.casefold() in UNKNOWN_TIMES for one in texts)
