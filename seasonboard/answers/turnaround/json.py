"""The Turnaround answer as JSON for scripts."""

from dataclasses import asdict

from seasonboard.answers.fields import Group, as_json, of
from seasonboard.answers.json_parts import Json, summary_json, without_empty_why
from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.answers.orders.order_times import Unit
from seasonboard.answers.orders.report import CHANCE, NEXT_GAME
from seasonboard.answers.turnaround.parts import (
    Ready,
    StageTime,
    Together,
    TurnaroundAnswer,
    TurnaroundGroup,
    Week,
)
from seasonboard.stats.waiting_times import FinishedOnly, WaitQuantile


def turnaround_json(answer: TurnaroundAnswer) -> Json:
    """Return the Turnaround answer as one JSON object."""
    whole, options = answer.whole, answer.options
    return {
        **summary_json(answer.summary, "turnaround"),
        "from": str(options.start),
        "to": str(options.end),
        "unit": str(options.unit),
        "by": str(options.by) if options.by else None,
        "holidays": options.holidays_of or None,
        **_counts(whole),
        "groups": [_group(group) for group in answer.groups],
        "stages": [_stage(step) for step in whole.stages],
        "together": _together(whole.together),
        "weeks": [_week(week) for week in answer.weeks],
        "weekly_limits": _chart(answer),
        "open_orders": [_open(order, options.unit) for order in answer.open_orders],
    }


def _counts(group: TurnaroundGroup) -> Json:
    return {
        "orders": group.orders,
        "finished": group.curve.finished,
        "open": group.curve.open,
        "cancelled": group.curve.cancelled,
    }


def _group(group: TurnaroundGroup) -> Json:
    return {
        "group": group.name,
        "key": group.key or None,
        **_counts(group),
        "median": _quantile(group.median),
        "p80": _quantile(group.p80),
        "p95": _quantile(group.p95),
        "ready_for_next_game": _ready(group.ready),
        "finished_only": _finished(group.finished_only),
        "stages": [_stage(step) for step in group.stages],
        "curve": [
            {
                "time": point.time,
                "at_risk": point.at_risk,
                "finished": point.finished,
                "cancelled": point.cancelled,
                "open": point.open,
                "waiting": point.waiting,
                "low": point.low,
                "high": point.high,
                "share_finished": share.finished,
                "share_cancelled": share.cancelled,
                "share_open": share.open,
            }
            for point, share in zip(group.curve.points, group.shares, strict=True)
        ],
    }


def _quantile(found: WaitQuantile) -> Json:
    told = {"value": found.value, "low": found.low, "high": found.high, "why": found.why}
    return without_empty_why(told)


def _ready(ready: Ready) -> Json:
    share = ready.share
    return without_empty_why(
        {
            "share": share.share,
            "low": share.low,
            "high": share.high,
            "orders": share.trials,
            "ready": share.successes,
            "undecided": ready.undecided,
            "cancelled": ready.cancelled,
            "no_game": ready.no_game,
            "why": share.why,
        }
    )


def _finished(alone: FinishedOnly) -> Json:
    return without_empty_why(asdict(alone))


def _stage(step: StageTime) -> Json:
    return {
        "stage": step.stage,
        "next_stages": list(step.next_stages),
        "orders": step.orders,
        "finished": step.finished,
        "waiting": step.waiting,
        "cancelled": step.cancelled,
        "median": _quantile(step.median),
    }


def _together(both: Together) -> Json:
    return {
        "requests": both.requests,
        "complete": both.complete,
        "open": both.open,
        "cancelled": both.cancelled,
        "median": _quantile(both.median),
        "median_of_complete": both.finished_median,
    }


def _week(week: Week) -> Json:
    return without_empty_why(
        {
            "week": week.monday.isoformat(),
            "orders": week.orders,
            "finished": week.finished,
            "median": _quantile(week.median),
            "in_limits_set": week.is_charted,
            "outside_limits": week.is_outside,
            "why": week.why,
        }
    )


def _chart(answer: TurnaroundAnswer) -> Json:
    chart = answer.chart
    if chart is None:
        return {"centre": None, "low": None, "high": None, "why": answer.chart_why}
    told = {"centre": chart.centre, "low": chart.low, "high": chart.high, "why": chart.why}
    return without_empty_why(told)


def _open(order: OpenOrder, unit: Unit) -> Json:
    ages = {
        Unit.HOURS: order.age_hours,
        Unit.DAYS: order.age_days,
        Unit.WORKING_DAYS: order.age_working_days,
    }
    return {
        "guard": order.guard,
        "athlete": order.athlete,
        "department": order.department,
        "age": ages[unit],
        "stage": order.stage,
        **as_json((Group("next_game", of("next_game"), NEXT_GAME),), order),
        **as_json(CHANCE, order),
    }
