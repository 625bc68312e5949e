"""Good files to begin with: tables as rows of cells, and files of words."""

import csv
import io
from random import Random

import openpyxl
import polars as pl

from tests.intake.desk import SMALL_SEASON

Rows = list[list[str]]

TABLES: dict[str, Rows] = {
    name: list(csv.reader(io.StringIO(text))) for name, text in SMALL_SEASON.items()
}

FOREIGN: dict[str, Rows] = {
    "injury log": [
        ["Record", "Athlete No", "Injury date", "Body part", "Laterality", "Returned"],
        ["R1", "A1", "13/09/2026", "Shin", "L", ""],
        ["R2", "A2", "14/09/2026", "Knee", "rt.", "20/09/2026"],
        ["R3", "A3", "15/09/2026", "Ankle", "both", ""],
    ],
    "soccer attendance": [
        ["Women's Soccer", "", "", ""],
        ["Player", "5-Sep", "7-Sep", "9-Sep"],
        ["Ana Reed", "x", "x", "L"],
        ["Lind, Bo", "x", "out", ""],
    ],
    "orders": [
        ["Order", "Athlete", "Device", "Side", "Requested", "Printed", "Delivered", "Notes"],
        ["77", "A1", "wrist", "left", "1 Aug 2026", "4 Aug 2026", "9 Aug 2026", ""],
        ["78", "A2", "knee", "R", "2 Aug 2026", "", "", "redo of 77"],
    ],
    "print log": [
        ["Job", "Printer", "Print time", "Resin g", "Date"],
        ["G1", "P1", "3:30", "120", "2026-08-04"],
        ["G2", "P1", "5h12", "99,5", "2026-08-22"],
    ],
}

MAPPING = """\
# How files of the source “club” are read.

[[sheet]]
table = "injuries"
file = "injury log.csv"
dates = "dmy"
headings = ["Record", "Athlete No", "Injury date", "Body part", "Laterality", "Returned"]

[sheet.columns]
injury = "Record"
athlete = "Athlete No"
occurred_on = "Injury date"
area = "Body part"
side = "Laterality"
returned_on = "Returned"

[sheet.constants]
pathology = "contusion"

[sheet.values.side]
"rt." = "right"
"""

SPELLINGS = """\
[words.part]
full = ["went all in"]

[headings.roster]
name = ["who"]

[units.mm]
thumb = 25

[plausible]
minutes = [0, 130]

[missing]
marks = ["nix"]
"""

SETTINGS = 'store = ""\nseason = "2026"\ntheme = "dark"\nscreen = "compare"\n'


def as_csv(rows: Rows, chance: Random) -> bytes:
    """Write rows as CSV, mostly as usual, sometimes with another separator or encoding."""
    written = io.StringIO()
    mark = chance.choice([",", ",", ",", ";", "\t", "|"])
    ends = chance.choice(["\n", "\n", "\r\n", "\r"])
    quoting = chance.choice([csv.QUOTE_MINIMAL, csv.QUOTE_MINIMAL, csv.QUOTE_ALL])
    csv.writer(written, delimiter=mark, lineterminator=ends, quoting=quoting).writerows(rows)
    encoding = chance.choice(["utf-8", "utf-8", "utf-8-sig", "utf-16", "cp1252"])
    return written.getvalue().encode(encoding, errors="replace")


def as_workbook(sheets: dict[str, Rows], chance: Random) -> bytes:
    """Write rows as a workbook, some cells typed, sometimes with what people add to sheets."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        sheet = book.create_sheet(name[:31])
        for row in rows:
            sheet.append([_cell(one, chance) for one in row])
        if chance.random() < 0.2:
            sheet[chance.choice(["C3", "XFD1", "A1048576", "AAA900"])] = chance.choice([1, "x"])
        if chance.random() < 0.1:
            sheet.row_dimensions[2].hidden = True
        if chance.random() < 0.1:
            sheet["A2"] = chance.choice(["=1+1", "=NOW()", "=A1"])
        if chance.random() < 0.2:
            sheet.merge_cells(f"A1:{chance.choice('BCD')}{chance.randint(1, 3)}")
    if len(sheets) > 1 and chance.random() < 0.2:
        book.active.sheet_state = "hidden"
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def _cell(text: str, chance: Random) -> object:
    clean = "".join(one for one in text if one >= " " or one in "\n\t")
    if clean.replace(".", "", 1).isdigit() and len(clean) < 12 and chance.random() < 0.7:
        return float(clean)
    return clean[:32_000]


def as_parquet(rows: Rows, chance: Random) -> bytes:
    """Write rows as Parquet: names made single, some columns typed."""
    width = max(map(len, rows), default=0)
    names: list[str] = []
    for place in range(width):
        name = rows[0][place] if place < len(rows[0]) else ""
        names.append(name if name not in names else f"{name}{place}")
    columns = {
        name: [row[place] if place < len(row) else None for row in rows[1:]]
        for place, name in enumerate(names)
    }
    frame = pl.DataFrame(columns, schema=dict.fromkeys(names, pl.String))
    for name in names:
        kind = chance.choice([pl.String, pl.String, pl.Float64, pl.Int32, pl.Date, pl.Categorical,
                              pl.Binary, pl.Boolean, pl.Null, pl.Duration, pl.Time])  # fmt: skip
        if kind in {pl.Float64, pl.Int32, pl.Categorical, pl.Binary}:
            frame = frame.with_columns(pl.col(name).cast(kind, strict=False))
        elif kind is not pl.String:
            frame = frame.with_columns(pl.lit(None, pl.Int64).cast(kind).alias(name))
    written = io.BytesIO()
    frame.write_parquet(written)
    return written.getvalue()
