"""How many games are played before an injury? Survival curves by what was worn at each tick."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Self, TypeVar

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import Summary, left_out_rows, studied_areas
from seasonboard.answers.games.beside_curves import (
    COUNTED,
    ENDINGS,
    count_ticks,
    ever_never,
    incidence,
    one_mix,
    repeats,
)
from seasonboard.answers.games.clock_sessions import ticking_params, without
from seasonboard.answers.games.parts import Ending, GamesAnswer, GamesOptions, Group
from seasonboard.answers.games.words import games_caveats, games_sentence
from seasonboard.answers.questions import GAMES
from seasonboard.answers.reader import Reader
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues
from seasonboard.stats.log_rank import TwoGroupTick, log_rank
from seasonboard.stats.restricted_mean_difference import means_compared
from seasonboard.stats.survival import (
    Curve,
    RestrictedMean,
    TickCount,
    kaplan_meier,
    quantile,
    restricted_mean,
    restricted_mean_difference,
)

MeasureT = TypeVar("MeasureT")


def games(
    reader: Reader, scope: Scope, known: ScopeValues, options: GamesOptions | None = None
) -> GamesAnswer:
    """Follow each site from the first tick of a season until it is injured or left.

    Raises:
        ScopeError: The clock and the scope's setting exclude each other, or an option is off.
        StoreError: The store could not be read.
    """
    options = options or GamesOptions()
    _check(options)
    params = ticking_params(scope, options.clock)
    counted, left_out, again = reader.read_each(
        [
            ("games/ticks", params),
            ("compare/left_out", without(params, "by_team")),
            ("games/repeats", without(params, "purpose")),
        ]
    )
    ticks = counted.filter(pl.col("tick").is_not_null())
    guarded, unguarded, start, horizon = _two_curves(counted, options, scope.level)
    difference = _difference(guarded, unguarded, horizon, scope.level)
    sites = words.sites_word(studied_areas(scope, known))
    answer = games_sentence(guarded, unguarded, difference, options, sites)
    caveats = games_caveats(ticks, guarded, unguarded, scope, known)
    return GamesAnswer(
        summary=Summary(GAMES.asks, answer, tuple(caveats), left_out_rows(left_out), scope),
        options=options,
        guarded=guarded,
        unguarded=unguarded,
        start=start,
        horizon=horizon,
        restricted_mean_difference=difference,
        log_rank=log_rank(_two_groups(ticks, ["tick"])),
        log_rank_stratified=log_rank(
            _two_groups(ticks, ["sport", "sex", "position_group", "tick"])
        ),
        one_mix=one_mix(counted, start=start, horizon=horizon, level=scope.level),
        incidence=_pair(incidence, counted, options, scope.level),
        repeats=_pair(repeats, again, options, scope.level),
        ever_never=(
            ever_never(reader.read("games/ever_never", **params), level=scope.level)
            if options.naive
            else None
        ),
    )


def _pair(
    measure: Callable[..., MeasureT], frame: pl.DataFrame, options: GamesOptions, level: float
) -> tuple[MeasureT, MeasureT]:
    """Return a measure of both groups, guarded first."""
    floor = options.min_at_risk
    guarded, unguarded = (
        measure(frame, guarded=side, min_at_risk=floor, level=level) for side in (True, False)
    )
    return guarded, unguarded


def _difference(
    guarded: Group, unguarded: Group, horizon: int | None, level: float
) -> RestrictedMean:
    if horizon is None:
        return restricted_mean_difference(guarded.restricted_mean, unguarded.restricted_mean)
    return means_compared(guarded.compared, unguarded.compared, horizon, level=level)


def _two_curves(
    counted: pl.DataFrame, options: GamesOptions, level: float
) -> tuple[Group, Group, int | None, int | None]:
    """Return both groups, the tick from which they are compared, and the horizon."""
    sides = [_Side.of(counted, guarded=guarded) for guarded in (True, False)]
    floor = options.min_at_risk
    own = [kaplan_meier(side.counts, min_at_risk=floor, level=level) for side in sides]
    start = _common_start(own)
    compared = [
        kaplan_meier(side.counts, min_at_risk=floor, start=start, level=level) for side in sides
    ]
    horizon = options.horizon or _horizon(compared, floor)
    guarded, unguarded = (
        _group(side, alone, both, horizon)
        for side, alone, both in zip(sides, own, compared, strict=True)
    )
    return guarded, unguarded, start, horizon


def _check(options: GamesOptions) -> None:
    if options.min_at_risk < 1:
        raise ScopeError(
            f"“{options.min_at_risk}” at risk is too few to start a curve.", "Ask for 1 or more."
        )
    if options.horizon is not None and options.horizon < 1:
        raise ScopeError(f"“{options.horizon}” is not a horizon.", "Ask for 1 tick or more.")


def _common_start(curves: Iterable[Curve]) -> int | None:
    starts = [curve.start for curve in curves if curve.start is not None]
    return max(starts) if starts else None


def _horizon(curves: Iterable[Curve], min_at_risk: int) -> int | None:
    """Return the last tick at which each curve there is rests on enough at risk."""
    lasts = []
    for curve in curves:
        large = [p.tick for p in curve.points if p.at_risk >= min_at_risk]
        if curve.start is not None and large:
            lasts.append(large[-1])
    return min(lasts) if lasts else None


@dataclass(frozen=True, slots=True)
class _Side:
    """What was counted of one group."""

    name: str
    counts: list[TickCount]
    sums: Mapping[str, int]
    athletes: int
    sites: int

    @classmethod
    def of(cls, counted: pl.DataFrame, *, guarded: bool) -> Self:
        rows = counted.filter(pl.col("guarded") == guarded)
        people = rows.filter(pl.col("tick").is_null())
        return cls(
            name="guarded" if guarded else "unguarded",
            counts=count_ticks(counted, guarded=guarded),
            sums=rows.select(pl.col(COUNTED).sum()).row(0, named=True),
            athletes=int(people["athletes"].sum()),
            sites=int(people["sites"].sum()),
        )


def _group(side: _Side, own: Curve, compared: Curve, horizon: int | None) -> Group:
    endings = tuple(
        Ending(why, side.sums[name]) for name, why in ENDINGS.items() if side.sums[name]
    )
    mean = (
        RestrictedMean(None, why=own.why or "no tick with enough at risk", horizon=None)
        if horizon is None
        else restricted_mean(compared, horizon)
    )
    return Group(
        name=side.name,
        athletes=side.athletes,
        sites=side.sites,
        ticks=side.sums["at_risk"],
        injuries=side.sums["injuries"],
        left=sum(ending.count for ending in endings),
        endings=endings,
        curve=own,
        compared=compared,
        median=quantile(own),
        quartiles=(quantile(own, 0.25), quantile(own, 0.75)),
        restricted_mean=mean,
    )


def _two_groups(frame: pl.DataFrame, keys: list[str]) -> list[TwoGroupTick]:
    """Put the two groups of each tick side by side, within strata where `keys` name any."""
    guarded = pl.col("guarded")
    wide = (
        frame.group_by(keys)
        .agg(
            pl.col("at_risk").filter(guarded).sum().alias("n1"),
            pl.col("injuries").filter(guarded).sum().alias("d1"),
            pl.col("at_risk").filter(~guarded).sum().alias("n0"),
            pl.col("injuries").filter(~guarded).sum().alias("d0"),
        )
        .sort(keys)
    )
    return [
        TwoGroupTick(tuple(stratum), tick, n1, d1, n0, d0)
        for *stratum, tick, n1, d1, n0, d0 in wide.iter_rows()
    ]
