"""Days that nobody works: an own list, or public holidays where the library is installed."""

import importlib
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from seasonboard.errors import ScopeError
from seasonboard.terms import nearest


def holidays_of(place: str, years: Sequence[int]) -> tuple[date, ...]:
    """Return the days of an own list, where the text names a file, else public holidays.

    A list is a text file with a day a line, such as `2026-11-27`, and what is said behind it.

    Raises:
        ScopeError: As `public_holidays`; or a line of the list begins with no day.
    """
    path = Path(place)
    if not path.is_file():
        return public_holidays(place, years)
    days = []
    for number, line in enumerate(path.read_text(encoding="utf-8-sig").splitlines(), 1):
        if not line.strip():
            continue
        try:
            days.append(date.fromisoformat(line.strip()[:10]))
        except ValueError:
            raise ScopeError(
                f"Line {number} of {path.name} begins with no day: “{line.strip()[:40]}”.",
                "Write a day a line as year, month and day, such as 2026-11-27.",
            ) from None
    return tuple(sorted(days))


def public_holidays(place: str, years: Sequence[int]) -> tuple[date, ...]:
    """Return the public holidays of a country or a part of it, in those years.

    Args:
        place: ISO 3166 code of the country, with a part of it or without: `US`, `US-NY`.
        years: Calendar years.

    Raises:
        ScopeError: The library is not installed, or does not know the place.
    """
    try:
        library = importlib.import_module("holidays")
    except ModuleNotFoundError:
        raise ScopeError(
            "Public holidays need the library “holidays”, which is not installed.",
            "Install it with: pip install 'seasonboard[holidays]', or name a file, a day a line.",
        ) from None
    country, _, part = place.strip().upper().partition("-")
    known = library.list_supported_countries(include_aliases=False)
    if country not in known:
        raise _unknown(f"There is no country “{country}” to take holidays of.", country, known)
    if part and part not in known[country]:
        hint = known[country] or ["no parts are known, leave it out"]
        raise _unknown(f"There is no part “{part}” of {country}.", part, hint)
    days = library.country_holidays(country, subdiv=part or None, years=list(years))
    return tuple(sorted(days))


def _unknown(what: str, asked: str, known: Sequence[str]) -> ScopeError:
    near = nearest(asked, list(known))
    meant = f"Did you mean “{near}”? " if near else ""
    return ScopeError(what, f"{meant}Known: {', '.join(sorted(known))}.")
