"""Rejected rows as tables of their own: corrected, they load like any other file."""

from collections.abc import Mapping
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

    Args:
        name: The table.
        texts: Its rows as text, one frame per file.
        read: The same rows as values.
        findings: Knows which rows were rejected, and why.

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
        as_read = values.select(*PLACE, *_as_texts(values))
        both = text.join(as_read, on=PLACE, how="left", suffix="_read", maintain_order="left")
        columns = [
            pl.coalesce(f"{one}_read", one).alias(one)
            if f"{one}_read" in both.columns
            else pl.col(one)
            for one in [*TABLES[name].names, *BY_NAME]
            if one in text.columns
        ]
        told = both.join(reasons, on=PLACE, how="inner", maintain_order="left").join(
            files, on="file_no", how="left", maintain_order="left"
        )
        labels: list[pl.Expr | pl.Series] = [
            pl.col(f"{REJECTED}file"),
            findings.with_origins(told)["file_row"].cast(pl.String).alias(f"{REJECTED}row"),
            *(pl.col(f"{REJECTED}{one}") for one in ("column", "value", "reason")),
        ]
        parts.append(told.select(*labels, *columns))
    return pl.concat(parts, how="diagonal")


def _reasons(refused: pl.DataFrame) -> pl.DataFrame:
    """Return one line per refused row; what several reasons say is parted by " | "."""
    several = refused.select(PLACE).is_duplicated()
    told = pl.col("column", "value", "reason").fill_null("")
    once = refused.filter(~several).select(*PLACE, told.name.prefix(REJECTED))
    joined = refused.filter(several).group_by(PLACE, maintain_order=True)
    return pl.concat([once, joined.agg(told.str.join(" | ").name.prefix(REJECTED))])


def _as_texts(values: pl.DataFrame) -> list[pl.Expr]:
    return [as_text(values, one).alias(one) for one in values.columns if one not in PLACE]


def write_rejects(folder: Path, rejected: Mapping[str, pl.DataFrame]) -> Path:
    """Write one CSV per table with rejected rows, in a new folder inside `folder`.

    Returns:
        That folder: it can be loaded as a whole once its cells are corrected.
    """
    place = 1
    while (folder / f"{place}").exists():
        place += 1
    made = folder / f"{place}"
    made.mkdir(parents=True)
    for name, rows in rejected.items():
        guarded(rows).write_csv(made / f"{name}.csv")
    return made
