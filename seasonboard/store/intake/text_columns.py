"""Columns of text, and when two spellings in them are one, as many steps of a load take them."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any

import polars as pl
from polars._typing import PolarsDataType


def mapped(name: str, known: Mapping[str, Any], kind: PolarsDataType = pl.String) -> pl.Expr:
    """Return what each cell of a column stands for; null where that is not known."""
    return pl.col(name).replace_strict(dict(known), default=None, return_dtype=kind)


def distinct(cells: pl.Series) -> list[str]:
    """Return the different cells that hold something."""
    return cells.drop_nulls().unique(maintain_order=True).to_list()


def with_text(rows: pl.DataFrame, names: Iterable[str]) -> pl.DataFrame:
    """Return rows that have all these columns; those that were absent are empty text."""
    absent = [name for name in names if name not in rows.columns]
    return rows.with_columns(pl.lit(None, pl.String).alias(name) for name in absent)


def joined_cells(columns: Iterable[str]) -> pl.Expr:
    """Return the cells of columns joined with blanks; null where none holds anything."""
    joined = pl.concat_str(list(columns), separator=" ", ignore_nulls=True)
    return pl.when(joined != "").then(joined)


def filled_from(
    text: pl.DataFrame, name: str, other: str, known: Mapping[str, str]
) -> pl.DataFrame:
    """Fill the empty cells of a column with what the cells of another stand for."""
    filled = pl.coalesce(name, mapped(other, known)).alias(name)
    return with_text(text, [name]).with_columns(filled)


def folded_names(names: pl.Series) -> pl.Series:
    """Return names of people so that two spellings of one are the same."""
    known = {name: folded_name(name) for name in distinct(names)}
    return names.replace_strict(known, default=None, return_dtype=pl.String)


_PARTING = re.compile(r"[\s_\-–—/\\.:,;()\[\]#]+")
_UNSEEN = re.compile("[\u200b\u2060\ufeff\u00ad]")
_APOSTROPHES = re.compile("['’‘`´ʼ]")


def folded(word: str) -> str:
    """Return a spelling without capitals, unseen characters, and marks that part words."""
    bare = _UNSEEN.sub("", unicodedata.normalize("NFKC", word)).casefold()
    return _PARTING.sub(" ", bare).strip()


def folded_name(name: str) -> str:
    """Return a person's name without capitals, apostrophes and dots, given name first.

    “O’BRIEN, JONATHAN” and “Jonathan O'Brien” are one name; accents and letters stay apart.
    """
    bare = _APOSTROPHES.sub("", _UNSEEN.sub("", unicodedata.normalize("NFKC", name)))
    last, comma, first = bare.partition(",")
    ordered = f"{first} {last}" if comma and first.strip() else bare
    return " ".join(ordered.casefold().replace(".", " ").split())
