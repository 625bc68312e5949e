"""What is published about injuries in colleges: rates and shares, of the program and the user.

The files `rates.csv` and `shares.csv` in `seasonboard/published`, and the user's own of these names
in the settings folder, name the source of every line.
"""

import csv
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from seasonboard.errors import ScopeError
from seasonboard.last_used import settings_folder
from seasonboard.terms import Area

Line = TypeVar("Line")

_FOLDER = Path(__file__).parent.parent / "published"
_Z = 1.959964


@dataclass(frozen=True, slots=True)
class PublishedRate:
    """Injuries per 1000 athlete-exposures, as printed.

    `setting` is game, practice or both; `definition` is time loss or any. `injuries`, `exposures`,
    `low` and `high` are None where they are neither printed nor follow from what is; a rate or
    95 % limits that are not printed beside counts are made from them (Wald, as in the papers).
    """

    sport: str
    sex: str
    setting: str
    injuries: int | None
    exposures: int | None
    rate: float
    low: float | None
    high: float | None
    source: str
    period: str
    division: str
    definition: str


@dataclass(frozen=True, slots=True)
class PublishedShare:
    """Share (0 to 1) of a sport's injuries that fell on whole body areas, in the IOC's words.

    `category` is how the source calls them, `definition` is time loss or any.
    """

    sport: str
    sex: str
    category: str
    areas: tuple[str, ...]
    share: float
    source: str
    period: str
    definition: str


def rate_for(sport: str, sex: str, setting: str, outcome: str) -> PublishedRate | None:
    """Return the published rate of a sport; None where there is none of that very kind.

    One of the user's own table comes first. Of several that of all divisions is preferred, then the
    latest, then one with its counts.

    Args:
        sport: The sport, in the words of the sample season.
        sex: `women` or `men`.
        setting: `game`, `practice` or `both`.
        outcome: `time loss` or `any`; a rate of the other definition is never given.
    """
    asked = (sport.casefold(), sex, setting, str(outcome))
    for rates in (_rates(settings_folder()), published_rates()):
        fit = [r for r in rates if (r.sport, r.sex, r.setting, r.definition) == asked]
        if fit:
            return max(
                fit, key=lambda r: (r.division == "all", r.period[:4], r.exposures is not None)
            )
    return None


def share_for(sport: str, sex: str, areas: Iterable[str], outcome: str) -> PublishedShare | None:
    """Return the published share of injuries that fell on some areas; None where there is none.

    Where no category covers these areas together, categories that cover them in parts are added,
    provided that they are of one source.

    Args:
        sport: The sport.
        sex: `women` or `men`.
        areas: Body areas, all of which and no others the share is of.
        outcome: `time loss` or `any`; a share of the other definition is never given.
    """
    wanted = {str(area) for area in areas}
    asked = (sport.casefold(), sex, str(outcome))
    by_source: dict[str, list[PublishedShare]] = {}
    for one in (*_shares(settings_folder()), *published_shares()):
        if (one.sport, one.sex, one.definition) == asked and wanted >= set(one.areas):
            by_source.setdefault(one.source, []).append(one)
    for parts in by_source.values():
        if {area for one in parts for area in one.areas} == wanted and wanted:
            return _together(parts)
    return None


def _together(parts: list[PublishedShare]) -> PublishedShare:
    """Add the shares of categories that share no area."""
    return replace(
        parts[0],
        category=" and ".join(one.category for one in parts),
        areas=tuple(area for one in parts for area in one.areas),
        share=round(sum(one.share for one in parts), 6),
    )


def published_rates() -> tuple[PublishedRate, ...]:
    """Return every rate that comes with the program."""
    return _rates(_FOLDER)


def published_shares() -> tuple[PublishedShare, ...]:
    """Return every share that comes with the program."""
    return _shares(_FOLDER)


@cache
def _rates(folder: Path) -> tuple[PublishedRate, ...]:
    return tuple(_read(folder / "rates.csv", _rate))


@cache
def _shares(folder: Path) -> tuple[PublishedShare, ...]:
    return tuple(_read(folder / "shares.csv", _share))


def _read(path: Path, made: Callable[[dict[str, Any]], Line]) -> Iterator[Line]:
    """Yield the lines of a table; of one that is not there none.

    Raises:
        ScopeError: A line cannot be used, or has no source.
    """
    for number, line in _lines(path) if path.is_file() else ():
        try:
            read, wrong = made(line), "its source is missing"
        except (ValueError, KeyError, TypeError, AttributeError) as error:
            read, wrong = None, str(error)
        if read is None or not (line.get("source") or "").strip():
            raise ScopeError(
                f"{path}, row {number} cannot be used: {wrong}.",
                f"It needs the columns of seasonboard/published/{path.name}, and a source.",
            )
        yield read


def _share(line: dict[str, Any]) -> PublishedShare:
    areas = tuple(Area(area) for area in line.pop("areas").split(";"))
    share = round(float(line.pop("percent")) / 100, 6)
    return PublishedShare(**line, areas=areas, share=share)


def _rate(line: dict[str, Any]) -> PublishedRate:
    injuries, exposures = (int(line[n]) if line[n] else None for n in ("injuries", "exposures"))
    rate, low, high = (float(line[n]) if line[n] else None for n in ("rate", "low", "high"))
    if injuries is not None and exposures is not None:
        made = 1000 * injuries / exposures
        reach = 1000 * _Z * injuries**0.5 / exposures
        rate = made if rate is None else rate
        low, high = (made - reach, made + reach) if low is None else (low, high)
    if rate is None:
        raise ValueError(f"{line} has neither a rate nor the counts of one")
    numbers = {"injuries": injuries, "exposures": exposures, "rate": rate, "low": low, "high": high}
    return PublishedRate(**line | numbers)


def _lines(path: Path) -> Iterator[tuple[int, dict[str, Any]]]:
    """Yield the lines of a table with their numbers, from 1; a line that begins with # is none.

    Raises:
        ScopeError: It is no text.
    """
    try:
        lines = list(enumerate(path.read_text("utf-8-sig").splitlines(), start=1))
    except (OSError, UnicodeDecodeError):
        raise ScopeError(f"{path} cannot be read.", "Save it as CSV in UTF-8.") from None
    kept = [(number, line) for number, line in lines if line.strip() and not line.startswith("#")]
    numbers = [number for number, _ in kept[1:]]
    yield from zip(numbers, csv.DictReader(line for _, line in kept), strict=False)
