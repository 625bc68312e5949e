"""What may be published of counts: themselves, marks, and values that are worked out from them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from seasonboard.stats.proportions import wilson
from seasonboard.stats.rates import PER, poisson_limits

Values = Mapping[str, int]
IntervalMethod = Literal["garwood", "wilson"]


@dataclass(frozen=True, slots=True)
class _OneCount:
    """What is published of one count."""

    cell: str

    @property
    def cells(self) -> tuple[str, ...]:
        """Return the one cell."""
        return (self.cell,)


@dataclass(frozen=True, slots=True)
class ShownCount(_OneCount):
    """The count itself."""


@dataclass(frozen=True, slots=True)
class HiddenCount(_OneCount):
    """The mark “hidden”, which stands for small counts and for those that protect them."""


@dataclass(frozen=True, slots=True)
class CountRange(_OneCount):
    """A range the count lies in, ends included: “more than 30”, “fewer than 11”, “about 20”."""

    low: int = 0
    high: int | None = None
    is_mark: bool = False
    """It is the mark “fewer than …”, which may stand for a small count."""
    out_in: str = ""
    """The earlier document in which it stands; there it cannot be hidden any more."""


@dataclass(frozen=True, slots=True)
class ShownRate:
    """One count over another, times `per`, to `digits` decimals: a rate, a share, an average."""

    name: str
    numerator: str
    denominator: str
    per: int = PER
    digits: int = 1

    @property
    def cells(self) -> tuple[str, ...]:
        """Return the cells it is worked out from."""
        return (self.numerator, self.denominator)

    def text(self, values: Values) -> str | None:
        """Return what a reader sees; None where there is no rate."""
        below = values[self.denominator]
        return f"{values[self.numerator] * self.per / below:.{self.digits}f}" if below else None


@dataclass(frozen=True, slots=True)
class ShownInterval:
    """The confidence interval of a rate (Garwood) or share (Wilson), times `per`, as shown."""

    name: str
    count: str
    denominator: str
    method: IntervalMethod = "garwood"
    per: int = PER
    digits: int = 1
    level: float = 0.95

    @property
    def cells(self) -> tuple[str, ...]:
        """Return the cells they are worked out from."""
        return (self.count, self.denominator)

    def text(self, values: Values) -> str | None:
        """Return what a reader sees; None where there are none."""
        count, below = values[self.count], values[self.denominator]
        if not below or (self.method != "garwood" and count > below):
            return None
        if self.method == "garwood":
            low, high = (limit / below for limit in poisson_limits(count, level=self.level))
        else:
            share = wilson(count, below, level=self.level)
            low, high = share.low or 0.0, 1.0 if share.high is None else share.high
        return f"{low * self.per:.{self.digits}f} to {high * self.per:.{self.digits}f}"


@dataclass(frozen=True, slots=True)
class ShownRatio:
    """A ratio of two rates, `count / exposures` over `other / other_exposures`, as shown."""

    name: str
    count: str
    exposures: str
    other: str
    other_exposures: str
    digits: int = 2

    @property
    def cells(self) -> tuple[str, ...]:
        """Return the cells it is worked out from."""
        return (self.count, self.exposures, self.other, self.other_exposures)

    def text(self, values: Values) -> str | None:
        """Return what a reader sees; None where there is no ratio."""
        below = values[self.exposures] * values[self.other]
        above = values[self.count] * values[self.other_exposures]
        return f"{above / below:.{self.digits}f}" if below else None


@dataclass(frozen=True, slots=True)
class DerivedFigure:
    """Anything else that is worked out from counts: a model's ratio, a chart, a p-value.

    How much it tells is not known here, so it is taken to give all its counts away.
    """

    name: str
    cells: tuple[str, ...]


ComputedItem = ShownRate | ShownInterval | ShownRatio
"""Items whose text is a monotone function of each of their cells."""

PublishedItem = ShownCount | HiddenCount | CountRange | ComputedItem | DerivedFigure


def words_of(item: PublishedItem, values: Values) -> str:
    """Return an item in words."""
    if isinstance(item, ComputedItem):
        return f"{item.name} ({item.text(values)})"
    if isinstance(item, DerivedFigure):
        return f"{item.name} (worked out from it)"
    if isinstance(item, CountRange):
        where = f", in {item.out_in}" if item.out_in else ""
        span = f"{item.low} or more" if item.high is None else f"{item.low} to {item.high}"
        return f"{item.cell} ({item.low if item.low == item.high else span}{where})"
    if isinstance(item, HiddenCount):
        return f"{item.cell} (hidden{'' if values[item.cell] else ', though 0'})"
    return f"{item.cell} ({values[item.cell]})"


def consistent_counts(item: ComputedItem, cell: str, values: Values) -> tuple[int, int | None]:
    """Return the counts that `cell` may be if a reader knows the other cells of an item.

    The counts that give the very text that is shown: no other rounding is assumed. None stands
    for no upper end. The text is monotone in each cell, so that the counts have no gap.
    """
    changed = dict(values)
    shown = item.text(values)

    def same(value: int) -> bool:
        changed[cell] = value
        return item.text(changed) == shown

    true = values[cell]
    low = true - _reach(lambda step: step <= true and same(true - step), true)
    up = _reach(lambda step: same(true + step), _FAR)
    return low, None if up >= _FAR else true + up


_FAR = 1 << 40


def _reach(holds: Callable[[int], bool], most: int) -> int:
    """Return the largest step, up to `most`, to which `holds` is true; it is true at 0."""
    step = 1
    while step <= most and holds(step):
        step *= 2
    good, bad = step // 2, min(step, most + 1)
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if holds(middle) else (good, middle)
    return good
