"""The rows that one data check gives, and the checks that touch one answer."""

from seasonboard.answers.checks.all_checks import check_named
from seasonboard.answers.checks.counting import check_params
from seasonboard.answers.checks.parts import ChecksAnswer
from seasonboard.answers.fields import Field, Kind, Privacy, Table, of
from seasonboard.answers.reader import Reader
from seasonboard.answers.report import table_columns, table_rows
from seasonboard.answers.row_fields import frame_rows, usual
from seasonboard.answers.rows import Rows, page_rows
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope, ScopeValues

CHECK_ROWS = Table.described(
    "rows",
    "a record that hardly fits",
    *usual("department", "team", "athlete", "name"),
    Field("dated_on", "day it is about", Kind.DAY, heading="day"),
    Field("table_name", "stored table", heading="table"),
    Field("key", "its key", heading="key", privacy=Privacy.KEY),
    Field("detail", "what is doubtful", heading="what is doubtful"),
    rows=frame_rows,
)


def check_rows(
    reader: Reader, scope: Scope, known: ScopeValues, name: str, page: PageAsked = FIRST
) -> Rows:
    """Return a page of the rows that one check found.

    Raises:
        ScopeError: There is no check of that id.
    """
    check = check_named(name)
    rows = reader.read_page(check.query, page, **check_params(scope, known))
    return page_rows(check.name, table_columns(CHECK_ROWS), rows, page)


def touching_rows(answer: ChecksAnswer, name: str) -> Rows:
    """Return the checks that touch one answer, with their counts and why they matter."""
    touching = Table.described(
        "checks",
        "",
        Field("check", "name of the check", get=of("check.name"), heading="check"),
        Field("count", "rows it found", Kind.COUNT, heading="rows"),
        Field("touches", "what it touches", get=of(f"check.touches.{name}"), heading="touches"),
        Field("why", "why it matters", get=of("check.why"), heading="why it matters"),
        Field("mend", "how to mend it", get=of("check.mend"), heading="to mend"),
        rows=lambda answer: [one for one in answer.checks if name in one.check.touches],
    )
    return table_rows(touching, answer, "Data checks that touch this")
