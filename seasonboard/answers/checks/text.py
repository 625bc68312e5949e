"""The data checks as text to read in a terminal, and as CSV for a spreadsheet."""

from seasonboard.answers import words
from seasonboard.answers.checks.parts import Check, CheckFound, ChecksAnswer
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.answers.rows import Rows


def checks_text(answer: ChecksAnswer) -> str:
    """Return every check: those that found something with why and how to mend, then the rest."""
    body = [line for each in answer.found for line in (*_told(each), "")]
    if answer.clear:
        names = ", ".join(each.check.name for each in answer.clear)
        body += prose(f"Found nothing: {names}.")
    if answer.found:
        body += ["", *prose("The rows of one: seasonboard check --check ID, in the same scope.")]
    return page(answer.summary, body)


def _told(each: CheckFound) -> list[str]:
    check = each.check
    return [
        f"{words.whole(each.count):>9}  {check.name}",
        *_item(f"{check.asks}"),
        *_item(f"Touches {check.touched}. {check.why}"),
        *_item(f"To mend: {check.mend}"),
    ]


def _item(text: str) -> list[str]:
    return [f"           {line}" for line in prose(text)]


def checks_csv(answer: ChecksAnswer) -> str:
    """Return every check with its count as CSV."""
    heads = ("check", "count", "asks", "touches", "why", "mend")
    rows = [
        (e.check.name, e.count, e.check.asks, e.check.touched, e.check.why, e.check.mend)
        for e in answer.checks
    ]
    return as_csv(heads, rows)


def check_rows_text(check: Check, rows: Rows) -> str:
    """Return the rows of one check as lines of text; says so when they are not all."""
    cells = [tuple("" if cell is None else str(cell) for cell in row) for row in rows.rows]
    lines = [
        *prose(check.asks),
        f"{words.plural(rows.total, 'row')}.",
        "",
        *table([column.heading for column in rows.columns], cells),
    ]
    if rows.is_cut:
        rest = words.whole(rows.matching - len(rows.rows))
        lines.append(f"… and {rest} more; --format csv has all.")
    if cells:
        lines.append("")
    lines += prose(f"Touches {check.touched}. {check.why}")
    lines += prose(f"To mend: {check.mend}")
    return "\n".join(lines) + "\n"


def check_rows_csv(rows: Rows) -> str:
    """Return the rows of one check as CSV."""
    return as_csv([column.name for column in rows.columns], rows.rows)
