"""Fitted guards in groups: how many came back, within how long, beyond which limits, and why."""

from collections.abc import Mapping
from dataclasses import replace

import polars as pl

from seasonboard.answers.remakes.parts import (
    CONTACT_BANDS,
    NOT_RECORDED,
    Reason,
    RemakeGroup,
    RemakesBy,
    RemakesOptions,
    Within,
)
from seasonboard.scope import ScopeValues
from seasonboard.stats.control_charts import AttributesChart, p_chart, u_chart
from seasonboard.stats.proportions import wilson
from seasonboard.stats.waiting_times import Ending, wait_curve

_COLUMNS: Mapping[RemakesBy, str] = {
    RemakesBy.KIND: "kind",
    RemakesBy.SCAN_METHOD: "scan_method",
    RemakesBy.PRINTER: "printer",
    RemakesBy.DEPARTMENT: "department",
    RemakesBy.SIDE: "side",
    RemakesBy.PURPOSE: "purpose",
}


def group_name(by: RemakesBy, known: ScopeValues) -> pl.Expr:
    """Return what the group of a guard is called, from its row of `remakes/guards`."""
    if by is RemakesBy.CONTACT:
        banded = pl.lit(NOT_RECORDED)
        for low, high, name in CONTACT_BANDS:
            inside = pl.col("contact_pct").ge(low) & pl.col("contact_pct").lt(high)
            banded = pl.when(inside).then(pl.lit(name)).otherwise(banded)
        return banded
    column = pl.col(_COLUMNS[by])
    if by is RemakesBy.DEPARTMENT:
        names = {k.value: k.name for k in known.values.get("department", ())}
        column = column.replace(names)
    return column.fill_null(NOT_RECORDED)


def remake_groups(
    guards: pl.DataFrame, options: RemakesOptions, level: float
) -> tuple[RemakeGroup, ...]:
    """Return the groups with their limits: those beyond them first, then the largest.

    Args:
        guards: Rows of `remakes/guards` with the name of their `group`; without a fitted guard
            a group is left out.
        options: The window.
        level: Two-sided confidence level.
    """
    parts = [
        part
        for part in guards.sort("group").partition_by("group", maintain_order=True)
        if part["fitted_on"].count()
    ]
    found = [one_group(part["group"][0], part, options, level) for part in parts]
    shares = p_chart([g.remakes for g in found], [g.fitted for g in found])
    counts = [int(_fitted(part)["remakes"].sum()) for part in parts]
    worn = u_chart(counts, [g.sessions_worn / 100 for g in found])
    drawn = [_with_limits(group, shares, worn, place) for place, group in enumerate(found)]
    return tuple(sorted(drawn, key=lambda g: (g.outside_limits is not True, -g.fitted, g.group)))


def one_group(name: str, part: pl.DataFrame, options: RemakesOptions, level: float) -> RemakeGroup:
    """Return one group, without limits, from its rows of `remakes/guards`."""
    fitted = _fitted(part)
    kinds = dict(fitted["redo"].value_counts().iter_rows()) if len(fitted) else {}
    remade = int(kinds.get("remake", 0))
    worn = int(fitted["sessions_worn"].sum())
    return RemakeGroup(
        group=name,
        fitted=len(fitted),
        remakes=remade,
        replacements=int(kinds.get("replacement", 0)),
        reason_not_recorded=int(kinds.get("reason not recorded", 0)),
        share=wilson(remade, len(fitted), level=level),
        within=_within(fitted, options.window, level),
        limit_low=None,
        limit_high=None,
        outside_limits=None,
        sessions_worn=worn,
        per_100_worn=100 * int(fitted["remakes"].sum()) / worn if worn else None,
        worn_limit_low=None,
        worn_limit_high=None,
        reasons=told_reasons(part),
    )


def told_reasons(guards: pl.DataFrame) -> tuple[Reason, ...]:
    """Return why guards were asked for anew, the most frequent first."""
    is_fitted = pl.col("fitted_on").is_not_null()
    told = (
        guards.filter(pl.col("redone_by").is_not_null())
        .with_columns(
            reason=pl.col("reason").fill_null(NOT_RECORDED),
            redo=pl.when(pl.col("reason").is_null())
            .then(pl.lit("neither"))
            .otherwise(pl.col("redo")),
        )
        .group_by("reason", "redo")
        .agg(count=is_fitted.sum(), before=(~is_fitted).sum())
        .sort(["count", "before", "reason"], descending=[True, True, False])
    )
    total = int(told["count"].sum())
    return tuple(
        Reason(reason, redo, count, count / total if total else 0.0, before)
        for reason, redo, count, before in told.iter_rows()
    )


def _fitted(part: pl.DataFrame) -> pl.DataFrame:
    return part.filter(pl.col("fitted_on").is_not_null())


def _with_limits(
    group: RemakeGroup, shares: AttributesChart, worn: AttributesChart, place: int
) -> RemakeGroup:
    def told(chart: AttributesChart) -> bool | None:
        return None if group.is_small or chart.low[place] is None else chart.outside[place]

    return replace(
        group,
        limit_low=shares.low[place],
        limit_high=shares.high[place],
        outside_limits=told(shares),
        worn_limit_low=worn.low[place],
        worn_limit_high=worn.high[place],
        worn_outside=told(worn),
    )


def _within(fitted: pl.DataFrame, days: int, level: float) -> Within:
    """Return the share remade within some days, those in use counted as far as they are known."""
    if not len(fitted):
        return Within(days, None, None, None, "no guard was fitted")
    is_remade = fitted["redo"].eq_missing("remake")
    # A guard that was retired and then remade came back on the day it was asked for anew.
    end = fitted.select(
        pl.when(pl.col("redo").eq_missing(pl.lit("remake")))
        .then("redone_on")
        .otherwise(pl.coalesce("ended_on", "known_through"))
    ).to_series()
    lasted = (end - fitted["fitted_on"]).dt.total_days().clip(0).to_list()
    endings = [Ending.FINISHED if remade else Ending.OPEN for remade in is_remade]
    past = [p for p in wait_curve(lasted, endings, level=level).points if p.time <= days]
    waiting = past[-1].waiting if past else 1.0
    if max(lasted) < days and waiting > 0:
        return Within(days, None, None, None, f"no guard is known for {days} days yet")
    if waiting in {0.0, 1.0}:
        count = "none" if waiting else "every one"
        return Within(days, 1 - waiting, None, None, f"no limits: {count} came back by then")
    last = past[-1]
    low = None if last.high is None else 1 - last.high
    high = None if last.low is None else 1 - last.low
    return Within(days, 1 - waiting, low, high)
