"""Sorting, searching, cutting and counting the rows of any question, in SQL."""

import re

from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked
from seasonboard.store.question_header import SqlQuestion

PLACE, MATCHING, TOTAL = "row's place", "rows matching", "rows in all"
"""Columns beside the question's own; no question has a column with a space in its name."""


def paged(question: SqlQuestion, page: PageAsked) -> tuple[str, dict[str, object]]:
    """Return the SQL of one page of a question, and the parameters it adds.

    Raises:
        StoreError: The question has no such column to sort by.
    """
    if page.sort and page.sort not in question.columns:
        raise StoreError(f"“{question.asks}” has no column {page.sort} to sort by.")
    words = page.search.split()
    added: dict[str, object] = {f"word_{n}": word for n, word in enumerate(words)}
    order = f'"{PLACE}"'
    if page.sort:
        order = f'"{page.sort}" {"DESC" if page.descending else "ASC"} NULLS LAST, "{PLACE}"'
    return (
        f"""
WITH asked AS (
{question.sql.rstrip().rstrip(";")}
),
placed AS (
    SELECT *, row_number() OVER () AS "{PLACE}", count(*) OVER () AS "{TOTAL}" FROM asked
),
found AS (
    SELECT *, count(*) OVER () AS "{MATCHING}" FROM placed WHERE {_matches(question, words)}
),
cut AS (SELECT * FROM found ORDER BY {order} LIMIT {int(page.limit)} OFFSET {int(page.offset)})
SELECT * FROM cut ORDER BY {order}
""",  # noqa: S608 - names are the question's own, values are parameters
        added,
    )


def counted(question: SqlQuestion) -> str:
    """Return the SQL that counts the rows of a question: unsorted, so that no cell is made."""
    unsorted = re.sub(r"\nORDER BY [^()]*$", "", question.sql.rstrip().rstrip(";"))
    return f"SELECT count(*) AS number FROM (\n{unsorted}\n)"  # noqa: S608 - as above


def _matches(question: SqlQuestion, words: list[str]) -> str:
    """Return the condition that every word stands somewhere in the row."""
    if not words:
        return "true"
    cells = ", ".join(f'"{name}"::VARCHAR' for name in question.columns)
    line = f"strip_accents(lower(concat_ws(' ', {cells})))"
    return " AND ".join(
        f"contains({line}, strip_accents(lower($word_{n})))" for n in range(len(words))
    )
