"""Rows of estimates with their limits: ratios, shares, and what can be promised."""

from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.answers import words as told
from seasonboard.documents.svg import drawing as d
from seasonboard.documents.svg.axes import Scale, level, ratio_ends, ratio_ticks, steps

_ROW, _TOP = 30.0, 30.0
_MOST_LABEL, _MOST_NOTE = 210.0, 190.0


@dataclass(frozen=True, slots=True)
class Estimate:
    """One row: its name, its estimate and limits (None: not known), and words at its right.

    `is_main` stands out; `is_apart` is drawn fainter, as something shown for contrast.
    """

    name: str
    value: float | None
    low: float | None
    high: float | None
    note: str = ""
    is_main: bool = False
    is_apart: bool = False


@dataclass(frozen=True, slots=True)
class Promise:
    """One range of what may come: its middle, and where 80 and 95 in 100 lie."""

    name: str
    median: float
    low_80: float
    high_80: float
    low_95: float
    high_95: float
    note: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """The words of a picture; `name` as in `drawing`, `below` and `above` the two directions."""

    name: str
    title: str
    description: str
    axis: str = ""
    below: str = ""
    above: str = ""


def forest(words: Words, rows: Sequence[Estimate]) -> str:
    """Return ratios with their limits on a log axis, 1 marked; an open side ends in an arrow."""
    values = [v for r in rows for v in (r.value, r.low, r.high) if v is not None and v > 0]
    low, high = ratio_ends(values)
    left, right = _sides(rows)
    across = Scale(low, high, left, right, is_log=True)
    ticks = ratio_ticks(low, high)
    bottom = _TOP + len(rows) * _ROW
    one = across(1)
    pieces = [
        d.line(one, _TOP - 6, one, bottom, colour=d.INK, width=1, dash="3 3"),
        d.words(one - 8, _TOP - 12, words.below, anchor="end", size=d.SMALL, colour=d.QUIET),
        d.words(one + 8, _TOP - 12, words.above, size=d.SMALL, colour=d.QUIET),
        *_rows(rows, across, (left, right)),
        *level(across, ticks, [f"{t:g}" for t in ticks], bottom),
    ]
    return _closed(words, pieces, across, bottom)


def shares(words: Words, rows: Sequence[Estimate]) -> str:
    """Return shares of 0 to 1 with their limits, on an axis from 0 to a round figure."""
    top = max([v for r in rows for v in (r.value, r.high) if v is not None], default=0.1)
    ticks = steps(0, min(1.0, max(0.05, top) * 1.05), most=6)
    gap = ticks[1] - ticks[0] if len(ticks) > 1 else top
    if ticks[-1] < top:
        ticks.append(min(1.0, round(ticks[-1] + gap, 10)))
    left, right = _sides(rows)
    across = Scale(0, ticks[-1], left, right)
    bottom = _TOP - 8 + len(rows) * _ROW
    pieces = [
        *(d.line(across(t), _TOP - 12, across(t), bottom, width=0.8) for t in ticks),
        *_rows(rows, across, (left, right), top=_TOP - 8),
        *level(across, ticks, [told.percent(t) for t in ticks], bottom),
    ]
    return _closed(words, pieces, across, bottom)


def promise(words: Words, rows: Sequence[Promise], *, can_be_negative: bool = True) -> str:
    """Return ranges of what may come: a dot for the middle, a thick and a thin bar."""
    ends = [v for r in rows for v in (r.low_95, r.high_95)]
    low = min([0.0, *ends]) if can_be_negative else 0.0
    high = max([*ends, low + 1])
    ticks = steps(low, high)
    gap = ticks[1] - ticks[0] if len(ticks) > 1 else 1.0
    low, high = min(low, ticks[0]), max(high, ticks[-1])
    left, right = _sides(rows)
    across = Scale(low - gap * 0.1, high + gap * 0.1, left, right)
    bottom = _TOP + len(rows) * _ROW
    key = "dot: the middle · thick: 80 in 100 · thin: 95 in 100"
    pieces = [
        d.words(left, _TOP - 14, key, size=d.SMALL, colour=d.QUIET),
        *(d.line(across(t), _TOP - 6, across(t), bottom, width=0.8) for t in ticks),
        d.line(across(0), _TOP - 6, across(0), bottom, colour=d.INK, dash="3 3") if low < 0 else "",
    ]
    for place, row in enumerate(rows):
        y = _TOP + (place + 0.5) * _ROW
        thin, thick = (
            (across(row.low_95), across(row.high_95)),
            (across(row.low_80), across(row.high_80)),
        )
        pieces += [
            d.line(thin[0], y, thin[1], y, colour=d.BLUE, width=2),
            d.box(thick[0], y - 5, thick[1] - thick[0], 10, colour=d.BLUE, strength=0.45, round_=2),
            d.dot(across(row.median), y, 5),
            *_told(row.name, row.note, y, (left, right)),
        ]
    pieces += level(across, ticks, [f"{t:g}".replace("-", "−") for t in ticks], bottom)
    return _closed(words, pieces, across, bottom)


def _sides(rows: Sequence[Estimate] | Sequence[Promise]) -> tuple[float, float]:
    label = max([d.breadth(r.name) for r in rows], default=0)
    note = max([d.breadth(r.note, 13) for r in rows], default=0)
    return min(label, _MOST_LABEL) + 16, d.WIDE - min(note, _MOST_NOTE) - 16


def _rows(
    rows: Sequence[Estimate], across: Scale, sides: tuple[float, float], top: float = _TOP
) -> list[str]:
    found = []
    for place, row in enumerate(rows):
        y = top + (place + 0.5) * _ROW
        found += [*_estimate(row, y, across), *_told(row.name, row.note, y, sides, row.is_main)]
    return found


def _estimate(row: Estimate, y: float, across: Scale) -> list[str]:
    """Return limits as a line that ends in a bar, or in an arrow where a limit is not known."""
    if row.low is None and row.high is None and row.value is None:
        if row.note:
            return []
        return [d.words((across.start + across.end) / 2, y + 4, "not known", anchor="middle",
                        size=d.SMALL, colour=d.QUIET)]  # fmt: skip
    colour = d.QUIET if row.is_apart else d.BLUE
    width = 3.0 if row.is_main else 1.8
    found = []
    if row.low is not None or row.high is not None:
        ends = (
            across.start if row.low is None else across(row.low),
            across.end if row.high is None else across(row.high),
        )
        dash = "4 3" if row.is_apart else ""
        found.append(d.line(ends[0], y, ends[1], y, colour=colour, width=width, dash=dash))
        for x, limit, way in ((ends[0], row.low, -1), (ends[1], row.high, 1)):
            is_open = limit is None or not across.low <= limit <= across.high
            tip = [(x - 6 * way, y - 5), (x, y), (x - 6 * way, y + 5)] if is_open else [
                (x, y - 5), (x, y + 5)]  # fmt: skip
            found.append(d.path(tip, d.Stroke(colour, "", width)))
    if row.value is not None:
        half = 6.0 if row.is_main else 4.5
        found.append(d.box(across(row.value) - half, y - half, 2 * half, 2 * half, colour=colour))
    return found


def _told(
    name: str,
    note: str,
    y: float,
    sides: tuple[float, float],
    is_main: bool = False,  # noqa: FBT001, FBT002 - private
) -> list[str]:
    most = int(_MOST_LABEL / (0.52 * d.SIZE))
    shown = name if len(name) <= most else f"{name[: most - 1]}…"
    return [
        d.words(2, y + 5, shown, is_bold=is_main),
        d.words(sides[1] + 14, y + 5, note, size=13, is_bold=is_main),
    ]


def _closed(words: Words, pieces: list[str], across: Scale, bottom: float) -> str:
    high = bottom + 22
    if words.axis:
        high = bottom + 40
        middle = (across.start + across.end) / 2
        pieces.append(
            d.words(middle, high - 5, words.axis, anchor="middle", size=d.SMALL, colour=d.QUIET)
        )
    return d.drawing(words.name, words.title, words.description, high, pieces)
