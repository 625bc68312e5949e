"""Text is data: what would steer a terminal or reorder a line is taken out, all else is kept."""

import re

import polars as pl

from seasonboard.errors import Problem
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
    begins so after a semicolon, a tab, a bar or the end of a line, where a spreadsheet that parts
    cells by another sign than ours begins a cell of its own. Apostrophes before such a sign get one
    more, so that `cleaned` gives all back.
    """
    texts = [name for name, kind in frame.schema.items() if kind == pl.String]
    live = pl.col(texts).str.contains(_FORMULA) & ~pl.col(texts).str.contains(_SIGNED_NUMBER)
    return frame.with_columns(
        pl.when(live)
        .then(pl.col(texts).str.replace_all(_FORMULA, "${1}'${2}"))
        .otherwise(pl.col(texts))
        .name.keep()
    )


def escaped(frame: pl.DataFrame) -> pl.DataFrame:
    """Return text that `cleaned` gives back as it is, where no spreadsheet can run it.

    Formulas stay as they are; only text that begins with apostrophes before the sign of a formula
    gets one more, since `cleaned` takes one away.
    """
    texts = [name for name, kind in frame.schema.items() if kind == pl.String]
    return frame.with_columns(pl.col(texts).str.replace_all(_GUARD, "${1}''${2}"))


def without_guard(frame: pl.DataFrame) -> pl.DataFrame:
    """Return text without the apostrophe that `guarded` put before formulas."""
    texts = [name for name, kind in frame.schema.items() if kind == pl.String]
    held = [name for name in texts if _has_apostrophe(frame[name])]
    return frame.with_columns(pl.col(held).str.replace_all(_GUARD, "${1}${2}")) if held else frame


def _has_apostrophe(cells: pl.Series) -> bool:
    return bool(cells.str.contains("'", literal=True).any(ignore_nulls=True))


def without_steering(frame: pl.DataFrame) -> pl.DataFrame:
    """Return text without what would steer a terminal, reorder a line or break it.

    In free text the end of a line stays.
    """
    texts = [name for name, kind in frame.schema.items() if kind == pl.String]
    lined = pl.col([name for name in texts if name in LINED])
    plain = pl.col([name for name in texts if name not in LINED])
    ends = lined.str.replace_all(_ENDS, "\n").str.replace_all(r"\t+", " ")
    return frame.with_columns(
        one.str.replace_all(_FOR_POLARS, "").name.keep()
        for one in (ends, plain.str.replace_all(BREAKS, " "))
    )


def cleaned(frame: pl.DataFrame, label: str, findings: Findings) -> pl.DataFrame:
    """Return the text columns of `frame` without steering characters, and note which cells had any.

    Args:
        frame: `file_row` and text columns, trimmed.
        label: The file, for the notes.
        findings: Takes the notes.
    """
    frame = without_guard(frame)
    columns = [name for name in frame.columns if frame.schema[name] == pl.String]
    frame = frame.with_columns(
        pl.col([name for name in columns if name in LINED]).str.replace_all(_ENDS, "\n")
    )
    dirty = [name for name in columns if _is_dirty(frame[name])]
    if not dirty:
        return frame
    after = frame.with_columns(without_steering(frame.select(dirty)))
    _tell(frame, after, dirty, label=label, findings=findings)
    rest = trimmed(after.select(dirty))
    return after.with_columns(rest)


def _is_dirty(cells: pl.Series) -> bool:
    breaks = r"\t" if cells.name in LINED else BREAKS
    return bool(cells.str.contains(f"{breaks}|{_FOR_POLARS}").any(ignore_nulls=True))


def _tell(
    before: pl.DataFrame, after: pl.DataFrame, dirty: list[str], *, label: str, findings: Findings
) -> None:
    cells = pl.concat(
        after.filter(before[name] != after[name]).select(
            "file_row", column=pl.lit(name), value=pl.col(name)
        )
        for name in dirty
    ).sort("file_row", maintain_order=True)
    said = "held control or direction characters or line breaks; they were taken out."
    for row, column, value in cells.head(CELLS_TOLD).iter_rows():
        findings.note(Problem(label, row, column, as_shown(value), said))
    if cells.height > CELLS_TOLD:
        more = f"and {cells.height - CELLS_TOLD:,} more cells {said}"
        findings.note(Problem(label, None, None, None, more))
