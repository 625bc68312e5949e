"""Seasons by their names: the years of dates without one, usual months, days that cannot be."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.text_columns import distinct, mapped

_YEAR = re.compile(r"(?<!\d)(20\d\d)(?:\s*[-–/]\s*(?:20)?(\d\d)(?![-/\d]))?(?!\d)")
_SHORT = re.compile(r"\b(?:fall|autumn|spring|winter|summer)[ _-]*['’]?(\d\d)(?!\d)", re.IGNORECASE)
_MONTHS = {"fall": (7, 12), "autumn": (7, 12), "spring": (1, 6), "summer": (5, 9)}
"""The usual months of a season by the word in its key; common practice, no source."""
SECOND_HALF = 7
"""Of a season over two years, months from July on are in the first year."""


@dataclass(frozen=True, slots=True)
class SeasonYears:
    """The year of a date that is written without one; `last` is the second year of two."""

    first: int
    last: int

    def of_month(self, month: int) -> int:
        """Return the year in which the season has a month."""
        return self.first if month >= SECOND_HALF else self.last


def years_in(texts: Iterable[str]) -> SeasonYears | None:
    """Return the year, or the two years, that the first of the texts with one names."""
    for text in texts:
        if parts := _YEAR.search(text):
            first = int(parts[1])
            last = first // 100 * 100 + int(parts[2]) if parts[2] else first
            return SeasonYears(first, last if last in {first, first + 1} else first)
        if short := _SHORT.search(text):
            return SeasonYears(2000 + int(short[1]), 2000 + int(short[1]))
    return None


def months_of_season(season: str) -> tuple[int, int] | None:
    """Return the first and last usual month of a season; None where its key names no part."""
    words = season.casefold()
    return next((span for word, span in _MONTHS.items() if word in words), None)


def check_season_days(rows: pl.DataFrame, day: str, findings: Findings) -> None:
    """Refuse days, in the column `day`, more than a year away from their `season`.

    A season whose key names no year is passed over.
    """
    said = "is more than a year away from its season, {season}; check the year."
    findings.reject(rows, _is_far(rows, day), day, said)


def note_season_days(rows: pl.DataFrame, day: str, findings: Findings) -> None:
    """Note days outside the months or the year of their season."""
    first, last = _years(rows)
    starts, ends = _by_season(
        {one: span for one in distinct(rows["season"]) if (span := months_of_season(one))}
    )
    year, month = pl.col(day).dt.year(), pl.col(day).dt.month()
    is_out_of_months = first.is_not_null() & ~month.is_between(starts, ends)
    outside = (year < first) | (year > last) | is_out_of_months
    said = "lies outside the months or the year of its season, {season}; is it right?"
    findings.doubt(rows, outside.fill_null(False) & ~_is_far(rows, day), day, said)


def _is_far(rows: pl.DataFrame, day: str) -> pl.Expr:
    first, last = _years(rows)
    year = pl.col(day).dt.year()
    return ((year < first - 1) | (year > last + 1)).fill_null(False)


def _years(rows: pl.DataFrame) -> tuple[pl.Expr, pl.Expr]:
    """Return the first and the last year of each row's season, null where its key names none."""
    years = {season: years_in([season]) for season in distinct(rows["season"])}
    return _by_season({one: (span.first, span.last) for one, span in years.items() if span})


def _by_season(spans: Mapping[str, tuple[int, int]]) -> tuple[pl.Expr, pl.Expr]:
    first, last = ({one: span[nth] for one, span in spans.items()} for nth in (0, 1))
    return mapped("season", first, pl.Int32), mapped("season", last, pl.Int32)
