"""What every answer's JSON has in common."""

from typing import Any

from seasonboard.answers.base import Summary

Json = dict[str, Any]


def summary_json(summary: Summary, question: str) -> Json:
    """Return question, resolved scope, answer, caveats and what was left out.

    Where the data checks that touch the answer were counted, they are in `data_checks`.
    """
    found: Json = {
        "question": question,
        "scope": summary.scope.resolved(),
        "answer": summary.answer,
        "caveats": list(summary.caveats),
        "left_out": [
            {"why": f"{left.what}: {left.why}", "count": left.count} for left in summary.left_out
        ],
    }
    if summary.doubts is not None:
        found["data_checks"] = [
            {"check": each.check, "count": each.count} for each in summary.doubts if each.count
        ]
    return found


def with_why(found: Json, why: str) -> Json:
    """Add why where something is null."""
    return {**found, "why": why} if None in found.values() else found


def without_empty_why(found: Json) -> Json:
    """Drop a `why` that has nothing to say."""
    return {name: value for name, value in found.items() if name != "why" or value}
