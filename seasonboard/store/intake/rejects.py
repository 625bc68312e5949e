"""Rejected rows as tables of their own: corrected, they load like any other file."""

from collections.abc import Mapping
from itertools import count
from pathlib import Path

import polars as pl

from seasonboard.store.intake.cleaning import guarded
from seasonboard.store.intake.header import BY_NAME, REJECTED
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.row_keys import PLACE, as_text
from seasonboard.stored_tables import TABLES


def rejected_rows(
    name: str, texts: list[pl.DataFrame], read: list[pl.DataFrame], findings: Findings
) -> pl.DataFrame:
    """Return the rejected rows of one table, ready to be corrected.

    `texts` and `read` are its rows as text and as values, one frame per file.

    Returns:
        `rejected_file`, `_row`, `_column`, `_value`, `_reason` (of several, parted by " | "), then
        the columns of the table: as they were read, or as written where they could not be.
    """
    reasons = _reasons(findings.refused_rows())
    files = pl.DataFrame(
        {"file_no": range(len(findings.labels)), f"{REJECTED}file": findings.labels},
        schema={"file_no": pl.UInt32, f"{REJECTED}file": pl.String},
    )
    parts = []
    for text, values in zip(texts, read, strict=True):
        as_read = values.select(
            *PLACE, *(as_text(values, one).alias(one) for one in values.columns if one not in PLACE)
        )
        both = text.join(as_read, on=PLACE, how="left", suffix="_read", maintain_order="left")
        columns = [
            pl.coalesce(f"{one}_read", one).alias(one)
            if f"{one}_read" in both.columns
            else pl.col(one)
            for one in [*TABLES[name].names, *BY_NAME]
            if one in text.columns
        ]
        refused = both.join(reasons, on=PLACE, how="inner", maintain_order="left")
        refused = refused.join(files, on="file_no", how="left", maintain_order="left")
        rows = findings.with_origins(refused)["file_row"].cast(pl.String).alias(f"{REJECTED}row")
        why = (f"{REJECTED}{one}" for one in ("column", "value", "reason"))
        parts.append(refused.select(f"{REJECTED}file", rows, *why, *columns))
    return pl.concat(parts, how="diagonal")


def _reasons(refused: pl.DataFrame) -> pl.DataFrame:
    """Return one line per refused row; what several reasons say is parted by " | "."""
    several = refused.select(PLACE).is_duplicated()
    why = pl.col("column", "value", "reason").fill_null("")
    once = refused.filter(~several).select(*PLACE, why.name.prefix(REJECTED))
    joined = refused.filter(several).group_by(PLACE, maintain_order=True)
    return pl.concat([once, joined.agg(why.str.join(" | ").name.prefix(REJECTED))])


def write_rejects(folder: Path, rejected: Mapping[str, pl.DataFrame]) -> Path:
    """Write one CSV per table with rejected rows, in a new folder inside `folder`.

    Returns:
        That folder: it can be loaded as a whole once its cells are corrected.
    """
    inside = next(one for nth in count(1) if not (one := folder / f"{nth}").exists())
    inside.mkdir(parents=True)
    for name, rows in rejected.items():
        guarded(rows).write_csv(inside / f"{name}.csv")
    return inside
