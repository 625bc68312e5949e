"""Numbers as people write them: commas and points settled from the whole column, units turned."""

import re
from collections.abc import Mapping
from typing import Any

import polars as pl

from seasonboard.store.intake.column_text import ColumnText
from seasonboard.store.intake.text_columns import mapped
from seasonboard.stored_column import CellType

_INTEGER = r"^\+?[0-9]{1,18}$"
_PLAIN = r"^\+?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$"
_WITH_UNIT = r"^(\+?[0-9.,][0-9., \u{00A0}\u{202F}'’]*?)\s*([\p{L}%\"″”]+\.?|''|')?$"
_FRACTION = re.compile(r"^\s*(?:(\d+)[ -])?(\d+)\s*/\s*(\d+)(.*)$")
_BLANK = r"[ \u{00A0}\u{202F}'’]"
_LONE = r"^[1-9][0-9]{0,2}{MARK}[0-9]{3}$"
"""A comma or point that may part thousands or decimals; nothing but more rows can tell."""
_DECIMAL_COMMA = (
    r"^\+?[0-9]*,([0-9]{1,2}|[0-9]{4,})$|^\+?0,[0-9]+$|^[0-9]{1,3}(\.[0-9]{3})+,[0-9]+$"
)
_COMMA_GROUPS = r"^\+?[0-9]{1,3}(,[0-9]{3})+\.[0-9]+$|^\+?[0-9]{1,3}(,[0-9]{3}){2,}$"


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
    fits = pl.col(name).str.contains(_PLAIN)
    read = one.text.select(pl.when(fits).then(pl.col(name)).cast(pl.Float64, strict=False))
    has_late = read[name].null_count() > one.cells.null_count()
    if name in written.units or has_late or written.decimal == "comma":
        # a comma for decimals settles points too, a unit what a bare number lacks: the whole
        # column is read again
        has_others = one.cells.str.contains(r"[0-9],[0-9]|[0-9.]\s*[\p{L}\"″”']").any()
        if name not in written.units and (has_others or written.decimal == "comma"):
            read = read.clear(one.text.height)
        late = _late_numbers(one, read[name])
        read = late if _bare_factor(one) != 1.0 else read.select(pl.coalesce(name, late[name]))
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


def _late_numbers(one: ColumnText, read: pl.Series) -> pl.DataFrame:
    """Read what is not a plain number: commas, groups of digits, units."""
    late = one.text if _bare_factor(one) != 1.0 else one.text.filter(read.is_null())
    return one.joined(_written_numbers(one.of(late))).select(pl.col("number").alias(one.name))


def _written_numbers(one: ColumnText) -> pl.DataFrame:
    """Return `number` of each distinct `value`, null where it could not be read.

    Takes a problem when a mark can be read in two ways, notes on marks and units.
    """
    rows = one.by_value()
    first = rows.unique("value", keep="first", maintain_order=True)
    values = first["value"].replace(_fractions(first["value"].to_list()))
    groups = (
        values.to_frame().select(pl.col("value").str.extract_groups(_WITH_UNIT)).unnest("value")
    )
    digits, unit = (pl.col(one) for one in groups.columns)
    parted = groups.select(
        digits=_without_groups(digits.str.strip_chars()),
        unit=unit.str.to_lowercase().str.strip_suffix("."),
    )
    read = pl.concat([first, parted], how="horizontal")
    mark = _decimal_mark(read, one)
    decimals = _as_plain(pl.col("digits"), mark)
    number = pl.when(decimals.str.contains(_PLAIN)).then(decimals).cast(pl.Float64, strict=False)
    factors = one.written.synonyms.units.get(one.column.unit, {})
    is_bare = pl.col("unit").is_null()
    factor = pl.when(is_bare).then(_bare_factor(one)).otherwise(mapped("unit", factors, pl.Float64))
    read = read.with_columns(number=number * factor, factor=factor)
    all_rows = rows.join(read, on="value", how="left")
    _refuse_bare(all_rows, one)
    _note_readings(all_rows, mark, one)
    return read.select("value", "number")


def _fractions(values: list[str]) -> dict[str, str]:
    """Return fractions as decimals with their unit: `1 5/32"` is `1.15625"`."""
    decimals = {}
    for value in values:
        parts = _FRACTION.match(value)
        if parts and int(parts[3]):
            number = int(parts[1] or 0) + int(parts[2]) / int(parts[3])
            decimals[value] = f"{number:.6g}{parts[4]}"
    return decimals


def _refuse_bare(rows: pl.DataFrame, one: ColumnText) -> None:
    """Refuse numbers without a unit in a column whose other cells turn from another unit."""
    turned = rows.filter(pl.col("unit").is_not_null() & (pl.col("factor") != 1.0))
    if one.name in one.written.units or turned.is_empty():
        return
    bare = rows.filter(pl.col("unit").is_null() & pl.col("number").is_not_null())
    beside = turned.row(0, named=True)
    said = f"has no unit, but others of its column do, as “{beside['value']}” in row "
    said += f"{beside['file_row']}; write the unit."
    one.reject(pl.col("file_row").is_in(bare["file_row"].implode()), said)


def _bare_factor(one: ColumnText) -> float:
    """Return what numbers without a unit are multiplied by: the unit of the heading says it."""
    unit = one.written.units.get(one.name)
    factors = one.written.synonyms.units.get(one.column.unit, {})
    return 1.0 if unit is None else factors.get(unit.casefold(), 1.0)


def _without_groups(digits: pl.Expr) -> pl.Expr:
    """Take blanks and apostrophes out that part groups of three digits."""
    grouped = digits.str.contains(rf"^\+?[0-9]{{1,3}}({_BLANK}[0-9]{{3}})+([.,][0-9]*)?$")
    return pl.when(grouped).then(digits.str.replace_all(_BLANK, "")).otherwise(digits)


def _as_plain(digits: pl.Expr, mark: str) -> pl.Expr:
    other = "," if mark == "." else "."
    grouped = digits.str.contains(rf"^\+?[1-9][0-9]{{0,2}}([{other}][0-9]{{3}})+([{mark}][0-9]*)?$")
    bare = pl.when(grouped).then(digits.str.replace_all(other, "", literal=True)).otherwise(digits)
    single = bare.str.count_matches(r"[.,]") <= 1
    return pl.when(single).then(bare.str.replace(",", ".", literal=True) if mark == "," else bare)


def _decimal_mark(read: pl.DataFrame, one: ColumnText) -> str:
    """Settle from the whole column whether a comma parts decimals or thousands."""
    if one.written.decimal is not None:
        return "," if one.written.decimal == "comma" else "."
    if one.column.holds is CellType.INTEGER:
        return "."
    decimal, groups, lone_comma, lone_point = (
        read.filter(pl.col("digits").str.contains(pattern))
        for pattern in (
            *(_DECIMAL_COMMA, _COMMA_GROUPS),
            *(_LONE.replace("{MARK}", mark) for mark in (",", r"\.")),
        )
    )
    if decimal.height and groups.height:
        other = groups.row(0, named=True)
        said = f"has a decimal comma, but row {other['file_row']} “{other['value']}” has commas "
        said += "between thousands; write the column one way."
        one.refuse(decimal.row(0, named=True), said)
    elif decimal.height:
        if lone_point.height:
            _refuse_lone(lone_point.row(0, named=True), "point", one)
        return ","
    elif lone_comma.height and not groups.height:
        _refuse_lone(lone_comma.row(0, named=True), "comma", one)
    return "."


def _refuse_lone(row: Mapping[str, Any], mark: str, one: ColumnText) -> None:
    digits = row["digits"]
    thousands, small = digits.replace(",", "").replace(".", ""), digits.replace(",", ".")
    said = (
        f"can be {thousands} or {small}, and no row of {one.name} settles what its {mark} means. "
    )
    said += "Say so with --decimal comma or --decimal point."
    one.refuse(row, said, "decimal", ("comma", "point"))


def _note_readings(rows: pl.DataFrame, mark: str, one: ColumnText) -> None:
    read = rows.filter(pl.col("number").is_not_null())
    commas = read.filter(pl.col("digits").str.contains(",", literal=True))
    points = read.filter(pl.col("digits").str.contains(".", literal=True))
    if mark == ",":
        mixed = " (the column also has decimal points)" if points.height else ""
        one.note_first(commas, f"is {{number}}: commas were read as decimal commas{mixed}")
    else:
        one.note_first(commas, "is {number}: commas were read as marks between thousands")
    turned = read.filter((pl.col("factor") != 1.0) & pl.col("unit").is_not_null())
    one.note_first(turned, "is {number:.6g}: units that were written were turned")
    if _bare_factor(one) != 1.0:
        bare = read.filter(pl.col("unit").is_null())
        one.note_first(bare, "is {number:.6g}: the unit of the heading was turned")
