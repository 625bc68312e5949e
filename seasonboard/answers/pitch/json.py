"""The Pitch answer as JSON for scripts: unrounded, and null with a `why` where nothing is known."""

from dataclasses import asdict

from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.json_parts import Json, summary_json, with_why, without_empty_why
from seasonboard.answers.pitch.parts import Baseline, PitchAnswer, TeamAhead
from seasonboard.stats.prints_ahead import Percentiles
from seasonboard.stats.season_ahead import Spread

_NO_EFFECT = "no effect is shown yet, or too few own injuries tell how long athletes are out"


def pitch_json(answer: PitchAnswer) -> Json:
    """Return the Pitch answer as one JSON object."""
    effect = asdict(answer.effect)
    why = answer.effect.why or "too few exposures would be guarded for any ratio to do"
    return {
        **summary_json(answer.summary, "pitch"),
        "seasons": answer.options.seasons,
        "seed": answer.options.seed,
        "is_given": answer.is_given,
        "athletes": answer.athletes,
        "areas": list(answer.sites),
        "sites_per_athlete": answer.sites_per_athlete,
        "teams": [_team(team) for team in answer.teams],
        "inputs": [
            with_why(asdict(each), each.why or "no limits: taken as it is")
            if None in asdict(each).values()
            else without_empty_why(asdict(each))
            for each in answer.inputs
        ],
        "guarded_share": answer.guarded_share,
        "effect": with_why({k: v for k, v in effect.items() if k != "why"}, why),
        "absence": _absence(answer),
        "season": _season(answer),
        "prints": _prints(answer),
        "cost": with_why(
            {
                "price": answer.cost.price,
                "guards": _spread(answer.cost.guards),
                "total": _spread(answer.cost.total),
                "per_game_kept": _spread(answer.cost.per_game_kept),
            },
            answer.cost.why,
        ),
        "sensitivity": [asdict(swing) for swing in answer.swings],
        "sensitivity_sentence": answer.swing_sentence,
        "contact": answer.contact,
        "claims": [_claim(claim) for claim in answer.claims],
    }


def _spread(found: Spread | Percentiles | None) -> Json | None:
    return None if found is None else asdict(found)


def _team(found: TeamAhead) -> Json:
    why = found.why or "too few own injuries tell how long athletes are out"
    return with_why(
        {
            "sport": found.team.sport,
            "sex": found.team.sex,
            "athletes": found.athletes,
            "groups": [{"group": name, "athletes": count} for name, count in found.team.groups],
            "games": found.team.games,
            "practices": found.team.practices,
            "injuries": found.injuries,
            "games_missed": found.games_missed,
            "settings": [
                with_why(
                    {
                        "setting": each.setting,
                        "sessions": each.sessions,
                        "taking_part": each.taking_part,
                        "is_own_taking_part": each.is_own_taking_part,
                        "exposures": each.exposures,
                        "injuries": each.injuries,
                        "baseline": _baseline(each.baseline),
                    },
                    each.baseline.why,
                )
                for each in found.settings
            ],
        },
        why,
    )


def _baseline(found: Baseline) -> Json:
    fields = {name: value for name, value in asdict(found).items() if name not in {"why", "shape"}}
    return with_why(fields, found.why or "a share is of published rates, counts where printed")


def _absence(answer: PitchAnswer) -> Json:
    law = answer.absence
    if law is None:
        why = "too few own injuries tell how long athletes are out"
        return {"injuries": None, "still_open": None, "mean_days": None, "why": why}
    return {"injuries": law.injuries, "still_open": law.still_open, "mean_days": law.mean}


def _season(answer: PitchAnswer) -> Json:
    ahead = answer.ahead
    names = (
        *("injuries", "injuries_with", "averted", "games_missed", "games_missed_with"),
        *("games_kept", "days_lost", "days_kept"),
    )
    if ahead is None:
        why = "how many injuries to expect is not known for any team"
        return {**dict.fromkeys((*names, "visible_difference")), "why": why}
    figures: Json = {name: _spread(getattr(ahead, name)) for name in names}
    figures["visible_difference"] = None if ahead.visible is None else asdict(ahead.visible)
    return with_why(figures, answer.effect.why or _NO_EFFECT)


def _prints(answer: PitchAnswer) -> Json:
    plan = answer.plan
    found: Json = {
        "made_by": plan.made_by,
        "week_capacity": plan.week_capacity,
        "hours_per_print": plan.hours_per_print,
        "needed_per_week": plan.needed_per_week,
        "first": _spread(plan.ahead.first),
        "remakes": _spread(plan.ahead.remakes),
        "later": _spread(plan.ahead.later),
        "all": _spread(plan.ahead.prints),
        "busiest_week": _spread(plan.ahead.busiest_week),
        "hours": _spread(plan.hours),
        "busiest_hours": _spread(plan.busiest_hours),
        "by_week": [{"week": week.week, **asdict(week.prints)} for week in plan.ahead.by_week],
        "wait_hours": _spread(plan.ahead.wait_hours),
        "turnaround_days": _spread(plan.ahead.turnaround_days),
    }
    return with_why(found, plan.turnaround_why or "no print hours are recorded")


def _claim(claim: Claim) -> Json:
    why = "nothing is missing" if claim.missing is None else "nothing is known of it"
    return with_why(asdict(claim), why)
