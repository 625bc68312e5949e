"""Numbers and counts as words, the same in sentences, tables and documents."""

import math
from collections.abc import Callable

from seasonboard.scope import Scope
from seasonboard.stats.control_charts import ControlLimits
from seasonboard.stats.estimate import Estimate

_PLURALS = {
    "lumbosacral": "lower backs",
    "hip/groin": "hips",
    "foot": "feet",
    "lower leg": "lower legs",
    **{area: f"{area}s" for area in ("head", "neck", "shoulder", "elbow", "forearm", "wrist")},
    **{area: f"{area}s" for area in ("hand", "chest", "thigh", "knee", "ankle")},
}


def sites_word(areas: tuple[str, ...]) -> str:
    """Return what the sites are called together: `lower legs`, or `sites` for several areas."""
    return _PLURALS.get(areas[0], "sites") if len(areas) == 1 else "sites"


def number(value: float | None, *, digits: int = 2) -> str:
    """Return a number with fixed digits and a true minus sign; a dash for None."""
    if value is None:
        return "–"
    text = f"{value:.{digits}f}"
    if float(text) == 0:
        text = text.lstrip("-")
    return text.replace("-", "−")


def ratio(value: float | None) -> str:
    """Return a ratio with two digits, more where it is small, fewer where it is large."""
    if value is None:
        return "–"
    if value == 0:
        return "0"
    if value >= 100:
        return f"{value:.0f}"
    if value >= 0.1:
        return f"{value:.2f}"
    places = 1 - math.floor(math.log10(value))
    return f"{value:.{places}f}".rstrip("0")


def interval(
    low: float | None, high: float | None, read: Callable[[float | None], str] = ratio
) -> str:
    """Return a confidence interval in words: `0.19 to 1.66`, or what is not known of it."""
    if low is None and high is None:
        return "no limits yet"
    if high is None:
        return f"{read(low)} up, no upper limit yet"
    return f"{read(low)} to {read(high)}"


def whole(count: int) -> str:
    """Return a count with a thousands mark and a true minus sign: `12,345`."""
    return f"{count:,}".replace("-", "−")


def plural(count: int, one: str, many: str | None = None) -> str:
    """Return a count with its noun: `1 injury`, `2 injuries`."""
    return f"{whole(count)} {one if count == 1 else many or one + 's'}"


def to_figures(count: int, figures: int = 3) -> int:
    """Return a count in so many figures: 1,234 in three is 1,230."""
    return round(count, min(0, figures - len(str(count))))


def percent(share: float, *, digits: int = 0) -> str:
    """Return a share as a percentage, a whole one without `digits`: `68 %`."""
    return f"{share * 100:.{digits}f} %"


def share_words(share: Estimate) -> str:
    """Return a share with its confidence interval: `38 % (31–46)`; a dash where not known."""
    if share.value is None:
        return "–"
    if share.low is None or share.high is None:
        return percent(share.value)
    return f"{percent(share.value)} ({share.low * 100:.0f}–{share.high * 100:.0f})"


def share_interval(limits: Estimate | ControlLimits) -> str:
    """Return limits of a share: `31 to 46 %`; a dash where not known."""
    if limits.low is None or limits.high is None:
        return "–"
    return f"{limits.low * 100:.0f} to {limits.high * 100:.0f} %"


def duration(value: float | None) -> str:
    """Return a time with one digit at most, from 100 up whole: `9`, `6.5`; a dash for None."""
    if value is None:
        return "–"
    is_whole = abs(value) >= 100 or abs(value - round(value)) < 0.05
    return number(value, digits=0 if is_whole else 1)


def days(value: float) -> str:
    """Return a time in days: `9 days`, `1 day`."""
    text = duration(value)
    return f"{text} {'day' if text == '1' else 'days'}"


def time_words(time: Estimate) -> str:
    """Return a time with its confidence interval: `9 (8–11)`, `9 (8–…)`; or why there is none."""
    if time.value is None:
        return "too few" if time.why.startswith("fewer than") else "not reached"
    if time.low is None and time.high is None:
        return duration(time.value)
    high = "…" if time.high is None else duration(time.high)
    return f"{duration(time.value)} ({duration(time.low)}–{high})"


def interval_words(scope: Scope) -> str:
    """Return what heads the confidence interval of a figure: `95 % interval`."""
    return f"{level_words(scope)} interval"


def level_words(scope: Scope) -> str:
    """Return the confidence level: `95 %`."""
    return f"{scope.level * 100:g} %"
