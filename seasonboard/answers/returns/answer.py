"""How soon are hurt athletes back, and in what guard? Put together from what was recorded."""

from typing import TYPE_CHECKING, Any

import polars as pl

from seasonboard.answers.base import CAUTION, Summary, left_out_rows, pooling_caveat
from seasonboard.answers.compare.verdict import verdict
from seasonboard.answers.questions import RETURN
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.answers.returns.out_now import QUESTIONS, out_now
from seasonboard.answers.returns.parts import (
    CLOCKS,
    STATES,
    Contrast,
    GamesWorn,
    Recurrence,
    ReturnsAnswer,
    StateRow,
    Wait,
)
from seasonboard.answers.returns.words import caveats_of, returns_sentence, sayable
from seasonboard.scope import Scope, ScopeValues
from seasonboard.stats.multistate import Stretch, state_shares
from seasonboard.stats.proportions import wilson
from seasonboard.stats.rates import injury_rate
from seasonboard.stats.ratios import Strata, mantel_haenszel
from seasonboard.stats.waiting_times import Ending, wait_curve, wait_quantile

if TYPE_CHECKING:
    from collections.abc import Sequence

_ASKED = (
    *("return/back", "return/again", "return/spells", "return/games_worn", "return/left_out"),
    *QUESTIONS,
)
_COUNTS = ("injuries_guarded", "injuries_unguarded", "exposures_guarded", "exposures_unguarded")
_STRATUM = {"back": ("area", "day"), "again": ("area", "days_out", "setting", "fortnight")}


def returns(reader: Reader, scope: Scope, scope_values: ScopeValues) -> ReturnsAnswer:
    """Follow every injury that cost time at a site guards can cover, until it is hurt again.

    Nobody counts as guarded before the day the guard is fitted, and who is still out is censored.
    """
    frames = read_frames(reader, scope, *_ASKED)
    episodes, level = frames["return/episodes"], scope.level
    contrasts = (
        _contrast("back", frames["return/back"], level),
        _contrast("again", frames["return/again"], level),
    )
    waits = _waits(episodes, scope)
    fitted = episodes.filter(pl.col("fitted_on").is_not_null())
    in_time = (pl.col("fitted_on") <= pl.col("returned_on")).fill_null(value=True)
    worn = tuple(GamesWorn(*row) for row in frames["return/games_worn"].iter_rows())
    out = out_now(frames, scope)
    numbers: dict[str, Any] = {
        "injuries": len(episodes),
        "back": int((~episodes["is_open"]).sum()),
        "out": int(episodes["is_open"].sum()),
        "again": int(episodes["again_on"].is_not_null().sum()),
        "asked": wilson(episodes["guard"].count(), len(episodes), level=level),
        "in_time": wilson(len(fitted.filter(in_time)), len(fitted), level=level),
    }
    sentence = returns_sentence(numbers, waits, contrasts, scope)
    caveats = (CAUTION, *caveats_of(scope), *pooling_caveat(scope, scope_values))
    return ReturnsAnswer(
        summary=Summary(
            RETURN.asks, sentence, caveats, left_out_rows(frames["return/left_out"]), scope
        ),
        **numbers,
        waits=waits,
        states=_states(frames["return/spells"], level),
        contrasts=contrasts,
        recurrences=_recurrences(frames["return/again"], level),
        games_worn=worn,
        sayable=sayable(worn, scope),
        out_now=out,
        strata=tuple(frames["return/again"].iter_rows(named=True)),
        days=tuple(frames["return/back"].iter_rows(named=True)),
        episodes=tuple(episodes.iter_rows(named=True)),
    )


def _contrast(name: str, frame: pl.DataFrame, level: float) -> Contrast:
    cells = frame.group_by(_STRATUM[name], maintain_order=True).agg(pl.col(_COUNTS).sum())
    ratio = mantel_haenszel(Strata(*(cells[one].to_list() for one in _COUNTS)), level=level)
    return Contrast(name, ratio, verdict(ratio, {}))


def _recurrences(frame: pl.DataFrame, level: float) -> tuple[Recurrence, ...]:
    sums = {
        name: counts
        for name, *counts in frame.group_by("recurrence").agg(pl.col(_COUNTS).sum()).iter_rows()
    }
    return tuple(
        Recurrence(name, injury_rate(a, t1, level=level), injury_rate(b, t0, level=level))
        for name in ("early", "late", "delayed")
        if name in sums
        for a, b, t1, t0 in [sums[name]]
    )


def _states(frame: pl.DataFrame, level: float) -> tuple[StateRow, ...]:
    return tuple(
        StateRow(clock, point)
        for clock in CLOCKS
        for rows in [frame.filter(pl.col("clock") == clock).select(pl.exclude("clock"))]
        for point in state_shares([Stretch(*row) for row in rows.iter_rows()], STATES, level=level)
    )


def _waits(episodes: pl.DataFrame, scope: Scope) -> tuple[Wait, ...]:
    """Return the parts of the way, of injuries and of their first return guards."""
    through = pl.lit(scope.through)

    def days(start: str, end: str) -> pl.Expr:
        return (pl.coalesce(end, through) - pl.col(start)).dt.total_days()

    is_open, asked = pl.col("is_open"), pl.col("guard").is_not_null()
    over = pl.coalesce("fitted_on", "called_off_on", through)
    made = (over - pl.col("requested_on")).dt.total_days()
    fitted = pl.col("fitted_on").is_not_null()
    is_off, no = pl.col("called_off_on").is_not_null(), pl.lit(value=False)
    parts: Sequence[tuple[str, str, pl.Expr, pl.Expr, pl.Expr, pl.Expr]] = (
        ("days out", "days", pl.lit(value=True), pl.col("days_lost"), is_open, no),
        ("games missed", "games", pl.lit(value=True), pl.col("games_missed"), is_open, no),
        ("injury to request", "days", asked, days("occurred_on", "requested_on"), no, no),
        ("request to fitted", "days", asked, made, ~fitted & ~is_off, is_off),
        (
            *("fitted to first game worn", "days", fitted),
            days("fitted_on", "game_on").clip(0),
            *(pl.col("game_on").is_null(), no),
        ),
    )
    return tuple(_wait(episodes, *part, level=scope.level) for part in parts)


def _wait(  # noqa: PLR0913, PLR0917 - each says one thing of it
    episodes: pl.DataFrame,
    name: str,
    unit: str,
    which: pl.Expr,
    time: pl.Expr,
    is_open: pl.Expr,
    is_off: pl.Expr,
    *,
    level: float,
) -> Wait:
    ending = (
        pl.when(is_off)
        .then(int(Ending.CANCELLED))
        .when(is_open)
        .then(int(Ending.OPEN))
        .otherwise(int(Ending.FINISHED))
    )
    rows = episodes.filter(which).select(time=time, ending=ending)
    curve = wait_curve(rows["time"].to_numpy(), rows["ending"].to_numpy(), level=level)
    middle, late = (wait_quantile(curve, share) for share in (0.5, 0.8))
    counts = (curve.orders, curve.finished, curve.open, curve.cancelled)
    return Wait(name, unit, *counts, middle, late)
