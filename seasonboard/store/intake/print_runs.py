"""A log of prints: several runs of one guard become its hours, printer and material."""

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.durations import hours_of
from seasonboard.store.intake.problems import Findings

_FAILED = r"(?i)^\s*(fail\w*|abort\w*|error|thrown out|scrap\w*|cancel+ed|ruined|stopped|n\.?g\.?)"


def with_runs_summed(text: pl.DataFrame, findings: Findings) -> pl.DataFrame:
    """Return one row a guard of a log with one row a print.

    Hours of runs that count are added; of printer and material the last run's stand. Runs that
    failed give no hours; each is told.

    Args:
        text: Rows of guards as text that name no athlete, with `file_no` and `file_row`.
        findings: Takes the notes.
    """
    if "print_hours" not in text.columns:
        return text
    failed = text["print_hours"].str.contains(_FAILED).fill_null(False)
    said = "is a print that failed; it gives no hours, no printer and no material."
    findings.doubt(text, failed, "print_hours", said)
    text = text.filter(~failed)
    if not text["guard"].is_duplicated().any():
        return text
    hours = {
        one: hours
        for one in text["print_hours"].drop_nulls().unique()
        if (hours := hours_of(one) if not _is_plain(one) else float(one)) is not None
    }
    several = text.filter(pl.len().over("guard") > 1)
    whole = text.group_by("guard", maintain_order=True).agg(
        pl.exclude("print_hours").drop_nulls().last(),
        _sum=pl.col("print_hours")
        .replace_strict(hours, default=None, return_dtype=pl.Float64)
        .sum(),
        _first=pl.col("print_hours").first(),
        _runs=pl.len(),
    )
    _tell_sums(several, whole, findings)
    summed = pl.when(pl.col("_runs") > 1).then(pl.col("_sum").round(4).cast(pl.String))
    whole = whole.with_columns(print_hours=summed.otherwise(pl.col("_first")))
    return whole.select(text.columns)


def _is_plain(text: str) -> bool:
    return text.replace(".", "", 1).isdigit()


def _tell_sums(several: pl.DataFrame, whole: pl.DataFrame, findings: Findings) -> None:
    rows = whole.filter(pl.col("_runs") > 1).select("guard", "_sum", "_runs", "file_no").head(6)
    shown = ", ".join(
        f"{guard} ({runs} runs, {hours:g} h)" for guard, hours, runs, _ in rows.iter_rows()
    )
    if shown:
        label = findings.labels[int(rows["file_no"][0])]
        said = f"a guard printed in two or more runs has the hours of all, their sum: {shown}."
        findings.note(Problem(label, int(several["file_row"].min() or 0), None, None, said))  # type: ignore[arg-type]
