"""Guards by their athlete and kind where a key is missing."""

import polars as pl

from seasonboard.store.intake.athlete_names import NAME
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.sessions_by_day import SOFT
from seasonboard.store.intake.text_columns import distinct, with_text
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.stored_column import StoredTable
from seasonboard.terms import Part, Side, Stage

KIND, SIDE = "guard_kind", "guard_side"
_NO = "no"


def with_guards(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Fill the key `guard` of rows that only name the athlete and the kind of guard.

    Of several guards of the kind the one counts that was delivered last before the session. A row
    without one such guard is a problem; so is one whose guard could not be worn then, since its
    athlete was out or it was not there yet, but where it says “not worn” it is left out and noted.
    """
    if KIND not in text.columns or "guard" not in table.names or "athlete" not in text.columns:
        return text
    text = with_text(text, (NAME, "guard", SIDE, "session", "worn")).with_row_index("_nth")
    sides = meanings(distinct(text[SIDE]), "side", tuple(Side), context.synonyms)
    text = text.with_columns(pl.col(SIDE).replace(sides))
    has_kind = pl.col(KIND).is_not_null() | pl.lit(SOFT in text.columns)
    is_asked = pl.col("guard").is_null() & pl.col("athlete").is_not_null() & has_kind
    chosen = _chosen(text.filter(is_asked), context.season)
    joined = text.with_columns(_asked=is_asked).join(
        chosen, on="_nth", how="left", maintain_order="left"
    )
    joined = joined.with_columns(guard=pl.coalesce("guard", "_guard"))
    impossible = _refuse(joined, context)
    needless = (pl.col("worn") == _NO).fill_null(False) & impossible
    said = "says that guard {guard} was not worn on {_played_on}, when it could not be: its "
    said += "athlete was out, or it was not there yet. No row of wear was made of it."
    context.findings.doubt(joined, needless, NAME, said)
    return joined.filter(~needless).select(text.columns).drop("_nth")


def _chosen(open_: pl.DataFrame, season: SeasonRows) -> pl.DataFrame:
    """Return `_nth` → `_guard`, `_several` and what speaks against it: `_ready_on`, `_part`."""
    starts = season.days_of_sessions().select("session", "starts_at", "played_on")
    pairs = (
        open_.select("_nth", "athlete", "session", _kind=KIND, _side=SIDE)
        .join(_there(season), on="athlete", how="inner")
        .filter(pl.col("_kind").is_null() | (pl.col("_kind") == pl.col("kind")))
        .filter(pl.col("_side").is_null() | (pl.col("_side") == pl.col("side")))
        .join(starts.unique("session"), on="session", how="left")
        .with_columns(_in_time=(pl.col("ready_at") <= pl.col("starts_at")).fill_null(True))
        .filter(pl.col("_in_time") == pl.col("_in_time").max().over("_nth"))
    )
    last = pl.col("ready_at").max().over("_nth")
    best = pairs.filter((pl.col("ready_at") == last).fill_null(False) | last.is_null())
    ready_on = pl.col("ready_at").first().dt.strftime("%Y-%m-%d")
    counted = best.group_by("_nth").agg(
        pl.col("session", "athlete").first(),
        _guard=pl.when(pl.len() == 1).then(pl.col("guard").first()),
        _several=pl.when(pl.len() > 1).then(pl.col("guard").sort().str.join(", ")),
        _ready_on=pl.when(~pl.col("_in_time").first()).then(ready_on),
        _played_on=pl.col("played_on").first(),
    )
    parts = season.now("attendance").select("session", "athlete", _part="part")
    on = ["session", "athlete"]
    return counted.join(parts.unique(on), on=on, how="left").drop(on)


def _there(season: SeasonRows) -> pl.DataFrame:
    """Return the guards that were not called off, with the instant from which each was there."""
    ready = pl.col("stage").is_in([Stage.DELIVERED, Stage.FITTED])
    stages = season.now("stages").group_by("guard").agg(
        ready_at=pl.col("reached_at").filter(ready).min(),
        _cancelled=(pl.col("stage") == Stage.CANCELLED).any(),
    )  # fmt: skip
    guards = season.now("guards").select("guard", "athlete", "kind", "side")
    both = guards.join(stages, on="guard", how="left")
    return both.filter(~pl.col("_cancelled").fill_null(False)).drop("_cancelled")


def _refuse(joined: pl.DataFrame, context: LoadContext) -> pl.Expr:
    """Tell what has no guard, and what cannot be; return the rows that cannot be."""
    findings = context.findings
    is_asked = pl.col("_asked") & pl.lit(SOFT not in joined.columns)
    is_worn = (pl.col("worn") != _NO).fill_null(True)
    none = is_asked & pl.col("guard").is_null()
    several = none & pl.col("_several").is_not_null()
    said = "has more than one {guard_kind} guard ({_several}); write the guard's key, or its side."
    findings.reject(joined, several, NAME, said)
    said = "has no guard of the kind {guard_kind} in the store or in this load."
    findings.reject(joined, none & pl.col("_several").is_null(), NAME, said)
    out = is_asked & (pl.col("_part") == Part.OUT).fill_null(False)
    early = is_asked & pl.col("_ready_on").is_not_null()
    said = "is ticked for guard {guard} on {_played_on}, but is marked out of that session."
    findings.reject(joined, out & is_worn, NAME, said)
    said = "is ticked for guard {guard} on {_played_on}, before it was delivered on {_ready_on}."
    findings.reject(joined, early & is_worn & ~out, NAME, said)
    return out | early
