"""From text to values: words, whole numbers, numbers, dates and instants."""

import zoneinfo
from functools import cache

import polars as pl

from seasonboard.load_options import ORDERS
from seasonboard.store.intake.column_text import ColumnText, WrittenAs
from seasonboard.store.intake.dates import read_moments
from seasonboard.store.intake.numbers import read_integer, read_number
from seasonboard.store.intake.problems import Findings, counted, quoted
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import distinct, mapped
from seasonboard.store.intake.word_spellings import meanings, side_within, tell_meanings
from seasonboard.store.intake.written_times import NOON, with_plain_durations
from seasonboard.stored_column import CellType, StoredColumn, StoredTable
from seasonboard.stored_tables import FIRST_YEAR, LAST_YEAR

OFFSET = "_offset"
"""An instant that came with an offset has it, in minutes, in the column of this ending."""

UNTIMED = "_untimed"
"""Rows of an instant that came without a time of day, which was put."""

_MAY_BE_DAYS = ("reached_at",)
"""Instants of which the day alone may be known."""

_TOLD_BY = {
    "athlete": ("athlete_name", "athlete_jersey"),
    "session": ("session_on",),
    "guard": ("guard_kind",),
}
_DATE = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
_INSTANT = (
    r"^([0-9]{4}-[0-9]{2}-[0-9]{2})[Tt ]([0-9]{2}:[0-9]{2})(:[0-9]{2})?(\.[0-9]{1,6})?[0-9]* ?"
    r"([Zz]|[+-](?:0[0-9]|1[0-4]):?[0-5][0-9])?$"
)


def read_values(
    table: StoredTable, text: pl.DataFrame, findings: Findings, written: WrittenAs | None = None
) -> pl.DataFrame:
    """Return the cells of one file, text with `file_no` and `file_row`, as values.

    A cell that could not be read is null and a problem; what was read as something else than it is
    written is noted. An instant stands as its local time without a zone, and its offset in minutes
    beside it (null when none was written).
    """
    written = written or WrittenAs()
    columns = [column for column in table.columns if column.name in text.columns]
    raw = text
    for column in columns:
        text = _without_marks(column, text, findings, written.synonyms)
    for column in columns:
        text = with_plain_durations(text, column.name, column.unit)
        if column.holds in {CellType.DATE, CellType.INSTANT}:
            text = _without_doubt(text, column.name, findings)
    read = [_read(ColumnText(column, text, findings, written)) for column in columns]
    for column in columns:
        if column.required and text[column.name].has_nulls():
            empty = text[column.name].is_null()
            for other in _TOLD_BY.get(column.name, ()):  # those were told by the name, or the day
                if other in text.columns:
                    empty &= text[other].is_null()
            said = f"is empty; every row of {table.name} needs {column.name}."
            findings.reject(raw, empty, column.name, said)
    if table.name == "injuries" and {"area", "side"} <= set(text.columns):
        _check_sides(text, read, findings, written)
    rows = pl.concat([text.select("file_no", "file_row"), *read], how="horizontal")
    return _with_timed(table, rows) if UNTIMED in rows.columns else rows


def _with_timed(table: StoredTable, rows: pl.DataFrame) -> pl.DataFrame:
    """Return rows that say, where the table has a column for it, of which no time was written."""
    if "timed" in table.names:
        told = pl.col("timed") if "timed" in rows.columns else pl.lit(None, dtype=pl.String)
        rows = rows.with_columns(timed=pl.when(UNTIMED).then(pl.lit("no")).otherwise(told))
    return rows.drop(UNTIMED)


def _without_marks(
    column: StoredColumn, text: pl.DataFrame, findings: Findings, synonyms: Synonyms
) -> pl.DataFrame:
    """Empty the cells that only say that nothing is there, except in keys and text."""
    name = column.name
    if column.is_free or text.schema[name] != pl.String:
        return text
    cells = text[name].unique()
    marks = cells.filter(cells.str.to_lowercase().is_in(list(synonyms.missing)))
    if column.holds is CellType.WORD:  # some words look like a mark
        marks = marks.filter(
            ~marks.is_in(list(meanings(marks.to_list(), name, column.words, synonyms)))
        )
    if marks.is_empty():
        return text
    empty = pl.col(name).is_in(marks.to_list())
    for part in text.filter(empty).partition_by("file_no", maintain_order=True):
        number = int(part["file_no"][0])
        row, _ = findings.origin(number, int(part["file_row"][0]))
        many = counted(part.height, "cell counts", "cells count")
        said = f"{many} as missing: {quoted(marks.sort())}."
        findings.tell(findings.labels[number], said, row, name)
    return text.with_columns(pl.when(~empty).then(pl.col(name)))


def _without_doubt(text: pl.DataFrame, name: str, findings: Findings) -> pl.DataFrame:
    """Take a date with a question mark as it is written, and tell it."""
    doubted = text[name].str.contains(r"[0-9]\s*\?+$").fill_null(False)
    if not doubted.any():
        return text
    findings.doubt(text, doubted, name, "has a question mark; the date was taken as it stands.")
    return text.with_columns(pl.col(name).str.strip_chars_end("? "))


def _read(one: ColumnText) -> pl.DataFrame:
    if one.column.holds is not CellType.INSTANT and one.cells.null_count() == one.text.height:
        return one.text.select(pl.col(one.name).cast(one.column.frame_type))
    return _READERS[one.column.holds](one)


def _text(one: ColumnText) -> pl.DataFrame:
    return one.text.select(one.name)


def _zone(one: ColumnText) -> pl.DataFrame:
    said = "is not a time zone of the IANA list, such as America/Chicago."
    one.reject(~pl.col(one.name).is_in(time_zones()), said, time_zones())
    return one.text.select(one.name)


@cache
def time_zones() -> list[str]:
    """Return the IANA time zones, by name."""
    return sorted(zoneinfo.available_timezones() - {"Factory", "localtime"})


def _word(one: ColumnText) -> pl.DataFrame:
    name, words = one.name, one.column.words
    spelled = distinct(one.cells)
    meant = meanings(spelled, name, words, one.written.synonyms)
    tell_meanings(one.text, name, meant, one.findings)
    if len(meant) < len(spelled):
        unknown = pl.col(name).is_not_null() & ~pl.col(name).is_in(list(meant))
        one.reject(unknown, f"is not one of: {', '.join(words)}.", words)
    return one.text.select(mapped(name, meant))


def _check_sides(
    text: pl.DataFrame, read: list[pl.DataFrame], findings: Findings, written: WrittenAs
) -> None:
    """Refuse an area that is written with another side than its row has."""
    areas = distinct(text["area"])
    within = {one: side for one in areas if (side := side_within(one, written.synonyms))}
    sides = next(frame["side"] for frame in read if frame.columns == ["side"])
    both = text.with_columns(side=sides, _said=mapped("area", within))
    said = "says {_said}, but the side of the row is {side}; one of them is wrong."
    findings.reject(both, pl.col("_said") != pl.col("side"), "area", said)


def _date(one: ColumnText) -> pl.DataFrame:
    name, dates = one.name, one.written.dates
    fits = pl.col(name).str.contains(_DATE)
    read = one.text.select(pl.when(fits).then(pl.col(name)).str.to_date("%Y-%m-%d", strict=False))
    other = one.text.filter(~one.cells.str.contains(_DATE).fill_null(True))
    if other.height:
        refused = one.findings.fatal
        late = one.joined(read_moments(one.of(other)))
        read = read.select(pl.coalesce(name, late["day"]))
        timed = late["day"].is_not_null() & (late["clock"] != "00:00:00.0")
        one.findings.doubt(one.text, timed, name, "has a time of day, which a date leaves out.")
        if one.findings.fatal > refused:
            return read  # the column as a whole was told
    how = f"{ORDERS[dates]} or 2026-10-03" if dates else "year-month-day such as 2026-10-03"
    one.reject_unread(read, f"is not a date of the calendar, written {how}.")
    return _within_years(one, read)


def _instant(one: ColumnText) -> pl.DataFrame:
    name, text = one.name, one.text
    time = one.written.time or (NOON if name in _MAY_BE_DAYS else None)
    parts = text.select(pl.col(name).str.extract_groups(_INSTANT)).unnest(name)
    day, minute, second, split, offset = (pl.col(part) for part in parts.columns)
    iso = day + "T" + minute + second.fill_null(":00") + split.fill_null(".0")
    frame = parts.select(whole=iso, offset=offset)
    other = text.filter(frame["whole"].is_null() & one.cells.is_not_null())
    refused = one.findings.fatal
    untimed = pl.repeat(value=False, n=text.height, eager=True)
    if other.height:
        moments = one.joined(read_moments(one.of(other)))
        if time:
            bare = moments["day"].is_not_null() & moments["clock"].is_null()
            one.findings.doubt(text, bare, name, f"has no time of day; {time} was put.")
            untimed = bare
        clock = pl.coalesce("clock", pl.lit(f"{time}:00.0" if time else None))
        late = moments.select(late=pl.col("day").cast(pl.String) + "T" + clock, zone="offset")
        frame = pl.concat([frame, late], how="horizontal").select(
            whole=pl.coalesce("whole", "late"), offset=pl.coalesce("offset", "zone")
        )
    local = pl.col("whole").str.to_datetime("%Y-%m-%dT%H:%M:%S%.f", time_unit="us", strict=False)
    read = frame.select(local.alias(name), _minutes(pl.col("offset")).alias(name + OFFSET))
    if untimed.any():
        read = read.with_columns(untimed.alias(UNTIMED))
    if one.findings.fatal > refused:
        return read
    said = "is not a date and time, written such as 2026-10-03T18:30 or 2026-10-03T18:30-05:00."
    one.reject_unread(read, said)
    return _within_years(one, read)


def _minutes(offset: pl.Expr) -> pl.Expr:
    """Return an offset from UTC, `Z`, `-05:00` or `+0930`, in minutes."""
    digits = offset.str.replace_all(r"[:+-]", "")
    hours, minutes = (digits.str.slice(at, 2).cast(pl.Int32, strict=False) for at in (0, 2))
    size = hours * 60 + minutes
    signed = pl.when(offset.str.starts_with("-")).then(-size).otherwise(size)
    return pl.when(offset.str.to_uppercase() == "Z").then(0).otherwise(signed).cast(pl.Int32)


def _within_years(one: ColumnText, read: pl.DataFrame) -> pl.DataFrame:
    """Refuse slips of the century; emptied, they are not held against other days as well."""
    outside = ~read[one.name].dt.year().is_between(FIRST_YEAR, LAST_YEAR)
    one.reject(outside, f"is outside the years {FIRST_YEAR} to {LAST_YEAR}.")
    return read.with_columns(pl.when(~outside).then(pl.col(one.name)).alias(one.name))


_READERS = dict.fromkeys((CellType.KEY, CellType.TEXT, CellType.LINES), _text) | {
    CellType.TIME_ZONE: _zone,
    CellType.WORD: _word,
    CellType.INTEGER: read_integer,
    CellType.NUMBER: read_number,
    CellType.DATE: _date,
    CellType.INSTANT: _instant,
}
