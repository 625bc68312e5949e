"""Which files are meant: folders and files become sheets, each read as text."""

import hashlib
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from seasonboard.errors import IntakeError, Problem
from seasonboard.file_limits import MOST_FILE
from seasonboard.load_options import TEXTS, WORKBOOKS
from seasonboard.regular_files import UnusableFileError, is_folder, read_regular
from seasonboard.store.gate.reader_process import FileReader
from seasonboard.store.intake.carried_answers import CarriedAnswers
from seasonboard.store.intake.cell_marks import NO_MARKS, CellMarks
from seasonboard.store.intake.cleaning import clean_word
from seasonboard.store.intake.date_grid import DateGrid
from seasonboard.store.intake.date_grids import find_date_grid
from seasonboard.store.intake.decoding import decoded
from seasonboard.store.intake.grid import Grid, as_grid
from seasonboard.store.intake.header import fits
from seasonboard.store.intake.layout import SheetRows, all_rows, read_rows
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.workbooks import read_parquet, read_workbook
from seasonboard.stored_tables import TABLES
from seasonboard.terms import nearest

MOST_GRID_ROWS = 5_000
"""A sheet of more rows is no grid that a person keeps."""
_KINDS = (*TEXTS, *WORKBOOKS, ".parquet")


@dataclass(frozen=True, slots=True)
class OpenSheet:
    """One sheet of one file, read as text.

    `label` is how messages and the change log call it, `table` the table it is named after (None
    when it is not), `name` what it is called, `in_folder` whether its folder was named, not it.
    `date_grid` is what it holds where days stand in its columns or rows, `carried` what the kept
    mapping of a sheet much like it says.
    """

    path: Path
    label: str
    name: str
    table: str | None
    sha256: str
    grid: Grid
    in_folder: bool
    date_grid: DateGrid | None = None
    carried: CarriedAnswers | None = None
    marks: CellMarks = NO_MARKS


@dataclass(frozen=True, slots=True)
class OpenedSheets:
    """The sheets that could be read, and the tables whose file could not."""

    sheets: tuple[OpenSheet, ...]
    unread: frozenset[str]


def open_sheets(paths: Sequence[Path], findings: Findings, synonyms: Synonyms) -> OpenedSheets:
    """Read the files that are meant, in the order of `TABLES`, each file once.

    Args:
        paths: Folders and files: CSV, XLSX (and other workbooks) or Parquet.
        findings: Takes a problem for every path that cannot be used, and a label for every sheet.
        synonyms: Tells headings from titles.
    """
    files: dict[Path, tuple[Path, bool]] = {}
    for path in paths:
        inside = is_folder(path)
        try:
            meant = _in_folder(path, findings) if inside else _lone_file(path, findings)
            for file in meant:
                files.setdefault(file.resolve(), (file, inside))
        except (OSError, RuntimeError) as error:  # not to be looked at, or links in a circle
            findings.refuse(_problem(str(path), f"cannot be read: {_why(error)}."))
    order = {name: place for place, name in enumerate(TABLES)}
    chosen = sorted(files.values(), key=lambda one: order.get(one[0].stem.casefold(), len(order)))
    sheets: list[OpenSheet] = []
    unread = set()
    labels = _labels([file for file, _ in chosen])
    with FileReader() as reader:
        for (file, inside), label in zip(chosen, labels, strict=True):
            findings.labels.append(label)
            try:
                opened = _read(reader, file, label, findings, synonyms)
                sheets += [replace(one, path=file, in_folder=inside) for one in opened]
            except IntakeError as error:
                for problem in error.problems:
                    findings.refuse(problem)
                unread.add(file.stem.casefold())
            except (UnusableFileError, OSError) as error:
                is_unread = isinstance(error, OSError)
                said = f"cannot be read: {_why(error)}." if is_unread else str(error)
                findings.refuse(_problem(label, said))
                unread.add(file.stem.casefold())
    return OpenedSheets(tuple(sheets), frozenset(unread & TABLES.keys()))


def _read(
    reader: FileReader, file: Path, label: str, findings: Findings, synonyms: Synonyms
) -> list[OpenSheet]:
    def look(cells: list[str]) -> int:
        return len({cell for cell in map(clean_word, cells) if cell and synonyms.is_heading(cell)})

    data = read_regular(file, MOST_FILE)
    mark = hashlib.sha256(data).hexdigest()
    stem = file.stem.casefold()
    own = stem if stem in TABLES else None
    kind = file.suffix.casefold()
    if kind in WORKBOOKS:
        sheets = read_workbook(reader, data, label, findings, look)
        opened = []
        for sheet in sheets:
            called = label if len(sheets) == 1 else clean_word(f"{label} › {sheet.name}")
            if called != label:
                findings.labels.append(called)
            name = sheet.name.strip().casefold()
            table = name if name in TABLES else own if len(sheets) == 1 else None
            one = _opened(sheet.sheet_rows, called, table, findings, synonyms)
            grid = replace(one.grid, from_1904=sheet.from_1904)
            opened.append(replace(one, name=sheet.name, sha256=mark, grid=grid))
        return opened
    if kind == ".parquet":
        sheet_rows = read_parquet(reader, data, label)
    else:
        sheet_rows = read_rows(decoded(data, label, findings), label, findings, look)
    one = _opened(sheet_rows, label, own, findings, synonyms)
    return [replace(one, name=file.stem, sha256=mark)]


def _opened(
    sheet_rows: SheetRows, label: str, table: str | None, findings: Findings, synonyms: Synonyms
) -> OpenSheet:
    """Return a sheet as a grid with days across or down, or else as records below a header."""
    grid = as_grid(sheet_rows, label, findings, synonyms, _needed(table))
    own = OpenSheet(Path(), label, "", table, "", grid, in_folder=False, marks=sheet_rows.marks)
    is_small = sheet_rows.rows.height <= MOST_GRID_ROWS
    if not is_small or (table is not None and fits(TABLES[table], grid)):
        return own
    days = find_date_grid(all_rows(sheet_rows), synonyms, sheet_rows.marks)
    if days is None:
        return own
    findings.forget(label)
    nothing = Grid((), (), 1, sheet_rows.rows.select("file_row").clear())
    return replace(own, grid=nothing, date_grid=days, table=None)


def _needed(table: str | None) -> list[str]:
    return TABLES[table].required if table else []


def _in_folder(folder: Path, findings: Findings) -> list[Path]:
    try:
        files = sorted(
            file
            for file in folder.iterdir()
            if file.suffix.casefold() in _KINDS
            and file.suffix.casefold() != ".txt"
            and file.is_file()
            and not file.name.startswith(("~$", "."))
        )
    except OSError as error:
        findings.refuse(_problem(str(folder), f"cannot be read: {error.strerror}."))
        return []
    if not files:
        said = f"holds none of the tables of a season: {_table_files()}."
        findings.refuse(_problem(str(folder), said))
    return files


def _lone_file(path: Path, findings: Findings) -> list[Path]:
    if path.exists() and not path.is_file():
        said = "is a pipe or a device, not a file; name a folder, or a CSV, XLSX or Parquet file."
        findings.refuse(_problem(str(path), said))
        return []
    if not path.is_file():
        said = "does not exist; name a folder, or a CSV, XLSX or Parquet file."
        findings.refuse(_problem(str(path), said))
        return []
    if path.suffix.casefold() not in _KINDS:
        said = "is not a table; save it as CSV (UTF-8), XLSX or Parquet first."
        findings.refuse(_problem(str(path), said))
        return []
    return [path]


def _why(error: Exception) -> str:
    return getattr(error, "strerror", None) or str(error)


def left_out(sheet: OpenSheet) -> Problem:
    """Return the note on a sheet of a folder that is no table and has no mapping."""
    near = nearest(sheet.path.stem, list(TABLES))
    said = "was left out: it is not named after a table. Name it by itself to map its columns."
    return _problem(str(sheet.path), said, f"{near}{sheet.path.suffix}" if near else None)


def unnamed(sheet: OpenSheet) -> Problem:
    """Return the problem of a sheet that is no table and has no mapping."""
    near = nearest(sheet.name, list(TABLES))
    said = f"is not named after a table: {_table_files()}."
    return _problem(sheet.label, said, f"{near}{sheet.path.suffix}" if near else None)


def no_tables(folder: Path) -> Problem:
    """Return the problem of a folder in which nothing is a table."""
    return _problem(str(folder), f"holds none of the tables of a season: {_table_files()}.")


def _labels(files: list[Path]) -> list[str]:
    """Name files by their name alone; two of one name by their whole path."""
    times = Counter(file.name for file in files)
    return [clean_word(file.name if times[file.name] == 1 else str(file)) for file in files]


def _problem(label: str, said: str, near: str | None = None) -> Problem:
    return Problem(clean_word(label), None, None, None, said, near)


def _table_files() -> str:
    return ", ".join(f"{name}.csv" for name in TABLES)
