"""Curves of shares that fall, by few points: names above them, numbers below."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.answers import words
from seasonboard.documents.svg import drawing as d
from seasonboard.documents.svg.axes import Scale, level, steps, upright, whole_steps

_LEFT, _HIGH = 46.0, 160.0
_ROW = 18.0
_SAMPLE = 26.0
_HALF = 0.5
"""Length of the piece of line that stands before its name."""


@dataclass(frozen=True, slots=True)
class CurveLine:
    """One line: its name, its points in order, and how many were counted at places of the axis.

    Only its points are known, so they are joined by straight lines and marked. `end` stands after
    the name.
    """

    name: str
    points: tuple[tuple[float, float], ...]
    counts: tuple[tuple[float, int], ...] = ()
    end: str = ""


def falling(labels: d.PictureWords, curves: Sequence[CurveLine], *, until: int) -> str:
    """Return curves of shares that fall, up to a place, with counts below where there are some.

    Where the lowest share is a half or more, the upright axis starts below it, at a round figure,
    and says so: differences of a few in a hundred are to be seen. At most `MOST_LINES` curves.
    """
    lowest = min((share for curve in curves for _, share in curve.points), default=0)
    floor = min(math.floor(lowest * 10 + 1e-9) / 10, 0.9) if lowest >= _HALF else 0.0
    top = 12 + len(curves) * _ROW + (_ROW if floor > 0 else 0)
    left = max([_LEFT, *(_label_wide(curve) for curve in curves if curve.counts)])
    across = Scale(0, max(1, until), left, d.WIDE - 14)
    up = Scale(floor, 1, top + _HIGH, top)
    shares = steps(floor, 1, most=6)
    ticks = whole_steps(max(1, until))
    pieces = [
        *_names(curves, left),
        *upright(up, shares, [words.percent(share) for share in shares], (left, across.end)),
        *(_line(curve, d.stroke(number), across, up) for number, curve in enumerate(curves)),
        *level(across, ticks, [str(tick) for tick in ticks], up.start),
        d.text(across.end, up.start + 34, labels.axis, anchor="end", size=d.SMALL, colour=d.QUIET),
    ]
    if floor > 0:
        cut = f"The upright axis begins at {words.percent(floor)}."
        pieces.append(d.text(left, top - 10, cut, size=d.SMALL, colour=d.QUIET))
    bottom = up.start + 44
    if any(curve.counts for curve in curves):
        below, bottom = _counts(labels.counts, curves, across, bottom + 10)
        pieces += below
    return d.drawing(labels, bottom, pieces)


def _line(curve: CurveLine, stroke: d.Stroke, across: Scale, up: Scale) -> str:
    points = [(across(at), up(share)) for at, share in curve.points]
    dots = "".join(d.dot(x, y, 3.4, colour=stroke.colour) for x, y in points)
    return (d.path(points, stroke) if points else "") + dots


def _names(curves: Sequence[CurveLine], left: float) -> list[str]:
    """Return a row for each line: a piece of it, and its name."""
    pieces = []
    for number, curve in enumerate(curves):
        y = 12 + number * _ROW
        pieces.append(d.path([(left, y - 4.5), (left + _SAMPLE, y - 4.5)], d.stroke(number)))
        name = f"{curve.name} {curve.end}".strip()
        pieces.append(d.text(left + _SAMPLE + 8, y, name, is_bold=True))
    return pieces


def _label_wide(curve: CurveLine) -> float:
    first = words.whole(curve.counts[0][1])
    return d.breadth(curve.name, d.SMALL) + d.breadth(first, d.SMALL) / 2 + 16


def _counts(
    heading: str, curves: Sequence[CurveLine], across: Scale, top: float
) -> tuple[list[str], float]:
    """Return a row of counts for each curve, under the ticks they belong to."""
    pieces = [d.text(2, top, heading, size=d.SMALL, colour=d.QUIET)]
    for row, curve in enumerate(curves):
        y = top + (row + 1) * _ROW
        pieces.append(d.text(2, y, curve.name, size=d.SMALL))
        end = -1e9
        for at, count in curve.counts:
            figure, x = words.whole(count), across(at)
            half = d.breadth(figure, d.SMALL) / 2
            if x - half > end and at <= across.high:
                pieces.append(d.text(x, y, figure, anchor="middle", size=d.SMALL))
                end = x + half + 5
    return pieces, top + (len(curves) + 0.6) * _ROW
