"""A plan, and what stopped a load, as lines of text."""

from collections.abc import Sequence

from rich.text import Text

from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.loading.load_dialog import Shown
from seasonboard.ui.loading.load_questions import Asked

MOST = 40
"""Sentences of a kind that are shown; the others are only counted."""
MOST_REFUSED = 5000
"""Refused rows that are shown: all of them have to be mended."""


def plan_text(shown: Shown) -> Text:
    """Return a plan: how files are read, rows by table, changed cells, what is left or doubtful."""
    text = Text()
    wide = max((len(table) for table, *_ in shown.tables), default=5)
    _line(text, f"{fit('table', wide)} {'new':>8} {'changed':>8} {'same':>8}  file", "bold")
    for table, file, new, changed, same in shown.tables:
        _line(text, f"{fit(table, wide)} {new:>8,} {changed:>8,} {same:>8,}  {file}")
    for one in shown.told:
        _line(text, one)
    _listed(text, f"Left behind, to be corrected and loaded again ({shown.rejected:,} rows):",
            shown.reasons, len(shown.reasons), most=MOST_REFUSED)  # fmt: skip
    cells = [
        f"{file}, row {row}, {column}: {old or '–'} → {new or '–'}"
        for file, row, column, old, new in shown.changes
    ]
    _listed(text, f"Cells that change ({shown.changed:,}):", cells, shown.changed)
    _listed(text, f"Kept, but worth a look ({len(shown.notes):,}):", shown.notes, len(shown.notes))
    if shown.mapping:
        text.append("\n")
        for one in shown.mapping.rstrip().splitlines():
            _line(text, one)
    return text


def asked_text(asked: Asked) -> Text:
    """Return what stopped a load."""
    text = Text()
    for one in asked.told[:MOST_REFUSED]:
        _line(text, one)
    if len(asked.told) > MOST_REFUSED:
        _line(text, f"and {len(asked.told) - MOST_REFUSED:,} more.")
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
