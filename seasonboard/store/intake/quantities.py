"""Whole numbers and numbers: plain ones quickly, others as people write them, odd sizes aside."""

import polars as pl

from seasonboard.store.intake.file_format import WrittenAs
from seasonboard.store.intake.numbers import NumbersAs, read_numbers
from seasonboard.store.intake.problems import Findings
from seasonboard.stored_column import CellType, StoredColumn

_INTEGER = r"^\+?[0-9]{1,18}$"
_NUMBER = r"^\+?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$"


def _late_numbers(
    column: StoredColumn, text: pl.DataFrame, read: pl.Series, findings: Findings, how: WrittenAs
) -> pl.DataFrame:
    """Read what is not a plain number: commas, groups of digits, units."""
    name = column.name
    factors = how.synonyms.units.get(column.unit, {})
    unit = how.units.get(name)
    bare = 1.0 if unit is None else factors.get(unit.casefold(), 1.0)
    late = text if bare != 1.0 else text.filter(read.is_null())
    whole = column.holds is CellType.INTEGER
    numbers = read_numbers(late, name, findings, NumbersAs(how.decimal, whole, factors, bare))
    joined = text.select(value=pl.col(name)).join(
        numbers, on="value", how="left", maintain_order="left"
    )
    return joined.select(pl.col("number").alias(name))


def read_integer(
    column: StoredColumn, text: pl.DataFrame, findings: Findings, how: WrittenAs
) -> pl.DataFrame:
    """Return a column of whole numbers of 0 or more; others are told to `findings` and null."""
    name = column.name
    fits = pl.col(name).str.contains(_INTEGER)
    read = text.select(pl.when(fits).then(pl.col(name)).cast(pl.Int64, strict=False))
    if read[name].null_count() > text[name].null_count():
        grouped = pl.col(name).str.contains(r"[,. ]?[0-9]{3}$") & ~fits
        late = _late_numbers(
            column, text.with_columns(pl.when(grouped).then(name)), read[name], findings, how
        )
        number = late[name]
        read = read.select(pl.coalesce(name, number.cast(pl.Int64, strict=False)))
    too_big = (read[name] > column.high).fill_null(False)  # int64 is wider than the store's
    said = "is not a whole number of 0 or more, such as 12."
    wrong = (read[name].is_null() & text[name].is_not_null()) | too_big
    findings.reject(text, wrong, name, said)
    return read


def read_number(
    column: StoredColumn, text: pl.DataFrame, findings: Findings, how: WrittenAs
) -> pl.DataFrame:
    """Return a column of numbers of 0 or more, in the unit of the column; others are told."""
    name = column.name
    fits = pl.col(name).str.contains(_NUMBER)
    read = text.select(pl.when(fits).then(pl.col(name)).cast(pl.Float64, strict=False))
    if name in how.units:
        read = _late_numbers(column, text, read[name], findings, how)
    elif read[name].null_count() > text[name].null_count() or how.decimal == "comma":
        # a comma for decimals settles points too, so that the whole column is read again
        every = text[name].str.contains(r"[0-9],[0-9]").any() or how.decimal == "comma"
        late = _late_numbers(
            column,
            text,
            pl.repeat(None, text.height, dtype=pl.Float64, eager=True) if every else read[name],
            findings,
            how,
        )
        read = late if every else read.select(pl.coalesce(name, late[name]))
    top = float("inf") if column.high is None else column.high
    fine = (read[name] <= top) & read[name].is_finite()
    most = "of 0 or more" if column.high is None else f"from 0 to {column.high:g}"
    said = f"is not a number {most}, written with a decimal point, such as 12.5."
    unread = read[name].is_null() & text[name].is_not_null()
    findings.reject(text, unread | ~fine.fill_null(True), name, said)
    _check_size(column, text, read[name], findings, how)
    return read


def _check_size(
    column: StoredColumn, text: pl.DataFrame, read: pl.Series, findings: Findings, how: WrittenAs
) -> None:
    """Set aside what no record can be, as a slip of the unit or of the point."""
    if read.name not in how.synonyms.plausible:
        return
    low, high = how.synonyms.plausible[read.name]
    odd = read.is_finite() & (read != 0) & ((read < low) | (read > high))
    if column.high is not None:
        odd &= read <= column.high  # more is told as impossible
    said = f"is hardly a {read.name}: those are {low:g} to {high:g}. Was another unit meant? "
    said += "Write it with its unit, or widen [plausible] in the store's own synonyms."
    findings.reject(text, odd.fill_null(False), read.name, said)
