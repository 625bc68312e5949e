"""Strata as rows, compared."""

from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel

Row = tuple[int, int, int, int]
"""Guarded injuries, unguarded injuries, guarded exposures, unguarded exposures."""


def over(
    rows: list[Row], *, standing_for: list[int] | None = None, level: float = 0.95
) -> RateRatio:
    a, b, t1, t0 = zip(*rows, strict=True) if rows else ((), (), (), ())
    return mantel_haenszel(Strata(a, b, t1, t0, standing_for), level=level)
