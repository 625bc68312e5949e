"""What came back, and why? Remakes and replacements among fitted guards."""

from collections.abc import Sequence
from dataclasses import replace
from statistics import median

import polars as pl

from seasonboard.answers.base import LeftOut, Summary, left_out_rows
from seasonboard.answers.orders.order_groups import FEWEST
from seasonboard.answers.questions import REMAKES
from seasonboard.answers.reader import Reader, asked_of
from seasonboard.answers.remakes.groups import (
    TOO_FEW,
    group_name,
    one_group,
    reasons_of,
    remake_groups,
)
from seasonboard.answers.remakes.mixed import mixed_up
from seasonboard.answers.remakes.monthly import asked_months
from seasonboard.answers.remakes.options import RemakesOptions
from seasonboard.answers.remakes.parts import Chains, RemakeMonth, RemakesAnswer
from seasonboard.answers.remakes.rows import came_back_rows
from seasonboard.answers.remakes.words import remakes_caveats, remakes_sentence
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues
from seasonboard.stats.control_charts import ControlLimits, p_chart
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion, clopper_pearson, wilson
from seasonboard.stats.waiting_times import wait_curve, wait_quantile


def remakes(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: RemakesOptions | None = None
) -> RemakesAnswer:
    """Follow every fitted guard to the end of its use, or to the last day known.

    Raises:
        ScopeError: The window is not at least a day.
    """
    options = options or RemakesOptions()
    if options.window < 1:
        raise ScopeError(f"A window of {options.window} days is none.", "Give at least 1.")
    asked = asked_of(scope, "remakes/guards", "remakes/left_out")
    guards, left_out = reader.read_each(asked)
    guards = guards.with_columns(group=group_name(options.by, scope_values))
    fitted = guards.filter(pl.col("fitted_on").is_not_null())
    groups = remake_groups(guards, options, scope.level)
    whole = one_group("all", fitted, options, scope.level)
    life, in_use = _life(fitted, scope.level)
    twice = fitted.filter(pl.col("successors") > 1).height
    return RemakesAnswer(
        summary=Summary(
            *(REMAKES.asks, remakes_sentence(whole, groups, options)),
            (*mixed_up(fitted, options.by), *remakes_caveats(whole, groups, options, twice)),
            (*_not_fitted(guards), *left_out_rows(left_out)),
            scope,
        ),
        options=options,
        whole=whole,
        groups=groups,
        reasons=reasons_of(guards),
        months=_months(fitted, options),
        asked=asked_months(fitted),
        chains=_chains(guards, options.window, scope.level),
        life=life,
        guards_in_use=in_use,
        bare_exposures=int(fitted["bare_exposures"].sum()),
        waits=fitted["successor"].count(),
        rows=came_back_rows(guards),
    )


def _days_to(column: str) -> pl.Expr:
    """Return the days from the fitting to another day."""
    return (pl.col(column) - pl.col("fitted_on")).dt.total_days()


def _months(guards: pl.DataFrame, options: RemakesOptions) -> tuple[RemakeMonth, ...]:
    """Return month by month the guards that are known for the whole window."""
    is_within = _days_to("successor_asked_on") <= options.window
    counted = (
        guards.filter(_days_to("known_through") >= options.window)
        .group_by(month=pl.col("fitted_on").dt.truncate("1mo"))
        .agg(fitted=pl.len(), remakes=((pl.col("counts_as") == "remake") & is_within).sum())
        .sort("month")
    )
    chart = p_chart(counted["remakes"].to_list(), counted["fitted"].to_list())
    return tuple(
        RemakeMonth(month, fitted, remade, share, _of_month(fitted, limits))
        for (month, fitted, remade), share, limits in zip(
            counted.iter_rows(), chart.values, chart.limits, strict=True
        )
    )


def _of_month(fitted: int, limits: ControlLimits) -> ControlLimits:
    if limits.low is None:
        return replace(limits, why="fewer than two months are known for the whole window")
    return replace(limits, is_outside=None, why=TOO_FEW) if fitted < FEWEST else limits


def _chains(guards: pl.DataFrame, window: int, level: float) -> Chains:
    """Return the chains that begin in the scope: what became of all their guards together."""
    begun = guards.filter(pl.col("place") == 1)["first_guard"].implode()
    members = guards.filter(pl.col("first_guard").is_in(begun)).sort("place", "guard")
    fitted = members.filter(pl.col("fitted_on").is_not_null())
    firsts = fitted.unique("first_guard", keep="first", maintain_order=True)
    members = members.filter(pl.col("first_guard").is_in(firsts["first_guard"].implode()))
    has_successor = pl.col("successor").is_not_null()
    by_chain = members.group_by("first_guard").agg(
        asked_on=pl.col("asked_on").min(),
        stayed_on=pl.when(has_successor).then("successor_fitted_on").otherwise("fitted_on").last(),
        is_open=(has_successor & pl.col("successor_fitted_on").is_null()).any(),
        length=(pl.col("place") + has_successor).max(),
    )
    grown = firsts["successor"].count()
    whole = by_chain.filter(~pl.col("is_open"))
    days = (whole["stayed_on"] - whole["asked_on"]).dt.total_days().sort().to_list()
    return Chains(
        firsts=len(firsts),
        remade_or_replaced=wilson(grown, len(firsts), level=level),
        remade_or_replaced_exact=clopper_pearson(grown, len(firsts), level=level),
        remade_or_replaced_within=_asked_anew_within(firsts, window, level),
        units=int(fitted["successors"].sum()),
        longest=max(by_chain["length"].to_list(), default=0),
        days_to_stay=median(days) if days else None,
        chains_fitted=len(whole),
    )


def _asked_anew_within(firsts: pl.DataFrame, window: int, level: float) -> Proportion:
    """Return the share of first guards asked for anew within the window, its last day included."""
    followed = firsts.filter(_days_to("known_through") >= window)
    anew = followed.filter(_days_to("successor_asked_on") <= window)
    return wilson(anew.height, followed.height, level=level)


def _life(fitted: pl.DataFrame, level: float) -> tuple[Estimate, int]:
    """Return the median number of sessions worn until retired or asked for anew, and those in use.

    What is worn on after it was asked for anew is not counted.
    """
    endings = fitted["ended_on"].is_not_null().cast(pl.Int64).to_list()  # open, or finished
    curve = wait_curve(fitted["worn_in_use"].to_list(), endings, level=level)
    return wait_quantile(curve), curve.open


def _not_fitted(guards: pl.DataFrame) -> Sequence[LeftOut]:
    unfitted = guards.filter(pl.col("fitted_on").is_null())
    delivered = unfitted["delivered_on"].count()
    counts = {"delivered, and never fitted": delivered, "not fitted": len(unfitted) - delivered}
    return [
        LeftOut("guards asked for anew", f"the guard they replace was {why}", count)
        for why, count in counts.items()
        if count
    ]
