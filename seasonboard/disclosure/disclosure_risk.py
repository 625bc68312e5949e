"""Small counts that a reader could work out, and through which published numbers."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from seasonboard.disclosure.feasible_ranges import Attacker
from seasonboard.disclosure.published_figures import (
    CountRange,
    HiddenCount,
    PublishedItem,
    words_of,
)
from seasonboard.disclosure.release import Policy, Release

_MANY, _EARLY, _MOST_NAMED = 60, 3, 8


@dataclass(frozen=True, slots=True)
class Disclosure:
    """A small count that a document gives away. For the maker's eyes: it names the count's range.

    `low` and `high` (None: no highest) are the values that fit what is published; `through` are
    published numbers that suffice for it, in words. None of them can be spared, but where there
    are very many. `threshold` is the smallest count that may be shown.
    """

    cell: str
    low: int
    high: int | None
    through: tuple[str, ...]
    threshold: int

    def sentence(self) -> str:
        """Return which count, what can be worked out of it, from what, and what to do."""
        span = f"{self.low}" if self.low == self.high else f"{self.low} to {self.high}"
        by = " and ".join(self.through[:_MOST_NAMED]) or "the sums alone"
        if len(self.through) > _MOST_NAMED:
            by += f" and {len(self.through) - _MOST_NAMED} more"
        return (
            f"{self.cell}: a reader can work out that it is {span}, below {self.threshold}, from "
            f"{by}. Hide one of these, pool it with another group, or leave it out."
        )


def disclosures(release: Release, policy: Policy = Policy()) -> tuple[Disclosure, ...]:  # noqa: B008 - frozen
    """Return every small count that the published items give away; empty where all is well.

    A count of 1 to threshold − 1 is safe when the threshold itself fits all that is published, so
    that nobody can tell it from a count that may be shown; it then has two values at least. Since
    counts are not negative, hidden counts in a published sum then cannot add up to 1 to 10
    either, and each line holds two or none. A reader who knows that no zero is hidden may only
    come to know that it is small, 1 to 10 all being possible; no more than “fewer than 11” says.

    Source: CMS cell size suppression policy (2020) for what may be shown; Hundepool et al. (2012),
    Statistical Disclosure Control, chapter 4, for what a reader can work out.
    """
    attack = _Attack(release, release.items, policy)
    disclosed: list[Disclosure] = []
    for cell in _small(release, policy):
        if attack.discloses(cell):
            low, high = attack.knowing.range_of(cell)
            enough = _enough(release, cell, policy, is_early=len(disclosed) < _EARLY)
            through = tuple(words_of(item, release.cells) for item in enough)
            disclosed.append(Disclosure(cell, low, high, through, policy.threshold))
    return tuple(disclosed)


def disclosed_cells(release: Release, policy: Policy) -> tuple[str, ...]:
    """Return the cells of `disclosures` without looking for what gives them away."""
    attack = _Attack(release, release.items, policy)
    return tuple(cell for cell in _small(release, policy) if attack.discloses(cell))


def _small(release: Release, policy: Policy) -> list[str]:
    return [cell for cell, value in release.cells.items() if policy.is_small(value)]


class _Attack:
    """What some items tell of small counts, to a reader who knows how marks are used or not."""

    def __init__(self, release: Release, items: Sequence[PublishedItem], policy: Policy) -> None:
        self._release, self._items, self._policy = release, items, policy
        self.knowing = Attacker(release, items, least_hidden=policy.least_hidden)
        self._marked = {
            item.cell
            for item in items
            if isinstance(item, CountRange)
            and item.is_mark
            and (item.low, item.high) == (policy.least_hidden, policy.threshold - 1)
        }

    @cached_property
    def unknowing(self) -> Attacker:
        """Return the reader who takes it that a zero may be hidden."""
        return Attacker(self._release, self._items)

    def discloses(self, cell: str) -> bool:
        """Say whether a small count is given away."""
        threshold, least = self._policy.threshold, self._policy.least_hidden
        if self.knowing.reaches(cell, threshold):
            return False
        says_small = self.knowing.range_of(cell) == (least, threshold - 1)
        if cell in self._marked:
            return not says_small
        return not (says_small and self.unknowing.reaches(cell, threshold))


def _enough(
    release: Release, cell: str, policy: Policy, *, is_early: bool
) -> tuple[PublishedItem, ...]:
    """Return published items that suffice to give a cell away, none of which can be spared.

    Looked for among the cells of its own sums first, then further away. Where it takes many, only
    the early ones are looked at closely: each further one costs seconds, and goes when they do.
    """
    links = [set(linked.cells) for linked in (*release.equations, *release.items)]
    for reached in rings(cell, links):
        near = Release(
            {name: value for name, value in release.cells.items() if name in reached},
            tuple(sums for sums in release.equations if reached.issuperset(sums.cells)),
            tuple(item for item in release.items if reached.issuperset(item.cells)),
        )
        if _Attack(near, near.items, policy).discloses(cell):
            break
    kept = list(near.items)
    if len(kept) > _MANY and not is_early:
        return tuple(kept)
    size = max(1, len(kept) // 2)
    while True:
        start = 0
        while start < len(kept):
            fewer = kept[:start] + kept[start + size :]
            if _Attack(near, fewer, policy).discloses(cell):
                kept = fewer
            else:
                start += size
        if size == 1:
            return tuple(item for item in kept if not isinstance(item, HiddenCount)) or tuple(kept)
        size //= 2


def rings(cell: str, links: Sequence[Collection[str]]) -> Iterator[set[str]]:
    """Give a cell alone, then with those linked to it, and so on to all that hang together."""
    reached = {cell}
    while True:
        yield reached
        wider = reached.union(*(link for link in links if not reached.isdisjoint(link)))
        if wider == reached:
            return
        reached = wider
