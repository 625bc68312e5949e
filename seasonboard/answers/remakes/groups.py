"""Fitted guards in groups: how many came back, within how long, beyond which limits, and why."""

from dataclasses import dataclass, replace
from enum import StrEnum

import polars as pl

from seasonboard.answers.orders.order_groups import FEWEST
from seasonboard.answers.remakes.options import RemakesBy, RemakesOptions
from seasonboard.scope import ScopeValues
from seasonboard.stats.control_charts import ControlLimits, p_chart, u_chart
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion, wilson
from seasonboard.stats.waiting_times import wait_curve

TOO_FEW = "fewer than ten guards were fitted: too few to be called different"
NOT_RECORDED = "not recorded"

CONTACT_BANDS = ((0.0, 85.0, "under 85 %"), (85.0, 92.0, "85 to 92 %"), (92.0, 101.0, "92 % up"))
"""Bands of the share of the pad in contact: from, up to (not counted), in words. Our own choice."""


@dataclass(frozen=True, slots=True)
class Within(Estimate):
    """Share remade within some days of fitting, recent guards counted as far as they are known."""

    days: int = 0


class Reading(StrEnum):
    """How a group stands to its control limits, in words."""

    TOO_FEW = "too few to tell"
    NO_LIMITS = "no control limits"
    ABOVE = "above its control limits"
    BELOW = "below its control limits"
    WITHIN = "within its control limits"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why fitted guards were asked for anew: the reason, whether that is a remake, how often.

    `share` is of all fitted guards asked for anew. `before_fitting` are guards asked for anew for
    this reason that had never been fitted; they are in no share.
    """

    reason: str
    counts_as: str
    count: int
    share: float
    before_fitting: int = 0


@dataclass(frozen=True, slots=True)
class RemakeGroup:
    """Guards of one group: how many were fitted, and how many of those came back.

    `control_limits` lie around the share of all; a group too small to be called different is
    neither within nor outside. `per_100_worn` is remakes per 100 sessions worn, all remakes of the
    guard counted, with control limits of its own; None where no session worn is recorded.
    """

    group: str
    fitted: int
    remakes: int
    replacements: int
    reason_not_recorded: int
    share: Proportion
    within: Within
    control_limits: ControlLimits
    sessions_worn: int
    per_100_worn: float | None
    worn_control_limits: ControlLimits
    reasons: tuple[Reason, ...] = ()

    @property
    def is_small(self) -> bool:
        """Say whether the group is too small to be called different."""
        return self.fitted < FEWEST

    @property
    def reading(self) -> Reading:
        """Say how the group stands to its control limits; a small one is not called different."""
        limits = self.control_limits
        if self.is_small:
            return Reading.TOO_FEW
        if limits.is_outside is None or limits.high is None or self.share.value is None:
            return Reading.NO_LIMITS
        if not limits.is_outside:
            return Reading.WITHIN
        return Reading.ABOVE if self.share.value > limits.high else Reading.BELOW


def group_name(by: RemakesBy, scope_values: ScopeValues) -> pl.Expr:
    """Return what the group of a guard is called, from its row of `remakes/guards`."""
    if by is RemakesBy.CONTACT:
        banded = pl.lit(NOT_RECORDED)
        for low, high, name in CONTACT_BANDS:
            inside = pl.col("contact_pct").ge(low) & pl.col("contact_pct").lt(high)
            banded = pl.when(inside).then(pl.lit(name)).otherwise(banded)
        return banded
    column = pl.col(by.value.replace("-", "_"))
    if by is RemakesBy.DEPARTMENT:
        names = {one.value: one.name for one in scope_values.values.get("department", ())}
        column = column.replace(names)
    return column.fill_null(NOT_RECORDED)


def remake_groups(
    guards: pl.DataFrame, options: RemakesOptions, level: float
) -> tuple[RemakeGroup, ...]:
    """Return the groups with their control limits: those outside first, then the largest.

    Args:
        guards: Rows of `remakes/guards` with the name of their `group`; without a fitted guard
            a group is left out.
        options: The window.
        level: Two-sided confidence level.
    """
    parts = guards.sort("group").partition_by("group")
    parts = [part for part in parts if part["fitted_on"].count()]
    groups = [one_group(part["group"][0], part, options, level) for part in parts]
    shares = p_chart([g.remakes for g in groups], [g.fitted for g in groups])
    counts = [int(_fitted(part)["remakes"].sum()) for part in parts]
    worn = u_chart(counts, [g.sessions_worn / 100 for g in groups])
    charted = []
    for group, *limits in zip(groups, shares.limits, worn.limits, strict=True):
        of_share, of_worn = (_limits_of(group, one) for one in limits)
        charted.append(replace(group, control_limits=of_share, worn_control_limits=of_worn))
    return tuple(
        sorted(charted, key=lambda g: (g.control_limits.is_outside is not True, -g.fitted, g.group))
    )


def one_group(name: str, part: pl.DataFrame, options: RemakesOptions, level: float) -> RemakeGroup:
    """Return one group, without control limits, from its rows of `remakes/guards`."""
    fitted = _fitted(part)
    kinds = dict(fitted["counts_as"].value_counts().iter_rows()) if len(fitted) else {}
    remade = int(kinds.get("remake", 0))
    worn = int(fitted["sessions_worn"].sum())
    alone = ControlLimits(why="all guards together have nothing to be compared with")
    return RemakeGroup(
        group=name,
        fitted=len(fitted),
        remakes=remade,
        replacements=int(kinds.get("replacement", 0)),
        reason_not_recorded=int(kinds.get("reason not recorded", 0)),
        share=wilson(remade, len(fitted), level=level),
        within=_within(fitted, options.window, level),
        control_limits=alone,
        sessions_worn=worn,
        per_100_worn=100 * int(fitted["remakes"].sum()) / worn if worn else None,
        worn_control_limits=alone,
        reasons=reasons_of(part),
    )


def reasons_of(guards: pl.DataFrame) -> tuple[Reason, ...]:
    """Return why guards were asked for anew, the most frequent first."""
    is_fitted, reason = pl.col("fitted_on").is_not_null(), pl.col("reason")
    counts_as = pl.when(reason.is_null()).then(pl.lit("neither")).otherwise("counts_as")
    counts = (
        guards.filter(pl.col("successor").is_not_null())
        .group_by(reason.fill_null(NOT_RECORDED), counts_as.alias("counts_as"))
        .agg(count=is_fitted.sum(), before=(~is_fitted).sum())
        .sort(["count", "before", "reason"], descending=[True, True, False])
    )
    total = int(counts["count"].sum())
    return tuple(
        Reason(reason, counts_as, count, count / total if total else 0.0, before)
        for reason, counts_as, count, before in counts.iter_rows()
    )


def _fitted(part: pl.DataFrame) -> pl.DataFrame:
    return part.filter(pl.col("fitted_on").is_not_null())


def _limits_of(group: RemakeGroup, limits: ControlLimits) -> ControlLimits:
    """Return the limits of a group; one that is small is not said to lie within or outside."""
    if limits.low is None:
        return replace(limits, why="fewer than two groups to compare")
    return replace(limits, is_outside=None, why=TOO_FEW) if group.is_small else limits


def _within(fitted: pl.DataFrame, days: int, level: float) -> Within:
    """Return the share remade within some days, those in use counted as far as they are known."""
    if not len(fitted):
        return Within(None, level=level, why="no guard was fitted", days=days)
    is_remade = pl.col("counts_as").eq_missing(pl.lit("remake"))
    # A guard that was retired and then remade came back on the day it was asked for anew.
    known = pl.coalesce("ended_on", "known_through")
    end = fitted.select(pl.when(is_remade).then("successor_asked_on").otherwise(known)).to_series()
    lasted = (end - fitted["fitted_on"]).dt.total_days().clip(0).to_list()
    endings = fitted.select(is_remade.cast(pl.Int64)).to_series().to_list()  # open, or finished
    past = [p for p in wait_curve(lasted, endings, level=level).points if p.time <= days]
    waiting = past[-1].waiting if past else 1.0
    if max(lasted) < days and waiting > 0:
        why = f"no guard is known for {days} days yet"
        return Within(None, level=level, why=why, days=days)
    if waiting in {0.0, 1.0}:
        count = "none" if waiting else "every one"
        why = f"no confidence interval: {count} came back by then"
        return Within(1 - waiting, level=level, why=why, days=days)
    last = past[-1]
    low = None if last.high is None else 1 - last.high
    high = None if last.low is None else 1 - last.low
    return Within(1 - waiting, low, high, level, "log-log", days=days)
