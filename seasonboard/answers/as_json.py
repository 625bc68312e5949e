"""Answers as JSON for scripts: unrounded, and null with a `why` where nothing is known."""

from dataclasses import asdict

from seasonboard.answers.compare.answer import CompareAnswer
from seasonboard.answers.compare.comparisons import Comparison
from seasonboard.answers.compare.hours import Hours
from seasonboard.answers.games.more import EverNever
from seasonboard.answers.games.parts import GamesAnswer, Group
from seasonboard.answers.json_parts import Json, said_json, with_why, without_empty_why
from seasonboard.stats.log_rank import LogRank
from seasonboard.stats.peek_proof import PeekProof
from seasonboard.stats.rates import Rate
from seasonboard.stats.ratios import ChiSquare
from seasonboard.stats.recurrent import MeanPoint
from seasonboard.stats.standardised import Standardised
from seasonboard.stats.survival import CurvePoint, Quantile, RestrictedMean

_BEFORE_START = "before the curve's start: too few at risk"


def compare_json(answer: CompareAnswer) -> Json:
    """Return the Compare answer as one JSON object."""
    return {
        **said_json(answer.said, "compare"),
        "per": answer.per.value,
        "guarded": _rates(answer.guarded, answer.hours[0]),
        "unguarded": _rates(answer.unguarded, answer.hours[1]),
        "comparisons": [_comparison(comparison) for comparison in answer.comparisons],
        "decliners": _comparison(answer.decliners),
        "areas": [
            without_empty_why(
                {
                    "area": each.area,
                    "injuries_guarded": each.ratio.injuries_guarded,
                    "injuries_unguarded": each.ratio.injuries_unguarded,
                    "rate_ratio": each.ratio.rate_ratio,
                    "low": each.ratio.low,
                    "high": each.ratio.high,
                    "p": each.ratio.p,
                    "p_adjusted": each.p_adjusted,
                    "why": each.ratio.why,
                }
            )
            for each in answer.areas
        ],
        "peek_proof": _peek_proof(answer.watched.now),
        "peek_proof_by_week": [
            {"week": look.week.isoformat(), **_peek_proof(look.state)}
            for look in answer.watched.looks
        ],
        "needed": without_empty_why(
            {
                "ratio": answer.needed.ratio,
                "power": answer.needed.power,
                "guarded_exposures": answer.needed.exposures_guarded,
                "more_guarded_exposures": answer.needed.more_guarded,
                "games": answer.games_needed,
                "why": answer.needed.why
                or ("no game was played yet" if answer.games_needed is None else ""),
            }
        ),
        "verdict": answer.verdict,
    }


def games_json(answer: GamesAnswer) -> Json:
    """Return the Games answer as one JSON object."""
    return {
        **said_json(answer.said, "games"),
        "clock": answer.options.clock.value,
        "min_at_risk": answer.options.min_at_risk,
        "groups": [_group(group) for group in answer.groups],
        "restricted_mean_difference": without_empty_why(asdict(answer.restricted_mean_difference)),
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
        "restricted_mean_difference": without_empty_why(asdict(found.difference)),
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


def _rates(rate: Rate, hours: Hours) -> Json:
    found = _rate(rate) | {
        "hours": hours.rate.hours if hours.exposures else None,
        "injuries_in_hours": hours.rate.injuries,
        "injuries_without_minutes": hours.untimed_injuries,
        "exposures_without_minutes": hours.untimed_exposures,
        "rate_per_1000_hours": hours.rate.rate,
        "low_hours": hours.rate.low,
        "high_hours": hours.rate.high,
    }
    return {**found, "why": "; ".join(filter(None, (rate.why, hours.why)))} if hours.why else found


def _rate(rate: Rate) -> Json:
    return without_empty_why(
        {
            "injuries": rate.injuries,
            "exposures": rate.exposures,
            "rate": rate.rate,
            "low": rate.low,
            "high": rate.high,
            "why": rate.why,
        }
    )


def _comparison(comparison: Comparison) -> Json:
    ratio = comparison.ratio
    return without_empty_why(
        {
            "comparison": comparison.name,
            "removes": comparison.removes,
            "injuries_guarded": ratio.injuries_guarded,
            "injuries_unguarded": ratio.injuries_unguarded,
            "exposures_guarded": ratio.exposures_guarded,
            "exposures_unguarded": ratio.exposures_unguarded,
            "strata": ratio.strata,
            "informative_strata": ratio.informative_strata,
            "informative_injuries": ratio.informative_injuries,
            "rate_ratio": ratio.rate_ratio,
            "low": ratio.low,
            "high": ratio.high,
            "p": ratio.p,
            "method": ratio.method,
            "exact": without_empty_why(
                {
                    "low": ratio.exact.low,
                    "high": ratio.exact.high,
                    "p": ratio.exact.p,
                    "why": ratio.exact.why,
                }
            ),
            "clustered": without_empty_why(
                {
                    "low": comparison.clustered.low,
                    "high": comparison.clustered.high,
                    "athletes": comparison.clustered.athletes,
                    "why": comparison.clustered.why,
                }
            ),
            "score": _chi_square(ratio.score),
            "homogeneity": _chi_square(ratio.homogeneity),
            "why": ratio.why,
        }
    )


def _peek_proof(state: PeekProof) -> Json:
    return without_empty_why(
        {
            "rate_ratio": state.rate_ratio,
            "low": state.low,
            "high": state.high,
            "e_value": state.e_value,
            "injuries": state.injuries,
            "looks_valid": True,
            "why": state.why,
        }
    )


def _chi_square(test: ChiSquare) -> Json:
    return without_empty_why(asdict(test))


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
    found = asdict(quantile)
    if quantile.value is not None and None in {quantile.low, quantile.high}:
        found["why"] = "the limits of the curve do not cross this share"
    return without_empty_why(found)


def _mean(mean: RestrictedMean) -> Json:
    return without_empty_why(asdict(mean))


def _log_rank(test: LogRank) -> Json:
    return without_empty_why(asdict(test))
