"""Keys that nearly match: offered without their zeros, guard kinds by other names, own keys."""

import re

import polars as pl

from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.word_spellings import tell_meanings
from seasonboard.stored_column import StoredTable

_NUMBER = re.compile(r"^[0-9]+(\.[0-9]*)?([eE]\+?[0-9]{1,2})?$")


def without_zeros(key: str) -> str:
    """Return a key as a spreadsheet would leave it: `00417`, `417.0` and `4.17E+02` are `417`."""
    if _NUMBER.match(key):
        number = float(key)
        if number.is_integer():
            return str(int(number))
    return key.lstrip("0") or "0"


def offered_keys(written: pl.Series, there: pl.Series) -> dict[str, str]:
    """Return the keys that match exactly one known key, but only without leading zeros."""
    known: dict[str, list[str]] = {}
    for key in there.to_list():
        known.setdefault(without_zeros(key), []).append(key)
    offered = {}
    for key in written.to_list():
        near = known.get(without_zeros(key), [])
        if len(near) == 1:
            offered[key] = near[0]
    return offered


def with_likely_keys(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Take the keys that match only without their leading zeros, with a note."""
    for column in table.columns:
        if column.refers is None or column.name not in text.columns:
            continue
        there = context.season.keys(*column.refers)
        written = text[column.name].drop_nulls().unique()
        taken = offered_keys(written.filter(~written.is_in(there.implode())), there)
        if taken:
            name = column.name
            said = "was taken as {_taken}, which it matches without leading zeros."
            changed = text.with_columns(
                _taken=pl.col(name).replace_strict(taken, default=None, return_dtype=pl.String)
            )
            context.findings.doubt(changed, pl.col("_taken").is_not_null(), name, said)
            text = changed.with_columns(pl.coalesce("_taken", name).alias(name)).drop("_taken")
    return text


def with_kinds(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Turn other names of guard kinds into those of the store, with a note."""
    if table.name == "kinds" or "kind" not in text.columns or "kind" not in table.names:
        return text
    there = context.season.keys("kinds", "kind").to_list()
    close = {folded(kind): kind for kind in there}
    spellings = context.synonyms.words.get("kind", {})
    named = {spelling: kind for spelling, kind in spellings.items() if kind in there}
    written = text["kind"].drop_nulls().unique().to_list()
    meant = {
        one: kind
        for one in written
        if one not in there and (kind := close.get(folded(one)) or named.get(folded(one)))
    }
    if not meant:
        return text
    tell_meanings(text, "kind", meant, context.findings)
    return text.with_columns(pl.col("kind").replace(meant))


def with_own_keys(table: StoredTable, rows: pl.DataFrame) -> pl.DataFrame:
    """Make keys of the cells of each row where a file has none."""
    (key, *rest) = table.key
    if rest or key in rows.columns or not table.key_made_of:
        return rows
    parts = [
        pl.col(name).dt.strftime("%Y-%m-%dT%H:%MZ") if name == "starts_at" else pl.col(name)
        for name in table.key_made_of
        if name in rows.columns
    ]
    return rows.with_columns(
        pl.concat_str([part.cast(pl.String) for part in parts], separator=" ").alias(key)
    )
