"""A control chart on character cells: one mark a week or group, its control limits and centre.

A mark outside its limits has a shape of its own (`▲` above, `▼` below); one that has no part in
the limits is hollow. Whether a value lies outside is told by the statistic, not measured here.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from rich.text import Text

from seasonboard.ui.layout.blocks import Paper, paragraph
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

    Where there are more points than columns the last ones are drawn, and it is said.

    Args:
        points: What is drawn, in order, all in one unit.
        centre: What the limits lie around, in the same unit.
        paper: What to draw on.
        rows: Lines of the chart itself, 3 or more.
    """
    room = max(1, paper.width - _MARGIN - 1)
    last_points = points[-room:]
    figures = _figures(last_points, centre)
    if all(point.value is None for point in last_points):
        return []
    apart = max(1, min(_MOST_APART, room // len(last_points)))
    row_of = _row_of(figures, rows)
    cells = _limits(last_points, centre, apart, rows, row_of)
    _marks(cells, last_points, apart, row_of, paper)
    labels = _row_labels(last_points, centre, row_of)
    drawn = []
    for number, row in enumerate(cells):
        label = labels.get(number, "")
        text = Text(right(label, _MARGIN - 2) + " ", style=paper.ink.quiet)
        text.append("┤" if label else "│", paper.ink.rule)
        for letter, style in row:
            text.append(letter, style)
        drawn.append(text)
    drawn.append(Text(" " * _MARGIN + _ends(last_points, apart), style=paper.ink.quiet))
    if len(last_points) < len(points):
        note = f"the last {len(last_points)} of {len(points)}"
        drawn.append(Text(" " * _MARGIN + note, style=paper.ink.quiet))
    return [*drawn, *paragraph(KEY, paper.width, paper.ink.quiet)]


_Cells = list[list[tuple[str, str]]]


def _figures(points: Sequence[ChartPoint], centre: float | None) -> list[float]:
    figures = [each for p in points for each in (p.value, p.low, p.high) if each is not None]
    return figures if centre is None else [*figures, centre]


def _row_of(figures: Sequence[float], rows: int) -> Callable[[float], int]:
    """Return what finds the row of a value; all values alike lie in the middle."""
    low, high = min(figures, default=0.0), max(figures, default=0.0)

    def row_of(value: float) -> int:
        if high <= low:
            return rows // 2
        return round((high - value) / (high - low) * (rows - 1))

    return row_of


def _limits(
    points: Sequence[ChartPoint],
    centre: float | None,
    apart: int,
    rows: int,
    row_of: Callable[[float], int],
) -> _Cells:
    cells = [[(" ", "")] * (len(points) * apart) for _ in range(rows)]
    for number, point in enumerate(points):
        for level, letter in ((centre, "─"), (point.low, "╌"), (point.high, "╌")):
            if level is not None:
                for column in range(number * apart, (number + 1) * apart):
                    cells[row_of(level)][column] = (letter, "")
    return cells


def _marks(
    cells: _Cells,
    points: Sequence[ChartPoint],
    apart: int,
    row_of: Callable[[float], int],
    paper: Paper,
) -> None:
    for number, point in enumerate(points):
        if point.value is not None:
            column = number * apart + (apart - 1) // 2
            cells[row_of(point.value)][column] = _mark(point, point.value, paper)


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
