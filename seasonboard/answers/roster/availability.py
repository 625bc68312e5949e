"""Availability of a team over its sessions and games, and what injuries cost it."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import date, datetime

import polars as pl

from seasonboard.answers.base import LeftOut
from seasonboard.scope import Scope
from seasonboard.stats.days_lost import Burden, Severity, burden, severity, union_days
from seasonboard.stats.rates import Rate, injury_rate
from seasonboard.terms import SeasonPart

_SETTINGS: Mapping[str, tuple[str, ...]] = {
    "all": ("game", "practice"),
    "game": ("game",),
    "practice": ("practice",),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class StateCounts:
    """Athletes on the roster by their state.

    `share` is `available` over `recorded`: those recorded whose state can be told; None, with
    `why`, without any.
    """

    rostered: int
    full: int
    limited_health: int
    limited_other: int
    limited_unknown: int
    out_injury: int
    out_illness: int
    out_other: int
    out_unknown: int
    not_recorded: int
    available: int
    recorded: int
    share: float | None
    why: str


def _names(counts: type[StateCounts]) -> list[str]:
    return [one.name for one in fields(counts)]


_STATES = _names(StateCounts)[:-2]


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionAvailability(StateCounts):
    """Who of the rostered could take part in one session."""

    session: str
    team: str
    season: str
    starts_at: datetime
    played_on: date
    setting: str
    season_part: str | None
    label: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AvailabilityTotal(StateCounts):
    """The same, summed over sessions; `exposures` are athletes' sessions in full or limited."""

    setting: str
    sessions: int
    exposures: int

    @property
    def unknown(self) -> int:
        """Return those whose state cannot be told."""
        return self.not_recorded + self.limited_unknown + self.out_unknown


@dataclass(frozen=True, slots=True)
class PartRate:
    """Injuries per 1000 athlete-exposures in one part of the season."""

    season_part: str
    any_injury: Rate
    time_loss: Rate


@dataclass(frozen=True, slots=True)
class Availability:
    """Availability over sessions and games, and what injuries cost.

    `unavailable_days` are roster days lost to injury, overlapping injuries counted once.
    """

    sessions: tuple[SessionAvailability, ...]
    totals: tuple[AvailabilityTotal, ...]
    roster_days: int
    unavailable_days: int
    severity: Severity
    burden: Burden
    by_part: tuple[PartRate, ...]

    def total(self, setting: str) -> AvailabilityTotal:
        """Return the sum over `all`, `game` or `practice` sessions."""
        return next(total for total in self.totals if total.setting == setting)


@dataclass(frozen=True, slots=True)
class DaysOut:
    """Days unavailable by athlete, of how many roster days."""

    by_athlete: Mapping[str, int]
    roster_days: int

    @property
    def unavailable_days(self) -> int:
        """Return the days of all athletes together."""
        return sum(self.by_athlete.values())


def availability(
    sessions: pl.DataFrame, injuries: pl.DataFrame, days_out: DaysOut, scope: Scope
) -> Availability:
    """Return availability and severity from the rows of `roster/sessions` and `roster/injuries`."""
    is_known, unknown = pl.col("recorded") > 0, pl.lit("no state that can be told is recorded")
    counted = with_availability(sessions).with_columns(
        full="full_part",
        share=pl.when(is_known).then(pl.col("available") / pl.col("recorded")),
        why=pl.when(is_known).then(pl.lit("")).otherwise(unknown),
    )
    own = injuries.filter(pl.col("belongs") == "yes")
    in_rate = own.filter(pl.col("in_session") == "yes")
    return Availability(
        sessions=tuple(
            SessionAvailability(**row)
            for row in counted.select(_names(SessionAvailability)).iter_rows(named=True)
        ),
        totals=tuple(_total(counted, setting) for setting in _SETTINGS),
        roster_days=days_out.roster_days,
        unavailable_days=days_out.unavailable_days,
        severity=severity(own["days_lost"].to_list(), own["is_open"].to_list(), level=scope.level),
        burden=burden(
            int(in_rate["days_lost"].sum()),
            int(sessions["exposures"].sum()),
            is_lower_bound=bool(in_rate["is_open"].any()),
        ),
        by_part=_by_part(counted, scope.level),
    )


def days_out(
    places: pl.DataFrame, teams: pl.DataFrame, injuries: pl.DataFrame, through: date
) -> DaysOut:
    """Count roster days, and those lost to injury: overlapping injuries count a day once.

    A roster day lies between the first and the last session of a season, up to `through`, while
    the athlete is on the roster. The frames are rows of the questions of these names.
    """
    seasons = teams.filter(pl.col("first_on").is_not_null()).select(
        "team", "season", first="first_on", last="last_on"
    )
    spans = places.join(seasons, on=["team", "season"]).select(
        "athlete",
        begins=pl.max_horizontal("first", "joined_on"),
        ends=pl.min_horizontal("last", "left_on", pl.lit(through)),
    )
    names = spans["athlete"].unique(maintain_order=True)
    numbers = pl.DataFrame({"athlete": names, "who": range(len(names))})
    one = pl.duration(days=1)
    lost = injuries.join(spans, on="athlete").select(
        "athlete",
        begins=pl.max_horizontal("begins", pl.col("occurred_on") + one),
        ends=pl.min_horizontal("ends", pl.col("returned_on") - one),
    )
    covered = [
        union_days(*_numbered(rows, numbers), size=len(names)).tolist() for rows in (spans, lost)
    ]
    return DaysOut(dict(zip(names, covered[1], strict=True)), sum(covered[0]))


def availability_left_out(sessions: pl.DataFrame, injuries: pl.DataFrame) -> tuple[LeftOut, ...]:
    """Return what was recorded but is not in availability, or not in the rates, and why."""
    unlisted = int(sessions["unlisted"].sum())
    own = injuries.filter(pl.col("belongs") == "yes")
    return (
        *((LeftOut("attendances", "not on the roster that day", unlisted),) if unlisted else ()),
        *_left_out("injuries", injuries, "belongs"),
        *_left_out("injuries, from the rates alone", own, "in_session"),
    )


def _left_out(what: str, injuries: pl.DataFrame, column: str) -> list[LeftOut]:
    rows = injuries.filter(pl.col(column) != "yes").group_by(column).len().sort(column)
    return [LeftOut(what, why, count) for why, count in rows.iter_rows()]


def _numbered(rows: pl.DataFrame, numbers: pl.DataFrame) -> tuple[list[int], list[int], list[int]]:
    named = rows.join(numbers, on="athlete", maintain_order="left")
    days = [named[end].cast(pl.Int32).to_list() for end in ("begins", "ends")]
    return named["who"].to_list(), days[0], days[1]


def with_availability(sessions: pl.DataFrame) -> pl.DataFrame:
    """Add `available` and `recorded` athletes to the rows of `roster/sessions`, and all `out`.

    Available is who took part in full, or was limited or out for a reason other than injury and
    illness; who is not recorded, or has no reason recorded, is unknown and in neither.
    """
    unknown = pl.sum_horizontal("not_recorded", "limited_unknown", "out_unknown")
    return sessions.with_columns(
        available=pl.sum_horizontal("full_part", "limited_other", "out_other"),
        recorded=pl.col("rostered") - unknown,
        unknown=unknown,
        out=pl.sum_horizontal("out_injury", "out_illness", "out_other", "out_unknown"),
    )


def _total(sessions: pl.DataFrame, setting: str) -> AvailabilityTotal:
    rows = sessions.filter(pl.col("setting").is_in(_SETTINGS[setting]))
    sums = rows.select(pl.col(*_STATES, "exposures").sum()).row(0, named=True)
    recorded = sums["recorded"]
    return AvailabilityTotal(
        setting=setting,
        sessions=len(rows),
        **sums,
        share=sums["available"] / recorded if recorded else None,
        why="" if recorded else "no attendance of a rostered athlete is recorded",
    )


def _by_part(sessions: pl.DataFrame, level: float) -> tuple[PartRate, ...]:
    names = [*(str(part) for part in SeasonPart), "not recorded"]
    sums = {
        part: (hurt, lost, exposures)
        for part, hurt, lost, exposures in sessions.group_by(
            pl.col("season_part").fill_null("not recorded")
        )
        .agg(pl.col("injuries", "injuries_time_loss", "exposures").sum())
        .iter_rows()
    }
    rates = []
    for name in names:
        if name in sums:
            hurt, lost, exposures = sums[name]
            any_injury = injury_rate(hurt, exposures, level=level)
            rates.append(PartRate(name, any_injury, injury_rate(lost, exposures, level=level)))
    return tuple(rates)
