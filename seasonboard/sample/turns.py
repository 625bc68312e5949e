"""Turns drawn among those who wait for a preventive guard; their guards are made already."""

import datetime as dt
from collections.abc import Mapping
from typing import Any

import polars as pl

from seasonboard.sample.data_files import csv_file
from seasonboard.sample.draws import Draws
from seasonboard.sample.guards import BUILD
from seasonboard.stats.drawn_turns import draw_turns

_SEEDS_TRIED = 60
_ABOVE_SEEDS = 2**31
_MADE = ("printed", "finished", "shipped", "delivered", "fitted")
_REASONS = pl.Series(
    [
        "asked for by the head coach, before travel",
        "another print failed, and this scan was ready",
        "could only be fitted before the week of the turn",
    ]
)


def turns_frame(tables: Mapping[str, pl.DataFrame], draws: Draws) -> pl.DataFrame:
    """The turns table: the draws of `draws.csv`, each of one of the departments there are.

    The guards of the season are made first come, first served. So of some seeds the one is taken to
    which that order comes nearest; a guard made before its week still jumped its turn.
    """
    departments = tables["departments"]["department"]
    frames = []
    for draw in csv_file("draws").iter_rows(named=True):
        department = departments[draw["department"] % len(departments)]
        waiting = waiting_on(tables, department, draw["drawn_on"])
        seeds = draws.below(_SEEDS_TRIED, _ABOVE_SEEDS).tolist()
        drawn = min((_drawn(waiting, draw, seed) for seed in seeds), key=_jumps)
        reason = _REASONS.gather(draws.below(len(drawn), len(_REASONS)))
        jumped = pl.when(pl.col("jumped_on").is_not_null())
        frames.append(drawn.with_columns(jump_reason=jumped.then(reason)))
    return pl.concat(frames)


def _jumps(drawn: pl.DataFrame) -> int:
    return drawn["jumped_on"].count()


def _drawn(waiting: pl.DataFrame, draw: Mapping[str, Any], seed: int) -> pl.DataFrame:
    """The rows of a draw with one seed, in its order."""
    strata = waiting.select(pl.concat_str("stratum", "kind", separator=" · ")).to_series()
    turns = draw_turns(strata.to_list(), prints_per_week=draw["prints_per_week"], seed=seed)
    starts_on = draw["drawn_on"] + dt.timedelta(days=7 - draw["drawn_on"].weekday())
    own = ("drawn_on", "prints_per_week", "ready_days", "board_number")
    turn_on = starts_on + pl.duration(days=7 * (pl.col("week") - 1))
    rows = waiting.with_columns(
        pl.lit(draw["draw"]).alias("draw"),
        *(pl.lit(draw[name]).alias(name) for name in own),
        pl.lit(starts_on).alias("starts_on"),
        pl.lit(seed).alias("seed"),
        turn=pl.Series([one.turn for one in turns], dtype=pl.Int64),
        week=pl.Series([one.week for one in turns], dtype=pl.Int64),
    )
    return rows.sort("turn").select(
        *("draw", "athlete", "kind", "side", "stratum", "turn", "week", "drawn_on", "starts_on"),
        *("prints_per_week", "ready_days", "seed", "earlier_injury", "board_number"),
        pl.lit(None, pl.String).alias("no_board_reason"),
        jumped_on=pl.when(pl.col("made_on") < turn_on).then("made_on"),
    )


def waiting_on(tables: Mapping[str, pl.DataFrame], department: str, day: dt.date) -> pl.DataFrame:
    """Who accepted a preventive guard by a day and waits for it: its side and day of printing.

    A guard made or cancelled by then is not waited for. Who is hurt at the site and not back, or
    gets a guard for the return, has a medical need and waits for no turn.
    """
    offers = tables["offers"].filter(pl.col("offered_on") <= day).sort("offered_on", "offer")
    last = offers.group_by("athlete", "kind").agg(pl.col("answer").last())
    accepted = last.filter(pl.col("answer") == "accepted").drop("answer")
    both = ["athlete", "kind"]
    waiting = (
        accepted.join(_places(tables, department, day), on="athlete")
        .join(_orders(tables, day), on=both)
        .join(_hurt(tables, day), on=both, how="left")
    )
    free = ~pl.any_horizontal(
        "is_made", "is_cancelled", "is_medical", pl.col("is_out").fill_null(value=False)
    )
    hurt = pl.col("is_out").is_not_null()
    return (
        waiting.filter(free)
        .with_columns(earlier_injury=pl.when(hurt).then(pl.lit("yes")).otherwise(pl.lit("no")))
        .sort("team", "position_group", "athlete", "kind", nulls_last=True)
    )


def _places(tables: Mapping[str, pl.DataFrame], department: str, day: dt.date) -> pl.DataFrame:
    """The team and stratum of everybody on a roster of the department that day."""
    group = pl.col("position_group").fill_null("position not recorded")
    return (
        tables["roster"]
        .join(tables["teams"].filter(department=department), on="team")
        .filter((pl.col("joined_on") <= day).fill_null(value=True))
        .filter((pl.col("left_on") >= day).fill_null(value=True))
        .sort("season", "team", descending=[True, False])
        .unique("athlete", keep="first", maintain_order=True)
        .select("athlete", "team", "position_group")
        .with_columns(stratum=pl.concat_str("team", group, separator=" · "))
    )


def _orders(tables: Mapping[str, pl.DataFrame], day: dt.date) -> pl.DataFrame:
    """Of each athlete and guard kind that was ordered: its side, and how far it is on a day."""
    reached_on = pl.col("reached_at").str.slice(0, 10).str.to_date()
    stage = pl.col("stage")
    reached = (
        tables["stages"]
        .with_columns(reached_on.alias("on"))
        .group_by("guard")
        .agg(
            pl.col("on").filter(stage.is_in(_MADE)).min().alias("made_on"),
            pl.col("on").filter(stage == "fitted").min().alias("fitted_on"),
            pl.col("on").filter(stage == "cancelled").min().alias("cancelled_on"),
        )
    )
    preventive = pl.col("purpose") == "preventive"
    made, fitted, cancelled = (
        (pl.col(name) <= day).fill_null(value=False)
        for name in ("made_on", "fitted_on", "cancelled_on")
    )
    return (
        tables["guards"]
        .join(reached, on="guard", how="left")
        .sort("guard")
        .group_by("athlete", "kind")
        .agg(
            (preventive & made).any().alias("is_made"),
            (preventive & cancelled).any().alias("is_cancelled"),
            (~preventive & ~fitted & ~cancelled).any().alias("is_medical"),
            pl.col("side", "made_on").filter(preventive).first(),
        )
    )


def _hurt(tables: Mapping[str, pl.DataFrame], day: dt.date) -> pl.DataFrame:
    """Who was hurt by a day at a site of a guard kind, and whether they are still out."""
    known_on = pl.coalesce("reported_on", "occurred_on")
    injuries = (
        tables["injuries"].filter(known_on <= day).join(BUILD.select("kind", "area"), on="area")
    )
    sides = tables["guards"].filter(pl.col("purpose") == "preventive").sort("guard")
    ordered = sides.group_by("athlete", "kind").agg(pl.col("side").first().alias("ordered"))
    is_there = pl.any_horizontal(
        pl.col("side") == pl.col("ordered"), pl.col("ordered") == "both", pl.col("side") == "both"
    )
    is_open = (pl.col("returned_on") > day).fill_null(value=True)
    hurt = injuries.join(ordered, on=["athlete", "kind"]).filter(is_there)
    return hurt.group_by("athlete", "kind").agg(is_open.any().alias("is_out"))
