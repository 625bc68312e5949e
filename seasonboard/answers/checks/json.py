"""The data checks as JSON for scripts."""

from seasonboard.answers.checks.parts import Check, ChecksAnswer
from seasonboard.answers.json_parts import Json, summary_json
from seasonboard.answers.rows import Rows
from seasonboard.scope import Scope


def checks_json(answer: ChecksAnswer) -> Json:
    """Return every check with its count as one JSON object."""
    return {
        **summary_json(answer.summary, "checks"),
        "checks": [{**_check(each.check), "count": each.count} for each in answer.checks],
    }


def check_rows_json(check: Check, rows: Rows, scope: Scope) -> Json:
    """Return one check and its rows as one JSON object."""
    names = [column.name for column in rows.columns]
    return {
        "question": "checks",
        "scope": scope.resolved(),
        **_check(check),
        "count": rows.total,
        "rows": [dict(zip(names, row, strict=True)) for row in rows.rows],
    }


def _check(check: Check) -> Json:
    return {
        "check": check.name,
        "asks": check.asks,
        "touches": dict(check.touches),
        "why": check.why,
        "mend": check.mend,
        "query": check.query,
    }
