"""The Take-up answer as JSON for scripts."""

from dataclasses import asdict

from seasonboard.answers.json_parts import Json, summary_json, without_empty_why
from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpGroup
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.proportions import Proportion


def take_up_json(answer: TakeUpAnswer) -> Json:
    """Return the Take-up answer as one JSON object."""
    return {
        **summary_json(answer.summary, "take-up"),
        "by": answer.by.value,
        **_group(answer.whole),
        "kinds": [_group(group) for group in answer.kinds],
        "groups": [_group(group) for group in answer.groups],
        "reasons": [
            without_empty_why(
                {
                    "answer": each.answer,
                    "reason": each.reason or None,
                    "count": each.count,
                    "why": "" if each.reason else "none was recorded",
                }
            )
            for each in answer.reasons
        ],
        "out_of_order": [asdict(each) for each in answer.breaks],
    }


def _group(group: TakeUpGroup) -> Json:
    return {
        "group": group.group,
        "steps": [
            {
                "step": step.step,
                "athletes": step.count,
                "of_before": _proportion(step.of_before),
                "of_eligible": _proportion(step.of_eligible),
                "without_before": step.without_before,
            }
            for step in group.steps
        ],
        "declined": group.declined,
        "undecided": group.undecided,
        "waiting": group.waiting,
        "worn_share": _worn(group.worn),
        "weeks": [{"week": week.week.isoformat(), **_worn(week.worn)} for week in group.weeks],
    }


def _proportion(found: Proportion) -> Json:
    return without_empty_why(
        {"share": found.share, "low": found.low, "high": found.high, "why": found.why}
    )


def _worn(found: ClusteredShare) -> Json:
    return without_empty_why(
        {
            "worn": found.successes,
            "sessions": found.trials,
            "athletes": found.clusters,
            "share": found.share,
            "low": found.low,
            "high": found.high,
            "why": found.why,
        }
    )
