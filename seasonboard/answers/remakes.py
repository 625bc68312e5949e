"""What came back, and why? Remakes and replacements among fitted guards."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import polars as pl

from seasonboard.answers.base import LeftOut, Said, left_out_rows
from seasonboard.answers.reader import Reader
from seasonboard.answers.remakes_parts import (
    CONTACT_BANDS,
    NOT_RECORDED,
    Chains,
    Reason,
    RemakeGroup,
    RemakeMonth,
    RemakesAnswer,
    RemakesBy,
    RemakesOptions,
    Within,
)
from seasonboard.answers.remakes_rows import redone_rows
from seasonboard.answers.remakes_words import remakes_caveats, remakes_sentence
from seasonboard.errors import ScopeError
from seasonboard.scope import Known, Scope
from seasonboard.stats.charts import AttributesChart, p_chart, u_chart
from seasonboard.stats.durations import Ending, WaitQuantile, wait_curve, wait_quantile
from seasonboard.stats.proportions import Proportion, clopper_pearson, wilson

QUESTION = "What came back, and why?"

_PARAMS = ("seasons", "until", "departments", "teams", "sports", "sexes", "position_groups")
_GUARDS = ("kinds", "areas", "sides")
_COLUMNS: Mapping[RemakesBy, str] = {
    RemakesBy.KIND: "kind",
    RemakesBy.SCAN_METHOD: "scan_method",
    RemakesBy.PRINTER: "printer",
    RemakesBy.DEPARTMENT: "department",
    RemakesBy.PURPOSE: "purpose",
}


def remakes(
    reader: Reader, scope: Scope, known: Known, options: RemakesOptions | None = None
) -> RemakesAnswer:
    """Follow every fitted guard to the end of its use, or to the last day known.

    Raises:
        ScopeError: The window is not at least a day.
        StoreError: The store could not be read.
    """
    options = options or RemakesOptions()
    if options.window < 1:
        raise ScopeError(f"A window of {options.window} days is none.", "Give at least 1.")
    params = {name: value for name, value in scope.params().items() if name in _PARAMS + _GUARDS}
    guards, left_out = reader.read_each([("remakes/guards", params), ("remakes/left_out", params)])
    fitted = guards.filter(pl.col("fitted_on").is_not_null()).with_columns(
        group=_group(options.by, known)
    )
    groups = _groups(fitted, options, scope.level)
    whole = _one_group("all", fitted, options, scope.level)
    reasons = _reasons(guards)
    life, in_use = _life(fitted, scope.level)
    waits = fitted.filter(pl.col("redone_by").is_not_null())
    return RemakesAnswer(
        said=Said(
            question=QUESTION,
            answer=remakes_sentence(whole, groups, reasons, options),
            caveats=tuple(remakes_caveats(whole, groups, options)),
            left_out=(*_not_fitted(guards), *left_out_rows(left_out)),
            scope=scope,
        ),
        options=options,
        whole=whole,
        groups=groups,
        reasons=reasons,
        months=_months(fitted, options),
        chains=_chains(guards, options.window, scope.level),
        life=life,
        guards_in_use=in_use,
        bare_exposures=int(waits["bare_exposures"].sum()),
        waits=len(waits),
        rows=redone_rows(guards),
    )


def _group(by: RemakesBy, known: Known) -> pl.Expr:
    """Return what a guard's group is called."""
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


def _groups(fitted: pl.DataFrame, options: RemakesOptions, level: float) -> tuple[RemakeGroup, ...]:
    parts = fitted.sort("group").partition_by("group", maintain_order=True)
    found = [_one_group(part["group"][0], part, options, level) for part in parts]
    chart = p_chart([g.remakes for g in found], [g.fitted for g in found])
    counts = [int(part["remakes"].sum()) for part in map(_with_remakes, parts)]
    worn = u_chart(counts, [g.sessions_worn / 100 for g in found])
    drawn = [_with_limits(group, chart, worn, place) for place, group in enumerate(found)]
    return tuple(sorted(drawn, key=lambda g: (g.outside_limits is not True, -g.fitted, g.group)))


def _with_remakes(part: pl.DataFrame) -> pl.DataFrame:
    """Add how often each guard was remade: all that were asked for in its place, if remakes."""
    return part.with_columns(
        remakes=pl.when(pl.col("redo") == "remake").then(pl.col("redos")).otherwise(0)
    )


def _one_group(name: str, part: pl.DataFrame, options: RemakesOptions, level: float) -> RemakeGroup:
    kinds = dict(part["redo"].value_counts().iter_rows()) if len(part) else {}
    remade = int(kinds.get("remake", 0))
    worn = int(part["sessions_worn"].sum())
    redos = int(_with_remakes(part)["remakes"].sum())
    return RemakeGroup(
        group=name,
        fitted=len(part),
        remakes=remade,
        replacements=int(kinds.get("replacement", 0)),
        reason_not_recorded=int(kinds.get("reason not recorded", 0)),
        share=wilson(remade, len(part), level=level),
        within=_within(part, options.window, level),
        limit_low=None,
        limit_high=None,
        outside_limits=None,
        sessions_worn=worn,
        per_100_worn=100 * redos / worn if worn else None,
        worn_limit_low=None,
        worn_limit_high=None,
    )


def _with_limits(
    group: RemakeGroup, chart: AttributesChart, worn: AttributesChart, place: int
) -> RemakeGroup:
    return replace(
        group,
        limit_low=chart.low[place],
        limit_high=chart.high[place],
        outside_limits=None if chart.low[place] is None else chart.outside[place],
        worn_limit_low=worn.low[place],
        worn_limit_high=worn.high[place],
    )


def _within(part: pl.DataFrame, days: int, level: float) -> Within:
    """Return the share remade within some days, those in use counted as far as they are known."""
    if not len(part):
        return Within(days, None, None, None, "no guard was fitted")
    is_remade = part["redo"].eq_missing("remake")
    end = part.select(pl.coalesce("ended_on", "known_through")).to_series()
    lasted = (end - part["fitted_on"]).dt.total_days().clip(0)
    endings = [Ending.FINISHED if remade else Ending.OPEN for remade in is_remade]
    curve = wait_curve(lasted.to_list(), endings, level=level)
    past = [point for point in curve.points if point.time <= days]
    if not past:
        return Within(days, 0.0, None, None, "nothing came back yet")
    last = past[-1]
    if curve.points and max(lasted) < days and last.waiting > 0:
        why = f"no guard is known for {days} days yet"
        return Within(days, None, None, None, why)
    low = None if last.high is None else 1 - last.high
    high = None if last.low is None else 1 - last.low
    why = "" if low is not None else "no limits: nobody came back, or all did"
    return Within(days, 1 - last.waiting, low, high, why)


def _reasons(guards: pl.DataFrame) -> tuple[Reason, ...]:
    told = guards.filter(pl.col("redone_by").is_not_null()).with_columns(
        reason=pl.col("reason").fill_null(NOT_RECORDED),
        redo=pl.when(pl.col("reason").is_null()).then(pl.lit("neither")).otherwise(pl.col("redo")),
    )
    counted = (
        told.group_by("reason", "redo")
        .len("count")
        .sort(["count", "reason"], descending=[True, False])
    )
    return tuple(
        Reason(reason, redo, count, count / len(told))
        for reason, redo, count in counted.iter_rows()
    )


def _months(fitted: pl.DataFrame, options: RemakesOptions) -> tuple[RemakeMonth, ...]:
    """Return month by month the guards that are known for the whole window."""
    days_to_redo = (pl.col("redone_on") - pl.col("fitted_on")).dt.total_days()
    followed = (pl.col("known_through") - pl.col("fitted_on")).dt.total_days() >= options.window
    counted = (
        fitted.filter(followed)
        .group_by(pl.col("fitted_on").dt.truncate("1mo").alias("month"))
        .agg(
            pl.len().alias("fitted"),
            ((pl.col("redo") == "remake") & (days_to_redo <= options.window))
            .sum()
            .alias("remakes"),
        )
        .sort("month")
    )
    chart = p_chart(counted["remakes"].to_list(), counted["fitted"].to_list())
    limits = zip(chart.values, chart.low, chart.high, chart.outside, strict=True)
    return tuple(
        RemakeMonth(month, count, remade, *limit)
        for (month, count, remade), limit in zip(counted.iter_rows(), limits, strict=True)
    )


def _chains(guards: pl.DataFrame, window: int, level: float) -> Chains:
    """Return the chains whose first guard is among the guards: what became of them together."""
    firsts = guards.filter(pl.col("place") == 1)
    members = guards.filter(pl.col("first_guard").is_in(firsts["guard"].implode()))
    by_chain = members.group_by("first_guard").agg(
        asked_on=pl.col("asked_on").min(),
        last_fitted_on=pl.col("fitted_on").sort_by("place").last(),
        is_open=(pl.col("redone_by").is_not_null() & pl.col("redone_fitted_on").is_null()).any(),
        units=pl.col("redos").sum(),
        length=pl.col("place").max(),
        grows=(pl.col("redone_by").is_not_null()).any(),
    )
    grown = int(by_chain["grows"].sum())
    whole = by_chain.filter(~pl.col("is_open") & pl.col("last_fitted_on").is_not_null())
    days = (whole["last_fitted_on"] - whole["asked_on"]).dt.total_days()
    middle = days.median() if len(days) else None
    longest = int(by_chain["length"].max() or 0) if len(by_chain) else 0  # type: ignore[arg-type]
    unfinished = bool(by_chain["is_open"].any()) if len(by_chain) else False
    return Chains(
        firsts=len(firsts),
        redone=wilson(grown, len(firsts), level=level),
        redone_exact=clopper_pearson(grown, len(firsts), level=level),
        redone_within=_redone_within(firsts, window, level),
        units=int(by_chain["units"].sum()),
        longest=longest + (1 if unfinished and longest else 0),
        days_to_stay=None if middle is None else float(middle),  # type: ignore[arg-type]
        chains_fitted=len(whole),
    )


def _redone_within(firsts: pl.DataFrame, window: int, level: float) -> Proportion:
    """Return the share of first guards asked for anew within the window, its last day included."""
    days_known = (pl.col("known_through") - pl.col("fitted_on")).dt.total_days()
    days_to_redo = (pl.col("redone_on") - pl.col("fitted_on")).dt.total_days()
    known = firsts.filter(days_known >= window)
    return wilson(known.filter(days_to_redo <= window).height, known.height, level=level)


def _life(fitted: pl.DataFrame, level: float) -> tuple[WaitQuantile, int]:
    """Return the middle number of sessions worn until retired or asked for anew."""
    is_over = fitted["ended_on"].is_not_null()
    endings = [Ending.FINISHED if over else Ending.OPEN for over in is_over]
    curve = wait_curve(fitted["sessions_worn"].to_list(), endings, level=level)
    return wait_quantile(curve), int((~is_over).sum())


def _not_fitted(guards: pl.DataFrame) -> Sequence[LeftOut]:
    count = guards["fitted_on"].null_count()
    why = "the guard they replace was not fitted"
    return [LeftOut("guards asked for anew", why, count)] if count else []
