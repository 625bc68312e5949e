"""Rows of ratios with their confidence intervals, and of ranges of a season ahead."""

from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.documents.svg import drawing as d
from seasonboard.documents.svg.axes import Scale, level, ratio_ends, ratio_ticks, steps

_ROW, _TOP = 25.0, 30.0
_MOST_LABEL, _MOST_NOTE = 150.0, 150.0


@dataclass(frozen=True, slots=True)
class ForestRow:
    """One ratio: its name, its value and interval (None: not known), and words at its right.

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
class RangeRow:
    """One range of what may come: its median, where 80 and 95 in 100 lie, words at its right."""

    name: str
    note: str
    median: float
    low_80: float
    high_80: float
    low_95: float
    high_95: float


def forest(labels: d.PictureWords, rows: Sequence[ForestRow]) -> str:
    """Return ratios with their intervals on a log axis, 1 marked; an open side ends in an arrow."""
    values = [v for r in rows for v in (r.value, r.low, r.high) if v is not None and v > 0]
    low, high = ratio_ends(values)
    left, right = _sides(rows)
    across = Scale(low, high, left, right, is_log=True)
    ticks = ratio_ticks(low, high)
    bottom = _TOP + len(rows) * _ROW
    one = across(1)
    pieces = [
        d.line(one, _TOP - 6, one, bottom, colour=d.INK, width=1, dash="3 3"),
        d.text(one - 8, _TOP - 12, labels.below, anchor="end", size=d.SMALL, colour=d.QUIET),
        d.text(one + 8, _TOP - 12, labels.above, size=d.SMALL, colour=d.QUIET),
    ]
    for number, row in enumerate(rows):
        y = _TOP + (number + 0.5) * _ROW
        pieces += [*_ratio(row, y, across), *_row_words(row, y, (left, right))]
    pieces += level(across, ticks, [f"{tick:g}" for tick in ticks], bottom)
    return _closed(labels, pieces, across, bottom)


def season_ranges(labels: d.PictureWords, rows: Sequence[RangeRow]) -> str:
    """Return ranges of what may come: a dot for the median, a thick and a thin bar."""
    ends = [end for row in rows for end in (row.low_95, row.high_95)]
    low = min([0.0, *ends])
    high = max([*ends, low + 1])
    ticks = steps(low, high)
    gap = ticks[1] - ticks[0] if len(ticks) > 1 else 1.0
    low, high = min(low, ticks[0]), max(high, ticks[-1])
    left, right = _sides(rows)
    across = Scale(low - gap * 0.1, high + gap * 0.1, left, right)
    bottom = _TOP + len(rows) * _ROW
    key = "dot: the median · thick: 80 in 100 · thin: 95 in 100"
    pieces = [
        d.text(2, _TOP - 14, key, size=d.SMALL, colour=d.QUIET),
        *(d.line(across(tick), _TOP - 6, across(tick), bottom, width=0.8) for tick in ticks),
        d.line(across(0), _TOP - 6, across(0), bottom, colour=d.INK, dash="3 3") if low < 0 else "",
    ]
    for number, row in enumerate(rows):
        y = _TOP + (number + 0.5) * _ROW
        thin = across(row.low_95), across(row.high_95)
        thick = across(row.low_80), across(row.high_80)
        pieces += [
            d.line(thin[0], y, thin[1], y, colour=d.BLUE, width=2),
            d.box(thick[0], y - 5, thick[1] - thick[0], 10, colour=d.BLUE, strength=0.45, round_=2),
            d.dot(across(row.median), y, 5),
            *_row_words(row, y, (left, right)),
        ]
    pieces += level(across, ticks, [f"{tick:g}".replace("-", "−") for tick in ticks], bottom)
    return _closed(labels, pieces, across, bottom)


def _sides(rows: Sequence[ForestRow] | Sequence[RangeRow]) -> tuple[float, float]:
    label = max([d.breadth(row.name) for row in rows], default=0)
    note = max([d.breadth(row.note, 13) for row in rows], default=0)
    return min(label, _MOST_LABEL) + 8, d.WIDE - min(note, _MOST_NOTE) - 12


def _ratio(row: ForestRow, y: float, across: Scale) -> list[str]:
    """Return an interval as a line that ends in a bar, or in an arrow where an end is not known."""
    if row.low is None and row.high is None and row.value is None:
        x = (across.start + across.end) / 2
        unknown = d.text(x, y + 4, "not known", anchor="middle", size=d.SMALL, colour=d.QUIET)
        return [] if row.note else [unknown]
    colour = d.QUIET if row.is_apart else d.BLUE
    width = 3.0 if row.is_main else 1.8
    pieces = []
    if row.low is not None or row.high is not None:
        ends = (
            across.start if row.low is None else across(row.low),
            across.end if row.high is None else across(row.high),
        )
        dash = "4 3" if row.is_apart else ""
        pieces.append(d.line(ends[0], y, ends[1], y, colour=colour, width=width, dash=dash))
        for x, limit, way in ((ends[0], row.low, -1), (ends[1], row.high, 1)):
            is_open = limit is None or not across.low <= limit <= across.high
            tip = [(x - 6 * way, y - 5), (x, y), (x - 6 * way, y + 5)] if is_open else [
                (x, y - 5), (x, y + 5)]  # fmt: skip
            pieces.append(d.path(tip, d.Stroke(colour, "", width)))
    if row.value is not None:
        half = 6.0 if row.is_main else 4.5
        pieces.append(d.box(across(row.value) - half, y - half, 2 * half, 2 * half, colour=colour))
    return pieces


def _row_words(row: ForestRow | RangeRow, y: float, sides: tuple[float, float]) -> list[str]:
    most = int(_MOST_LABEL / d.breadth("x"))
    name = row.name if len(row.name) <= most else f"{row.name[: most - 1]}…"
    is_main = isinstance(row, ForestRow) and row.is_main
    return [
        d.text(2, y + 5, name, is_bold=is_main),
        d.text(sides[1] + 10, y + 5, row.note, size=13, is_bold=is_main),
    ]


def _closed(labels: d.PictureWords, pieces: list[str], across: Scale, bottom: float) -> str:
    high = bottom + 22
    if labels.axis:
        high = bottom + 40
        x = (across.start + across.end) / 2
        pieces.append(
            d.text(x, high - 5, labels.axis, anchor="middle", size=d.SMALL, colour=d.QUIET)
        )
    return d.drawing(labels, high, pieces)
