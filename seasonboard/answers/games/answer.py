"""How many games are played before an injury? Survival curves by what was worn at each tick."""

from collections.abc import Mapping
from functools import partial

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import Summary, left_out_rows, recording_caveat, studied_areas
from seasonboard.answers.compare.judging import judged
from seasonboard.answers.compare.verdict import Judged
from seasonboard.answers.games.beside_curves import (
    COUNTED,
    ENDINGS,
    count_ticks,
    ever_never,
    incidence,
    per_game,
    repeats,
)
from seasonboard.answers.games.parts import Ending, GamesAnswer, GamesOptions, Group, ticking_params
from seasonboard.answers.games.words import games_caveats, games_sentence
from seasonboard.answers.questions import GAMES
from seasonboard.answers.reader import Reader, params_of, read_frames
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues
from seasonboard.stats.direct_standardisation import standardised
from seasonboard.stats.log_rank import TwoGroupTick, log_rank
from seasonboard.stats.survival import (
    Curve,
    RestrictedMean,
    kaplan_meier,
    quantile,
    restricted_mean,
)

_QUESTIONS = (
    *("games/ticks", "compare/left_out", "games/strata", "games/repeats", "games/not_on_clock"),
    "compare/recording",
)
_NAIVE, _PER_GAME = "games/ever_never", "games/per_game"


def games(
    reader: Reader,
    scope: Scope,
    scope_values: ScopeValues,
    options: GamesOptions | None = None,
    *,
    verdict: Judged | None = None,
) -> GamesAnswer:
    """Follow each site from the first tick of a season until it is injured or left.

    The verdict is that of Compare in the same scope; the difference in games is taken within strata
    and stands in the sentence only beside a verdict that it goes with. Who has asked Compare gives
    its `verdict`; else it is asked here.

    Raises:
        ScopeError: The clock and the scope's setting exclude each other, or an option is off.
    """
    options = options or GamesOptions()
    _check(options)
    params = ticking_params(scope, options.clock)
    frames = read_frames(reader, scope, *_QUESTIONS, **params)
    if options.naive:
        frames[_NAIVE] = reader.read(_NAIVE, **params)
    if options.clock.is_fine:
        frames[_PER_GAME] = reader.read(_PER_GAME, **params_of(_PER_GAME, scope, **params))
    return _answer(frames, verdict or judged(reader, scope), scope, scope_values, options)


def _answer(
    frames: Mapping[str, pl.DataFrame],
    verdict: Judged,
    scope: Scope,
    scope_values: ScopeValues,
    options: GamesOptions,
) -> GamesAnswer:
    floor, level = options.min_at_risk, scope.level
    counted = frames["games/ticks"]
    ticks = counted.filter(pl.col("tick").is_not_null())
    horizon: int | None = options.horizon or counted.select(pl.col("horizon").max()).item()
    guarded, unguarded, start = _two_curves(counted, options, horizon, level)
    alike = [TwoGroupTick(row[:-6], *row[-6:]) for row in frames["games/strata"].iter_rows()]
    mix = standardised(alike, horizon=horizon, min_at_risk=floor, level=level)
    within = log_rank(alike)
    ends = partial(incidence, counted, min_at_risk=floor, level=level)
    means = partial(repeats, frames["games/repeats"], min_at_risk=floor, level=level)
    sites = words.sites_word(studied_areas(scope, scope_values))
    sentence = games_sentence(guarded, unguarded, mix, verdict, options, sites)
    caveats = games_caveats(ticks, guarded, unguarded, within, options.clock, scope, scope_values)
    caveats += recording_caveat(frames["compare/recording"])
    left_out = left_out_rows(pl.concat([frames["games/not_on_clock"], frames["compare/left_out"]]))
    return GamesAnswer(
        summary=Summary(GAMES.asks, sentence, tuple(caveats), left_out, scope),
        options=options,
        guarded=guarded,
        unguarded=unguarded,
        start=start,
        horizon=horizon,
        judged=verdict,
        one_mix=mix,
        log_rank=log_rank(_two_groups(ticks)),
        log_rank_stratified=within,
        incidence=(ends(guarded=True), ends(guarded=False)),
        repeats=(means(guarded=True), means(guarded=False)),
        ever_never=ever_never(frames[_NAIVE], level=level) if options.naive else None,
        per_game=per_game(frames[_PER_GAME]) if options.clock.is_fine else None,
    )


def _two_curves(
    counted: pl.DataFrame, options: GamesOptions, horizon: int | None, level: float
) -> tuple[Group, Group, int | None]:
    """Return both groups as played, and the tick from which they are drawn."""
    counts = [count_ticks(counted, guarded=guarded) for guarded in (True, False)]
    floor = options.min_at_risk
    own = [kaplan_meier(one, min_at_risk=floor, level=level) for one in counts]
    start = max((curve.start for curve in own if curve.start is not None), default=None)
    compared = [kaplan_meier(one, min_at_risk=floor, start=start, level=level) for one in counts]
    is_guarded = pl.col("guarded")
    guarded = _group(counted.filter(is_guarded), "guarded", own[0], compared[0], horizon)
    bare = _group(counted.filter(~is_guarded), "unguarded", own[1], compared[1], horizon)
    return guarded, bare, start


def _check(options: GamesOptions) -> None:
    if options.min_at_risk < 1:
        raise ScopeError(
            f"“{options.min_at_risk}” at risk is too few to start a curve.", "Ask for 1 or more."
        )
    if options.horizon is not None and options.horizon < 1:
        raise ScopeError(f"“{options.horizon}” is not a horizon.", "Ask for 1 tick or more.")


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
        ticks=int((rows["at_risk"] * rows["width"]).sum()),
        injuries=sums["injuries"],
        left=sum(ending.count for ending in endings),
        endings=endings,
        curve=own,
        compared=compared,
        median=quantile(own),
        quartiles=(quantile(own, 0.25), quantile(own, 0.75)),
        restricted_mean=mean,
    )


def _two_groups(ticks: pl.DataFrame) -> list[TwoGroupTick]:
    """Put the two groups of each tick side by side."""
    sides = (("1", pl.col("guarded")), ("0", ~pl.col("guarded")))
    sums = [
        pl.col(name).filter(side).sum().alias(name + mark)
        for mark, side in sides
        for name in ("at_risk", "injuries")
    ]
    rows = ticks.group_by("tick").agg(sums).sort("tick").iter_rows()
    return [TwoGroupTick("all", *row) for row in rows]
