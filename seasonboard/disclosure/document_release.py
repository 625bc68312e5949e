"""What a document for outsiders may show: declare its counts, get them masked, and a verdict.

A worked example. Two departments, the injuries and exposures of each, a rate, and the total:

>>> release = DocumentRelease(Policy())
>>> injuries = [release.count(f"injuries, {d}", n) for d, n in (("A", 3), ("B", 25), ("C", 19))]
>>> release.adds_up(release.count("injuries", 47), injuries)
>>> exposures = release.count("exposures, B", 4000)
>>> release.figure(figures.ShownRate("rate, B", "injuries, B", exposures, digits=1))
'rate, B'
>>> verdict = release.verdict()
>>> verdict.is_refused, [verdict.may_show(name) for name in injuries]
(False, [False, True, False])
>>> verdict.may_show("injuries", "rate, B"), verdict.mark("injuries, A")
(True, 'hidden')

Every count that a reader sees is declared, also those in sentences and charts: the same count by
the same name. `verdict.check()` raises with all reasons where the document may not go out, and
`verdict.ledger_entry(...)` is what to write into the ledger once it did.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from datetime import date

from seasonboard.disclosure import published_figures as figures
from seasonboard.disclosure.cell_suppression import cells_to_suppress, suppress
from seasonboard.disclosure.count_definition import CountDefinition
from seasonboard.disclosure.ledger import LedgerEntry
from seasonboard.disclosure.release import Equation, Policy, Release, adds_up
from seasonboard.disclosure.verdict import DisclosureVerdict, verdict_on, with_earlier, with_marks


@dataclass(slots=True)
class DocumentRelease:
    """What a document would like to show; `verdict` says what of it may be shown.

    Each method returns the name under which `DisclosureVerdict.may_show` knows it. Names are for
    their maker (a refusal is told in them), unique within the document.
    """

    policy: Policy = Policy()  # noqa: RUF009 - frozen
    _cells: dict[str, int] = field(default_factory=dict)
    _definitions: dict[str, CountDefinition] = field(default_factory=dict)
    _equations: list[Equation] = field(default_factory=list)
    _items: dict[str, figures.PublishedItem] = field(default_factory=dict)

    def count(self, name: str, value: int, definition: CountDefinition | None = None) -> str:
        """Declare a count under its name; `definition` compares it with other handouts.

        Raises:
            ValueError: The name is taken by another value, or the count is negative.
        """
        if self._cells.get(name, value) != value or value < 0:
            raise ValueError(f"{name} is {self._cells.get(name)} already, or negative: {value}")
        self._cells[name] = value
        if definition is not None:
            self._definitions[name] = definition
        return self._item(name, figures.ShownCount(name))

    def unpublished(self, name: str, value: int) -> str:
        """Declare a count that is not shown, but could be worked out: a rest, an excluded group."""
        self._cells.setdefault(name, value)
        return name

    def value(self, name: str) -> int:
        """Return the true value of a declared count."""
        return self._cells[name]

    def adds_up(self, total: str, parts: Sequence[str]) -> None:
        """Say that counts add up to another. One part alone says that both are the same."""
        self._equations.append(adds_up(total, tuple(parts)))

    def within(self, whole: str, parts: Sequence[str]) -> str:
        """Say that counts lie within another beside others, and return the name of the rest."""
        left = self._cells[whole] - sum(self._cells[part] for part in parts)
        rest = self.unpublished(f"{whole} without {', '.join(parts)}", left)
        self.adds_up(whole, [*parts, rest])
        return rest

    def figure(self, item: figures.ComputedItem | figures.DerivedFigure) -> str:
        """Declare what is worked out from counts: a rate, its interval, a ratio, a chart."""
        return self._item(item.name, item)

    def share(self, name: str, part: str, whole: str) -> str:
        """Declare a share in whole percent; those who are not in it are a count as well."""
        self.within(whole, [part])
        return self.figure(figures.ShownRate(name, part, whole, 100, 0))

    def bounded(self, name: str, count: str, low: int, high: int | None = None) -> str:
        """Declare something that tells no more of a count than a range it lies in, ends included.

        Raises:
            ValueError: The count does not lie in it.
        """
        if not low <= self._cells[count] <= (self._cells[count] if high is None else high):
            raise ValueError(f"{count} is {self._cells[count]}, not {low} to {high}")
        return self._item(name, figures.CountRange(count, low, high))

    def _item(self, name: str, item: figures.PublishedItem) -> str:
        if self._items.setdefault(name, item) != item:
            raise ValueError(f"{name} is declared already, as something else")
        return name

    def release(self) -> Release:
        """Return everything that is declared, with all of it shown."""
        return Release(
            dict(self._cells), tuple(self._equations), tuple(dict.fromkeys(self._items.values()))
        )

    def verdict(
        self,
        earlier: Sequence[LedgerEntry] = (),
        through: date | None = None,
        *,
        leave_out: Collection[str] = (),
    ) -> DisclosureVerdict:
        """Return what may be shown, and whether the document may go out beside `earlier` handouts.

        `through` is the last day known to it, needed to compare; the counts `leave_out` are hidden
        in any case, as a refusal may advise.
        """
        release = with_earlier(self.release(), self._definitions, earlier, through)
        hidden = cells_to_suppress(release, self.policy, also=leave_out)
        return verdict_on(
            with_marks(suppress(release, hidden), self.policy),
            self.policy,
            earlier,
            through,
            definitions=self._definitions,
            items=dict(self._items),
        )


def neutral_labels(sizes: Sequence[tuple[str, int]]) -> dict[str, str]:
    """Return a neutral label for each name: “department A” is the largest, and so on.

    Labels stay the same within a document made of the same sizes. Equal sizes stand in an order
    that does not follow the names.
    """
    import hashlib

    def key(entry: tuple[str, int]) -> tuple[int, str]:
        return -entry[1], hashlib.sha256(f"None|{entry[0]}".encode()).hexdigest()

    ordered = sorted(sizes, key=key)
    return {name: f"department {_letters(place)}" for place, (name, _) in enumerate(ordered)}


def _letters(place: int) -> str:
    first, last = divmod(place, 26)
    return (_letters(first - 1) if first else "") + chr(ord("A") + last)
