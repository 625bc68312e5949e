"""What Games says beside its two curves: other ends, repeats, the wrong tally."""

from dataclasses import dataclass

import polars as pl

from seasonboard.stats.competing import CauseTick, Incidence, cumulative_incidence
from seasonboard.stats.recurrent import AtRisk, Events, MeanCumulative, mean_cumulative
from seasonboard.stats.survival import Curve, TickCount, kaplan_meier

CAUSES = {
    "injuries": "injury",
    "site_injury": "another injury to the site",
    "other_injury": "injury elsewhere",
    "left_roster": "left the roster",
}
"""What can end follow-up for good, as counted by `games/ticks`, and in words."""

ENDINGS = {
    "changed": "put a guard on or took it off",
    "site_injury": "another injury to the site",
    "other_injury": "an injury elsewhere, with no return before the season's last session",
    "left_roster": "left the roster",
    "set_aside": "the next session is in neither group",
    "no_more": "no further session yet",
}
"""How follow-up ends without an injury that counts, as `games/ticks` counts it, and in words."""


@dataclass(frozen=True, slots=True)
class PerGame:
    """What an athlete's game of one sport, sex and position group holds; None: never recorded."""

    sport: str
    sex: str
    position_group: str | None
    games: int
    with_plays: int
    plays: float | None
    with_minutes: int
    minutes: float | None


def per_game(frame: pl.DataFrame) -> tuple[PerGame, ...]:
    """Return the mean plays and minutes of a game from the rows of `games/per_game`."""
    rows = frame.with_columns(
        pl.when(pl.col(f"with_{name}") > 0).then(pl.col(name) / pl.col(f"with_{name}")).alias(name)
        for name in ("plays", "minutes")
    )
    return tuple(PerGame(**row) for row in rows.iter_rows(named=True))


COUNTED = ("at_risk", "injuries", "entered", *ENDINGS)
STRATUM = ("area", "sport", "sex", "position_group", "setting", "block")
"""Within what guarded and bare are compared at a tick: the strata of `games/strata`."""


@dataclass(frozen=True, slots=True)
class EverNever:
    """The misleading tally: sites grouped by whether they were ever guarded in the season."""

    ever: Curve
    never: Curve


def count_ticks(frame: pl.DataFrame, *, guarded: bool) -> list[TickCount]:
    """Sum the strata of one group of `games/ticks`: one count per tick."""
    summed = _by_tick(frame, COUNTED, guarded=guarded)
    left = pl.sum_horizontal(list(ENDINGS)).alias("left")
    columns = summed.select("tick", "at_risk", "injuries", "entered", left)
    return [TickCount(*row) for row in columns.iter_rows()]


def _by_tick(frame: pl.DataFrame, columns: tuple[str, ...], *, guarded: bool) -> pl.DataFrame:
    rows = frame.filter(pl.col("tick").is_not_null() & (pl.col("guarded") == guarded))
    return rows.group_by("tick").agg(pl.col(columns).sum()).sort("tick")


def incidence(frame: pl.DataFrame, *, guarded: bool, min_at_risk: int, level: float) -> Incidence:
    """Return the share of one group's sites that each cause has ended, tick by tick."""
    summed = _by_tick(frame, ("at_risk", *CAUSES), guarded=guarded)
    ticks = [CauseTick(tick, n, tuple(events)) for tick, n, *events in summed.iter_rows()]
    return cumulative_incidence(ticks, tuple(CAUSES.values()), min_at_risk=min_at_risk, level=level)


def repeats(
    frame: pl.DataFrame, *, guarded: bool, min_at_risk: int, level: float
) -> MeanCumulative:
    """Return one group's mean number of injuries per site by each tick, repeats counted."""
    rows = frame.filter(pl.col("guarded") == guarded)
    spells, hurt = rows.filter(pl.col("sites") > 0), rows.filter(pl.col("injuries") > 0)
    return mean_cumulative(
        AtRisk(*(spells[name].to_list() for name in ("athlete_no", "entry", "leaving", "sites"))),
        Events(*(hurt[name].to_list() for name in ("athlete_no", "leaving", "injuries"))),
        min_at_risk=min_at_risk,
        level=level,
    )


def ever_never(frame: pl.DataFrame, *, level: float) -> EverNever:
    """Return the curves of the misleading tally from `games/ever_never`."""

    def curve(*, ever: bool) -> Curve:
        rows = frame.filter(pl.col("ever") == ever).sort("tick")
        counts = rows.select("tick", "at_risk", "injuries").iter_rows()
        ticks = [TickCount(tick, at_risk, hurt, 0, 0) for tick, at_risk, hurt in counts]
        return kaplan_meier(ticks, level=level)

    return EverNever(curve(ever=True), curve(ever=False))
