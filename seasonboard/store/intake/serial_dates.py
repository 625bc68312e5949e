"""Day numbers of spreadsheets (ECMA-376 part 1, 18.17.4.1): the 1900 and the 1904 count."""

from datetime import date, timedelta

import polars as pl

LOWEST, HIGHEST = 20_000, 80_000
"""Smaller and larger numbers are hardly days: 1954 to 2119 by the 1900 count."""

_FROM_1900, _FROM_1904 = date(1899, 12, 30), date(1904, 1, 1)
_LEAP_SLIP = 60


def day_of_serial(number: int, *, from_1904: bool = False) -> date | None:
    """Return the day of a spreadsheet's day number.

    The 1900 count starts with 1 January 1900 as day 1 and has a 29 February 1900 that never was
    (60), kept from an early spreadsheet; the 1904 count starts with 1 January 1904 as day 0.

    Returns:
        The day; None for 0 or less and for 60 in the 1900 count.
    """
    if from_1904:
        return _FROM_1904 + timedelta(days=number) if number >= 0 else None
    if number < 1 or number == _LEAP_SLIP:
        return None
    return _FROM_1900 + timedelta(days=number + (number < _LEAP_SLIP))


def days_of_serials(numbers: pl.Expr, *, from_1904: bool) -> pl.Expr:
    """Return the days of whole day numbers from `LOWEST` to `HIGHEST`; null for others."""
    start = pl.lit(_FROM_1904 if from_1904 else _FROM_1900)
    usual = numbers.is_between(LOWEST, HIGHEST)
    return pl.when(usual).then(start + pl.duration(days=numbers)).cast(pl.Date)
