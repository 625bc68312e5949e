"""Numbers as a row of bars, for text and pages alike."""

from collections.abc import Sequence

LEVELS = "▁▂▃▄▅▆▇█"
GAP = "·"


def sparkline(values: Sequence[float | None], *, floor: float | None = None) -> str:
    """Return numbers as bars between their least and their largest; `·` where none is.

    With `floor` the lowest bar stands for it instead of for the least.
    """
    numbers = [value for value in values if value is not None]
    if not numbers:
        return GAP * len(values)
    low = min(numbers) if floor is None else min(floor, *numbers)
    high = max(numbers)
    return "".join(GAP if v is None else LEVELS[_level(v, low, high)] for v in values)


def _level(value: float, low: float, high: float) -> int:
    if high <= low:
        return 0 if value <= 0 else 3
    return min(len(LEVELS) - 1, int((value - low) / (high - low) * len(LEVELS)))
