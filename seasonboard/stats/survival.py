"""Games before an injury: Kaplan-Meier on an integer clock, with late entry.

Everything here starts from one row per tick, so its cost does not depend on how many athletes
stand behind the counts. At tick k: `at_risk` took part in it, `injuries` of them were hurt in it,
`entered` of them were not at risk at the tick before, `left` went on uninjured but are not at
risk at the next tick. Those who leave at k were at risk at k: censoring follows the injuries.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from seasonboard.stats.bounded_intervals import log_log_limits
from seasonboard.stats.estimate import Estimate, Quantile
from seasonboard.stats.special import two_sided

LOG_LOG = "log-log"
BROOKMEYER_CROWLEY = "where the curve's own limits cross (Brookmeyer-Crowley)"
NORMAL = "normal"
NOT_CROSSED = "the limits of the curve do not cross this share"
_TIE = 1e-12


@dataclass(frozen=True, slots=True)
class TickCount:
    """Who was at risk at one tick, and what became of them."""

    tick: int
    at_risk: int
    injuries: int
    entered: int
    left: int


@dataclass(frozen=True, slots=True)
class CurvePoint(TickCount):
    """One tick of a curve; `survival` is the share still uninjured after it.

    Before the curve's start `survival` is None. The standard error and limits are None there and
    where nobody is left uninjured. `thin` marks a tick with fewer at risk than asked for.
    """

    survival: float | None
    std_error: float | None
    low: float | None
    high: float | None
    thin: bool


@dataclass(frozen=True, slots=True)
class Curve:
    """A survival curve; with a `start` above 1 it is conditional on `start` − 1 ticks uninjured."""

    points: tuple[CurvePoint, ...]
    start: int | None
    min_at_risk: int
    level: float
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RestrictedMean(Estimate):
    """Mean ticks before injury from `start` to `horizon`, or the difference of two such means.

    A mean has a standard error and no interval of its own; a difference, first minus second, has
    both.
    """

    horizon: int | None
    start: int | None = None
    std_error: float | None = None


def kaplan_meier(
    counts: Sequence[TickCount],
    *,
    min_at_risk: int = 1,
    start: int | None = None,
    level: float = 0.95,
) -> Curve:
    """Return the survival curve of one group.

    Args:
        counts: One row per tick at which someone was at risk, ticks rising.
        min_at_risk: The curve starts at the first tick with this many at risk; later ticks with
            fewer are marked `thin`.
        start: Start at this tick or later, to compare two curves from one place.
        level: Confidence level of the log-log limits.

    Returns:
        A point for every tick given, with Greenwood's standard error.

    Raises:
        ValueError: Ticks do not rise, or counts contradict each other.

    Source: Kaplan & Meier (1958), J Am Stat Assoc 53, 457-481; Greenwood (1926); Kalbfleisch &
    Prentice (1980), section 1.3, for log-log; Tsai, Jewell & Wang (1987), Biometrika 74, 883-886,
    for late entry.
    """
    _check(counts)
    enough = (c.tick for c in counts if c.at_risk >= min_at_risk and c.tick >= (start or 0))
    first = next(enough, None)
    z = two_sided(level)
    survival, greenwood = 1.0, 0.0
    points = []
    for c in counts:
        share: float | None = None
        spread: tuple[float | None, float | None, float | None] = (None, None, None)
        if first is not None and c.tick >= first:
            remaining = c.at_risk - c.injuries
            share = survival = survival * (remaining / c.at_risk)
            if survival:
                greenwood += c.injuries / (c.at_risk * remaining)
                error = survival * math.sqrt(greenwood)
                limits = (1.0, 1.0) if survival == 1 else log_log_limits(survival, error, z)
                spread = (error, *limits)
        count = (c.tick, c.at_risk, c.injuries, c.entered, c.left)
        points.append(CurvePoint(*count, share, *spread, thin=c.at_risk < min_at_risk))
    why = "" if first is not None else never_enough(counts, min_at_risk)
    return Curve(tuple(points), first, min_at_risk, level, why)


def quantile(curve: Curve, share: float = 0.5) -> Quantile:
    """Return the first tick by which `share` were injured, with limits from the curve's band.

    The value is the first tick at which survival is 1 − `share` or lower, also when it equals it
    exactly; the limits are where the curve's own limits cross (Brookmeyer & Crowley 1982,
    Biometrics 38, 29-41).

    Raises:
        ValueError: `share` does not lie between 0 and 1.
    """
    if not 0 < share < 1:
        raise ValueError(f"a share lies between 0 and 1, not {share}")
    wanted = 1 - share + _TIE

    def first(values: Sequence[tuple[int, float | None]]) -> int | None:
        return next((tick for tick, value in values if value is not None and value <= wanted), None)

    value = first([(p.tick, p.survival) for p in curve.points])
    low = first([(p.tick, p.low) for p in curve.points])
    high = first([(p.tick, p.high) for p in curve.points])
    why = "" if low is not None and high is not None else NOT_CROSSED
    if value is None:
        why = curve.why or "not reached"
    return Quantile(value, low, high, curve.level, BROOKMEYER_CROWLEY, why, share=share)


def restricted_mean(curve: Curve, horizon: int) -> RestrictedMean:
    """Return the mean number of ticks before injury, up to `horizon`, with its standard error.

    It is the area under the curve between its start and the horizon. A curve that starts late
    counts from the tick before its start.

    Source: Irwin (1949), J Hyg 47, 188-189; Karrison (1997), Control Clin Trials 18, 151-167; the
    error is the Greenwood-type sum of A(t)² d / (n (n − d)).
    """
    if curve.start is None:
        return RestrictedMean(None, why=curve.why, horizon=horizon)
    begin = curve.start - 1
    known = [(p.tick, p.survival, p) for p in curve.points if p.survival is not None]
    last, final, _ = known[-1]
    if horizon <= begin:
        why = f"the curve starts at {curve.start}, after the horizon of {horizon}"
        return RestrictedMean(None, why=why, horizon=horizon, start=curve.start)
    if horizon > last and final > 0:
        why = f"nobody is at risk after {last}, so nothing is known up to {horizon}"
        return RestrictedMean(None, why=why, horizon=horizon, start=curve.start)
    steps = [(begin, 1.0), *((tick, s) for tick, s, _ in known if tick < horizon)]
    ends = [tick for tick, _ in steps[1:]] + [horizon]
    pieces = [s * (end - tick) for (tick, s), end in zip(steps, ends, strict=True)]
    area = rest = math.fsum(pieces)
    variance = 0.0
    for piece, (_, _, point) in zip(pieces, known, strict=False):
        rest -= piece  # the area from this point's tick to the horizon
        remaining = point.at_risk - point.injuries
        if remaining and point.injuries and point.tick < horizon:
            variance += rest**2 * point.injuries / (point.at_risk * remaining)
    error = math.sqrt(variance)
    return RestrictedMean(
        area, level=curve.level, horizon=horizon, start=curve.start, std_error=error
    )


def _check(counts: Sequence[TickCount]) -> None:
    for before, after in pairwise(counts):
        if after.tick <= before.tick:
            raise ValueError(f"ticks must rise: {after.tick} follows {before.tick}")
    for count in counts:
        if count.at_risk <= 0 or not 0 <= count.injuries <= count.at_risk:
            seen = f"{count.injuries} injuries, {count.at_risk} at risk"
            raise ValueError(f"tick {count.tick}: {seen}")


def never_enough(rows: Sequence[object], min_at_risk: int) -> str:
    """Return why a curve of these ticks has no start."""
    return f"never {min_at_risk} at risk at once" if rows else "nobody was at risk"
