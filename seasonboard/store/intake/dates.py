"""Dates as people write them: day and month settled from the whole column, never row by row."""

from collections.abc import Mapping
from datetime import date

import polars as pl

from seasonboard.load_options import ORDERS
from seasonboard.store.intake.column_text import ColumnText, WrittenAs
from seasonboard.store.intake.seasons import SECOND_HALF, SeasonYears
from seasonboard.store.intake.synonyms import Synonyms

_TIME = (
    r"^(.*?)(?:[Tt]|,? +)([0-9]{1,2}):([0-9]{2})(?::([0-9]{2}))?(\.[0-9]{1,6})?[0-9]*"
    r" ?([AaPp]\.?[Mm]\.?)? ?([Zz]|[+-](?:0[0-9]|1[0-4]):?[0-5][0-9])?$"
)
_SERIAL = r"^([0-9]{5})(?:[.,]([0-9]+))?$"
_YEAR_FIRST = r"^([0-9]{4})[-/. ]([0-9]{1,2})[-/. ]([0-9]{1,2})$"
_EIGHT = r"^((?:19|20)[0-9]{2})([0-9]{2})([0-9]{2})$"
_TRIPLE = r"^([0-9]{1,2})[-/. ]([0-9]{1,2})[-/. ]([0-9]{4}|[0-9]{2})$"
_SHORT = r"^([0-9]{1,2})[-/. ]([0-9]{1,2})$"
_WEEKDAY = r"^(?:(?i:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,? +)?"
_NAMED = (
    _WEEKDAY + r"([0-9]{1,2})(?:st|nd|rd|th)?[-. /]*([\p{L}]{3,})\.?,?[-. /]*([0-9]{4}|[0-9]{2})$"
)
_NAME_FIRST = _WEEKDAY + r"([\p{L}]{3,})\.? *([0-9]{1,2})(?:st|nd|rd|th)?,? *([0-9]{4}|[0-9]{2})$"
_NAMED_SHORT = _WEEKDAY + r"([0-9]{1,2})(?:st|nd|rd|th)?[-. /]*([\p{L}]{3,})\.?$"
_NAME_FIRST_SHORT = _WEEKDAY + r"([\p{L}]{3,})\.? *([0-9]{1,2})(?:st|nd|rd|th)?$"
_TWO_DIGITS = (
    r"([0-9]+[^0-9]+[0-9]+|\p{L}[^0-9]*[0-9]{1,2}|[0-9]{1,2}[^0-9]*\p{L}+)[^0-9]+[0-9]{2}$"
)
_PIVOT = 69
_EXAMPLES = 3
_LOWEST_SERIAL, _HIGHEST_SERIAL = 20_000, 80_000
"""Smaller and larger day numbers are hardly days: 1954 to 2119 by the 1900 count."""
_ANY_YEAR = 2000
"""A leap year: of dates without a year only the order is sought."""


def read_moments(one: ColumnText) -> pl.DataFrame:
    """Read the dates, with or without a time, of one column.

    A column that can be read in two ways, or contradicts itself, is a problem.

    Returns:
        One row per distinct value: `value`, `day`, `clock` (`HH:MM:SS.f`; null without a time),
        `offset` (as written); the day is null where it could not be read.
    """
    rows = one.by_value()
    first = rows.unique("value", keep="first", maintain_order=True)
    read = _candidates(_split(first), one.written)
    order = _order_in(read, one)
    day = pl.coalesce("sure", order) if order else pl.col("sure")
    read = read.with_columns(day=day)
    _note_assumed(rows.join(read, on="value", how="left"), one)
    return read.select("value", "day", "clock", "offset")


def _split(first: pl.DataFrame) -> pl.DataFrame:
    """Part the time of day from the day."""
    groups = first.select(pl.col("value").str.extract_groups(_TIME)).unnest("value")
    day, hour, minute, second, split, half, offset = (pl.col(one) for one in groups.columns)
    number = hour.cast(pl.Int32)
    pm = half.str.to_lowercase().str.starts_with("p")
    of_half = number % 12 + pl.when(pm).then(12).otherwise(0)
    hours = pl.when(half.is_null()).then(number).otherwise(of_half)
    fits = hours.is_between(0, 23) & (half.is_null() | number.is_between(1, 12))
    padded = hours.cast(pl.String).str.zfill(2)
    clock = padded + ":" + minute + ":" + second.fill_null("00") + split.fill_null(".0")
    apart = groups.select(
        written_day=day.str.strip_chars(" ,"),
        clock=pl.when(fits).then(clock),
        offset=offset,
        timed=hour.is_not_null(),
    )
    serial = first.select(pl.col("value").str.extract_groups(_SERIAL)).unnest("value")
    days, fraction = (pl.col(one) for one in serial.columns)
    part = (pl.lit("0.") + fraction).cast(pl.Float64)
    seconds = (part * 86400).round(0).cast(pl.Int64).clip(0, 86399)
    time = pl.time(seconds // 3600, seconds // 60 % 60, seconds % 60).dt.strftime("%H:%M:%S.0")
    of_serial = serial.select(
        whole=days.cast(pl.Int64), part=pl.when(fraction.is_not_null()).then(time)
    )
    return pl.concat([first, apart, of_serial], how="horizontal").with_columns(
        clock=pl.coalesce("clock", "part"),
        written_day=pl.when("timed").then("written_day").otherwise("value"),
    )


def _candidates(split: pl.DataFrame, written: WrittenAs) -> pl.DataFrame:
    """Return what each value can mean: `sure`, or by order in `dmy`, `mdy`, `ymd`."""
    day = pl.col("written_day")
    months = written.synonyms.months
    sure = pl.coalesce(
        *(_day(day, pattern, "ymd") for pattern in (_YEAR_FIRST, _EIGHT)),
        _day(day, _NAMED, "dmy", months),
        _day(day, _NAME_FIRST, "mdy", months),
        _day(_with_year(day, _NAMED_SHORT, 2, written), _NAMED, "dmy", months),
        _day(_with_year(day, _NAME_FIRST_SHORT, 1, written), _NAME_FIRST, "mdy", months),
        days_of_serials(pl.col("whole"), from_1904=written.from_1904),
    )
    bare = day.str.replace(_WEEKDAY, "")
    numbers = [
        pl.coalesce(_day(bare, _TRIPLE, order), _short_day(bare, order, written)).alias(order)
        for order in ORDERS
    ]
    return split.with_columns(sure.alias("sure"), *numbers).with_columns(
        pl.when(~pl.col("timed") | pl.col("clock").is_not_null()).then(pl.col(one)).alias(one)
        for one in ("sure", *ORDERS)
    )


def _with_year(text: pl.Expr, pattern: str, month: int, written: WrittenAs) -> pl.Expr:
    """Write the season's year behind a day with a named month and none."""
    if written.years is None:
        return pl.lit(None, pl.String)
    name = text.str.extract(pattern, month).str.to_lowercase()
    months = dict(written.synonyms.months)
    number = name.replace_strict(months, default=None, return_dtype=pl.Int32)
    return pl.when(number.is_not_null()).then(text + ", " + _year_of(number, written.years))


def _short_day(text: pl.Expr, order: str, written: WrittenAs) -> pl.Expr:
    """Read a day without a year in the season's year of that month."""
    if written.years is None or order == "ymd":
        return pl.lit(None, pl.Date)
    first, second = (text.str.extract(_SHORT, nth) for nth in (1, 2))
    month, day = (first, second) if order == "mdy" else (second, first)
    year = _year_of(month.cast(pl.Int32, strict=False), written.years)
    return _as_date(year, month, day)


def _year_of(month: pl.Expr, years: SeasonYears) -> pl.Expr:
    first, last = pl.lit(str(years.first)), pl.lit(str(years.last))
    return pl.when(month >= SECOND_HALF).then(first).otherwise(last)


def _as_date(year: pl.Expr, month: pl.Expr, day: pl.Expr) -> pl.Expr:
    iso = year + "-" + month.str.zfill(2) + "-" + day.str.zfill(2)
    return iso.str.to_date("%Y-%m-%d", strict=False)


def _day(
    text: pl.Expr, pattern: str, order: str, months: Mapping[str, int] | None = None
) -> pl.Expr:
    part = {letter: text.str.extract(pattern, nth) for nth, letter in enumerate(order, 1)}
    month, year = part["m"], part["y"]
    if months is not None:
        numbers = {name: str(number) for name, number in months.items()}
        month = month.str.to_lowercase().replace_strict(numbers, default=None)
    short = year.str.len_chars() <= 2
    century = pl.when(year.cast(pl.Int32, strict=False) >= _PIVOT).then(pl.lit("19"))
    year = pl.when(short).then(century.otherwise(pl.lit("20")) + year.str.zfill(2)).otherwise(year)
    return _as_date(year, month, part["d"])


def days_of_serials(numbers: pl.Expr, *, from_1904: bool) -> pl.Expr:
    """Return the days of a spreadsheet's day numbers; null for those that are hardly days.

    ECMA-376 part 1, 18.17.4.1: from March 1900 on, the 1900 count is the days since 30 December
    1899, for it has a 29 February 1900 that never was; the 1904 count has 1 January 1904 as day 0.
    """
    start = pl.lit(date(1904, 1, 1) if from_1904 else date(1899, 12, 30))
    usual = numbers.is_between(_LOWEST_SERIAL, _HIGHEST_SERIAL)
    return pl.when(usual).then(start + pl.duration(days=numbers)).cast(pl.Date)


def _unsure(read: pl.DataFrame) -> tuple[pl.DataFrame, pl.DataFrame, pl.DataFrame]:
    """Return the values that hang on an order, and which of them are only day or month first."""
    unsure = read.filter(
        pl.col("sure").is_null() & pl.any_horizontal(pl.col(*ORDERS).is_not_null())
    )
    day_first = unsure.filter(pl.col("dmy").is_not_null() & pl.col("mdy").is_null())
    month_first = unsure.filter(pl.col("mdy").is_not_null() & pl.col("dmy").is_null())
    return unsure, day_first, month_first


def _order_in(read: pl.DataFrame, one: ColumnText) -> str | None:
    """Return the order of day and month that the whole column has; None when there is none."""
    unsure, day_first, month_first = _unsure(read)
    if unsure.is_empty() or one.written.dates is not None:
        return one.written.dates
    if unsure.filter(pl.col("mdy").is_null() & pl.col("dmy").is_null()).height == unsure.height:
        return "ymd"
    if day_first.height and month_first.height:
        _refuse_mixed(day_first, month_first, one)
        return None
    differing = unsure.filter((pl.col("dmy") != pl.col("mdy")).fill_null(False))
    if day_first.height or month_first.height:
        order, proof = ("dmy", day_first) if day_first.height else ("mdy", month_first)
        if not differing.is_empty():  # else nothing hung on it
            said = f"settles it: the dates of {one.name} were read {ORDERS[order]}."
            one.note_first(proof, said, is_counted=False)
        return order
    if differing.is_empty():
        return "dmy"
    _refuse_open(differing, one)
    return None


def _refuse_mixed(day_first: pl.DataFrame, month_first: pl.DataFrame, one: ColumnText) -> None:
    other = month_first.row(0, named=True)
    said = f"can only be day/month/year, but row {other['file_row']} “{other['value']}” only "
    said += "month/day/year: the column is written in two ways. Say which is right with --dates "
    said += "dmy or --dates mdy; the rows that do not fit are then told one by one."
    one.refuse(day_first.row(0, named=True), said, "dates", ("dmy", "mdy"))


def _refuse_open(rows: pl.DataFrame, one: ColumnText) -> None:
    examples = "; ".join(
        f"row {row['file_row']} “{row['value']}” is {row['dmy']} or {row['mdy']}"
        for row in rows.head(_EXAMPLES).iter_rows(named=True)
    )
    said = f"can be read day/month or month/day, and no row of {one.name} settles it: {examples}. "
    said += "Say which with --dates dmy (the first reading) or --dates mdy (the second)."
    one.refuse(rows.row(0, named=True), said, "dates", ("dmy", "mdy"))


def _note_assumed(rows: pl.DataFrame, one: ColumnText) -> None:
    dated = rows.filter(pl.col("day").is_not_null())
    numbers = dated.filter(pl.col("whole").is_not_null() & (pl.col("sure") == pl.col("day")))
    start = "1904" if one.written.from_1904 else "1900"
    one.note_first(numbers, f"is {{day}}: day numbers, counted from {start}, became dates")
    short = dated.filter(
        pl.col("written_day").str.contains(_TWO_DIGITS)
        & ~pl.col("written_day").str.contains(_YEAR_FIRST)
        & pl.col("whole").is_null()
    )
    one.note_first(short, "is {day}: years of two digits were read as 1969 to 2068")


def order_of(cells: pl.Series, synonyms: Synonyms) -> tuple[str, str] | None:
    """Return the order of day and month in a whole column, and the value that settles it.

    Returns:
        `dmy`, `mdy` or `ymd` with a value that has no other reading; `open` with one that has two
        when nothing settles it; None when nothing hangs on it.
    """
    unsure, day_first, month_first = _unsure_in(cells, synonyms)
    if day_first.is_empty() != month_first.is_empty():
        order, proof = ("mdy", month_first) if day_first.is_empty() else ("dmy", day_first)
        return order, proof["value"][0]
    hangs = unsure.filter((pl.col("dmy") != pl.col("mdy")).fill_null(True))
    if hangs.is_empty():
        return None
    return ("ymd" if hangs["dmy"].null_count() == hangs.height else "open"), hangs["value"][0]


def months_by_order(cells: pl.Series, synonyms: Synonyms) -> pl.DataFrame:
    """Return the month of each date that hangs on the order, read as `dmy` and as `mdy`."""
    unsure, _, _ = _unsure_in(cells, synonyms)
    return unsure.select(pl.col("dmy", "mdy").dt.month())


def _unsure_in(
    cells: pl.Series, synonyms: Synonyms
) -> tuple[pl.DataFrame, pl.DataFrame, pl.DataFrame]:
    values = cells.unique(maintain_order=True).alias("value").to_frame()
    how = WrittenAs(synonyms, years=SeasonYears(_ANY_YEAR, _ANY_YEAR))
    return _unsure(_candidates(_split(values), how))
