"""Curves of shares that fall by steps: limits as bands, names at their ends, numbers below."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.answers import words as told
from seasonboard.documents.svg import drawing as d
from seasonboard.documents.svg.axes import Scale, level, steps, upright, whole_steps

_LEFT, _TOP, _HIGH = 52.0, 26.0, 236.0
_ROW = 18.0
_GAP = 17.0
_LEAST_WIDE = 300.0
_SAMPLE = 16.0
"""Length of the piece of line that stands before its name."""


@dataclass(frozen=True, slots=True)
class Step:
    """What holds from one place of the axis on: the share, and its limits where they are known."""

    at: float
    share: float
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Curve:
    """One line: its name, its steps in order, and how many were counted at places of the axis.

    `is_coarse`: only its points are known, so they are joined by straight lines and marked.
    """

    name: str
    steps: tuple[Step, ...]
    counted: tuple[tuple[float, int], ...] = ()
    end: str = ""
    is_coarse: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """The words of a picture: `name` as in `drawing`; what the axis and the counts are of."""

    name: str
    title: str
    description: str
    axis: str
    counts: str = ""


def survival(words: Words, curves: Sequence[Curve], *, until: int) -> str:
    """Return curves of the share still uninjured, up to a tick, with the numbers at risk.

    The upright axis starts below the lowest limit, at a round figure, and says so where that is
    not 0: differences of a few in a hundred are to be seen.

    Raises:
        ValueError: There are more curves than can be told apart.
    """
    lowest = min((s.share if s.low is None else s.low for c in curves for s in c.steps), default=0)
    return _drawn(words, curves, until, math.floor(max(0.0, lowest) * 10 + 1e-9) / 10)


def still_open(words: Words, curves: Sequence[Curve], *, until: int) -> str:
    """Return curves of the share of orders still open by their age, up to an age.

    Raises:
        ValueError: There are more curves than can be told apart.
    """
    return _drawn(words, curves, until, 0.0)


def _drawn(words: Words, curves: Sequence[Curve], until: int, floor: float) -> str:
    floor = min(floor, 0.9)
    named = [f"{c.name} {c.end}".strip() for c in curves]
    gutter = max([d.breadth(n) for n in named], default=0) + _SAMPLE + 18
    left = max([_LEFT, *(_label_wide(c) for c in curves if c.counted)])
    right = max(left + _LEAST_WIDE, d.WIDE - gutter)
    across = Scale(0, max(1, until), left, right)
    up = Scale(floor, 1, _TOP + _HIGH, _TOP)
    shares = steps(floor, 1, most=6)
    ticks = whole_steps(max(1, until))
    pieces = [
        *upright(up, shares, [told.percent(s) for s in shares], (left, right)),
        *(_band(curve, d.stroke(n), across, up) for n, curve in enumerate(curves)),
        *(_line(curve, d.stroke(n), across, up) for n, curve in enumerate(curves)),
        *_names(curves, named, right, up),
        *level(across, ticks, [str(t) for t in ticks], _TOP + _HIGH),
        d.words(right, _TOP + _HIGH + 34, words.axis, anchor="end", size=d.SMALL, colour=d.QUIET),
    ]
    if floor > 0:
        cut = f"The upright axis begins at {told.percent(floor)}."
        pieces.append(d.words(left, _TOP - 11, cut, size=d.SMALL, colour=d.QUIET))
    bottom = _TOP + _HIGH + 44
    if any(curve.counted for curve in curves):
        below, bottom = _counted(words.counts, curves, across, bottom + 10)
        pieces += below
    return d.drawing(words.name, words.title, words.description, bottom, pieces)


def _line(curve: Curve, how: d.Stroke, across: Scale, up: Scale) -> str:
    points = [(across(s.at), up(s.share)) for s in curve.steps]
    if curve.is_coarse:
        dots = "".join(d.dot(x, y, 3.4, colour=how.colour) for x, y in points)
        return (d.path(points, how) if points else "") + dots
    return d.path(d.stepped(points, across.end), how) if points else ""


def _band(curve: Curve, how: d.Stroke, across: Scale, up: Scale) -> str:
    known = [s for s in curve.steps if s.low is not None and s.high is not None]
    if not known:
        return ""
    upper = d.stepped([(across(s.at), up(s.high or 0)) for s in known], across.end)
    lower = d.stepped([(across(s.at), up(s.low or 0)) for s in known], across.end)
    return d.band([*upper, *reversed(lower)], how.colour)


def _names(curves: Sequence[Curve], named: Sequence[str], right: float, up: Scale) -> list[str]:
    """Return the lines' names at their ends, no two on one another, none below the axis."""
    placed = d.apart([up(c.steps[-1].share) if c.steps else up(1) for c in curves], _GAP)
    above = min(0.0, up.start - max(placed, default=0))
    found = []
    for n, (name, height) in enumerate(zip(named, placed, strict=True)):
        y = height + above
        found.append(d.path([(right + 6, y), (right + 6 + _SAMPLE, y)], d.stroke(n)))
        found.append(d.words(right + 10 + _SAMPLE, y + 4.5, name, is_bold=True))
    return found


def _label_wide(curve: Curve) -> float:
    first = told.whole(curve.counted[0][1])
    return d.breadth(curve.name, d.SMALL) + d.breadth(first, d.SMALL) / 2 + 16


def _counted(
    heading: str, curves: Sequence[Curve], across: Scale, top: float
) -> tuple[list[str], float]:
    """Return a row of counts for each curve, under the ticks they belong to."""
    found = [d.words(2, top, heading, size=d.SMALL, colour=d.QUIET)]
    for row, curve in enumerate(curves):
        y = top + (row + 1) * _ROW
        found.append(d.words(2, y, curve.name, size=d.SMALL))
        taken = -1e9
        for at, count in curve.counted:
            text, x = told.whole(count), across(at)
            half = d.breadth(text, d.SMALL) / 2
            if x - half > taken and at <= across.high:
                found.append(d.words(x, y, text, anchor="middle", size=d.SMALL))
                taken = x + half + 5
    return found, top + (len(curves) + 0.6) * _ROW
