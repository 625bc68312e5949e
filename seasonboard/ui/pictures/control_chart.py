"""A control chart on character cells: one mark a week or group, its control limits and centre.

A mark outside its limits has a shape of its own (`▲` above, `▼` below); one that has no part in
the limits is hollow. Whether a value lies outside is told by the statistic, not measured here.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from rich.text import Text

from seasonboard.ui.layout.blocks import Paper, note
from seasonboard.ui.layout.format import right, short

KEY = "● within · ▲ ▼ outside · ○ sets no limits · ╌ control limits · ─ centre"
ROWS = 9
_MARGIN = 9
"""Cells left of the chart: the figures of the limits, and the axis."""
_MOST_APART = 4


@dataclass(frozen=True, slots=True)
class ChartPoint:
    """One value in its place, with its own control limits where there are any.

    `is_counted` says whether it is held against the limits. A value of None leaves a gap.
    """

    label: str
    value: float | None
    low: float | None = None
    high: float | None = None
    is_outside: bool = False
    is_counted: bool = True


def control_chart(
    points: Sequence[ChartPoint], centre: float | None, paper: Paper, *, rows: int = ROWS
) -> list[Text]:
    """Return values in order as marks between their limits; none without a value.

    Where there are more points than columns the last ones are drawn, and it is said. `centre` is
    what the limits lie around, in the unit of the points; `rows` are 3 or more.
    """
    room = max(1, paper.width - _MARGIN - 1)
    last_points = points[-room:]
    if all(point.value is None for point in last_points):
        return []
    apart = max(1, min(_MOST_APART, room // len(last_points)))
    row_of = _row_of(last_points, centre, rows)
    cells = [[(" ", "")] * (len(last_points) * apart) for _ in range(rows)]
    for number, point in enumerate(last_points):
        begin = number * apart
        for level, letter in ((centre, "─"), (point.low, "╌"), (point.high, "╌")):
            if level is not None:
                cells[row_of(level)][begin : begin + apart] = [(letter, "")] * apart
        if point.value is not None:
            mark = _mark(point, point.value, paper)
            cells[row_of(point.value)][begin + (apart - 1) // 2] = mark
    labels = _row_labels(last_points, centre, row_of)
    drawn = []
    for number, row in enumerate(cells):
        label = labels.get(number, "")
        text = Text(right(label, _MARGIN - 2) + " ", style=paper.ink.quiet)
        drawn.append(text.append("┤" if label else "│", paper.ink.rule).append_tokens(row))
    below = [_ends(last_points, apart)]
    if len(last_points) < len(points):
        below.append(f"the last {len(last_points)} of {len(points)}")
    drawn += [Text(" " * _MARGIN + line, style=paper.ink.quiet) for line in below]
    return [*drawn, *note(KEY, paper)]


def _row_of(
    points: Sequence[ChartPoint], centre: float | None, rows: int
) -> Callable[[float], int]:
    """Return what finds the row of a value; all values alike lie in the middle."""
    levels = [centre, *(level for p in points for level in (p.value, p.low, p.high))]
    figures = [level for level in levels if level is not None]
    low, high = min(figures, default=0.0), max(figures, default=0.0)

    def row_of(value: float) -> int:
        if high <= low:
            return rows // 2
        return round((high - value) / (high - low) * (rows - 1))

    return row_of


def _mark(point: ChartPoint, value: float, paper: Paper) -> tuple[str, str]:
    if not point.is_counted:
        return "○", paper.ink.quiet
    if not point.is_outside:
        return "●", paper.ink.guarded
    is_below = point.low is not None and value < point.low
    return ("▼" if is_below else "▲"), f"{paper.ink.bare} {paper.ink.strong}".strip()


def _row_labels(
    points: Sequence[ChartPoint], centre: float | None, row_of: Callable[[float], int]
) -> dict[int, str]:
    """Return the figures of the last limits and of the centre, where rows do not meet."""
    last = next((p for p in reversed(points) if p.low is not None or p.high is not None), None)
    levels = [] if last is None else [last.high, last.low]
    labels: dict[int, str] = {}
    for level in (*levels, centre):
        if level is not None:
            labels.setdefault(row_of(level), short(level))
    return labels


def _ends(points: Sequence[ChartPoint], apart: int) -> str:
    """Return the first label and the last one, or where they have no room the last alone."""
    first, last = points[0].label, points[-1].label
    gap = len(points) * apart - cell_len(first) - cell_len(last)
    return f"{first}{' ' * gap}{last}" if len(points) > 1 and gap > 0 else last
