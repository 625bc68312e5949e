"""What the notes of an order tell: a remake and its reason, a cancellation and its day."""

import datetime as dt
import re
from contextlib import suppress

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.heading_days import heading_day
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.stored_column import StoredTable
from seasonboard.terms import REMAKE_REASONS

NOTE = "order_note"
_REMAKE = (
    r"(?i)\b(?:re-?made|re-?make|redo|re-?print(?:ed)?|replacement|replaces|instead)"
    r"\s*(?:of|for)?\s*:?\s*#?\s*([\w-]*[0-9][\w-]*)"
)
CANCELLED = r"(?i)\b(?:cancel+ed|cancel+ation|void(?:ed)?|called off|withdrawn)\b"
_CANCELLED_ON = CANCELLED + r"\s*(?:on|:)?\s*([0-9]{1,4}[-/.][0-9]{1,2}(?:[-/.][0-9]{2,4})?)"


def with_order_notes(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Fill `remake_of` and `remake_reason` of guards from the notes that tell a remake.

    Args:
        table: The table; only guards are touched.
        text: Its rows as text, with `order_note`.
        context: The load, whose findings take a note on every remake read so.
    """
    if table.name != "guards" or NOTE not in text.columns:
        return text
    absent = [name for name in ("remake_of", "remake_reason") if name not in text.columns]
    text = text.with_columns(pl.lit(None, pl.String).alias(name) for name in absent)
    keys = set(context.season.keys("guards", "guard")) | set(text["guard"].drop_nulls())
    notes = text[NOTE].drop_nulls().unique().to_list()
    remakes = {
        note: parts[1] for note in notes if (parts := re.search(_REMAKE, note)) and parts[1] in keys
    }
    reasons = {note: why for note in remakes if (why := _reason(note, context.synonyms))}
    told = pl.col(NOTE).is_in(list(remakes)) & pl.col("remake_of").is_null()
    said = "was read as a remake, from the notes."
    context.findings.doubt(text, told, NOTE, said)
    return text.with_columns(
        remake_of=pl.coalesce("remake_of", _of_note(remakes)),
        remake_reason=pl.coalesce("remake_reason", _of_note(reasons)),
    )


def _of_note(known: dict[str, str]) -> pl.Expr:
    return pl.col(NOTE).replace_strict(known, default=None, return_dtype=pl.String)


def _reason(note: str, synonyms: Synonyms) -> str | None:
    """Return the reason that the words of a note give."""
    words = folded(note).split()
    runs = [
        " ".join(words[start : start + size])
        for size in (3, 2, 1)
        for start in range(len(words) - size + 1)
    ]
    meant = meanings(runs, "remake_reason", REMAKE_REASONS, synonyms)
    return next((meant[run] for run in runs if run in meant), None)


def _near_day(written: str | None, last: str | None) -> str | None:
    """Return a day as ISO 8601, of two readings of it the one nearer to the row's last date."""
    day = heading_day(written or "", {})
    if written is None or day is None or day.month or day.numbers is None or not last:
        return written
    try:
        near = dt.date.fromisoformat(last[:10])
    except ValueError:
        return written
    readings = []
    for month, of_month in (day.numbers, day.numbers[::-1]):
        for year in (day.year,) if day.year else (near.year, near.year + 1):
            with suppress(ValueError):
                readings.append(dt.date(year, month, of_month))
    best = min(readings, key=lambda one: (abs(one - near), one < near), default=None)
    return best.isoformat() if best else written


def cancelled_rows(rows: pl.DataFrame, grid: Grid, label: str, findings: Findings) -> pl.DataFrame:
    """Return the orders that notes or a line through the row call off, with `cancelled_on` as text.

    Args:
        rows: `file_row`, `order_note`, and `last_day`: the date of the last stage, as text.
        grid: The sheet, which knows its struck-out rows.
        label: The sheet, for notes.
        findings: Takes a note on every order called off so.
    """
    note = pl.col(NOTE).fill_null("")
    is_struck = pl.col("file_row").is_in(list(grid.struck))
    off = rows.filter(note.str.contains(CANCELLED) | is_struck).with_columns(
        dated=note.str.extract(_CANCELLED_ON), is_struck=is_struck
    )
    dates = [_near_day(day, last) for day, last in off.select("dated", "last_day").iter_rows()]
    off = off.with_columns(dated=pl.Series(dates, dtype=pl.String))
    for row, text, day, last, struck_out in off.select(
        "file_row", NOTE, "dated", "last_day", "is_struck"
    ).iter_rows():
        how = "is struck out in the sheet" if struck_out else "is told in the notes"
        if day is None and last is None:
            said = f"{how}; no day of it could be read, so it stays open."
        elif day is None:
            said = f"{how} without a day; cancelled was put on {last}, the last date of its row."
        else:
            said = f"{how}; it was read as cancelled on {day}."
        findings.note(Problem(label, grid.row_shown(row), None, text, said))
    return off.with_columns(cancelled_on=pl.coalesce("dated", "last_day")).drop_nulls(
        "cancelled_on"
    )
