"""Making a bundle: the rows that are new or changed since a load, and what tells who did it."""

import hashlib
import io
from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path

import polars as pl

from seasonboard import __version__
from seasonboard.errors import StoreError
from seasonboard.load_options import BUNDLE
from seasonboard.store.bundles.archive import MOST_BYTES, is_bundle, pack
from seasonboard.store.bundles.manifest import LOG, BundlePart, Manifest, table_part
from seasonboard.store.bundles.origins import CELL, MOMENT, ROW, marks_of, stamps_of
from seasonboard.store.catalogue import migrations
from seasonboard.store.intake.cleaning import escaped
from seasonboard.store.intake.row_keys import row_key
from seasonboard.store.intake.saving import save_whole
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.store import Store, open_store
from seasonboard.store_outcomes import BundleContent
from seasonboard.stored_tables import TABLES


def write_bundle(store_path: Path, target: Path, since: str | None = None) -> BundleContent:
    """Write what is new in a store as one file, in one step; the store is only read.

    A bundle that is there already is replaced. `since` is the number of a load, after which
    everything is new; or a day in UTC (2026-10-03), from which on it is. None takes everything.

    Raises:
        StoreError: The store cannot be read, there is no such load or day, or the bundle cannot be
            written.
    """
    _check_target(target)
    with open_store(store_path) as store:
        after = since_load(store, since)
        data, packed = packed_bundle(store, after)
    if len(data) > MOST_BYTES:
        said = "A bundle holds 1 GB at most; nothing was written."
        raise StoreError(said, "Shorten it: --since.")
    save_whole(target, data)
    return packed


def _check_target(target: Path) -> None:
    if target.suffix.casefold() != BUNDLE:
        raise StoreError(
            f"{target} is not a name for a bundle.",
            f"End it with {BUNDLE}, so that it can be loaded.",
        )
    if target.is_file() and not is_bundle(target):
        raise StoreError(
            f"{target} is there and is no bundle; it was left as it is.", "Name another file."
        )


def since_load(store: Store, since: str | None) -> int:
    """Return the load after which all is meant.

    Raises:
        StoreError: There is no such load, or it is neither a load nor a day.
    """
    loads = store.read("bundle/loads")
    last = int(store.read("store/last_load")["load_no"].item())
    if since is None:
        return 0
    text = since.strip()
    if text.isascii() and text.isdecimal():
        if int(text) > last:
            raise StoreError(f"There is no load {text}; the last one is {last}.", "Name another.")
        return int(text)
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise StoreError(
            f"“{since}” is neither the number of a load nor a day.",
            "Write --since 4 (what came after load 4) or --since 2026-10-03 (from that day on).",
        ) from None
    start = datetime(day.year, day.month, day.day, tzinfo=UTC)
    before = loads.filter(pl.col("loaded_at").cast(MOMENT) < start)["load_no"]
    return int(before.max() or 0)  # type: ignore[arg-type]


def packed_bundle(store: Store, after: int) -> tuple[bytes, BundleContent]:
    """Return a bundle of what came after a load, and what it carries."""
    marks = marks_of(store)
    stamps = stamps_of(store, list(TABLES), marks)
    log = store.read("bundle/changes")
    fresh = stamps.rows.filter(pl.col("load_no") > after).select(ROW)
    changed = (stamps.rows, log, stamps.cells)
    chosen = pl.concat(one.filter(pl.col("load_no") > after).select(ROW) for one in changed)
    chosen = chosen.unique()
    frames = _rows(SeasonRows(store), chosen)
    keys = [
        frame.select(table_name=pl.lit(name), row_key=row_key(TABLES[name], frame))
        for name, frame in frames.items()
    ]
    kept = pl.concat(keys or [chosen.clear()])
    parts = {table_part(name): escaped(frame) for name, frame in frames.items()}
    known = marks.select("mark", "made_at", before=pl.col("load_no") <= after)
    changes = log.join(kept, on=ROW, how="semi").select("load_no", *CELL, "old_value")
    whole = stamps.rows.select(*ROW, pl.lit(None, pl.String).alias("column_name"), "mark")
    every = pl.concat([whole, stamps.cells.select(*CELL, "mark")])
    every = every.join(kept, on=ROW, how="semi").sort(CELL)
    parts |= {LOG["marks"]: known.sort("mark"), LOG["changes"]: changes, LOG["stamps"]: every}
    last = int(store.read("store/last_load")["load_no"].item())
    return _pack(store, parts, after), BundleContent(_counts(frames, kept, fresh), after, last)


def _rows(season: SeasonRows, chosen: pl.DataFrame) -> dict[str, pl.DataFrame]:
    """Return the chosen rows, complete, of the tables that have any."""
    frames = {}
    for name, table in TABLES.items():
        keys = chosen.filter(pl.col("table_name") == name).select("row_key")
        if keys.is_empty():
            continue
        held = season.stored(name)
        held = held.with_columns(row_key=row_key(table, held))
        rows = held.join(keys, on="row_key", how="semi").select(table.names)
        if not rows.is_empty():
            frames[name] = rows
    return frames


def _counts(
    frames: Mapping[str, pl.DataFrame], kept: pl.DataFrame, fresh: pl.DataFrame
) -> tuple[tuple[str, int, int], ...]:
    new = dict(kept.join(fresh, on=ROW, how="semi").group_by("table_name").len().iter_rows())
    return tuple(
        (name, new.get(name, 0), frame.height - new.get(name, 0)) for name, frame in frames.items()
    )


def _pack(store: Store, parts: Mapping[str, pl.DataFrame], after: int) -> bytes:
    written = {name: _parquet(frame) for name, frame in parts.items()}
    listed = tuple(
        BundlePart(name, parts[name].height, len(data), hashlib.sha256(data).hexdigest())
        for name, data in written.items()
    )
    manifest = Manifest(
        program=__version__,
        schema=migrations()[-1][0],
        store_id=str(store.read("bundle/store_id")["store_id"].item()),
        made_at=datetime.now(UTC).isoformat(timespec="seconds"),
        since=after,
        parts=listed,
    )
    return pack(manifest, written)


def _parquet(frame: pl.DataFrame) -> bytes:
    made = io.BytesIO()
    frame.write_parquet(made, compression="zstd")
    return made.getvalue()
