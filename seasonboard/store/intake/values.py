"""From text to values: words, whole numbers, numbers, dates and instants."""

import zoneinfo
from functools import cache

import polars as pl

from seasonboard.store.intake.findings import Findings
from seasonboard.store.intake.tables import FIRST_YEAR, LAST_YEAR, Column, Holds, Table

OFFSET = "_offset"
"""An instant that came with an offset has it, in minutes, in the column of this ending."""

_INTEGER = r"^\+?[0-9]{1,18}$"
_NUMBER = r"^\+?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$"
_DATE = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
_INSTANT = (
    r"^([0-9]{4}-[0-9]{2}-[0-9]{2})[Tt ]([0-9]{2}:[0-9]{2})(:[0-9]{2})?(\.[0-9]{1,6})?[0-9]* ?"
    r"([Zz]|[+-](?:0[0-9]|1[0-4]):?[0-5][0-9])?$"
)


def read_values(table: Table, text: pl.DataFrame, found: Findings) -> pl.DataFrame:
    """Return the cells of one file as values.

    Args:
        table: What the columns hold.
        text: The cells as text, with `file_no` and `file_row`.
        found: Takes a problem for every cell that holds something else.

    Returns:
        The same rows; a cell that could not be read is null. An instant stands as its local time
        without a zone, and its offset in minutes beside it (null when none was written).
    """
    columns = [column for column in table.columns if column.name in text.columns]
    read = [_read(column, text, found) for column in columns]
    for column in columns:
        if column.required and text[column.name].has_nulls():
            found.reject(text, pl.col(column.name).is_null(), column.name, _empty(column, table))
    return pl.concat([text.select("file_no", "file_row"), *read], how="horizontal")


def _read(column: Column, text: pl.DataFrame, found: Findings) -> pl.DataFrame:
    name = column.name
    if column.holds is not Holds.INSTANT and text[name].null_count() == text.height:
        return text.select(pl.col(name).cast(column.frame_type))
    return _READERS[column.holds](column, text, found)


def _empty(column: Column, table: Table) -> str:
    return f"is empty; every row of {table.name} needs {column.name}."


def _text(column: Column, text: pl.DataFrame, found: Findings) -> pl.DataFrame:
    if column.name == "time_zone":
        _check_zones(column, text, found)
    return text.select(column.name)


def _check_zones(column: Column, text: pl.DataFrame, found: Findings) -> None:
    wrong = ~pl.col(column.name).is_in(time_zones())
    said = "is not a time zone of the IANA list, such as America/Chicago."
    found.reject(text, wrong, column.name, said, known=time_zones())


@cache
def time_zones() -> list[str]:
    """Return the IANA time zones, by name."""
    return sorted(zoneinfo.available_timezones() - {"Factory", "localtime"})


def _word(column: Column, text: pl.DataFrame, found: Findings) -> pl.DataFrame:
    name = column.name
    written = text[name].unique().drop_nulls().to_list()
    known = {word.casefold(): str(word) for word in column.words}
    meant = {one: known[one.casefold()] for one in written if one.casefold() in known}
    word = pl.col(name).replace_strict(meant, default=None, return_dtype=pl.String)
    if len(meant) < len(written):
        said = f"is not one of: {', '.join(column.words)}."
        unknown = pl.col(name).is_not_null() & ~pl.col(name).is_in(list(meant))
        found.reject(text, unknown, name, said, known=column.words)
    return text.select(word.alias(name))


def _integer(column: Column, text: pl.DataFrame, found: Findings) -> pl.DataFrame:
    name = column.name
    fits = pl.col(name).str.contains(_INTEGER)
    read = text.select(pl.when(fits).then(pl.col(name)).cast(pl.Int64, strict=False))
    too_big = (read[name] > column.high).fill_null(False)  # int64 is wider than the store's
    said = "is not a whole number of 0 or more, such as 12."
    found.reject(text, ~fits | too_big, name, said)
    return read


def _number(column: Column, text: pl.DataFrame, found: Findings) -> pl.DataFrame:
    name = column.name
    fits = pl.col(name).str.contains(_NUMBER)
    read = text.select(pl.when(fits).then(pl.col(name)).cast(pl.Float64, strict=False))
    top = float("inf") if column.high is None else column.high
    fine = (read[name] <= top) & read[name].is_finite()
    most = "of 0 or more" if column.high is None else f"from 0 to {column.high:g}"
    said = f"is not a number {most}, written with a decimal point, such as 12.5."
    found.reject(text, ~fits | ~fine.fill_null(True), name, said)
    return read


def _date(column: Column, text: pl.DataFrame, found: Findings) -> pl.DataFrame:
    name = column.name
    fits = pl.col(name).str.contains(_DATE)
    read = text.select(pl.when(fits).then(pl.col(name)).str.to_date("%Y-%m-%d", strict=False))
    unread = read[name].is_null() & text[name].is_not_null()
    said = "is not a date of the calendar, written year-month-day such as 2026-10-03."
    found.reject(text, unread, name, said)
    _check_years(text, read[name], found)
    return read


def _instant(column: Column, text: pl.DataFrame, found: Findings) -> pl.DataFrame:
    name = column.name
    parts = text.select(pl.col(name).str.extract_groups(_INSTANT)).unnest(name)
    day, minute, second, split, offset = (pl.col(part) for part in parts.columns)
    whole = day + "T" + minute + second.fill_null(":00") + split.fill_null(".0")
    local = whole.str.to_datetime("%Y-%m-%dT%H:%M:%S%.f", time_unit="us", strict=False)
    digits = offset.str.replace_all(r"[:+-]", "")
    size = digits.str.slice(0, 2).cast(pl.Int32, strict=False) * 60
    size += digits.str.slice(2, 2).cast(pl.Int32, strict=False)
    minutes = pl.when(offset.str.starts_with("-")).then(-size).otherwise(size)
    minutes = pl.when(offset.str.to_uppercase() == "Z").then(0).otherwise(minutes)
    read = parts.select(local.alias(name), minutes.cast(pl.Int32).alias(name + OFFSET))
    unread = read[name].is_null() & text[name].is_not_null()
    said = "is not a date and time, written such as 2026-10-03T18:30 or 2026-10-03T18:30-05:00."
    found.reject(text, unread, name, said)
    _check_years(text, read[name], found)
    return read


def _check_years(text: pl.DataFrame, read: pl.Series, found: Findings) -> None:
    outside = ~read.dt.year().is_between(FIRST_YEAR, LAST_YEAR)
    said = f"is outside the years {FIRST_YEAR} to {LAST_YEAR}."
    found.reject(text, outside, read.name, said)


_READERS = {
    Holds.KEY: _text,
    Holds.TEXT: _text,
    Holds.WORD: _word,
    Holds.INTEGER: _integer,
    Holds.NUMBER: _number,
    Holds.DATE: _date,
    Holds.INSTANT: _instant,
}
