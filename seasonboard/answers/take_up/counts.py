"""Counts of the Take-up answer: who reached which step, and sessions worn, group by group."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

import polars as pl

from seasonboard.answers.take_up.parts import (
    ACCEPTED,
    ELIGIBLE,
    FITTED,
    NOT_RECORDED,
    OFFERED,
    STEPS,
    WORN,
    Break,
    Reason,
    Step,
    TakeUpGroup,
    WornWeek,
)
from seasonboard.stats.clustered_shares import ClusteredShare, ClusterSums, clustered_share
from seasonboard.stats.proportions import Proportion, wilson

NOTHING_WORN = clustered_share(ClusterSums(0, 0, 0, 0, 0, 0))

WHOLE = "whole"
"""The column that puts everybody into one group."""

_KEYS = ("athlete_no", "team", "kind")
_IN_ORDER = (
    (OFFERED, pl.col(OFFERED)),
    (ACCEPTED, pl.col(ACCEPTED)),
    (FITTED, pl.col(FITTED) & pl.col(ACCEPTED)),
    (WORN, pl.col(WORN) & pl.col(FITTED)),
)
_AHEAD_OF_ORDER = (
    (FITTED, pl.col(FITTED) & ~pl.col(ACCEPTED)),
    (WORN, pl.col(WORN) & ~pl.col(FITTED)),
)
_BREAKS = (
    (
        "fitted without an offer recorded, all for return after an injury",
        pl.col(FITTED) & ~pl.col(OFFERED) & pl.col("only_return"),
    ),
    (
        "fitted without an offer recorded, preventive",
        pl.col(FITTED) & ~pl.col(OFFERED) & ~pl.col("only_return"),
    ),
    ("fitted though the last answer recorded was no", pl.col(FITTED) & pl.col("declined")),
    ("fitted though the last answer recorded was undecided", pl.col(FITTED) & pl.col("undecided")),
    ("worn without being recorded as fitted", pl.col(WORN) & ~pl.col(FITTED)),
    (
        "worn in a session before it was recorded as fitted, or after it was retired",
        pl.col(FITTED) & pl.col("worn_outside"),
    ),
)


def mark(people: pl.DataFrame, wear: pl.DataFrame) -> pl.DataFrame:
    """Return which steps each athlete reached, by team and kind; kind is null where none is known.

    Args:
        people: The rows of `take_up/offers`.
        wear: The rows of `take_up/wear`, of the athletes and teams in `people`.
    """
    places = people.select("athlete_no", "team", "position_group").unique()
    worn = wear.group_by(_KEYS).agg(
        (pl.sum("worn") + pl.sum("worn_outside") > 0).alias(WORN),
        (pl.sum("worn_outside") > 0).alias("worn_outside"),
    )
    every = people.select(_KEYS).vstack(worn.select(_KEYS)).unique()
    return (
        every.join(places, on=["athlete_no", "team"], how="left")
        .join(people.drop("position_group"), on=_KEYS, how="left", nulls_equal=True)
        .join(worn, on=_KEYS, how="left")
        .with_columns(
            pl.col("position_group").fill_null(NOT_RECORDED),
            (pl.col("offers") > 0).alias(OFFERED),
            *(
                (pl.col("answer") == answer).alias(answer)
                for answer in (ACCEPTED, "declined", "undecided")
            ),
            (pl.col("fitted") > 0).alias(FITTED),
            (pl.col("fitted") == pl.col("for_return")).alias("only_return"),
            ((pl.col("open") > 0) & (pl.col("fitted") == 0)).alias("waiting"),
            pl.lit("all").alias(WHOLE),
        )
        .with_columns(pl.col(pl.Boolean).fill_null(value=False))
    )


def in_groups(
    marks: pl.DataFrame, wear: pl.DataFrame, column: str, *, level: float
) -> tuple[TakeUpGroup, ...]:
    """Return the steps and the wear of every group, in the order of their names.

    Args:
        marks: As `mark` returns them.
        wear: The rows of `take_up/wear`, of the same athletes and teams, with their position group.
        column: What makes a group: `whole`, `team`, `position_group` or `kind`. Of a kind, all
            athletes are eligible.
        level: Two-sided confidence level.
    """
    counts = _eligible(marks, column).join(_reached(marks, column), on=column, how="inner")
    everybody = wear.with_columns(pl.lit("all").alias(WHOLE))
    shares = worn_shares(everybody, [column], level)
    weeks = _by_week(everybody, column, level)
    return tuple(
        TakeUpGroup(
            group=row[column],
            steps=_steps(row, level),
            declined=row["declined"],
            undecided=row["undecided"],
            waiting=row["waiting"],
            worn=shares.get((row[column],), NOTHING_WORN),
            weeks=weeks.get(row[column], ()),
        )
        for row in counts.sort(column).iter_rows(named=True)
    )


def nobody(level: float) -> TakeUpGroup:
    """Return the steps of nobody."""
    return TakeUpGroup("all", _steps(defaultdict(int), level), 0, 0, 0, NOTHING_WORN, ())


def reasons(marks: pl.DataFrame) -> tuple[Reason, ...]:
    """Return why guards were declined or not decided on, most frequent first."""
    counted = (
        marks.filter(pl.col("answer").is_in(["declined", "undecided"]))
        .group_by("answer", "reason")
        .agg(count=pl.len())
        .sort("answer", "count", pl.col("reason").fill_null(""), descending=[False, True, False])
    )
    return tuple(Reason(*row) for row in counted.iter_rows())


def breaks(marks: pl.DataFrame) -> tuple[Break, ...]:
    """Return where the order of the steps is broken, with the athletes it concerns."""
    counts = marks.select(
        pl.col("athlete_no").filter(rule).n_unique().alias(what) for what, rule in _BREAKS
    )
    return tuple(Break(what, count) for what, count in counts.to_dicts()[0].items() if count)


def _eligible(marks: pl.DataFrame, column: str) -> pl.DataFrame:
    if column == "kind":
        kinds = marks.select("kind").drop_nulls().unique()
        return kinds.with_columns(pl.lit(marks["athlete_no"].n_unique()).alias(ELIGIBLE))
    return marks.group_by(column).agg(pl.col("athlete_no").n_unique().alias(ELIGIBLE))


def _reached(marks: pl.DataFrame, column: str) -> pl.DataFrame:
    athletes = marks.group_by(column, "athlete_no").agg(
        pl.col(OFFERED, ACCEPTED, FITTED, WORN, "declined", "undecided", "waiting").any(),
        *(rule.any().alias(f"{name}_in_order") for name, rule in _IN_ORDER),
        *(rule.any().alias(f"{name}_without") for name, rule in _AHEAD_OF_ORDER),
    )
    return (
        athletes.with_columns(
            declined=pl.col("declined") & ~pl.col(ACCEPTED),
            undecided=pl.col("undecided") & ~pl.col(ACCEPTED) & ~pl.col("declined"),
            waiting=pl.col("waiting") & ~pl.col(FITTED),
        )
        .group_by(column)
        .agg(pl.exclude("athlete_no").sum())
    )


def _steps(row: Mapping[str, Any], level: float) -> tuple[Step, ...]:
    first = Proportion(None, why="the first step")
    steps = [Step(ELIGIBLE, row[ELIGIBLE], first, first, 0)]
    for before, name in pairwise(STEPS):
        of_before = wilson(row[f"{name}_in_order"], row[before], level=level)
        of_eligible = wilson(row[name], row[ELIGIBLE], level=level)
        without = row.get(f"{name}_without", 0)
        steps.append(Step(name, row[name], of_before, of_eligible, without))
    return tuple(steps)


def _by_week(wear: pl.DataFrame, column: str, level: float) -> dict[str, tuple[WornWeek, ...]]:
    weeks: dict[str, list[WornWeek]] = {}
    shares = worn_shares(wear, [column, "week"], level)
    for (group, week), share in sorted(shares.items()):
        weeks.setdefault(group, []).append(WornWeek(week, share))
    return {group: tuple(own) for group, own in weeks.items()}


def worn_shares(
    wear: pl.DataFrame, keys: Sequence[str], level: float
) -> dict[tuple[Any, ...], ClusteredShare]:
    """Return the worn share of each group, clustered by athlete.

    Args:
        wear: Rows of `take_up/wear`.
        keys: Columns that make a group, such as `department` and `week`.
        level: Two-sided confidence level.
    """
    x, n = pl.col("worn"), pl.col("sessions")
    sums = (
        wear.group_by(*keys, "athlete_no")
        .agg(x.sum(), n.sum())
        .filter(n > 0)
        .group_by(keys)
        .agg(
            clusters=pl.len(),
            successes=x.sum(),
            trials=n.sum(),
            successes_squared=(x * x).sum(),
            products=(x * n).sum(),
            trials_squared=(n * n).sum(),
        )
    )
    wide = len(keys)
    return {
        row[:wide]: clustered_share(ClusterSums(*row[wide:]), level=level)
        for row in sums.iter_rows()
    }
