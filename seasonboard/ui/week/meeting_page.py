"""The Week one item at a time, to be read from across a table, and what was decided over it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.layout.format import cell, clean, wrap

if TYPE_CHECKING:
    from seasonboard.answers.week.parts import WeekAnswer, WeekItem

WIDEST = 76
"""Longer lines are hard to follow from a distance."""

_INDENT = "    "

_UNSAID = {"session"}
"""Keys that nobody says in a meeting: day, hour and team stand beside them."""


@dataclass(frozen=True, slots=True)
class Decided:
    """One decision of the meeting, with the item it was made over."""

    over: str
    text: str
    department: str
    due_on: str


def in_order(answer: "WeekAnswer") -> "tuple[WeekItem, ...]":
    """Return the items as the page has them: what is ahead first, then what changed."""
    return tuple(sorted(answer.items, key=lambda item: not item.is_ahead))


def department_of(item: "WeekItem") -> str:
    """Return the name of the only department that an item's rows are about; empty without one."""
    places = [n for n, column in enumerate(item.columns) if column.name == "department_name"]
    names = {row[places[0]] for row in item.rows} if places else set()
    return str(next(iter(names))) if len(names) == 1 else ""


def item_page(item: "WeekItem", place: int, of: int, paper: Paper) -> Text:
    """Return an item with as many of its rows as fit, in whole words."""
    width = min(paper.width, WIDEST)
    kind = "ahead" if item.is_ahead else "changed"
    head = [f"{place + 1} of {of} · {kind}", "", clean(item.title).upper(), ""]
    head += [*wrap(clean(item.sentence), width), ""]
    rows = [_row(item, row, width) for row in item.rows]
    room = paper.height - len(head)
    body, shown = _fitting(rows, room)
    if shown < len(rows):
        body.append(f"{_INDENT}and {len(rows) - shown:,} more")
    text = Text(head[0] + "\n\n", style=paper.ink.quiet)
    text.append(head[2] + "\n\n", f"not dim {paper.ink.strong}")
    text.append("\n".join(head[4:]) + "\n", "not dim")
    return text.append("\n".join(body))


def _fitting(rows: Sequence[list[str]], room: int) -> tuple[list[str], int]:
    """Return the lines of the first rows, one apart, and how many rows they are."""
    body: list[str] = []
    for number, lines in enumerate(rows):
        left = room - len(body) - len(lines)
        if left < (0 if number == len(rows) - 1 else 1):  # a line is kept to say that there is more
            return body, number
        body += lines
    return body, len(rows)


def _row(item: "WeekItem", row: Sequence[object], width: int) -> list[str]:
    told = " · ".join(
        f"{column.heading} {cell(value)}" if column.is_number else cell(value)  # type: ignore[arg-type]
        for value, column in zip(row, item.columns, strict=False)
        if value is not None and column.name not in _UNSAID
    )
    first, *more = wrap(told, width - len(_INDENT) - 2)
    return [f"{_INDENT}{first}", *(f"{_INDENT}  {line}" for line in more)]


def summary_page(decided: Sequence[Decided], paper: Paper) -> Text:
    """Return what was decided in the meeting."""
    width = min(paper.width, WIDEST)
    text = Text("the end\n\n", style=paper.ink.quiet)
    text.append("DECISIONS OF THIS MEETING\n\n", f"not dim {paper.ink.strong}")
    if not decided:
        return text.append("None was made.", "not dim")
    rows = []
    for one in decided:
        due = f"due {one.due_on}" if one.due_on else "no day set"
        told = f"{one.text} ({one.department or 'every department'}, {due}; over: {one.over})"
        first, *more = wrap(clean(told), width - len(_INDENT))
        rows.append([f"  · {first}", *(f"{_INDENT}{line}" for line in more)])
    body, shown = _fitting(rows, paper.height - 4)
    if shown < len(rows):
        body.append(f"{_INDENT}and {len(rows) - shown:,} more, on the Week screen")
    return text.append("\n".join(body), "not dim")
