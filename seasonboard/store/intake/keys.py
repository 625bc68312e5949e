"""Keys that nearly match: offered without their zeros, guard kinds by other names, own keys."""

import re

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.text_columns import (
    distinct,
    filled_from,
    folded_names,
    mapped,
    with_text,
)
from seasonboard.store.intake.word_spellings import meanings, tell_meanings, with_sides_apart
from seasonboard.stored_column import StoredTable
from seasonboard.terms import MIDLINE_AREAS, Side

_LAST_FIRST = r"^([^,]+?)\s*,\s*([^,]+)$"
_NUMBER = re.compile(r"^[0-9]+(\.[0-9]*)?([eE]\+?[0-9]{1,2})?$")


def without_zeros(key: str) -> str:
    """Return a key as a spreadsheet would leave it: `00417`, `417.0` and `4.17E+02` are `417`."""
    if _NUMBER.match(key):
        number = float(key)
        if number.is_integer():
            return str(int(number))
    return key.lstrip("0") or "0"


def offered_keys(written: pl.Series, there: pl.Series) -> dict[str, str]:
    """Return the unknown keys that match exactly one known key, but only without leading zeros."""
    known: dict[str, list[str]] = {}
    for key in there.to_list():
        known.setdefault(without_zeros(key), []).append(key)
    unknown = written.filter(~written.is_in(there.implode()))
    near = {key: known.get(without_zeros(key), []) for key in unknown.to_list()}
    return {key: keys[0] for key, keys in near.items() if len(keys) == 1}


def with_likely_keys(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Take the keys that match only without their leading zeros, with a note."""
    for column in table.columns:
        name = column.name
        if column.refers is None or name not in text.columns:
            continue
        near = offered_keys(text[name].drop_nulls().unique(), context.season.keys(*column.refers))
        if near:
            likely = text.with_columns(_taken=mapped(name, near))
            said = "was taken as {_taken}, which it matches without leading zeros."
            context.findings.doubt(likely, pl.col("_taken").is_not_null(), name, said)
            text = text.with_columns(pl.col(name).replace(near))
    return text


def with_kinds(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Turn other names of guard kinds into those of the store, with a note.

    A side or “pair” within the name, as in “Shin (pair)”, becomes the side where the row has none;
    a kind that covers only midline areas takes that side.
    """
    if table.name == "kinds":
        return text
    for kind, side in (("kind", "side"), ("guard_kind", "guard_side")):
        if kind in text.columns:
            text = _with_kinds(text, kind, side, context)
    if table.name == "guards" and {"kind", "side"} <= set(text.columns):
        only = pl.col("area").is_in(sorted(MIDLINE_AREAS)).all()
        kinds = context.season.now("kinds").group_by("kind").agg(only=only).filter("only")["kind"]
        middle = pl.col("kind").is_in(kinds.implode()) & pl.col("side").is_null()
        return text.with_columns(side=pl.when(middle).then(pl.lit("midline")).otherwise("side"))
    return text


def _with_kinds(text: pl.DataFrame, name: str, side: str, context: LoadContext) -> pl.DataFrame:
    kinds = context.season.keys("kinds", "kind").to_list()
    written = [one for one in distinct(text[name]) if one not in kinds]
    meant = with_sides_apart(written, "kind", kinds, context.synonyms)
    kind = {one: kind for one, (kind, _) in meant.items()}
    tell_meanings(text, name, kind, context.findings)
    sides = {one: sides[0] for one, (_, sides) in meant.items() if len(set(sides)) == 1}
    text = filled_from(text, side, name, sides) if sides else text
    return text.with_columns(pl.col(name).replace(kind))


def with_roster_keys(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Give people of a roster without keys the key they have in that team, or one of team and name.

    People of two teams are never taken for one; two of one name in one team keep apart by jersey.
    """
    if table.name != "roster" or not {"name", "team"} <= set(text.columns):
        return text
    rows = with_text(text, ["athlete"])
    if not rows["athlete"].has_nulls():
        return text
    rows = rows.with_columns(pl.col("name").str.replace(_LAST_FIRST, "$2 $1"))
    rows = with_text(rows.with_columns(_name=folded_names(rows["name"])), ["jersey"])
    stored = context.season.stored("roster").select("athlete", "team", "name", "jersey")
    people = stored.with_columns(_name=folded_names(stored["name"]))
    people = people.unique(["team", "_name", "athlete"], keep="last")
    alone = people.filter(pl.len().over("team", "_name") == 1)
    worn = people.unique(["team", "_name", "jersey"])
    for name, known, more in (("_alone", alone, ()), ("_worn", worn, ("jersey",))):
        on = ["team", "_name", *more]
        held = known.select(*on, pl.col("athlete").alias(name))
        rows = rows.join(held, on=on, how="left", maintain_order="left")
    twins = pl.len().over("team", "_name") > 1
    base = pl.concat_str(["team", "name"], separator=" ")
    with_jersey = pl.concat_str(["team", "name", "jersey"], separator=" ", ignore_nulls=True)
    own_key = pl.when(twins).then(with_jersey).otherwise(base)
    key = pl.coalesce("athlete", "_worn", pl.when(~twins).then(pl.col("_alone")), own_key)
    return rows.with_columns(athlete=key).select(*dict.fromkeys(["athlete", *text.columns]))


def with_guard_keys(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Give orders without a key one of athlete, kind and side; later ones of a kind a number."""
    if table.name != "guards" or "guard" in text.columns:
        return text
    if not {"athlete", "kind"} <= set(text.columns):
        return text
    parts = [name for name in ("athlete", "kind", "side") if name in text.columns]
    sides = distinct(text["side"]) if "side" in parts else []
    meant = meanings(sides, "side", tuple(Side), context.synonyms)
    named = [pl.col(one).replace(meant) if one == "side" else pl.col(one) for one in parts]
    base = pl.concat_str(named, separator=" ", ignore_nulls=True)
    nth = pl.int_range(pl.len()).over(parts) + 1
    numbered = pl.when(nth > 1).then(pl.concat_str([base, nth.cast(pl.String)], separator=" "))
    is_whole = pl.col("athlete").is_not_null() & pl.col("kind").is_not_null()
    return text.with_columns(guard=pl.when(is_whole).then(pl.coalesce(numbered, base)))


def with_own_keys(table: StoredTable, rows: pl.DataFrame) -> pl.DataFrame:
    """Make keys of the cells of each row where a file has none."""
    (key, *rest) = table.key
    if rest or not table.key_made_of:
        return rows
    if key in rows.columns and (table.name != "sessions" or not rows[key].has_nulls()):
        return rows
    parts = [
        pl.col(name).dt.strftime("%Y-%m-%dT%H:%MZ") if name == "starts_at" else pl.col(name)
        for name in table.key_made_of
        if name in rows.columns
    ] or [pl.lit(None)]
    own_key = pl.concat_str([part.cast(pl.String) for part in parts], separator=" ")
    return with_text(rows, [key]).with_columns(pl.coalesce(key, own_key).alias(key))


def refuse_keyless(table: StoredTable, rows: pl.DataFrame, label: str, findings: Findings) -> None:
    """Refuse a file whose mapping leaves rows without a key, where nothing else is wrong yet."""
    if findings.rejected or rows.is_empty():
        return
    keyless = [one for one in table.key if one not in rows.columns or rows[one].is_null().all()]
    if keyless:
        lacks = [one for one in table.key_made_of if one not in rows.columns]
        or_parts = f", or what it is made of ({', '.join(lacks)})" if lacks else ""
        said = f"no column of the mapping gives it{or_parts}. Every row of {table.name} needs it: "
        said += "name its column in the mapping."
        findings.refuse(Problem(label, None, keyless[0], None, said))
