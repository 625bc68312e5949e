"""Scales and ticks: which figures stand at an axis, and where a value lies on it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.documents.svg.drawing import QUIET, RULE, SMALL, line, text


@dataclass(frozen=True, slots=True)
class Scale:
    """A stretch of values laid on a stretch of the drawing; on a log scale by their ratios."""

    low: float
    high: float
    start: float
    end: float
    is_log: bool = False

    def __call__(self, value: float) -> float:
        """Return where a value lies; beyond the ends it lies at the end."""
        inside = min(max(value, self.low), self.high)
        figures = (self.low, inside, self.high)
        low, at, high = map(math.log, figures) if self.is_log else figures
        return self.start + (at - low) / ((high - low) or 1.0) * (self.end - self.start)


def steps(low: float, high: float, *, most: int = 6) -> list[float]:
    """Return round figures from `low` to `high`, at most so many."""
    if high <= low:
        return [low]
    raw = (high - low) / max(1, most - 1)
    power = 10.0 ** math.floor(math.log10(raw))
    step = next(f * power for f in (1.0, 2.0, 5.0, 10.0) if f * power >= raw * 0.999)
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [round(n * step, 10) for n in range(first, last + 1)]


def whole_steps(high: int, *, most: int = 8) -> list[int]:
    """Return round whole figures from 0 to `high`, the last one `high` itself where it has room."""
    figures = sorted({int(f) for f in steps(0, high, most=most) if f == int(f)} | {0})
    gap = figures[1] - figures[0] if len(figures) > 1 else 1
    return [*(f for f in figures if high - f >= gap * 0.6), high] if high > 0 else [0]


_RATIOS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100)


def ratio_ends(values: Sequence[float]) -> tuple[float, float]:
    """Return round ends of a log axis that has 1 and all values on it, within 0.01 and 100."""
    low = min([*values, 0.5])
    high = max([*values, 2.0])
    return (
        max([r for r in _RATIOS if r <= low] or [_RATIOS[0]]),
        min([r for r in _RATIOS if r >= high] or [_RATIOS[-1]]),
    )


def ratio_ticks(low: float, high: float) -> list[float]:
    """Return the figures of a log axis between its ends."""
    return [r for r in _RATIOS if low <= r <= high]


def upright(
    scale: Scale, ticks: Sequence[float], labels: Sequence[str], ends: tuple[float, float]
) -> list[str]:
    """Return an axis at the left with thin lines across; `scale` gives heights."""
    pieces = []
    for value, label in zip(ticks, labels, strict=True):
        y = scale(value)
        pieces.append(line(ends[0], y, ends[1], y, colour=RULE, width=0.8))
        pieces.append(text(ends[0] - 6, y + 4, label, anchor="end", size=SMALL, colour=QUIET))
    return pieces


def level(scale: Scale, ticks: Sequence[float], labels: Sequence[str], y: float) -> list[str]:
    """Return an axis below a picture at height `y`, with its figures under it."""
    pieces = [line(scale.start, y, scale.end, y, colour=QUIET)]
    for value, label in zip(ticks, labels, strict=True):
        x = scale(value)
        pieces.append(line(x, y, x, y + 4, colour=QUIET))
        pieces.append(text(x, y + 17, label, anchor="middle", size=SMALL, colour=QUIET))
    return pieces
