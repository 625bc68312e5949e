"""Whole numbers and numbers: plain ones quickly, others as people write them, odd sizes aside."""

import polars as pl

from seasonboard.store.intake.column_text import ColumnText
from seasonboard.store.intake.numbers import bare_factor, read_numbers

_INTEGER = r"^\+?[0-9]{1,18}$"
_NUMBER = r"^\+?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$"


def _late_numbers(one: ColumnText, read: pl.Series) -> pl.DataFrame:
    """Read what is not a plain number: commas, groups of digits, units."""
    late = one.text if bare_factor(one) != 1.0 else one.text.filter(read.is_null())
    return one.joined(read_numbers(one.of(late))).select(pl.col("number").alias(one.name))


def read_integer(one: ColumnText) -> pl.DataFrame:
    """Return a column of whole numbers of 0 or more; others are told and null."""
    name = one.name
    fits = pl.col(name).str.contains(_INTEGER)
    read = one.text.select(pl.when(fits).then(pl.col(name)).cast(pl.Int64, strict=False))
    if read[name].null_count() > one.cells.null_count():
        grouped = pl.col(name).str.contains(r"[,. ]?[0-9]{3}$") & ~fits
        late = one.of(one.text.with_columns(pl.when(grouped).then(name)))
        number = _late_numbers(late, read[name])[name]
        read = read.select(pl.coalesce(name, number.cast(pl.Int64, strict=False)))
    too_big = (read[name] > one.column.high).fill_null(False)  # int64 is wider than the store's
    wrong = (read[name].is_null() & one.cells.is_not_null()) | too_big
    one.reject(wrong, "is not a whole number of 0 or more, such as 12.")
    return read


def read_number(one: ColumnText) -> pl.DataFrame:
    """Return a column of numbers of 0 or more, in the unit of the column; others are told."""
    name, high, written = one.name, one.column.high, one.written
    fits = pl.col(name).str.contains(_NUMBER)
    read = one.text.select(pl.when(fits).then(pl.col(name)).cast(pl.Float64, strict=False))
    if name in written.units:
        late = _late_numbers(one, read[name])
        is_turned = bare_factor(one) != 1.0
        read = late if is_turned else read.select(pl.coalesce(name, late[name]))
    elif read[name].null_count() > one.cells.null_count() or written.decimal == "comma":
        # a comma for decimals settles points too, a unit what a bare number lacks: the whole
        # column is read again
        whole = r"[0-9],[0-9]|[0-9.]\s*[\p{L}\"″”']"
        if one.cells.str.contains(whole).any() or written.decimal == "comma":
            nothing = pl.repeat(None, one.text.height, dtype=pl.Float64, eager=True)
            read = _late_numbers(one, nothing)
        else:
            late = _late_numbers(one, read[name])
            read = read.select(pl.coalesce(name, late[name]))
    fine = (read[name] <= (float("inf") if high is None else high)) & read[name].is_finite()
    most = "of 0 or more" if high is None else f"from 0 to {high:g}"
    unread = read[name].is_null() & one.cells.is_not_null()
    said = f"is not a number {most}, written with a decimal point, such as 12.5."
    one.reject(unread | ~fine.fill_null(True), said)
    _check_size(one, read[name])
    return read


def _check_size(one: ColumnText, read: pl.Series) -> None:
    """Set aside what no record can be, as a slip of the unit or of the point."""
    if one.name not in one.written.synonyms.plausible:
        return
    low, high = one.written.synonyms.plausible[one.name]
    odd = read.is_finite() & (read != 0) & ((read < low) | (read > high))
    if one.column.high is not None:
        odd &= read <= one.column.high  # more is told as impossible
    said = f"is hardly a {one.name}: those are {low:g} to {high:g}. Was another unit meant? "
    said += "Write it with its unit, or widen [plausible] in the store's own synonyms."
    one.reject(odd.fill_null(False), said)
