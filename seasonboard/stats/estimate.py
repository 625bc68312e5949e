"""An estimate: a figure with its confidence interval, or why it is not known."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Estimate:
    """A figure estimated from counts, with the limits of its confidence interval.

    What else belongs to one kind of estimate (injuries, trials) stands in a subclass of it.

    Attributes:
        value: The figure, in the unit of what it estimates; None where it is not known.
        low: Lower limit of its confidence interval; None where the data set none.
        high: Upper limit, likewise.
        level: Two-sided confidence level of the interval.
        method: How the interval was made: `garwood`, `wilson`; empty: it has none.
        why: Why the value or a limit is None.

    Raises:
        ValueError: The value is None and nothing says why.
    """

    value: float | None
    low: float | None = None
    high: float | None = None
    level: float = 0.95
    method: str = ""
    why: str = ""

    def __post_init__(self) -> None:
        """Refuse a figure that is not known without a reason."""
        if self.value is None and not self.why:
            raise ValueError("an estimate that is not known says why")

    @property
    def has_interval(self) -> bool:
        """Say whether both limits are known."""
        return self.low is not None and self.high is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantile(Estimate):
    """The time by which a share of those followed had come to the end that is looked at.

    Attributes:
        share: The share, between 0 and 1: 0.5 for the median.
    """

    share: float
