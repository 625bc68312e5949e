"""What notes of orders and logs of prints tell: remakes, cancellations, hours of several runs."""

import datetime as dt
import re
from contextlib import suppress

import polars as pl

from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import distinct, filled_from, folded, mapped, with_text
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.store.intake.written_times import heading_day, hours_of
from seasonboard.stored_column import StoredTable
from seasonboard.terms import REMAKE_REASONS

NOTE = "order_note"
_REMAKE = (
    r"(?i)\b(?:re-?made|re-?make|redo|re-?print(?:ed)?|replacement|replaces|instead)"
    r"\s*(?:of|for)?\s*:?\s*#?\s*([\w-]*[0-9][\w-]*)"
)
CANCELLED = r"(?i)\b(?:cancel+ed|cancel+ation|void(?:ed)?|called off|withdrawn)\b"
_CANCELLED_ON = CANCELLED + r"\s*(?:on|:)?\s*([0-9]{1,4}[-/.][0-9]{1,2}(?:[-/.][0-9]{2,4})?)"
_FAILED = r"(?i)^\s*(fail\w*|abort\w*|error|thrown out|scrap\w*|cancel+ed|ruined|stopped|n\.?g\.?)"
_SHOWN_SUMS = 6


def with_order_notes(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Fill `remake_of` and `remake_reason` of guards from the notes that tell a remake, noted."""
    if table.name != "guards" or NOTE not in text.columns:
        return text
    text = with_text(text, ("remake_of", "remake_reason"))
    keys = {*context.season.keys("guards", "guard"), *text["guard"].drop_nulls()}
    parts = {note: re.search(_REMAKE, note) for note in distinct(text[NOTE])}
    remakes = {note: one[1] for note, one in parts.items() if one and one[1] in keys}
    reasons = {note: why for note in remakes if (why := _reason(note, context.synonyms))}
    remade = pl.col(NOTE).is_in(list(remakes)) & pl.col("remake_of").is_null()
    context.findings.doubt(text, remade, NOTE, "was read as a remake, from the notes.")
    text = filled_from(text, "remake_of", NOTE, remakes)
    return filled_from(text, "remake_reason", NOTE, reasons)


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
    if day is None or day.numbers is None or not last:
        return written
    readings = []
    with suppress(ValueError):
        near = dt.date.fromisoformat(last[:10])
        for month, of_month in (day.numbers, day.numbers[::-1]):
            for year in (day.year,) if day.year else (near.year, near.year + 1):
                with suppress(ValueError):
                    readings.append(dt.date(year, month, of_month))
    best = min(readings, key=lambda one: (abs(one - near), one < near), default=None)
    return best.isoformat() if best else written


def cancelled_rows(rows: pl.DataFrame, grid: Grid, label: str, findings: Findings) -> pl.DataFrame:
    """Return the orders that notes or a line through the row call off, with `cancelled_on` as text.

    `rows` has `file_row`, `order_note`, and `last_day`: the date of the last stage, as text. Every
    order called off so is noted.
    """
    note = pl.col(NOTE).fill_null("")
    is_struck = pl.col("file_row").is_in(list(grid.struck))
    off = rows.filter(note.str.contains(CANCELLED) | is_struck).with_columns(
        dated=note.str.extract(_CANCELLED_ON), is_struck=is_struck
    )
    dates = [_near_day(day, last) for day, last in off.select("dated", "last_day").iter_rows()]
    off = off.with_columns(dated=pl.Series(dates, dtype=pl.String))
    columns = ("file_row", NOTE, "dated", "last_day", "is_struck")
    for row, text, day, last, struck_out in off.select(columns).iter_rows():
        how = "is struck out in the sheet" if struck_out else "is told in the notes"
        if day is not None:
            said = f"{how}; it was read as cancelled on {day}."
        elif last is not None:
            said = f"{how} without a day; cancelled was put on {last}, the last date of its row."
        else:
            said = f"{how}; no day of it could be read, so it stays open."
        findings.tell(label, said, grid.row_shown(row), value=text)
    cancelled_on = pl.coalesce("dated", "last_day")
    return off.with_columns(cancelled_on=cancelled_on).drop_nulls("cancelled_on")


def with_runs_summed(text: pl.DataFrame, findings: Findings) -> pl.DataFrame:
    """Return one row a guard of a log with one row a print, which names no athlete.

    Hours of runs that count are added; of printer and material the last run's stand. Runs that
    failed give no hours; each is told.
    """
    if "print_hours" not in text.columns:
        return text
    failed = text["print_hours"].str.contains(_FAILED).fill_null(False)
    said = "is a print that failed; it gives no hours, no printer and no material."
    findings.doubt(text, failed, "print_hours", said)
    text = text.filter(~failed)
    if not text["guard"].is_duplicated().any():
        return text
    hours = {one: _hours(one) for one in distinct(text["print_hours"])}
    guards = text.group_by("guard", maintain_order=True).agg(
        pl.exclude("print_hours").drop_nulls().last(),
        _sum=mapped("print_hours", hours, pl.Float64).sum(),
        _first=pl.col("print_hours").first(),
        _runs=pl.len(),
        _row=pl.col("file_row").min(),
    )
    sums = guards.filter(pl.col("_runs") > 1)
    shown = ", ".join(
        f"{guard} ({runs} runs, {total:g} h)"
        for guard, runs, total in sums.select("guard", "_runs", "_sum").head(_SHOWN_SUMS).rows()
    )
    if shown:
        said = f"a guard printed in two or more runs has the hours of all, their sum: {shown}."
        findings.tell(findings.labels[int(sums["file_no"][0])], said, min(sums["_row"]))
    summed = pl.when(pl.col("_runs") > 1).then(pl.col("_sum").round(4).cast(pl.String))
    return guards.with_columns(print_hours=summed.otherwise("_first")).select(text.columns)


def _hours(text: str) -> float | None:
    is_plain = text.replace(".", "", 1).isdigit()
    return float(text) if is_plain else hours_of(text)
