"""Days that a season cannot have, and days outside its usual months."""

import polars as pl

from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_years import years_in

_MONTHS = {"fall": (7, 12), "autumn": (7, 12), "spring": (1, 6), "summer": (5, 9)}
"""The usual months of a season by the word in its key; common practice, no source."""


def check_season_days(rows: pl.DataFrame, day: str, findings: Findings) -> None:
    """Refuse days more than a year away from their season, and note those outside its months.

    Args:
        rows: Rows with `season`, a text, and `day`, a date or an instant; a season whose key names
            no year is passed over.
        day: The column of days.
        findings: Takes the problems and notes.
    """
    seasons = rows["season"].drop_nulls().unique().to_list()
    years = {one: found for one in seasons if (found := years_in([one])) is not None}
    if not years:
        return
    first = pl.col("season").replace_strict(
        {one: found.first for one, found in years.items()}, default=None, return_dtype=pl.Int32
    )
    last = pl.col("season").replace_strict(
        {one: found.last for one, found in years.items()}, default=None, return_dtype=pl.Int32
    )
    year, month = pl.col(day).dt.year(), pl.col(day).dt.month()
    impossible = ((year < first - 1) | (year > last + 1)).fill_null(False)
    said = "is more than a year away from its season, {season}; check the year."
    findings.reject(rows, impossible, day, said)
    spans = {one: span for one in years for word, span in _MONTHS.items() if word in one.casefold()}
    starts, ends = (
        pl.col("season").replace_strict(
            {one: span[place] for one, span in spans.items()}, default=None, return_dtype=pl.Int32
        )
        for place in (0, 1)
    )
    outside = (year < first) | (year > last) | ~month.is_between(starts, ends)
    said = "lies outside the months or the year of its season, {season}; is it right?"
    findings.doubt(rows, outside.fill_null(False) & ~impossible, day, said)
