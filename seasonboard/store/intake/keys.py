"""Keys that nearly match: offered without their zeros, guard kinds by other names, own keys."""

import re

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.folding import folded, folded_name
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.word_spellings import meanings, tell_meanings
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
        middle = pl.col("kind").is_in(_midline_kinds(context)) & pl.col("side").is_null()
        return text.with_columns(side=pl.when(middle).then(pl.lit("midline")).otherwise("side"))
    return text


def _with_kinds(text: pl.DataFrame, name: str, side: str, context: LoadContext) -> pl.DataFrame:
    there = context.season.keys("kinds", "kind").to_list()
    known = {folded(kind): kind for kind in there}
    spellings = context.synonyms.words.get("kind", {})
    known = {one: kind for one, kind in spellings.items() if kind in there} | known
    written = [one for one in text[name].drop_nulls().unique().to_list() if one not in there]
    meant: dict[str, str] = {}
    sides: dict[str, str] = {}
    for one in written:
        bare, named = context.synonyms.parted_from_sides(one)
        kind = known.get(folded(one)) or known.get(bare) or known.get(bare.removesuffix("s"))
        if kind:
            meant[one] = kind
            sides |= {one: named[0]} if len(set(named)) == 1 else {}
    if not meant:
        return text
    tell_meanings(text, name, meant, context.findings)
    if sides:
        own = pl.col(name).replace_strict(sides, default=None, return_dtype=pl.String)
        given = pl.col(side) if side in text.columns else pl.lit(None, pl.String)
        text = text.with_columns(pl.coalesce(given, own).alias(side))
    return text.with_columns(pl.col(name).replace(meant))


def _midline_kinds(context: LoadContext) -> list[str]:
    only = pl.col("area").is_in(sorted(MIDLINE_AREAS)).all()
    return (
        context.season.now("kinds").group_by("kind").agg(only=only).filter("only")["kind"].to_list()
    )


def with_roster_keys(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Give people of a roster without keys the key they have in that team, or one of team and name.

    People of two teams are never taken for one; two of one name in one team keep apart by jersey.
    """
    if table.name != "roster" or not {"name", "team"} <= set(text.columns):
        return text
    held = text["athlete"] if "athlete" in text.columns else pl.Series([None] * text.height)
    if held.null_count() == 0:
        return text
    text = text.with_columns(pl.col("name").str.replace(_LAST_FIRST, "$2 $1"))
    fold = {one: folded_name(one) for one in text["name"].drop_nulls().unique()}
    stored = context.season.stored("roster").select("athlete", "team", "name", "jersey")
    fold |= {one: folded_name(one) for one in stored["name"].drop_nulls().unique()}

    def named(frame: pl.DataFrame) -> pl.DataFrame:
        return frame.with_columns(
            _name=pl.col("name").replace_strict(fold, default=None, return_dtype=pl.String)
        )

    rows = named(text.with_columns(athlete=held.cast(pl.String)))
    if "jersey" not in rows.columns:
        rows = rows.with_columns(jersey=pl.lit(None, pl.String))
    people = named(stored).unique(["team", "_name", "athlete"], keep="last")
    alone = people.filter(pl.len().over("team", "_name") == 1)
    twins = pl.len().over("team", "_name") > 1
    rows = rows.join(
        alone.select("team", "_name", _alone="athlete"),
        on=["team", "_name"], how="left", maintain_order="left",
    ).join(
        people.unique(["team", "_name", "jersey"]).select(
            "team", "_name", "jersey", _worn="athlete"
        ),
        on=["team", "_name", "jersey"], how="left", maintain_order="left",
    )  # fmt: skip
    plain = pl.concat_str(["team", "name"], separator=" ")
    with_jersey = pl.concat_str(["team", "name", "jersey"], separator=" ", ignore_nulls=True)
    made = pl.when(twins).then(with_jersey).otherwise(plain)
    key = pl.coalesce("athlete", "_worn", pl.when(~twins).then(pl.col("_alone")), made)
    return rows.with_columns(athlete=key).select(
        *(["athlete"] if "athlete" not in text.columns else []), *text.columns
    )


def with_guard_keys(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Give orders without a key one of athlete, kind and side; later ones of a kind a number."""
    if table.name != "guards" or "guard" in text.columns:
        return text
    if not {"athlete", "kind"} <= set(text.columns):
        return text
    parts = [name for name in ("athlete", "kind", "side") if name in text.columns]
    sides = text["side"].drop_nulls().unique().to_list() if "side" in parts else []
    meant = meanings(sides, "side", tuple(Side), context.synonyms)
    named = [pl.col(one).replace(meant) if one == "side" else pl.col(one) for one in parts]
    base = pl.concat_str(named, separator=" ", ignore_nulls=True)
    nth = pl.int_range(pl.len()).over(parts) + 1
    numbered = pl.when(nth > 1).then(pl.concat_str([base, nth.cast(pl.String)], separator=" "))
    whole = pl.col("athlete").is_not_null() & pl.col("kind").is_not_null()
    return text.with_columns(guard=pl.when(whole).then(pl.coalesce(numbered, base)))


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
    ]
    if not parts:
        parts = [pl.lit(None, pl.String)]
    return rows.with_columns(
        pl.coalesce(
            *([key] if key in rows.columns else []),
            pl.concat_str([part.cast(pl.String) for part in parts], separator=" "),
        ).alias(key)
    )


def refuse_keyless(table: StoredTable, rows: pl.DataFrame, label: str, findings: Findings) -> None:
    """Refuse a file whose mapping leaves rows without a key, where nothing else is wrong yet."""
    if findings.rejected or rows.is_empty():
        return
    keyless = [one for one in table.key if one not in rows.columns or rows[one].is_null().all()]
    if keyless:
        lacks = [one for one in table.key_made_of if one not in rows.columns]
        made = f", or what it is made of ({', '.join(lacks)})" if lacks else ""
        said = f"no column of the mapping gives it{made}. Every row of {table.name} needs it: "
        said += "name its column in the mapping."
        findings.refuse(Problem(label, None, keyless[0], None, said))
