"""Lists of attendance or injuries that also say whether a guard was worn: they make wear, too."""

import re

import polars as pl

from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.mapping_draft import SAMPLE, MappingDraft, cells_of
from seasonboard.store.intake.sessions_by_day import SOFT
from seasonboard.store.intake.synonyms import heading_key
from seasonboard.stored_tables import TABLES

_WORDS = frozenset({"guard", "guards", "brace", "braces", "worn", "wore", "wearing"})
_YES = re.compile(r"^\s*(?:yes|y|✓|✔|x|true|worn|on)\b|^\s*[✓✔]", re.IGNORECASE)
_NO = re.compile(r"^\s*(?:no|n|none|not worn|off|false|0)\b", re.IGNORECASE)
_TABLES = frozenset({"attendance", "injuries"})


def find_worn(draft: MappingDraft) -> None:
    """Find the column that says whether a guard was worn, in a list of attendance or injuries."""
    if draft.table.name not in _TABLES:
        return
    for heading in draft.free():
        cells = cells_of(draft.sheet.grid, heading).head(SAMPLE)
        said = [bool(_YES.match(cell) or _NO.match(cell)) for cell in cells]
        if _WORDS & set(heading_key(heading).split()) and 2 * sum(said) >= max(1, len(said)):
            draft.worn = heading
            return


def wear_part(draft: MappingDraft) -> tuple[SheetMapping, ...]:
    """Return how such a sheet is read as wear; nothing where it says nothing of it."""
    if not draft.worn:
        return ()
    own = set(own_columns(TABLES["wear"]))
    columns = {name: many for name, many in draft.columns.items() if name in own}
    if draft.table.name == "injuries":
        columns["session_on"] = draft.columns["occurred_on"]
    constants = {name: value for name, value in draft.constants.items() if name in own}
    columns["worn"] = (draft.worn,)
    constants[SOFT] = draft.table.name
    part = SheetMapping("wear", draft.sheet.grid.headings, columns, draft.sheet.path.name,
        constants, dates=draft.dates)  # fmt: skip
    return (part,)


def with_worn_words(text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Read “Yes - shin guard” as worn, and as the kind of guard; what says neither is left out.

    A report of an injury asks for the guard at the hurt site: it makes a row only where it names
    the kind of guard that was worn.

    Args:
        text: Rows of wear as text, from a list of something else.
        context: The load, whose findings take a note on cells that say neither yes nor no.
    """
    if SOFT not in text.columns:
        return text
    cells = text["worn"].drop_nulls().unique().to_list()
    kinds = {folded(kind): kind for kind in context.season.keys("kinds", "kind")}
    worn = {one: "yes" for one in cells if _YES.match(one)}
    worn |= {one: "no" for one in cells if _NO.match(one)}
    named = {
        one: kind
        for one in cells
        for spelled, kind in kinds.items()
        if f" {spelled} " in f" {folded(one)} "
    }
    said = "says neither that a guard was worn nor that none was; no row of wear was made of it."
    context.findings.doubt(text, ~pl.col("worn").is_in(list(worn)), "worn", said)
    own = pl.col("worn").replace_strict(named, default=None, return_dtype=pl.String)
    given = pl.col("guard_kind") if "guard_kind" in text.columns else pl.lit(None, pl.String)
    rows = text.with_columns(
        guard_kind=pl.coalesce(given, own),
        worn=pl.col("worn").replace_strict(worn, default=None, return_dtype=pl.String),
    ).filter(pl.col("worn").is_not_null())
    named_one = (pl.col("worn") == "yes") & pl.col("guard_kind").is_not_null()
    vague = (pl.col(SOFT) == "injuries") & ~named_one
    said = "names no kind of guard that was worn; no row of wear was made of the report."
    context.findings.doubt(rows, vague, "worn", said)
    return rows.filter(~vague)


def placed_wear(text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Return the rows of such wear that have a session and a guard; each other one is noted."""
    if SOFT not in text.columns:
        return text
    open_ = pl.col("session").is_null() | pl.col("guard").is_null()
    said = "names no session and guard that are known; no row of wear was made of it."
    context.findings.doubt(text, open_ & pl.col("athlete").is_not_null(), "worn", said)
    return text.filter(~open_)
