"""Lists of attendance or injuries that also say whether a guard was worn: they make wear, too."""

import re

import polars as pl

from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.mapping_draft import MappingDraft
from seasonboard.store.intake.sessions_by_day import SOFT
from seasonboard.store.intake.synonyms import heading_key
from seasonboard.store.intake.text_columns import distinct, filled_from, folded, mapped
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES

_LONGEST_WORD = 3
_WORDS = frozenset({"guard", "guards", "brace", "braces", "worn", "wore", "wearing"})
_YES = re.compile(r"^\s*(?:yes|y|✓|✔|x|true|worn|on)\b|^\s*[✓✔]", re.IGNORECASE)
_NO = re.compile(r"^\s*(?:no|n|none|not worn|off|false|0)\b", re.IGNORECASE)


def _answer(cell: str) -> str | None:
    """Return what a cell says, “no” where it begins so; None for neither."""
    return "no" if _NO.match(cell) else "yes" if _YES.match(cell) else None


def find_worn(draft: MappingDraft) -> None:
    """Find the column that says whether a guard was worn, in a list of attendance or injuries."""
    if draft.table.name not in {"attendance", "injuries"}:
        return
    if "was_on" in draft.columns:  # where it names a guard, it tells of wear too
        (draft.worn,) = draft.columns["was_on"]
        return
    for heading in draft.free():
        answers = [_answer(cell) is not None for cell in draft.cells(heading)]
        called = not _WORDS.isdisjoint(heading_key(heading).split())
        if called and 2 * sum(answers) >= max(1, len(answers)):
            draft.worn = heading
            return


def wear_part(draft: MappingDraft) -> tuple[SheetMapping, ...]:
    """Return how such a sheet is read as wear; nothing where it says nothing of it."""
    if not draft.worn:
        return ()
    own = set(own_columns(TABLES["wear"]))
    columns = {name: many for name, many in draft.columns.items() if name in own}
    if draft.table.name == "injuries" and "occurred_on" in draft.columns:
        columns["session_on"] = draft.columns["occurred_on"]
    constants = {name: value for name, value in draft.constants.items() if name in own}
    return (SheetMapping(
        "wear", draft.sheet.grid.headings, columns | {"worn": (draft.worn,)},
        draft.sheet.path.name, constants | {SOFT: draft.table.name}, dates=draft.dates,
    ),)  # fmt: skip


def with_was_on(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Leave “Yes - shin guard” out of whether a guard was on at the hurt site, and note it."""
    if table.name != "injuries" or "was_on" not in text.columns:
        return text
    more = pl.col("was_on").str.contains(r"(?i)^\s*(?:yes|no|y|n)\b.*\pL")
    long = more & (pl.col("was_on").str.len_chars() > _LONGEST_WORD)
    said = "says more than yes or no of a guard; whether one was on at the hurt site stays open."
    context.findings.doubt(text, long, "was_on", said)
    return text.with_columns(was_on=pl.when(~long.fill_null(False)).then("was_on"))


def with_worn_words(text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Read “Yes - shin guard” as worn, and as the kind of guard; what says neither is left out.

    A report of an injury asks for the guard at the hurt site: it makes a row only where it names
    the kind of guard that was worn. What makes no row is noted.
    """
    if SOFT not in text.columns:
        return text
    cells = distinct(text["worn"])
    worn = {cell: answer for cell in cells if (answer := _answer(cell))}
    kinds = {folded(kind): kind for kind in context.season.keys("kinds", "kind")}
    named = {
        cell: kind
        for cell in cells
        for words, kind in kinds.items()
        if f" {words} " in f" {folded(cell)} "
    }
    said = "says neither that a guard was worn nor that none was; no row of wear was made of it."
    context.findings.doubt(text, ~pl.col("worn").is_in(list(worn)), "worn", said)
    rows = filled_from(text, "guard_kind", "worn", named)
    rows = rows.with_columns(mapped("worn", worn)).drop_nulls("worn")
    is_named = (pl.col("worn") == "yes") & pl.col("guard_kind").is_not_null()
    unnamed = (pl.col(SOFT) == "injuries") & ~is_named
    said = "names no kind of guard that was worn; no row of wear was made of the report."
    context.findings.doubt(rows, unnamed, "worn", said)
    return rows.filter(~unnamed)


def placed_wear(text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Return the rows of such wear that have a session and a guard; each other one is noted."""
    if SOFT not in text.columns:
        return text
    open_ = pl.col("session").is_null() | pl.col("guard").is_null()
    said = "names no session and guard that are known; no row of wear was made of it."
    context.findings.doubt(text, open_ & pl.col("athlete").is_not_null(), "worn", said)
    return text.filter(~open_)
