"""The data checks described: each with its count, and the rows of one."""

import json

from seasonboard.answers import words
from seasonboard.answers.checks.parts import Check, CheckCount, ChecksAnswer
from seasonboard.answers.field_output import as_json
from seasonboard.answers.fields import Field, Group, Kind, Table, of
from seasonboard.answers.layout import as_csv, prose, table
from seasonboard.answers.report import Report
from seasonboard.answers.rows import Rows
from seasonboard.scope import Scope

_CHECK = (
    Field("check", "name of the check", get=of("name"), heading="check"),
    Field("asks", "what it asks of the records"),
    Field("touches", "the number that it touches, by answer", heading=""),
    Field("why", "why it matters"),
    Field("mend", "how to mend it"),
    Field("query", "question in queries/ that gives its rows"),
)
CHECKS = Table.described(
    "checks",
    "a data check, those first that touch most answers",
    Group("", of("check"), _CHECK),
    Field("count", "rows that it found", Kind.COUNT, heading="rows"),
)


def check_lines(answer: ChecksAnswer) -> list[str]:
    """Return the checks that found something, with why and how to mend; then the others."""
    lines = [line for one in answer.doubtful for line in (*_lines(one), "")]
    if answer.clear:
        names = ", ".join(one.check.name for one in answer.clear)
        lines += prose(f"Found nothing: {names}.")
    if answer.doubtful:
        lines += ["", *prose("The rows of one: seasonboard check --check ID, in the same scope.")]
    return lines


def _lines(counted: CheckCount) -> list[str]:
    lines = [line for text in _texts(counted.check) for line in prose(text)]
    heading = f"{words.whole(counted.count):>9}  {counted.check.name}"
    return [heading, *(f"{'':11}{line}" for line in lines)]


def _texts(check: Check) -> tuple[str, str, str]:
    return check.asks, f"Touches {check.touched}. {check.why}", f"To mend: {check.mend}"


REPORT = Report((CHECKS,), CHECKS, (check_lines,), lambda answer: 1 if answer.doubtful else 0)


def check_rows_text(check: Check, rows: Rows) -> str:
    """Return the rows of one check as lines of text; says so when they are not all."""
    cells = [tuple("" if cell is None else str(cell) for cell in row) for row in rows.rows]
    lines = [*prose(check.asks), f"{words.plural(rows.total, 'row')}.", ""]
    lines += table([column.heading for column in rows.columns], cells)
    if rows.is_cut:
        rest = words.whole(rows.matching - len(rows.rows))
        lines.append(f"… and {rest} more; --format csv has all.")
    if cells:
        lines.append("")
    lines += [line for text in _texts(check)[1:] for line in prose(text)]
    return "\n".join(lines) + "\n"


def check_rows_json(check: Check, rows: Rows, scope: Scope) -> str:
    """Return one check and its rows as one JSON object, with its last line ended."""
    names = [column.name for column in rows.columns]
    whole = {
        "question": "checks",
        "scope": scope.resolved(),
        **as_json(_CHECK, check),
        "count": rows.total,
        "rows": [dict(zip(names, row, strict=True)) for row in rows.rows],
    }
    return json.dumps(whole, allow_nan=False, ensure_ascii=False, indent=1) + "\n"


def check_rows_csv(rows: Rows) -> str:
    """Return the rows of one check as CSV."""
    return as_csv([column.name for column in rows.columns], rows.rows)
