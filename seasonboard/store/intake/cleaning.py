"""Text is data: what would steer a terminal or reorder a line is taken out, all else is kept."""

import re

import polars as pl

from seasonboard.store.intake.problems import Findings, as_shown
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES

CELLS_TOLD = 100
"""So many cleaned cells of one file are told one by one."""

BREAKS = r"[\t\n\r]+"
LINED = frozenset(
    column.name
    for table in TABLES.values()
    for column in table.columns
    if column.holds is CellType.LINES
)
"""Free text, in which the end of a line is kept, as one letter; it is shown on one line."""
STEERING = (
    r"[\x00-\x08\x0B\x0C\x0E-\x1F\x7F-\x9F"  # C0, DEL, C1
    r"\u200E\u200F\u061C\u202A-\u202E\u2066-\u2069"  # direction marks, overrides, isolates
    r"\u2028\u2029"  # line and paragraph separators
    r"\u200B\u2060\uFEFF]"  # blanks without width
)
_ENDS = r"[ \t]*(\r\n|\r|\n)[ \t]*"
_FOR_POLARS = re.sub(r"\\u([0-9A-F]{4})", r"\\x{\1}", STEERING)

_SIGNS = r"[=+\-@\x{FF1D}\x{FF0B}\x{FF0D}\x{FF20}]"  # the wide ones count in East Asian settings
_BEGINS = r"(^|[;|\t\n\r][ \x22]*)"  # a cell of ours, or where another separator would begin one
_FORMULA = rf"{_BEGINS}('*{_SIGNS})"
_GUARD = rf"{_BEGINS}'('*{_SIGNS})"
_SIGNED_NUMBER = r"^[+-]?[0-9]+(?:[.,][0-9]+)?$"

OUTER = (
    " \t\n\r\x0b\x0c\x85\xa0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009"
    "\u200a\u2028\u2029\u202f\u205f\u3000\u200b\u2060\ufeff"
)
"""Blanks, seen and unseen, that do not belong to a value when they stand around it."""


def clean_word(text: str) -> str:
    """Return one piece of text (a heading, a file's name) fit to be shown."""
    return re.sub(STEERING, "", re.sub(BREAKS, " ", text.strip(OUTER))).strip(OUTER)


def trimmed(frame: pl.DataFrame) -> pl.DataFrame:
    """Return text columns without outer blanks; what is then empty is missing."""
    bare = pl.all().str.strip_chars(OUTER)
    return frame.select(pl.when(bare != "").then(bare))


def guarded(frame: pl.DataFrame) -> pl.DataFrame:
    """Return text that no spreadsheet takes for a formula: an apostrophe stands before it.

    Cells that begin like a formula (`=`, `+`, `-`, `@`) and are no numbers get one; so does what
    begins so after a sign by which some spreadsheet parts cells, or after the end of a line.
    Apostrophes before such a sign get one more, so that `cleaned` gives all back.
    """
    texts = _texts(frame)
    live = pl.col(texts).str.contains(_FORMULA) & ~pl.col(texts).str.contains(_SIGNED_NUMBER)
    return frame.with_columns(
        pl.when(live)
        .then(pl.col(texts).str.replace_all(_FORMULA, "${1}'${2}"))
        .otherwise(pl.col(texts))
        .name.keep()
    )


def escaped(frame: pl.DataFrame) -> pl.DataFrame:
    """Return text that `cleaned` gives back as it is, where no spreadsheet can run it.

    Apostrophes before the sign of a formula get one more, since `cleaned` takes one away.
    """
    return frame.with_columns(pl.col(_texts(frame)).str.replace_all(_GUARD, "${1}''${2}"))


def without_guard(frame: pl.DataFrame) -> pl.DataFrame:
    """Return text without the apostrophe that `guarded` put before formulas."""
    guards = [name for name in _texts(frame) if _contains(frame[name], "'")]
    return frame.with_columns(pl.col(guards).str.replace_all(_GUARD, "${1}${2}"))


def without_steering(frame: pl.DataFrame) -> pl.DataFrame:
    """Return text without what would steer a terminal, reorder a line or break it.

    In free text the end of a line stays.
    """
    texts = set(_texts(frame))
    lined, others = pl.col(sorted(texts & LINED)), pl.col(sorted(texts - LINED))
    ends = lined.str.replace_all(_ENDS, "\n").str.replace_all(r"\t+", " ")
    return frame.with_columns(
        one.str.replace_all(_FOR_POLARS, "").name.keep()
        for one in (ends, others.str.replace_all(BREAKS, " "))
    )


def cleaned(frame: pl.DataFrame, label: str, findings: Findings) -> pl.DataFrame:
    """Return trimmed text without steering characters, and note which cells had any."""
    frame = without_guard(frame)
    columns = _texts(frame)
    ends = pl.col([name for name in columns if name in LINED])
    frame = frame.with_columns(ends.str.replace_all(_ENDS, "\n"))
    breaks = {name: r"\t" if name in LINED else BREAKS for name in columns}
    dirty = [one for one in columns if _contains(frame[one], f"{breaks[one]}|{_FOR_POLARS}")]
    if not dirty:
        return frame
    after = frame.with_columns(without_steering(frame.select(dirty)))
    _tell(frame, after, dirty, label, findings)
    return after.with_columns(trimmed(after.select(dirty)))


def _texts(frame: pl.DataFrame) -> list[str]:
    return [name for name, kind in frame.schema.items() if kind == pl.String]


def _contains(cells: pl.Series, pattern: str) -> bool:
    return bool(cells.str.contains(pattern).any(ignore_nulls=True))


def _tell(
    before: pl.DataFrame, after: pl.DataFrame, dirty: list[str], label: str, findings: Findings
) -> None:
    cells = pl.concat(
        after.filter(before[name] != after[name]).select(
            "file_row", column=pl.lit(name), value=pl.col(name)
        )
        for name in dirty
    ).sort("file_row", maintain_order=True)
    said = "held control or direction characters or line breaks; they were taken out."
    for row, column, value in cells.head(CELLS_TOLD).iter_rows():
        findings.tell(label, said, row, column, as_shown(value))
    if cells.height > CELLS_TOLD:
        findings.tell(label, f"and {cells.height - CELLS_TOLD:,} more cells {said}")
