"""Rates per 1000 hours beside those per 1000 exposures: where minutes are recorded."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.answers.base import LeftOut
from seasonboard.stats.rates import HourlyRate, hourly_rate

if TYPE_CHECKING:
    import polars as pl

NOT_RECORDED = "not known: no minutes recorded"
NO_TIME = "not known: the minutes recorded are all 0"
LACKING = "no minutes recorded, not in the rate per hour"
RATIOS_STAY = "The ratios stay per exposure: the same sessions are compared, whatever their length."


class Per(StrEnum):
    """What the rates are shown per."""

    EXPOSURES = "exposures"
    HOURS = "hours"


@dataclass(frozen=True, slots=True)
class Hours:
    """One group's rate per 1000 hours, and what it leaves out.

    `exposures` are the site-exposures with minutes, whose hours are counted; `untimed_injuries`
    and `untimed_exposures` have none. `why` says why there is no rate.
    """

    rate: HourlyRate
    exposures: int
    untimed_injuries: int
    untimed_exposures: int
    why: str

    @property
    def counted(self) -> float | None:
        """Return the hours; None where no minutes are recorded."""
        return self.rate.hours if self.exposures else None


def group_hours(frame: "pl.DataFrame", level: float) -> tuple[Hours, Hours]:
    """Return the hours and rates of the guarded and of the bare, from rows of `compare/hours`."""
    guarded, bare = (_of(row, level) for row in frame.iter_rows(named=True))
    return guarded, bare


def _of(row: Mapping[str, int], level: float) -> Hours:
    rate = hourly_rate(row["injuries"], row["minutes"], level=level)
    is_recorded = row["exposures"] > 0
    why = "" if rate.value is not None else NO_TIME if is_recorded else NOT_RECORDED
    return Hours(rate, row["exposures"], row["untimed_injuries"], row["untimed_exposures"], why)


def lacking_hours(groups: tuple[Hours, Hours]) -> tuple[LeftOut, ...]:
    """Return what the rates per hour leave out; nothing where no minutes are recorded at all."""
    if not any(group.exposures for group in groups):
        return ()
    untimed = {
        "injuries": sum(group.untimed_injuries for group in groups),
        "site-exposures": sum(group.untimed_exposures for group in groups),
    }
    return tuple(LeftOut(what, LACKING, count) for what, count in untimed.items() if count)


def hours_word(hours: float | None) -> str:
    """Return hours as they are shown: whole from 100 on, else with one digit; `–` if not known."""
    if hours is None:
        return "–"
    return words.whole(round(hours)) if hours >= 100 else words.number(hours, digits=1)
