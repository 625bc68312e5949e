"""Injury reports as forms give them: several parts ticked, sides unknown, sent twice or again."""

import re

import polars as pl

from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.text_columns import distinct, filled_from, folded, with_text
from seasonboard.store.intake.word_spellings import meanings, side_within
from seasonboard.stored_column import StoredTable
from seasonboard.terms import MIDLINE_AREAS, Area, Side

_SIDE_WORDS = frozenset({"left", "right", "l", "r", "lt", "rt", "both"})
_PARTING = re.compile(r"\s*(?:[,;\n+&]|\band\b)\s*")
_IDENTITY = ("athlete", "occurred_on", "area")
_RECORD = (*_IDENTITY, "side")
_WORD = "_word"


def with_single_areas(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Make one row for every body area of a cell that names several, each with a note.

    A side that is given within the area alone, as in “left knee”, becomes that of the row.
    """
    if table.name != "injuries" or "area" not in text.columns:
        return text
    cells = distinct(text["area"])
    sides = {cell: side for cell in cells if (side := side_within(cell, context.synonyms))}
    text = filled_from(text, "side", "area", sides) if sides else text
    known = meanings(cells, "area", tuple(Area), context.synonyms)
    parts = {cell: _parts(cell, context) for cell in cells if cell not in known}
    parts = {cell: named for cell, named in parts.items() if len(named) > 1}
    if not parts:
        return text
    said = "names more than one body area; one injury was made of each."
    context.findings.doubt(text, pl.col("area").is_in(list(parts)), "area", said)
    by_cell = {cell: [cell] for cell in cells} | parts
    split = pl.col("area").replace_strict(by_cell, default=[], return_dtype=pl.List(pl.String))
    return _renumbered(text.with_columns(split).explode("area"), context.findings)


def _parts(cell: str, context: LoadContext) -> list[str]:
    parts = list(dict.fromkeys(part for part in _PARTING.split(cell) if part))
    known = meanings(parts, "area", tuple(Area), context.synonyms)
    return parts if len(known) == len(parts) else []


def _renumbered(text: pl.DataFrame, findings: Findings) -> pl.DataFrame:
    """Return rows with a number of their own; `findings` learns from which row each is."""
    for (number,), part in text.partition_by("file_no", as_dict=True, maintain_order=True).items():
        rows = enumerate(part["file_row"].to_list(), 1)
        findings.origins[number] = {nth: findings.origin(number, row) for nth, row in rows}
    nth = (pl.int_range(pl.len(), dtype=pl.UInt32) + 1).over("file_no")
    return text.with_columns(file_row=nth)


def with_known_sides(rows: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Settle the side of areas on the body's midline; others may stay unknown.

    A side that was given there and does not count is noted, and kept in the row's note.
    """
    if "area" not in rows.columns:
        return rows
    rows = with_text(rows, ["side"])
    on_midline = pl.col("area").is_in(sorted(MIDLINE_AREAS))
    sided = on_midline & pl.col("side").is_in([Side.LEFT, Side.RIGHT, Side.BOTH])
    said = "was given as the side of the {area}, which is on the midline; kept in its note."
    context.findings.doubt(rows, sided, "side", said)
    if rows.select(sided.any()).item():
        rows = with_text(rows, ["note"])
        both = pl.concat_str(
            ["note", pl.format("side given: {}", "side")], separator="; ", ignore_nulls=True
        )
        rows = rows.with_columns(note=pl.when(sided).then(both).otherwise("note"))
    return rows.with_columns(
        side=pl.when(on_midline).then(pl.lit(str(Side.MIDLINE))).otherwise("side")
    )


def with_injury_keys(rows: pl.DataFrame, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Give injuries without a key that of the stored injury they are; reports sent again are one.

    Two reports are one injury when athlete, day, area, side and the words for the area agree: a
    shin and a calf are two. The last word counts, cell by cell; a note tells each that was joined.
    A report is a stored injury when they agree in athlete, day, area and side, or in all but a side
    that one of them leaves open.
    """
    if "injury" in rows.columns or not {*_IDENTITY} <= set(rows.columns):
        return rows
    pairs = zip(text["area"], rows["area"], strict=True)
    words = pl.Series(_WORD, [_area_word(*pair) for pair in pairs], dtype=pl.String)
    rows = _joined_reports(rows.with_columns(words), context.findings)
    cells = [pl.col(name).cast(pl.String) for name in _RECORD]
    base = pl.concat_str(*cells[:-1], cells[-1].fill_null("side not known"), separator=" ")
    worded = pl.when(pl.col(_WORD) != "").then(pl.concat_str(base, _WORD, separator=" "))
    rows = rows.with_columns(_made=pl.coalesce(worded, base))
    return _stored_or_made(rows, context).drop(_WORD, "_made")


def _area_word(written: str | None, area: str | None) -> str:
    """Return what an area was called where that is more than its name: `calf` of the lower leg."""
    words = folded(written or "").split()
    bare = " ".join(word for word in words if word not in _SIDE_WORDS)
    return "" if bare == folded(area or "") else bare


def _stored_or_made(rows: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    stored = context.season.stored("injuries").select(*_RECORD, "injury")
    prefix = pl.concat_str([pl.col(name).cast(pl.String) for name in _IDENTITY], separator=" ")
    foreign = stored.filter(~pl.col("injury").str.starts_with(prefix))
    same = foreign.unique([*_RECORD], keep="none").rename({"injury": "_same"})
    rows = rows.join(same, on=_RECORD, how="left", maintain_order="left", nulls_equal=True)
    lone = stored.filter(pl.len().over(_IDENTITY) == 1)
    lone = lone.select(*_IDENTITY, _alone="injury", _side="side")
    rows = rows.join(lone, on=_IDENTITY, how="left", maintain_order="left")
    single = pl.len().over(_IDENTITY) == 1
    side, held = pl.col("side"), pl.col("_side")
    may_be = single & (side.is_null() | held.is_null() | (held == side))
    own_key = pl.col("_made")
    key = pl.coalesce(
        pl.when(own_key.is_in(stored["injury"].implode())).then(own_key),
        "_same", pl.when(may_be).then("_alone"), own_key,
    )  # fmt: skip
    return rows.with_columns(injury=key).drop("_same", "_alone", "_side")


def _joined_reports(rows: pl.DataFrame, findings: Findings) -> pl.DataFrame:
    record = [*_RECORD, _WORD]
    is_whole = pl.all_horizontal(pl.col(_IDENTITY).is_not_null())
    nth = pl.int_range(pl.len()).over(record)
    first = pl.col("file_row").first().over(record)
    counted = rows.with_columns(_nth=pl.when(is_whole).then(nth).otherwise(0), _first=first)
    again = pl.col("_nth") > 0
    if not counted.select(again.any()).item():
        return rows
    beside = {*record, "file_no", "file_row", "reported_on"}
    others = [name for name in rows.columns if name not in beside]
    earlier = [pl.col(name).shift(1).over(record) for name in others]
    pairs = zip(others, earlier, strict=True)
    changes = [pl.col(name).is_not_null() & pl.col(name).ne_missing(old) for name, old in pairs]
    differs = pl.any_horizontal(pl.lit(False), *changes)
    said = "was reported twice; it is the same injury and counts once."
    findings.doubt(counted, again & ~differs, "area", said)
    said = "was reported again with other cells, as row {_first} was; the later word counts."
    shown = [findings.origin(n, r)[0] for n, r in counted.select("file_no", "_first").iter_rows()]
    findings.doubt(counted.with_columns(_first=pl.Series(shown)), again & differs, "area", said)
    reported = [pl.col("reported_on").min()] if "reported_on" in rows.columns else []
    merged = (
        counted.filter(is_whole)
        .group_by(record, maintain_order=True)
        .agg(pl.col("file_no", "file_row").first(), pl.col(others).drop_nulls().last(), *reported)
    )
    return pl.concat([merged.select(rows.columns), counted.filter(~is_whole).select(rows.columns)])
