"""The headline as it may be looked at every week: its peek-proof form, and the way it took."""

from dataclasses import dataclass
from datetime import date

import polars as pl

from seasonboard.answers.compare.comparisons import SAME_SESSION
from seasonboard.stats.anytime_valid import AnytimeValid, RiskSet, anytime_valid_trace

WHY = (
    "Ordinary limits are for a single look: a ratio looked at every week strays over them by "
    "chance sooner or later. The peek-proof limits hold however often one looks."
)

_COUNTS = ("exposures_guarded", "exposures_unguarded", "injuries_guarded", "injuries_unguarded")


@dataclass(frozen=True, slots=True)
class Look:
    """The state after one week with injuries; `week` is its Monday."""

    week: date
    state: AnytimeValid


@dataclass(frozen=True, slots=True)
class Watched:
    """The state now, and after each week in which someone was hurt."""

    now: AnytimeValid
    looks: tuple[Look, ...]


def watch(strata: pl.DataFrame, level: float) -> Watched:
    """Return the peek-proof ratio from the same-session rows of `compare/strata`."""
    same_session = pl.col("comparison") == SAME_SESSION
    return watch_weeks(strata.filter(same_session & pl.col("stratum").is_not_null()), level)


def watch_weeks(hurt: pl.DataFrame, level: float) -> Watched:
    """Return the peek-proof ratio of strata that hold an injury, each with its day."""
    hurt = hurt.sort("played_on", "stratum")
    weeks = hurt.with_columns(week=pl.col("played_on").dt.truncate("1w"))
    by_week = {
        week: [RiskSet(*row) for row in rows.select(_COUNTS).iter_rows()]
        for (week,), rows in weeks.group_by("week", maintain_order=True)
    }
    states = anytime_valid_trace(list(by_week.values()), level=level)
    looks = tuple(Look(week, state) for week, state in zip(by_week, states, strict=True))
    now = looks[-1].state if looks else anytime_valid_trace([[]], level=level)[0]
    return Watched(now, looks)
