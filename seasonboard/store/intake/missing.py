"""Marks that only say that nothing is there, as people write them in dates, numbers and words."""

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.stored_column import CellType, StoredColumn


def without_marks(
    columns: list[StoredColumn], text: pl.DataFrame, findings: Findings, synonyms: Synonyms
) -> pl.DataFrame:
    """Empty the cells that only say that nothing is there, except in keys and text.

    Args:
        columns: The columns that `text` has.
        text: Rows as text, with `file_no` and `file_row`.
        findings: Takes a note with the count per column.
        synonyms: Knows the marks, and the words that look like one.
    """
    marks = list(synonyms.missing)
    for column in columns:
        if column.is_free or text.schema[column.name] != pl.String:
            continue
        name = column.name
        uniques = text.select(pl.col(name).unique()).filter(
            pl.col(name).str.to_lowercase().is_in(marks)
        )[name]
        if column.holds is CellType.WORD:
            meant = meanings(uniques.to_list(), name, column.words, synonyms)
            uniques = uniques.filter(~uniques.is_in(list(meant)))
        if uniques.is_empty():
            continue
        empty = pl.col(name).is_in(uniques.to_list())
        _tell_marks(text.filter(empty), name, uniques.sort().to_list(), findings)
        text = text.with_columns(pl.when(~empty).then(pl.col(name)))
    return text


def _tell_marks(rows: pl.DataFrame, name: str, marks: list[str], findings: Findings) -> None:
    shown = ", ".join(f"“{mark}”" for mark in marks)
    for part in rows.partition_by("file_no", maintain_order=True):
        many = "1 cell counts" if part.height == 1 else f"{part.height:,} cells count"
        number = int(part["file_no"][0])
        row, _ = findings.origin(number, int(part["file_row"][0]))
        said = f"{many} as missing: {shown}."
        findings.note(Problem(findings.labels[number], row, name, None, said))
