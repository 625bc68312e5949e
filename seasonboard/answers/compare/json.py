"""The Compare answer as JSON: unrounded, and null with a `why` where nothing is known."""

from dataclasses import asdict

from seasonboard.answers.compare.comparisons import Comparison
from seasonboard.answers.compare.hours import Hours
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.json_parts import Json, summary_json, without_empty_why
from seasonboard.stats.anytime_valid import AnytimeValid
from seasonboard.stats.rates import Rate
from seasonboard.stats.ratios import ChiSquare


def compare_json(answer: CompareAnswer) -> Json:
    """Return the Compare answer as one JSON object."""
    return {
        **summary_json(answer.summary, "compare"),
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
                "ratio": answer.sample_needed.ratio,
                "power": answer.sample_needed.power,
                "guarded_exposures": answer.sample_needed.exposures_guarded,
                "more_guarded_exposures": answer.sample_needed.more_guarded,
                "games": answer.games_needed,
                "why": answer.sample_needed.why
                or ("no game was played yet" if answer.games_needed is None else ""),
            }
        ),
        "verdict": answer.verdict,
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


def _peek_proof(state: AnytimeValid) -> Json:
    return without_empty_why(
        {
            "rate_ratio": state.rate_ratio,
            "low": state.low,
            "high": state.high,
            "e_value": state.anytime_evidence,
            "injuries": state.injuries,
            "looks_valid": True,
            "why": state.why,
        }
    )


def _chi_square(test: ChiSquare) -> Json:
    return without_empty_why(asdict(test))
