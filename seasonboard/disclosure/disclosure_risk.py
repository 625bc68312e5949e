"""Small counts that a reader could work out, and through which published numbers."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from seasonboard.disclosure.feasible_ranges import Reader
from seasonboard.disclosure.published_figures import Between, Hidden, Item
from seasonboard.disclosure.release import Policy, Release

_MANY, _EARLY, _TOLD = 60, 3, 8


@dataclass(frozen=True, slots=True)
class Leak:
    """A small count that a document gives away. For the maker's eyes: it names the count's range.

    Attributes:
        cell: Which count.
        low: The lowest value that fits what is published.
        high: The highest; None: no highest.
        through: Published numbers that suffice for it, in words; none of them can be spared,
            but where there are very many.
        threshold: The smallest count that may be shown.
    """

    cell: str
    low: int
    high: int | None
    through: tuple[str, ...]
    threshold: int

    def sentence(self) -> str:
        """Return which count, what can be worked out of it, from what, and what to do."""
        found = f"{self.low}" if self.low == self.high else f"{self.low} to {self.high}"
        by = " and ".join(self.through[:_TOLD]) or "the sums alone"
        if len(self.through) > _TOLD:
            by += f" and {len(self.through) - _TOLD} more"
        return (
            f"{self.cell}: a reader can work out that it is {found}, below {self.threshold}, from "
            f"{by}. Hide one of these, pool it with another group, or leave it out."
        )


def leaks(release: Release, policy: Policy = Policy()) -> tuple[Leak, ...]:  # noqa: B008 - frozen
    """Return every small count that the published items give away; empty where all is well.

    A count of 1 to threshold − 1 is safe when the threshold itself fits all that is published, so
    that nobody can tell it from a count that may be shown; it then has two values at least. Since
    counts are not negative, hidden counts in a published sum then cannot add up to 1 to 10
    either, and each line holds two or none. A reader who knows that no zero is hidden may only
    come to know that it is small, 1 to 10 all being possible; no more than “fewer than 11” says.

    Source: CMS cell size suppression policy (2020) for what may be shown; Hundepool et al. (2012),
    Statistical Disclosure Control, chapter 4, for what a reader can work out.
    """
    look = _Look(release, release.items, policy)
    found: list[Leak] = []
    for cell in _small(release, policy):
        if look.tells(cell):
            low, high = look.knowing.range_of(cell)
            enough = _enough(release, cell, policy, is_early=len(found) < _EARLY)
            told = tuple(item.told(release.cells) for item in enough)
            found.append(Leak(cell, low, high, told, policy.threshold))
    return tuple(found)


def unsafe(release: Release, policy: Policy) -> tuple[str, ...]:
    """Return the cells of `leaks` without looking for what gives them away."""
    look = _Look(release, release.items, policy)
    return tuple(cell for cell in _small(release, policy) if look.tells(cell))


def _small(release: Release, policy: Policy) -> list[str]:
    return [cell for cell, value in release.cells.items() if policy.is_small(value)]


class _Look:
    """What some items tell of small counts, to a reader who knows how marks are used or not."""

    def __init__(self, release: Release, items: Sequence[Item], policy: Policy) -> None:
        self._release, self._items, self._policy = release, items, policy
        self.knowing = Reader(release, items, least_hidden=policy.least_hidden)
        self._marked = {
            item.cell
            for item in items
            if isinstance(item, Between)
            and item.is_mark
            and (item.low, item.high) == (policy.least_hidden, policy.threshold - 1)
        }

    @cached_property
    def plain(self) -> Reader:
        """Return the reader who takes it that a zero may be hidden."""
        return Reader(self._release, self._items)

    def tells(self, cell: str) -> bool:
        """Say whether a small count is given away."""
        threshold, least = self._policy.threshold, self._policy.least_hidden
        if self.knowing.reaches(cell, threshold):
            return False
        says_small = self.knowing.range_of(cell) == (least, threshold - 1)
        if cell in self._marked:
            return not says_small
        return not (says_small and self.plain.reaches(cell, threshold))


def _enough(release: Release, cell: str, policy: Policy, *, is_early: bool) -> tuple[Item, ...]:
    """Return published items that suffice to give a cell away, none of which can be spared.

    Looked for among the cells of its own sums first, then further away. Where it takes many, only
    the early leaks are looked at closely: each further one costs seconds, and goes when they do.
    """
    for near in _rings(release, cell):
        if _Look(near, near.items, policy).tells(cell):
            break
    kept = list(near.items)
    if len(kept) > _MANY and not is_early:
        return tuple(kept)
    size = max(1, len(kept) // 2)
    while True:
        start = 0
        while start < len(kept):
            fewer = kept[:start] + kept[start + size :]
            if _Look(near, fewer, policy).tells(cell):
                kept = fewer
            else:
                start += size
        if size == 1:
            return tuple(item for item in kept if not isinstance(item, Hidden)) or tuple(kept)
        size //= 2


def _rings(release: Release, cell: str) -> Iterator[Release]:
    """Return what there is of the cells near a cell, then also of those further away, to all."""
    reached: set[str] = {cell}
    links = [set(linked.cells) for linked in (*release.equations, *release.items)]
    while True:
        yield Release(
            {name: value for name, value in release.cells.items() if name in reached},
            tuple(sums for sums in release.equations if reached.issuperset(sums.cells)),
            tuple(item for item in release.items if reached.issuperset(item.cells)),
        )
        wider = reached.union(*(link for link in links if link & reached))
        if wider == reached:
            return
        reached = wider
