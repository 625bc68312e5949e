"""Numbers as people write them: commas and points settled from the whole column, units turned."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import polars as pl

from seasonboard.errors import OpenQuestion, Problem
from seasonboard.store.intake.problems import Findings

_PLAIN = r"^\+?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$"
_WITH_UNIT = r"^(\+?[0-9.,][0-9., \u{00A0}\u{202F}'’]*?)\s*([\p{L}%\"″”]+\.?|''|')?$"
_GROUPS = r"[ \u{00A0}\u{202F}'’]([0-9]{3})"
_LONE = r"^[1-9][0-9]{0,2}{MARK}[0-9]{3}$"
"""A comma or point that may part thousands or decimals; nothing but more rows can tell."""


@dataclass(frozen=True, slots=True)
class NumbersAs:
    """How numbers are written: the decimal mark if said, whether whole, factors of units."""

    decimal: str | None
    whole: bool = False
    factors: Mapping[str, float] = field(default_factory=dict)
    bare_factor: float = 1.0


def read_numbers(
    text: pl.DataFrame, name: str, findings: Findings, written: NumbersAs
) -> pl.DataFrame:
    """Read the numbers of one column.

    Args:
        text: Rows with `file_no`, `file_row` and the column as text.
        name: The column.
        findings: Takes a problem when a mark can be read in two ways, notes on marks and units.
        written: What is known of how they are written.

    Returns:
        One row per distinct value: `value`, and `number`, null where it could not be read.
    """
    rows = text.select("file_no", "file_row", value=pl.col(name)).drop_nulls("value")
    first = rows.unique("value", keep="first", maintain_order=True)
    groups = first.select(pl.col("value").str.extract_groups(_WITH_UNIT)).unnest("value")
    digits, unit = (pl.col(one) for one in groups.columns)
    parted = groups.select(
        digits=_without_groups(digits.str.strip_chars()),
        unit=unit.str.to_lowercase().str.strip_suffix("."),
    )
    read = pl.concat([first, parted], how="horizontal")
    mark = _decimal_mark(read, name, findings, written)
    plain = _as_plain(pl.col("digits"), mark)
    number = pl.when(plain.str.contains(_PLAIN)).then(plain).cast(pl.Float64, strict=False)
    factor = pl.col("unit").replace_strict(
        dict(written.factors), default=None, return_dtype=pl.Float64
    )
    factor = pl.when(pl.col("unit").is_null()).then(written.bare_factor).otherwise(factor)
    read = read.with_columns(number=number * factor, factor=factor)
    _tell(rows.join(read, on="value", how="left"), name, mark, findings, written)
    return read.select("value", "number")


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


def _decimal_mark(read: pl.DataFrame, name: str, findings: Findings, written: NumbersAs) -> str:
    """Settle from the whole column whether a comma parts decimals or thousands."""
    digits = pl.col("digits")
    if written.decimal is not None:
        return "," if written.decimal == "comma" else "."
    comma_parts_tens = (
        r"^\+?[0-9]*,([0-9]{1,2}|[0-9]{4,})$|^\+?0,[0-9]+$|^[0-9]{1,3}(\.[0-9]{3})+,[0-9]+$"
    )
    comma_groups = r"^\+?[0-9]{1,3}(,[0-9]{3})+\.[0-9]+$|^\+?[0-9]{1,3}(,[0-9]{3}){2,}$"
    decimal = read.filter(digits.str.contains(comma_parts_tens))
    groups = read.filter(digits.str.contains(comma_groups))
    lone_comma = read.filter(digits.str.contains(_LONE.replace("{MARK}", ",")))
    lone_point = read.filter(digits.str.contains(_LONE.replace("{MARK}", r"\.")))
    if decimal.height and groups.height and not written.whole:
        one, other = decimal.row(0, named=True), groups.row(0, named=True)
        said = f"has a decimal comma, but row {other['file_row']} “{other['value']}” has commas "
        said += "between thousands; write the column one way."
        _refuse(one, name, said, findings)
        return "."
    if decimal.height and not written.whole:
        if lone_point.height:
            _refuse_lone(lone_point.row(0, named=True), name, "point", findings)
        return ","
    if lone_comma.height and not groups.height and not written.whole:
        _refuse_lone(lone_comma.row(0, named=True), name, "comma", findings)
    return "."


def _refuse_lone(row: dict[str, object], name: str, mark: str, findings: Findings) -> None:
    plain = str(row["digits"])
    whole, small = plain.replace(",", "").replace(".", ""), plain.replace(",", ".")
    said = f"can be {whole} or {small}, and no row of {name} settles what its {mark} means. Say so "
    said += "with --decimal comma or --decimal point."
    _refuse(row, name, said, findings, ("comma", "point"))


def _refuse(
    row: dict[str, object], name: str, said: str, findings: Findings, choices: tuple[str, ...] = ()
) -> None:
    label = findings.labels[int(str(row["file_no"]))]
    place = (label, int(str(row["file_row"])), name, str(row["value"]), said)
    asked = OpenQuestion(*place, wish="decimal", choices=choices) if choices else Problem(*place)
    findings.refuse(asked)


def _tell(rows: pl.DataFrame, name: str, mark: str, findings: Findings, written: NumbersAs) -> None:
    read = rows.filter(pl.col("number").is_not_null())
    commas = read.filter(pl.col("digits").str.contains(",", literal=True))
    points = read.filter(pl.col("digits").str.contains(".", literal=True))
    if mark == ",":
        mixed = " (the column also has decimal points)" if points.height else ""
        _note(commas, name, f"is {{number}}: commas were read as decimal commas{mixed}", findings)
    else:
        _note(commas, name, "is {number}: commas were read as marks between thousands", findings)
    turned = read.filter((pl.col("factor") != 1.0) & pl.col("unit").is_not_null())
    _note(turned, name, "is {number:.6g}: units that were written were turned", findings)
    if written.bare_factor != 1.0:
        bare = read.filter(pl.col("unit").is_null())
        _note(bare, name, "is {number:.6g}: the unit of the heading was turned", findings)


def _note(rows: pl.DataFrame, name: str, said: str, findings: Findings) -> None:
    if rows.is_empty():
        return
    row = rows.row(0, named=True)
    many = "1 cell" if rows.height == 1 else f"{rows.height:,} cells"
    text = f"{said.format(**row)} ({many})."
    findings.note(
        Problem(findings.labels[row["file_no"]], row["file_row"], name, row["value"], text)
    )
