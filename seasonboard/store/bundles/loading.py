"""Taking a bundle in: its rows go the way of every load, merged with what is held here."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import polars as pl

from seasonboard.errors import IntakeError
from seasonboard.load_options import BUNDLE, LoadOptions
from seasonboard.store.bundles.merging import (
    BundledRows,
    beside_stored,
    last_agreed,
    origins_of,
    with_newer,
)
from seasonboard.store.bundles.origins import marks_of
from seasonboard.store.bundles.sentences import bundle_sentences, tell_conflicts
from seasonboard.store.bundles.unpacking import UnpackedBundle, read_bundle
from seasonboard.store.intake.cleaning import clean_word, cleaned, trimmed
from seasonboard.store.intake.column_text import WrittenAs
from seasonboard.store.intake.header import numbered
from seasonboard.store.intake.instants import settle_instants
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.row_keys import as_text, completed, without_doubles
from seasonboard.store.intake.values import read_values
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES


@dataclass(frozen=True, slots=True)
class BundlePlan:
    """What a load learns from a bundle beside its rows.

    `marks` are the loads it brings to the knowledge of this store, `origins` says which of them
    brought what; `decides` whether values here were kept against the bundle's. `sentences` say what
    the bundle is.
    """

    files: tuple[tuple[str, str, str], ...]
    marks: pl.DataFrame = field(repr=False)
    origins: pl.DataFrame = field(repr=False)
    decides: bool
    sentences: tuple[str, ...]

    @property
    def learns(self) -> bool:
        """Say whether there is anything to keep, even if no row is new or changed."""
        return self.decides or not self.marks.is_empty()


def lone_bundle(paths: Sequence[Path], options: LoadOptions) -> Path | None:
    """Return the bundle that is meant; None when ordinary files are.

    Raises:
        IntakeError: A bundle stands beside other files, or wishes do not go together.
    """
    bundles = [path for path in paths if path.suffix.casefold() == BUNDLE and not path.is_dir()]
    if not bundles:
        if options.conflicts is not None:
            raise IntakeError(
                "--keep and --newest-wins settle what differs in a bundle, and there is none.",
                hint="Leave them out.",
            )
        return None
    if len({path.resolve() for path in paths}) > 1:
        raise IntakeError("A bundle is loaded by itself.", hint="Load them one after the other.")
    if options.keep_good:
        raise IntakeError(
            "A bundle is taken whole or not at all, so --keep-good does not go with it.",
            hint="Leave it out; what cannot be taken is told.",
        )
    return bundles[0]


def take_bundle(path: Path, context: LoadContext) -> BundlePlan:
    """Read a bundle into the season of a load, merged with what the store holds.

    The options of `context` settle conflicts, when it is wished; its findings take what is wrong,
    and grow by a label for every table of the bundle.

    Raises:
        IntakeError: It cannot be read, an earlier bundle is missing, or both sides changed a cell.
    """
    label = clean_word(path.name)
    try:
        bundle = read_bundle(path, label)
    except IntakeError as error:
        raise IntakeError(f"Nothing was loaded: {error.what}", hint=error.hint) from error
    season, findings = context.season, context.findings
    marks = marks_of(season.store)
    _check_known(bundle, marks, label)
    labels = {name: f"{label} › {name}" for name in bundle.tables}
    tables = {}
    for name, frame in bundle.tables.items():
        findings.labels.append(labels[name])
        tables[name] = _beside_stored(TABLES[name], frame, labels[name], context)
        season.take(name, tables[name].keeping(_NO_CELLS))
    fresh = bundle.marks.join(marks, on="mark", how="anti").select("mark", "made_at")
    if findings.rejected:  # the load is refused for that; who changed what last does not matter
        return BundlePlan((), fresh, _NO_CELLS, decides=False, sentences=())
    cells = _with_newer(tables, bundle, label, context)
    kept = cells.filter(pl.col("newer") == "here")
    for name, one in tables.items():
        season.take(name, one.keeping(kept))
    mine = kept.filter("decided")
    return BundlePlan(
        tuple((name, labels[name], bundle.sha256) for name in tables),
        fresh,
        origins_of(tables, cells.filter(pl.col("newer") == "there"), mine, bundle),
        decides=not mine.is_empty(),
        sentences=bundle_sentences(bundle, fresh, kept.height - mine.height, season.store),
    )


_NO_CELLS = pl.DataFrame(
    schema=dict.fromkeys(("table_name", "row_key", "column_name", "here", "there"), pl.String)
)


def _check_known(bundle: UnpackedBundle, marks: pl.DataFrame, label: str) -> None:
    """Refuse a bundle that leaves out what this store has not seen."""
    before = bundle.marks.filter("before").join(marks, on="mark", how="anti")
    if before.is_empty():
        return
    many = "1 load" if before.height == 1 else f"{before.height:,} loads"
    last = before.select(pl.col("made_at").max().dt.strftime("%Y-%m-%d %H:%M")).item()
    raise IntakeError(
        f"Nothing was loaded: {label} carries what is new since load {bundle.manifest.since} of "
        f"its store, and counts on {many} before that, the last of {last} UTC, which this store "
        "has not seen.",
        hint="Load the bundle with those first, or have one made without --since.",
    )


def _beside_stored(
    table: StoredTable, frame: pl.DataFrame, label: str, context: LoadContext
) -> BundledRows:
    """Check the rows of one table as those of any file, and lay them beside the stored ones."""
    season, findings = context.season, context.findings
    text = trimmed(frame.select(as_text(frame, name).alias(name) for name in frame.columns))
    text = cleaned(text.with_row_index("file_row", offset=1), label, findings)
    text = numbered(text, label, findings)
    rows = read_values(table, text, findings, WrittenAs(context.synonyms, "ymd", "point"))
    rows = settle_instants(table, rows, context)
    stored = season.stored(table.name)
    rows = without_doubles(table, completed(table, rows, stored), findings)
    return beside_stored(table, rows, stored)


def _with_newer(
    tables: Mapping[str, BundledRows], bundle: UnpackedBundle, label: str, context: LoadContext
) -> pl.DataFrame:
    """Return the differing cells with `newer` (here or there), and whether it was `decided`."""
    store, how = context.season.store, context.options.conflicts
    cells = pl.concat([_NO_CELLS, *(one.differing for one in tables.values())])
    stamped = with_newer(cells, bundle, store).with_columns(decided=pl.col("newer").is_null())
    decided = _decided(stamped.filter("decided"), how)
    if not decided.is_empty():
        tell_conflicts(last_agreed(decided, bundle, store), how, label, context.findings)
    return pl.concat([stamped.filter(~pl.col("decided")), decided])


def _decided(conflicts: pl.DataFrame, how: str | None) -> pl.DataFrame:
    """Say where the value stands that is taken; conflicts stay open when nothing is wished."""
    if how in {"mine", "theirs"}:
        where = pl.lit("here" if how == "mine" else "there")
        return conflicts.with_columns(newer=where)
    if how is None:
        return conflicts
    later = pl.col("made_there") > pl.col("made_here")
    equal = pl.col("made_there").eq_missing(pl.col("made_here"))
    larger = pl.col("there").fill_null("") > pl.col("here").fill_null("")
    there = (later | (equal & larger)).fill_null(False)
    where = pl.when(there).then(pl.lit("there")).otherwise(pl.lit("here"))
    return conflicts.with_columns(newer=where)
