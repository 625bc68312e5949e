"""How many games are played before an injury? Survival curves by what was worn at each tick."""

from collections.abc import Iterable
from functools import partial

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import Summary, left_out_rows, studied_areas
from seasonboard.answers.games.beside_curves import (
    COUNTED,
    ENDINGS,
    STRATUM,
    count_ticks,
    ever_never,
    incidence,
    one_mix,
    repeats,
)
from seasonboard.answers.games.parts import Ending, GamesAnswer, GamesOptions, Group, ticking_params
from seasonboard.answers.games.words import games_caveats, games_sentence
from seasonboard.answers.questions import GAMES
from seasonboard.answers.reader import Reader, asked_of
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues
from seasonboard.stats.log_rank import TwoGroupTick, log_rank
from seasonboard.stats.restricted_mean_difference import means_compared
from seasonboard.stats.survival import (
    Curve,
    RestrictedMean,
    kaplan_meier,
    quantile,
    restricted_mean,
    restricted_mean_difference,
)


def games(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: GamesOptions | None = None
) -> GamesAnswer:
    """Follow each site from the first tick of a season until it is injured or left.

    Raises:
        ScopeError: The clock and the scope's setting exclude each other, or an option is off.
    """
    options = options or GamesOptions()
    _check(options)
    params = ticking_params(scope, options.clock)
    names = ("games/ticks", "compare/left_out", "games/repeats")
    counted, left_out, again = reader.read_each(asked_of(scope, *names, **params))
    ticks = counted.filter(pl.col("tick").is_not_null())
    guarded, unguarded, start, horizon = _two_curves(counted, options, scope.level)
    difference = (
        restricted_mean_difference(guarded.restricted_mean, unguarded.restricted_mean)
        if horizon is None
        else means_compared(guarded.compared, unguarded.compared, horizon, level=scope.level)
    )
    ends = partial(incidence, counted, min_at_risk=options.min_at_risk, level=scope.level)
    means = partial(repeats, again, min_at_risk=options.min_at_risk, level=scope.level)
    naive = None
    if options.naive:
        naive = ever_never(reader.read("games/ever_never", **params), level=scope.level)
    sites = words.sites_word(studied_areas(scope, scope_values))
    answer = games_sentence(guarded, unguarded, difference, options, sites)
    caveats = games_caveats(ticks, guarded, unguarded, scope, scope_values)
    return GamesAnswer(
        summary=Summary(GAMES.asks, answer, tuple(caveats), left_out_rows(left_out), scope),
        options=options,
        guarded=guarded,
        unguarded=unguarded,
        start=start,
        horizon=horizon,
        restricted_mean_difference=difference,
        log_rank=log_rank(_two_groups(ticks, ["tick"])),
        log_rank_stratified=log_rank(_two_groups(ticks, [*STRATUM, "tick"])),
        one_mix=one_mix(counted, start=start, horizon=horizon, level=scope.level),
        incidence=(ends(guarded=True), ends(guarded=False)),
        repeats=(means(guarded=True), means(guarded=False)),
        ever_never=naive,
    )


def _two_curves(
    counted: pl.DataFrame, options: GamesOptions, level: float
) -> tuple[Group, Group, int | None, int | None]:
    """Return both groups, the tick from which they are compared, and the horizon."""
    counts = [count_ticks(counted, guarded=guarded) for guarded in (True, False)]
    floor = options.min_at_risk
    own = [kaplan_meier(one, min_at_risk=floor, level=level) for one in counts]
    start = max((curve.start for curve in own if curve.start is not None), default=None)
    compared = [kaplan_meier(one, min_at_risk=floor, start=start, level=level) for one in counts]
    horizon = options.horizon or _horizon(compared, floor)
    is_guarded = pl.col("guarded")
    guarded = _group(counted.filter(is_guarded), "guarded", own[0], compared[0], horizon)
    bare = _group(counted.filter(~is_guarded), "unguarded", own[1], compared[1], horizon)
    return guarded, bare, start, horizon


def _check(options: GamesOptions) -> None:
    if options.min_at_risk < 1:
        raise ScopeError(
            f"“{options.min_at_risk}” at risk is too few to start a curve.", "Ask for 1 or more."
        )
    if options.horizon is not None and options.horizon < 1:
        raise ScopeError(f"“{options.horizon}” is not a horizon.", "Ask for 1 tick or more.")


def _horizon(curves: Iterable[Curve], min_at_risk: int) -> int | None:
    """Return the last tick at which each curve there is rests on enough at risk."""
    started = [curve.points for curve in curves if curve.start is not None]
    large = [[p.tick for p in points if p.at_risk >= min_at_risk] for points in started]
    return min((ticks[-1] for ticks in large if ticks), default=None)


def _group(
    rows: pl.DataFrame, name: str, own: Curve, compared: Curve, horizon: int | None
) -> Group:
    sums: dict[str, int] = rows.select(pl.col(COUNTED).sum()).row(0, named=True)
    people = rows.filter(pl.col("tick").is_null())
    endings = tuple(Ending(why, sums[ending]) for ending, why in ENDINGS.items() if sums[ending])
    mean = (
        RestrictedMean(None, why=own.why or "no tick with enough at risk", horizon=None)
        if horizon is None
        else restricted_mean(compared, horizon)
    )
    return Group(
        name=name,
        athletes=int(people["athletes"].sum()),
        sites=int(people["sites"].sum()),
        ticks=sums["at_risk"],
        injuries=sums["injuries"],
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
