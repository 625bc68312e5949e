"""Severity of injuries described: days lost, their bins and their median, for every reader."""

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import estimate
from seasonboard.answers.fields import Element, Field, Kind, Table, of, why
from seasonboard.stats.days_lost import Severity

_BINS = Table(
    "bins",
    of("bins"),
    (
        Field("name", "so many days lost, in words"),
        Field("low", "from so many days", Kind.COUNT),
        Field("high", "to so many days; null: without end", Kind.COUNT, optional=True),
        Field("returned", "injuries that have ended", Kind.COUNT),
        Field("still_open", "injuries that go on", Kind.COUNT),
    ),
    "injuries by the days they cost",
)

SEVERITY: tuple[Element, ...] = (
    Field("injuries", "injuries", Kind.COUNT),
    Field("still_open", "of them without a return", Kind.COUNT),
    _BINS,
    Field("days", "days lost, at least so many where some are open", Kind.COUNT),
    Field("mean", "days lost by an injury", Kind.TENTHS),
    estimate(
        *("median", of("median"), "days lost by which that share had returned"),
        kind=Kind.COUNT,
        more=(Field("share", "the share that has returned by then", Kind.SHARE),),
    ),
    Field("share_over", "share still out after 28 days", Kind.SHARE, get=of("share_over.value")),
    Field("share_over_low", "lower limit of its confidence interval", get=of("share_over.low")),
    Field("share_over_high", "upper limit of its confidence interval", get=of("share_over.high")),
    why(of("share_over.why")),
    Field(
        "is_lower_bound",
        "whether some injuries are open",
        Kind.FLAG,
        get=lambda severity: severity.still_open > 0,
    ),
)


def severity_words(severity: Severity) -> str:
    """Return the days that injuries cost, and their bins, in two sentences."""
    least = "at least " if severity.still_open else ""
    bins = ", ".join(
        f"{b.returned + b.still_open} of {b.name}"
        + (f" ({b.still_open} open)" if b.still_open else "")
        for b in severity.bins
    )
    median = severity.median.value
    return (
        f"Days lost: {least}{words.whole(severity.days)} by "
        f"{words.plural(severity.injuries, 'injury', 'injuries')}, {severity.still_open} open; "
        f"median {'not reached' if median is None else f'{median} days'}. By length: {bins}."
    )
