"""The Week one item at a time, to be read from across a table, and what was decided over it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.layout.format import clean, wrap
from seasonboard.ui.week.page import row_words

if TYPE_CHECKING:
    from seasonboard.answers.week.parts import WeekAnswer, WeekItem

WIDEST = 76
"""Longer lines are hard to follow from a distance."""

_INDENT = "    "

_UNSAID = {"session"}
"""Keys that nobody says in a meeting: day, hour and team stand beside them."""


@dataclass(frozen=True, slots=True)
class MeetingDecision:
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
    fields = [one for one in item.fields if one.name == "department_name"]
    names = {str(one.get(row)) for one in fields for row in item.rows}
    return names.pop() if len(names) == 1 else ""


def item_page(item: "WeekItem", number: int, of: int, paper: Paper) -> Text:
    """Return an item with as many of its rows as fit, in whole words; `number` counts from 0."""
    width = min(paper.width, WIDEST)
    kind = "ahead" if item.is_ahead else "changed"
    head = [f"{number + 1} of {of} · {kind}", "", clean(item.title).upper(), ""]
    head += [*wrap(clean(item.sentence), width), ""]
    fields = [one for one in item.fields if one.name not in _UNSAID]
    rows = [_hanging(_INDENT, _INDENT + "  ", row_words(fields, row), width) for row in item.rows]
    body = _fitting(rows, paper.height - len(head))
    text = Text(head[0] + "\n\n", style=paper.ink.quiet)
    text.append(head[2] + "\n\n", f"not dim {paper.ink.strong}")
    text.append("\n".join(head[4:]) + "\n", "not dim")
    return text.append("\n".join(body))


def _fitting(rows: Sequence[list[str]], room: int, where: str = "") -> list[str]:
    """Return the lines of the first rows; where not all fit, the last says how many more."""
    body: list[str] = []
    for number, lines in enumerate(rows):
        rest = room - len(body) - len(lines)
        if rest < (0 if number == len(rows) - 1 else 1):
            return [*body, f"{_INDENT}and {len(rows) - number:,} more{where}"]
        body += lines
    return body


def _hanging(mark: str, indent: str, text: str, width: int) -> list[str]:
    """Return a row in wrapped lines: its first after a mark, the others after an indent."""
    first, *more = wrap(text, width - len(indent))
    return [f"{mark}{first}", *(f"{indent}{line}" for line in more)]


def summary_page(decided: Sequence[MeetingDecision], paper: Paper) -> Text:
    """Return what was decided in the meeting."""
    width = min(paper.width, WIDEST)
    text = Text("the end\n\n", style=paper.ink.quiet)
    text.append("DECISIONS OF THIS MEETING\n\n", f"not dim {paper.ink.strong}")
    if not decided:
        return text.append("None was made.", "not dim")
    rows = []
    for one in decided:
        due = f"due {one.due_on}" if one.due_on else "no day set"
        words = f"{one.text} ({one.department or 'every department'}, {due}; over: {one.over})"
        rows.append(_hanging("  · ", _INDENT, clean(words), width))
    body = _fitting(rows, paper.height - 4, ", on the Week screen")
    return text.append("\n".join(body), "not dim")
