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
from seasonboard.store.intake.cell_marks import NO_MARKS, CellMarks
from seasonboard.store.intake.cleaning import clean_word
from seasonboard.store.intake.date_grid import DateGrid
from seasonboard.store.intake.date_grids import find_date_grid
from seasonboard.store.intake.decoding import decoded
from seasonboard.store.intake.grid import Grid, as_grid
from seasonboard.store.intake.header import fits
from seasonboard.store.intake.layout import SheetRows, all_rows, read_rows
from seasonboard.store.intake.mapping import SheetMapping, SourceMapping
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.workbooks import Sheet, read_parquet, read_workbook
from seasonboard.stored_tables import TABLES
from seasonboard.terms import nearest

MOST_GRID_ROWS = 5_000
"""A sheet of more rows is no grid that a person keeps."""
_KINDS = (*TEXTS, *WORKBOOKS, ".parquet")
_TABLE_FILES = ", ".join(f"{name}.csv" for name in TABLES)


@dataclass(frozen=True, slots=True)
class TableSource:
    """The rows of one table in one sheet; `mapping` says how, None in the table's own words."""

    table: str
    label: str
    sha256: str
    grid: Grid
    mapping: SheetMapping | None = None


@dataclass(frozen=True, slots=True)
class OpenSheet:
    """One sheet of one file, read as text.

    `label` is how messages and the change log call it, `table` the table it is named after (None
    when it is not), `name` what it is called, `in_folder` whether its folder was named, not it.
    `date_grid` is what it holds where days stand in its columns or rows, `alike` the part of a kept
    mapping whose sheet was much like it.
    """

    path: Path
    label: str
    name: str
    table: str | None
    sha256: str
    grid: Grid
    in_folder: bool
    date_grid: DateGrid | None = None
    alike: tuple[SheetMapping, SourceMapping] | None = None
    marks: CellMarks = NO_MARKS

    @property
    def titles(self) -> tuple[str, ...]:
        """Return what stands above its table, its name and that of its file."""
        return (*(self.date_grid or self.grid).titles, self.name, self.path.stem)


@dataclass(frozen=True, slots=True)
class OpenedSheets:
    """The sheets that could be read, and the tables whose file could not."""

    sheets: tuple[OpenSheet, ...]
    unread: frozenset[str]


def open_sheets(paths: Sequence[Path], findings: Findings, synonyms: Synonyms) -> OpenedSheets:
    """Read the files that are meant, in the order of `TABLES`, each file once.

    `paths` are folders and files: CSV, workbooks or Parquet. `findings` takes a problem for every
    path that cannot be used, and a label for every sheet.
    """
    files: dict[Path, tuple[Path, bool]] = {}
    for path in paths:
        inside = is_folder(path)
        try:
            for file in _in_folder(path, findings) if inside else _lone_file(path, findings):
                files.setdefault(file.resolve(), (file, inside))
        except (OSError, RuntimeError) as error:  # not to be looked at, or links in a circle
            findings.refuse(_problem(path, _unreadable(error)))
    order = {name: nth for nth, name in enumerate(TABLES)}
    chosen = sorted(files.values(), key=lambda one: order.get(one[0].stem.casefold(), len(order)))
    times = Counter(file.name for file, _ in chosen)
    sheets: list[OpenSheet] = []
    unread = set()
    with FileReader() as reader:
        for file, inside in chosen:
            label = clean_word(file.name if times[file.name] == 1 else str(file))
            findings.labels.append(label)
            try:
                opened = _read(reader, file, label, findings, synonyms)
                sheets += [replace(one, in_folder=inside) for one in opened]
            except IntakeError as error:
                for problem in error.problems:
                    findings.refuse(problem)
                unread.add(file.stem.casefold())
            except (UnusableFileError, OSError) as error:
                said = _unreadable(error) if isinstance(error, OSError) else str(error)
                findings.refuse(_problem(label, said))
                unread.add(file.stem.casefold())
    return OpenedSheets(tuple(sheets), frozenset(unread & TABLES.keys()))


def _read(
    reader: FileReader, file: Path, label: str, findings: Findings, synonyms: Synonyms
) -> list[OpenSheet]:
    def look(cells: list[str]) -> int:
        return len({cell for cell in map(clean_word, cells) if cell and synonyms.is_heading(cell)})

    data = read_regular(file, MOST_FILE)
    kind = file.suffix.casefold()
    if kind in WORKBOOKS:
        sheets = read_workbook(reader, data, label, findings, look)
    elif kind == ".parquet":
        sheets = [Sheet(file.stem, read_parquet(reader, data, label))]
    else:
        text = decoded(data, label, findings)
        sheets = [Sheet(file.stem, read_rows(text, label, findings, look))]
    stem = file.stem.casefold()
    opened = []
    for sheet in sheets:
        name = sheet.name.strip().casefold()
        is_lone = len(sheets) == 1
        table = name if name in TABLES else stem if is_lone and stem in TABLES else None
        called = label if is_lone else clean_word(f"{label} › {sheet.name}")
        if called != label:
            findings.labels.append(called)
        grid, date_grid = _grids(sheet.sheet_rows, called, table, findings, synonyms)
        opened.append(OpenSheet(
            file, called, sheet.name, None if date_grid else table,
            hashlib.sha256(data).hexdigest(), replace(grid, from_1904=sheet.from_1904),
            in_folder=False, date_grid=date_grid, marks=sheet.sheet_rows.marks,
        ))  # fmt: skip
    return opened


def _grids(
    sheet_rows: SheetRows, label: str, table: str | None, findings: Findings, synonyms: Synonyms
) -> tuple[Grid, DateGrid | None]:
    """Return a sheet as records below a header, or as a grid with days across or down."""
    needed = TABLES[table].required if table else []
    grid = as_grid(sheet_rows, label, findings, synonyms, needed)
    is_small = sheet_rows.rows.height <= MOST_GRID_ROWS
    if not is_small or (table is not None and fits(TABLES[table], grid)):
        return grid, None
    days = find_date_grid(all_rows(sheet_rows), synonyms, sheet_rows.marks)
    if days is None:
        return grid, None
    findings.forget(label)
    return Grid((), (), 1, sheet_rows.rows.select("file_row").clear()), days


def _in_folder(folder: Path, findings: Findings) -> list[Path]:
    try:
        named = sorted(
            file
            for file in folder.iterdir()
            if file.suffix.casefold() in set(_KINDS) - {".txt"}
            and not file.name.startswith(("~$", "."))
        )
        files = [file for file in named if file.is_file()]
        for file in named:
            if file not in files:
                said = "was left out: it is a folder, a pipe or a device, or leads nowhere."
                findings.note(_problem(file, said))
    except OSError as error:
        findings.refuse(_problem(folder, _unreadable(error)))
        return []
    if not files:
        findings.refuse(no_tables(folder))
    return files


def _lone_file(path: Path, findings: Findings) -> list[Path]:
    if not path.is_file():
        what = "is a pipe or a device, not a file" if path.exists() else "does not exist"
        said = f"{what}; name a folder, or a CSV, XLSX or Parquet file."
    elif path.suffix.casefold() not in _KINDS:
        said = "is not a table; save it as CSV (UTF-8), XLSX or Parquet first."
    else:
        return [path]
    findings.refuse(_problem(path, said))
    return []


def _unreadable(error: Exception) -> str:
    return f"cannot be read: {getattr(error, 'strerror', None) or error}."


def left_out(sheet: OpenSheet) -> Problem:
    """Return the note on a sheet of a folder that is no table and has no mapping."""
    said = "was left out: it is not named after a table. Name it by itself to map its columns."
    return _problem(sheet.path, said, _near_table(sheet.path.stem, sheet))


def unnamed(sheet: OpenSheet) -> Problem:
    """Return the problem of a sheet that is no table and has no mapping."""
    said = f"is not named after a table: {_TABLE_FILES}."
    return _problem(sheet.label, said, _near_table(sheet.name, sheet))


def no_tables(folder: Path) -> Problem:
    """Return the problem of a folder in which nothing is a table."""
    return _problem(folder, f"holds none of the tables of a season: {_TABLE_FILES}.")


def _near_table(name: str, sheet: OpenSheet) -> str | None:
    near = nearest(name, list(TABLES))
    return f"{near}{sheet.path.suffix}" if near else None


def _problem(label: str | Path, said: str, near: str | None = None) -> Problem:
    return Problem(clean_word(str(label)), None, None, None, said, near)
