"""Days that a season cannot have, and days outside its usual months."""

from collections.abc import Mapping

import polars as pl

from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_years import years_in

_MONTHS = {"fall": (7, 12), "autumn": (7, 12), "spring": (1, 6), "summer": (5, 9)}
"""The usual months of a season by the word in its key; common practice, no source."""


def months_of_season(season: str) -> tuple[int, int] | None:
    """Return the first and last usual month of a season; None where its key names no part."""
    words = season.casefold()
    return next((span for word, span in _MONTHS.items() if word in words), None)


def check_season_days(rows: pl.DataFrame, day: str, findings: Findings) -> None:
    """Refuse days more than a year away from their season.

    Args:
        rows: Rows with `season`, a text, and `day`, a date or an instant; a season whose key names
            no year is passed over.
        day: The column of days.
        findings: Takes the problems.
    """
    said = "is more than a year away from its season, {season}; check the year."
    findings.reject(rows, _is_far(rows, day), day, said)


def note_season_days(rows: pl.DataFrame, day: str, findings: Findings) -> None:
    """Note days outside the months or the year of their season; arguments as for the check."""
    first, last = _years(rows)
    spans = {
        one: span
        for one in rows["season"].drop_nulls().unique()
        for word, span in _MONTHS.items()
        if word in one.casefold()
    }
    starts, ends = (_by_season({one: span[nth] for one, span in spans.items()}) for nth in (0, 1))
    year, month = pl.col(day).dt.year(), pl.col(day).dt.month()
    outside = (
        (year < first) | (year > last) | (first.is_not_null() & ~month.is_between(starts, ends))
    )
    said = "lies outside the months or the year of its season, {season}; is it right?"
    findings.doubt(rows, outside.fill_null(False) & ~_is_far(rows, day), day, said)


def _is_far(rows: pl.DataFrame, day: str) -> pl.Expr:
    first, last = _years(rows)
    year = pl.col(day).dt.year()
    return ((year < first - 1) | (year > last + 1)).fill_null(False)


def _years(rows: pl.DataFrame) -> tuple[pl.Expr, pl.Expr]:
    """Return the first and the last year of each row's season, null where its key names none."""
    seasons = rows["season"].drop_nulls().unique().to_list()
    years = {one: named for one in seasons if (named := years_in([one])) is not None}
    return (
        _by_season({one: named.first for one, named in years.items()}),
        _by_season({one: named.last for one, named in years.items()}),
    )


def _by_season(known: Mapping[str, int]) -> pl.Expr:
    return pl.col("season").replace_strict(known, default=None, return_dtype=pl.Int32)
