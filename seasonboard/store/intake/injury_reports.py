"""Injury reports as forms give them: several parts ticked, sides unknown, sent twice or again."""

import re

import polars as pl

from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.word_spellings import meanings, side_within
from seasonboard.stored_column import StoredTable
from seasonboard.terms import MIDLINE_AREAS, Area, Side

_SIDE_WORDS = frozenset({"left", "right", "l", "r", "lt", "rt", "both"})
_PARTING = re.compile(r"\s*(?:[,;\n+&]|\band\b)\s*")


def with_single_areas(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Make one row for every body area of a cell that names several, each with a note.

    Args:
        table: The table; only injuries are touched.
        text: Its rows as text.
        context: The load, whose findings take the notes and where each row is from.
    """
    if table.name != "injuries" or "area" not in text.columns:
        return text
    text = with_sides_of_areas(text, context)
    cells = text["area"].drop_nulls().unique().to_list()
    known = meanings(cells, "area", tuple(Area), context.synonyms)
    parts = {
        cell: named
        for cell in cells
        if cell not in known and len(named := _parts(cell, context)) > 1
    }
    if not parts:
        return text
    many = pl.col("area").is_in(list(parts))
    said = "names more than one body area; one injury was made of each."
    context.findings.doubt(text, many, "area", said)
    split = text.with_columns(
        area=pl.col("area").replace_strict(
            {**{cell: [cell] for cell in cells}, **parts},
            default=[],
            return_dtype=pl.List(pl.String),
        )
    ).explode("area")
    return renumbered(split, context.findings)


def with_sides_of_areas(text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Take the side from the area of injuries that give it there alone, as in “left knee”."""
    cells = text["area"].drop_nulls().unique().to_list()
    sides = {cell: side for cell in cells if (side := side_within(cell, context.synonyms))}
    if not sides:
        return text
    own = pl.col("area").replace_strict(sides, default=None, return_dtype=pl.String)
    given = pl.col("side") if "side" in text.columns else pl.lit(None, pl.String)
    return text.with_columns(side=pl.coalesce(given, own))


def _parts(cell: str, context: LoadContext) -> list[str]:
    parts = [part for part in _PARTING.split(cell) if part]
    known = meanings(parts, "area", tuple(Area), context.synonyms)
    return list(dict.fromkeys(parts)) if len(known) == len(set(parts)) else []


def renumbered(text: pl.DataFrame, findings: Findings) -> pl.DataFrame:
    """Return rows with a number of their own; `findings` learns from which row each is."""
    for number in text["file_no"].unique().to_list():
        rows = text.filter(pl.col("file_no") == number)["file_row"].to_list()
        findings.origins[number] = {
            nth: findings.origin(number, row) for nth, row in enumerate(rows, 1)
        }
    nth = (pl.int_range(pl.len(), dtype=pl.UInt32) + 1).over("file_no")
    return text.with_columns(file_row=nth)


def with_known_sides(rows: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Settle the side of areas on the body's midline; others may stay unknown.

    Args:
        rows: The rows of one file of injuries as values.
        context: The load, whose findings take a note where a side was given and does not count.
    """
    if "area" not in rows.columns:
        return rows
    if "side" not in rows.columns:
        rows = rows.with_columns(side=pl.lit(None, pl.String))
    on_midline = pl.col("area").is_in(sorted(MIDLINE_AREAS))
    given = on_midline & pl.col("side").is_in([Side.LEFT, Side.RIGHT, Side.BOTH])
    said = "was given as the side of the {area}, which is on the midline; kept in its note."
    context.findings.doubt(rows, given, "side", said)
    if "note" not in rows.columns and rows.select(given.any()).item():
        rows = rows.with_columns(note=pl.lit(None, pl.String))
    if "note" in rows.columns:
        told = pl.format("side given: {}", "side")
        both = pl.concat_str([pl.col("note"), told], separator="; ", ignore_nulls=True)
        rows = rows.with_columns(note=pl.when(given).then(both).otherwise(pl.col("note")))
    return rows.with_columns(
        side=pl.when(on_midline).then(pl.lit(str(Side.MIDLINE))).otherwise(pl.col("side"))
    )


_IDENTITY = ("athlete", "occurred_on", "area")
_RECORD = (*_IDENTITY, "side")
_WORD = "_word"


def with_injury_keys(rows: pl.DataFrame, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Give injuries without a key that of the stored injury they are; reports sent again are one.

    Two reports are one injury when athlete, day, area, side and the words for the area agree: a
    shin and a calf are two. The last word counts, cell by cell. A report is a stored injury when
    they agree in athlete, day, area and side, or in all but a side that one of them leaves open.

    Args:
        rows: The rows of one file of injuries as values, with sides settled.
        text: The same rows as text.
        context: The load, whose findings take a note on every report that was joined to another.
    """
    if "injury" in rows.columns or not {*_IDENTITY} <= set(rows.columns):
        return rows
    own_words = [
        _area_word(one, area) for one, area in zip(text["area"], rows["area"], strict=True)
    ]
    words = pl.Series(_WORD, own_words, dtype=pl.String)
    rows = _joined_reports(rows.with_columns(words), context.findings)
    side = pl.col("side").cast(pl.String).fill_null("side not known")
    base = pl.concat_str(
        [*(pl.col(name).cast(pl.String) for name in _IDENTITY), side], separator=" "
    )
    named = pl.when(pl.col(_WORD) != "").then(pl.concat_str([base, _WORD], separator=" "))
    rows = rows.with_columns(_base=base, _made=pl.coalesce(named, base))
    return _stored_or_made(rows, context).drop(_WORD, "_base", "_made")


def _area_word(written: str | None, area: str | None) -> str:
    """Return what an area was called where that is more than its name: `calf` of the lower leg."""
    words = folded(written or "").split()
    bare = " ".join(word for word in words if word not in _SIDE_WORDS)
    return "" if bare == folded(area or "") else bare


def _stored_or_made(rows: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    stored = context.season.stored("injuries").select(*_RECORD, "injury")
    keys = stored["injury"].implode()
    prefix = pl.concat_str([pl.col(name).cast(pl.String) for name in _IDENTITY], separator=" ")
    foreign = stored.filter(~pl.col("injury").str.starts_with(prefix))
    alone = foreign.unique([*_RECORD], keep="none")
    rows = rows.join(
        alone.rename({"injury": "_same"}), on=list(_RECORD), how="left", maintain_order="left",
        nulls_equal=True,
    )  # fmt: skip
    lone = stored.filter(pl.len().over(_IDENTITY) == 1)
    lone = lone.select(*_IDENTITY, _alone="injury", _side="side")
    rows = rows.join(lone, on=list(_IDENTITY), how="left", maintain_order="left")
    single = pl.len().over(_IDENTITY) == 1
    may_be = (
        pl.col("side").is_null() | pl.col("_side").is_null() | (pl.col("_side") == pl.col("side"))
    )
    made = pl.col("_made")
    key = (
        pl.when(made.is_in(keys))
        .then(made)
        .otherwise(pl.coalesce("_same", pl.when(single & may_be).then(pl.col("_alone")), made))
    )
    return rows.with_columns(injury=key).drop("_same", "_alone", "_side")


def _joined_reports(rows: pl.DataFrame, findings: Findings) -> pl.DataFrame:
    record = [*_RECORD, _WORD]
    whole = pl.all_horizontal(pl.col(_IDENTITY).is_not_null())
    nth = pl.int_range(pl.len()).over(record)
    counted = rows.with_columns(_nth=pl.when(whole).then(nth).otherwise(0))
    if not bool((counted["_nth"] > 0).any()):
        return rows
    beside = {*record, "file_no", "file_row", "reported_on"}
    others = [name for name in rows.columns if name not in beside]
    earlier = {name: pl.col(name).shift(1).over(record) for name in others}
    again = pl.col("_nth") > 0
    differs = pl.any_horizontal(
        pl.lit(False),
        *(
            pl.col(name).is_not_null() & pl.col(name).ne_missing(old)
            for name, old in earlier.items()
        ),
    )
    said = "was reported twice; it is the same injury and counts once."
    findings.doubt(counted, again & ~differs, "area", said)
    said = "was reported again with other cells, as row {_first} was; the later word counts."
    first = counted.with_columns(_first=pl.col("file_row").first().over(record))
    shown = [findings.origin(n, r)[0] for n, r in first.select("file_no", "_first").iter_rows()]
    findings.doubt(first.with_columns(_first=pl.Series(shown)), again & differs, "area", said)
    reported = [pl.col("reported_on").min()] if "reported_on" in rows.columns else []
    merged = (
        counted.filter(whole)
        .group_by(record, maintain_order=True)
        .agg(pl.col("file_no", "file_row").first(), pl.col(others).drop_nulls().last(), *reported)
    )
    return pl.concat([merged.select(rows.columns), counted.filter(~whole).select(rows.columns)])
