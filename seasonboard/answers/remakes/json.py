"""The Remakes answer as JSON: unrounded, and null with a `why` where nothing is known."""

from dataclasses import asdict

from seasonboard.answers.json_parts import Json, summary_json, with_why, without_empty_why
from seasonboard.answers.remakes.parts import RemakeGroup, RemakeMonth, RemakesAnswer

_NO_LIMITS = "fewer than two groups, or nothing was fitted"


def remakes_json(answer: RemakesAnswer) -> Json:
    """Return the Remakes answer as one JSON object."""
    chains = asdict(answer.chains)
    for name in ("redone", "redone_exact", "redone_within"):
        chains[name] = without_empty_why(chains[name])
    return {
        **summary_json(answer.summary, "remakes"),
        "by": answer.options.by.value,
        "window": answer.options.window,
        "all": _whole(answer.whole),
        "groups": [_group(group) for group in answer.groups],
        "reasons": [asdict(reason) for reason in answer.reasons],
        "months": [_month(month) for month in answer.months],
        "chains": with_why(chains, "no chain has its last guard fitted"),
        "life": without_empty_why({"unit": "sessions worn", **asdict(answer.life)}),
        "guards_in_use": answer.guards_in_use,
        "bare_exposures_waiting": answer.bare_exposures,
        "waits": answer.waits,
    }


def _group(group: RemakeGroup) -> Json:
    within = asdict(group.within)
    return {
        "group": group.group,
        "fitted": group.fitted,
        "remakes": group.remakes,
        "replacements": group.replacements,
        "reason_not_recorded": group.reason_not_recorded,
        **without_empty_why(
            {
                "share": group.share.share,
                "low": group.share.low,
                "high": group.share.high,
                "why": group.share.why,
            }
        ),
        f"within_{group.within.days}_days": without_empty_why(within),
        "limits": with_why({"low": group.limit_low, "high": group.limit_high}, _NO_LIMITS),
        "outside_limits": bool(group.outside_limits),
        "reading": group.reading.value,
        "sessions_worn": group.sessions_worn,
        "per_100_worn": with_why(
            {
                "value": group.per_100_worn,
                "limit_low": group.worn_limit_low,
                "limit_high": group.worn_limit_high,
                "outside_limits": bool(group.worn_outside),
            },
            "not worn yet, or fewer than two groups that were",
        ),
        "reasons": [asdict(reason) for reason in group.reasons],
    }


def _whole(group: RemakeGroup) -> Json:
    """Return all guards together, which have no limits to be compared with."""
    found = _group(group)
    for name in ("limits", "outside_limits", "reading", "reasons"):
        del found[name]
    worn = with_why({"value": group.per_100_worn}, "no session worn is recorded")
    return found | {"per_100_worn": worn}


def _month(month: RemakeMonth) -> Json:
    found = asdict(month) | {"month": month.month.isoformat()}
    return with_why(found, "fewer than two months are known for the whole window")
