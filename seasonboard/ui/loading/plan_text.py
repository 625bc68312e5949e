"""A plan, and what stopped a load, as lines of text."""

from collections.abc import Sequence

from rich.text import Text

from seasonboard.errors import Problem
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.loading.first_rows import first_rows_lines
from seasonboard.ui.loading.load_dialog import ShownPlan
from seasonboard.ui.loading.load_questions import LoadQuestion

MOST = 40
"""Sentences of a kind that are shown; the others are only counted."""
MOST_REFUSED = 5000
"""Refused rows that are shown: all of them have to be mended."""


def plan_text(shown: ShownPlan, width: int) -> Text:
    """Return a plan: rows by table, what is left behind or doubtful, changed cells, first rows.

    How the files are read comes last. Lines of the first rows are at most `width` cells wide.
    """
    text, plan = Text(), shown.plan
    wide = max(len(one) for one in ("table", *(one.table for one in plan.tables)))
    _line(text, f"{fit('table', wide)} {'new':>8} {'changed':>8} {'same':>8}  file", "bold")
    for one in plan.tables:
        counts = f"{one.new:>8,} {one.changed:>8,} {one.same:>8,}"
        _line(text, f"{fit(one.table, wide)} {counts}  {one.file}")
    for sentence in plan.sentences:
        _line(text, sentence)
    _listed(text, f"Left behind, to be corrected and loaded again ({plan.rejected:,} rows):",
            _sentences(plan.problems), len(plan.problems), most=MOST_REFUSED)  # fmt: skip
    doubts, notes = plan.notes[: plan.doubts], plan.notes[plan.doubts :]
    _listed(text, f"Doubtful, and kept ({len(doubts):,}):", _sentences(doubts), len(doubts))
    cells = [
        f"{one.file}, row {one.file_row}, {one.table}.{one.column}: {one.old or '–'} → "
        f"{one.new or '–'}"
        for one in plan.changes
    ]
    _listed(text, f"Cells that change ({plan.changed_cells:,}):", cells, plan.changed_cells)
    for first in plan.first_rows:
        head = f"{first.table}: the first {len(first.cells)} of {first.rows:,} rows to be written"
        if len(first.cells) == first.rows:
            head = f"{first.table}: what is written"
        text.append("\n")
        _line(text, head, "bold")
        for line in first_rows_lines(first, width):
            _line(text, line, "italic" if line.startswith("   ") else "")
    _listed(text, f"How it was read ({len(notes):,}):", _sentences(notes), len(notes))
    if shown.mapping:
        text.append("\n")
        for line in shown.mapping.rstrip().splitlines():
            _line(text, line)
    return text


def _sentences(problems: Sequence[Problem]) -> list[str]:
    return [one.sentence() for one in problems]


def question_text(question: LoadQuestion) -> Text:
    """Return what stopped a load."""
    text = Text()
    for one in question.sentences[:MOST_REFUSED]:
        _line(text, one)
    if len(question.sentences) > MOST_REFUSED:
        _line(text, f"and {len(question.sentences) - MOST_REFUSED:,} more.")
    return text


def _listed(text: Text, head: str, lines: Sequence[str], count: int, *, most: int = MOST) -> None:
    if not lines:
        return
    text.append("\n")
    _line(text, head, "bold")
    for one in lines[:most]:
        _line(text, f"  {one}")
    if count > len(lines[:most]):
        _line(text, f"  and {count - len(lines[:most]):,} more.")


def _line(text: Text, line: str, style: str = "") -> None:
    text.append(clean(line) + "\n", style)
