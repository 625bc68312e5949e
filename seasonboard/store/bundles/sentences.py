"""What is said of a bundle: what it is, and where both sides changed a cell."""

import polars as pl

from seasonboard.errors import IntakeError, Problem
from seasonboard.store.bundles.manifest import display_text
from seasonboard.store.bundles.unpacking import UnpackedBundle
from seasonboard.store.intake.problems import Findings
from seasonboard.store.store import Store


def tell_conflicts(
    conflicts: pl.DataFrame, how: str | None, label: str, findings: Findings
) -> None:
    """List every conflict: refuse the load, or note what was decided.

    Args:
        conflicts: Cells with the values here and there, when both were made, and the last agreed.
        how: How they were decided; None when they were not.
        label: The bundle, for messages.
        findings: Takes the notes.

    Raises:
        IntakeError: They were not decided.
    """
    problems = [_conflict(row, label) for row in conflicts.iter_rows(named=True)]
    if how is not None:
        for one in problems:
            findings.note(one)
        return
    many = "1 cell was" if len(problems) == 1 else f"{len(problems):,} cells were"
    raise IntakeError(
        f"Nothing was loaded: {many} changed both here and there since the two last agreed.",
        problems,
        "Decide for all of them with --keep mine, --keep theirs or --newest-wins; or correct "
        "them one by one on one side, and load again.",
    )


def _conflict(row: dict[str, object], label: str) -> Problem:
    was = _quoted(row["agreed"]) if row["was_agreed"] else "not known"
    here = f"{_quoted(row['here'])}{_load_moment(row['made_here'])}"
    there = f"{_quoted(row['there'])}{_load_moment(row['made_there'])}"
    said = f"was {was}; here it is {here}, there {there}."
    if row["newer"] is not None:
        said += f" The value {row['newer']} is taken."
    place = f"{label} › {row['table_name']}, {display_text(row['row_key'])}"
    return Problem(place, None, str(row["column_name"]), None, said)


def _quoted(value: object) -> str:
    return "empty" if value is None else f"“{display_text(value)}”"


def _load_moment(moment: object) -> str:
    return f" (load of {moment:%Y-%m-%d %H:%M} UTC)" if moment is not None else ""


def bundle_sentences(
    bundle: UnpackedBundle, fresh: pl.DataFrame, older: int, store: Store
) -> tuple[str, ...]:
    """Return what a bundle is.

    Args:
        bundle: What came.
        fresh: The loads it brings that the store had not seen.
        older: How many of its cells are older than those here.
        store: Where it is taken in.
    """
    manifest = bundle.manifest
    own = store.read("bundle/store_id")["store_id"].item() == manifest.store_id
    sender = "this store or a copy of it" if own else f"store {display_text(manifest.store_id[:8])}"
    what = f"what is new since its load {manifest.since}" if manifest.since else "all it holds"
    lines = [f"A bundle of {sender}, made {manifest.moment}: {what}."]
    if older:
        many = "1 cell is" if older == 1 else f"{older:,} cells are"
        lines.append(f"{many} newer here and stay as they are.")
    if not fresh.is_empty():
        many = "1 load" if fresh.height == 1 else f"{fresh.height:,} loads"
        lines.append(
            f"It brings {many} that this store had not seen; that is kept, for later ones."
        )
    return tuple(lines)
