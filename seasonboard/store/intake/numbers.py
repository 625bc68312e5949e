"""Numbers as people write them: commas and points settled from the whole column, units turned."""

import re
from collections.abc import Mapping
from typing import Any

import polars as pl

from seasonboard.store.intake.column_text import ColumnText
from seasonboard.stored_column import CellType

_PLAIN = r"^\+?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$"
_WITH_UNIT = r"^(\+?[0-9.,][0-9., \u{00A0}\u{202F}'’]*?)\s*([\p{L}%\"″”]+\.?|''|')?$"
_FRACTION = re.compile(r"^\s*(?:(\d+)[ -])?(\d+)\s*/\s*(\d+)(.*)$")
_GROUPS = r"[ \u{00A0}\u{202F}'’]([0-9]{3})"
_LONE = r"^[1-9][0-9]{0,2}{MARK}[0-9]{3}$"
"""A comma or point that may part thousands or decimals; nothing but more rows can tell."""


def read_numbers(one: ColumnText) -> pl.DataFrame:
    """Read the numbers of one column.

    Args:
        one: The column; its findings take a problem when a mark can be read in two ways, notes on
            marks and units.

    Returns:
        One row per distinct value: `value`, and `number`, null where it could not be read.
    """
    rows = one.by_value()
    first = rows.unique("value", keep="first", maintain_order=True)
    whole = first["value"].replace(_fractions(first["value"].to_list()))
    groups = whole.to_frame().select(pl.col("value").str.extract_groups(_WITH_UNIT)).unnest("value")
    digits, unit = (pl.col(one) for one in groups.columns)
    parted = groups.select(
        digits=_without_groups(digits.str.strip_chars()),
        unit=unit.str.to_lowercase().str.strip_suffix("."),
    )
    read = pl.concat([first, parted], how="horizontal")
    mark = _decimal_mark(read, one)
    plain = _as_plain(pl.col("digits"), mark)
    number = pl.when(plain.str.contains(_PLAIN)).then(plain).cast(pl.Float64, strict=False)
    factors = one.written.synonyms.units.get(one.column.unit, {})
    factor = pl.col("unit").replace_strict(dict(factors), default=None, return_dtype=pl.Float64)
    factor = pl.when(pl.col("unit").is_null()).then(bare_factor(one)).otherwise(factor)
    read = read.with_columns(number=number * factor, factor=factor)
    _refuse_bare(rows.join(read, on="value", how="left"), one)
    _note_readings(rows.join(read, on="value", how="left"), mark, one)
    return read.select("value", "number")


def _fractions(values: list[str]) -> dict[str, str]:
    """Return fractions as decimals with their unit: `1 5/32"` is `1.15625"`."""
    plain = {}
    for value in values:
        parts = _FRACTION.match(value)
        if parts and int(parts[3]):
            number = int(parts[1] or 0) + int(parts[2]) / int(parts[3])
            plain[value] = f"{number:.6g}{parts[4]}"
    return plain


def _refuse_bare(rows: pl.DataFrame, one: ColumnText) -> None:
    """Refuse numbers without a unit in a column whose other cells turn from another unit."""
    if one.name in one.written.units:
        return
    turned = rows.filter(pl.col("unit").is_not_null() & (pl.col("factor") != 1.0))
    if turned.is_empty():
        return
    bare = rows.filter(pl.col("unit").is_null() & pl.col("number").is_not_null())
    beside = turned.row(0, named=True)
    said = f"has no unit, but others of its column do, as “{beside['value']}” in row "
    said += f"{beside['file_row']}; write the unit."
    marked = one.text.filter(pl.col("file_row").is_in(bare["file_row"].implode()))
    one.findings.reject(marked, pl.lit(True), one.name, said)


def bare_factor(one: ColumnText) -> float:
    """Return what numbers without a unit are multiplied by: the unit of the heading says it."""
    unit = one.written.units.get(one.name)
    factors = one.written.synonyms.units.get(one.column.unit, {})
    return 1.0 if unit is None else factors.get(unit.casefold(), 1.0)


def _without_groups(digits: pl.Expr) -> pl.Expr:
    """Take blanks and apostrophes out that part groups of three digits."""
    grouped = digits.str.contains(r"^\+?[0-9]{1,3}([ \u{00A0}\u{202F}'’][0-9]{3})+([.,][0-9]*)?$")
    return pl.when(grouped).then(digits.str.replace_all(_GROUPS, "$1")).otherwise(digits)


def _as_plain(digits: pl.Expr, mark: str) -> pl.Expr:
    groups = "," if mark == "." else "."
    if mark == ".":
        grouped = digits.str.contains(r"^\+?[1-9][0-9]{0,2}(,[0-9]{3})+(\.[0-9]*)?$")
    else:
        grouped = digits.str.contains(r"^\+?[1-9][0-9]{0,2}(\.[0-9]{3})+(,[0-9]*)?$")
    bare = pl.when(grouped).then(digits.str.replace_all(groups, "", literal=True)).otherwise(digits)
    single = bare.str.count_matches(r"[.,]") <= 1
    return pl.when(single).then(bare.str.replace(",", ".", literal=True) if mark == "," else bare)


def _decimal_mark(read: pl.DataFrame, one: ColumnText) -> str:
    """Settle from the whole column whether a comma parts decimals or thousands."""
    digits, is_whole = pl.col("digits"), one.column.holds is CellType.INTEGER
    if one.written.decimal is not None:
        return "," if one.written.decimal == "comma" else "."
    comma_parts_tens = (
        r"^\+?[0-9]*,([0-9]{1,2}|[0-9]{4,})$|^\+?0,[0-9]+$|^[0-9]{1,3}(\.[0-9]{3})+,[0-9]+$"
    )
    comma_groups = r"^\+?[0-9]{1,3}(,[0-9]{3})+\.[0-9]+$|^\+?[0-9]{1,3}(,[0-9]{3}){2,}$"
    decimal = read.filter(digits.str.contains(comma_parts_tens))
    groups = read.filter(digits.str.contains(comma_groups))
    lone_comma = read.filter(digits.str.contains(_LONE.replace("{MARK}", ",")))
    lone_point = read.filter(digits.str.contains(_LONE.replace("{MARK}", r"\.")))
    if decimal.height and groups.height and not is_whole:
        other = groups.row(0, named=True)
        said = f"has a decimal comma, but row {other['file_row']} “{other['value']}” has commas "
        said += "between thousands; write the column one way."
        one.refuse(decimal.row(0, named=True), said)
        return "."
    if decimal.height and not is_whole:
        if lone_point.height:
            _refuse_lone(lone_point.row(0, named=True), "point", one)
        return ","
    if lone_comma.height and not groups.height and not is_whole:
        _refuse_lone(lone_comma.row(0, named=True), "comma", one)
    return "."


def _refuse_lone(row: Mapping[str, Any], mark: str, one: ColumnText) -> None:
    plain = row["digits"]
    whole, small = plain.replace(",", "").replace(".", ""), plain.replace(",", ".")
    said = f"can be {whole} or {small}, and no row of {one.name} settles what its {mark} means. "
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
    if bare_factor(one) != 1.0:
        bare = read.filter(pl.col("unit").is_null())
        one.note_first(bare, "is {number:.6g}: the unit of the heading was turned")
