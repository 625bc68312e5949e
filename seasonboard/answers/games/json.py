"""The Games answer as JSON: unrounded, and null with a `why` where nothing is known."""

from dataclasses import asdict

from seasonboard.answers.games.beside_curves import EverNever
from seasonboard.answers.games.parts import GamesAnswer, Group
from seasonboard.answers.json_parts import Json, summary_json, with_why, without_empty_why
from seasonboard.stats.direct_standardisation import Standardised
from seasonboard.stats.estimate import Quantile
from seasonboard.stats.log_rank import LogRank
from seasonboard.stats.recurrent import MeanPoint
from seasonboard.stats.survival import CurvePoint, RestrictedMean

_BEFORE_START = "before the curve's start: too few at risk"


def games_json(answer: GamesAnswer) -> Json:
    """Return the Games answer as one JSON object."""
    return {
        **summary_json(answer.summary, "games"),
        "clock": answer.options.clock.value,
        "min_at_risk": answer.options.min_at_risk,
        "groups": [_group(group) for group in answer.groups],
        "restricted_mean_difference": _difference(answer.restricted_mean_difference),
        "log_rank": _log_rank(answer.log_rank),
        "log_rank_stratified": _log_rank(answer.log_rank_stratified),
        "one_mix": _one_mix(answer.one_mix),
        "mean_cumulative": [
            _mean_point(group.name, p)
            for group, found in zip(answer.groups, answer.repeats, strict=True)
            for p in found.points
        ],
        "cumulative_incidence": [
            with_why(
                {"group": group.name, "tick": p.tick, "cause": curve.cause, "share": p.share},
                _BEFORE_START,
            )
            for group, found in zip(answer.groups, answer.incidence, strict=True)
            for curve in found.causes
            for p in curve.points
        ],
        **_ever_never(answer.ever_never),
    }


def _mean_point(group: str, point: MeanPoint) -> Json:
    why = _BEFORE_START if point.mean is None else "no injury yet, or no spread between athletes"
    found = {
        "group": group,
        "tick": point.tick,
        "at_risk": point.at_risk,
        "injuries": point.events,
        "mean": point.mean,
        "std_error": point.std_error,
        "low": point.low,
        "high": point.high,
    }
    return with_why(found, why)


def _one_mix(found: Standardised | None) -> Json:
    if found is None:
        return {"curves": None, "why": "a single kind of athlete, or no stretch to compare"}
    if found.why:
        return {"curves": None, "why": found.why, "share_lacking": found.share_lacking}
    sides = (("guarded", found.guarded), ("unguarded", found.unguarded))
    return {
        "horizon": found.horizon,
        "curves": [
            with_why(
                {"group": name, **asdict(p)}, "nobody of one kind of athlete is left uninjured"
            )
            for name, points in sides
            for p in points
        ],
        "restricted_mean_difference": _difference(found.difference),
    }


def _ever_never(found: EverNever | None) -> Json:
    if found is None:
        return {}
    sides = (("ever guarded", found.ever), ("never guarded", found.never))
    return {
        "misleading_ever_never": [
            {"group": name, "tick": p.tick, "at_risk": p.at_risk, "survival": p.survival}
            for name, curve in sides
            for p in curve.points
        ]
    }


def _group(group: Group) -> Json:
    found = {
        "group": group.name,
        "athletes": group.athletes,
        "sites": group.sites,
        "ticks": group.ticks,
        "injuries": group.injuries,
        "left": group.left,
        "left_because": [{"why": e.why, "count": e.count} for e in group.endings],
        "start": group.curve.start,
        "curve": [_point(point) for point in group.curve.points],
        "median": _quantile(group.median),
        "quartiles": [_quantile(quartile) for quartile in group.quartiles],
        "restricted_mean": _mean(group.restricted_mean),
    }
    if group.curve.start is None:
        found["why"] = group.curve.why
    return found


def _point(point: CurvePoint) -> Json:
    found = asdict(point)
    if point.survival is None:
        found["why"] = _BEFORE_START
    elif point.std_error is None:
        found["why"] = "nobody is left uninjured"
    return found


def _quantile(quantile: Quantile) -> Json:
    return without_empty_why(
        {name: getattr(quantile, name) for name in ("share", "value", "low", "high", "why")}
    )


def _mean(mean: RestrictedMean) -> Json:
    return without_empty_why(
        {
            "horizon": mean.horizon,
            "start": mean.start,
            "mean": mean.value,
            "std_error": mean.std_error,
            "why": mean.why,
        }
    )


def _difference(gap: RestrictedMean) -> Json:
    return without_empty_why(
        {
            "horizon": gap.horizon,
            "start": gap.start,
            "difference": gap.value,
            "low": gap.low,
            "high": gap.high,
            "std_error": gap.std_error,
            "method": gap.method,
            "why": gap.why,
        }
    )


def _log_rank(test: LogRank) -> Json:
    return without_empty_why(asdict(test))
