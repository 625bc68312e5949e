"""What a document for outsiders may show: declare its counts, get them masked, and a verdict.

A worked example. Two departments, the injuries and exposures of each, a rate, and the totals:

>>> paper = Paper(Policy())
>>> told = {"A": (3, 500), "B": (25, 4000), "C": (19, 2500)}
>>> table = paper.table("injuries", list(told), ["all"], [[told[d][0]] for d in told], down=True)
>>> for row, department in enumerate(told):
...     exposures = paper.count(f"exposures, {department}", told[department][1])
...     paper.rate(f"rate, {department}", table.cells[row][0], exposures, digits=1)
'rate, A'
'rate, B'
'rate, C'
>>> answer = paper.settle()
>>> answer.is_refused, sorted(answer.hidden)
(False, ['injuries: A, all', 'injuries: C, all'])
>>> [answer.show(table.cells[row][0]) for row in range(3)], answer.show(table.column_totals[0])
(['hidden', '25', 'hidden'], '47')
>>> answer.show("rate, A"), answer.show("rate, B", "6.3 (4.0 to 9.2)")
('hidden', '6.3 (4.0 to 9.2)')

Every count that a reader sees is declared, also those in sentences and charts: the same count by
the same name. `answer.check()` raises with all reasons where the document may not go out, and
`answer.handout(...)` is what to write into the ledger once it did.
"""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field
from datetime import date

from seasonboard.disclosure.count_definition import Counted
from seasonboard.disclosure.earlier_handouts import Handout
from seasonboard.disclosure.statements import (
    PER,
    Between,
    Derived,
    Equation,
    Item,
    Limits,
    Method,
    Policy,
    Rate,
    Ratio,
    Release,
    Rounded,
    Shown,
    adds_up,
    hide,
    masked,
)
from seasonboard.disclosure.verdict import (
    HIDDEN,
    RefusedError,
    Told,
    check,
    with_earlier,
    with_marks,
)

__all__ = ["HIDDEN", "DocumentRelease", "Grid", "Policy", "RefusedError", "Told", "check", "labels"]


@dataclass(frozen=True, slots=True)
class Grid:
    """The names of a table's counts, as they stand in it."""

    cells: tuple[tuple[str, ...], ...]
    row_totals: tuple[str, ...] = ()
    column_totals: tuple[str, ...] = ()
    total: str = ""


@dataclass(slots=True)
class DocumentRelease:
    """What a document would like to show; `settle` says what of it may be shown.

    Each method returns the name under which `Told.show` gives the text. Names are for their maker
    (a refusal is told in them), unique within the document.
    """

    policy: Policy = Policy()  # noqa: RUF009 - frozen
    _cells: dict[str, int] = field(default_factory=dict)
    _counted: dict[str, Counted] = field(default_factory=dict)
    _equations: list[Equation] = field(default_factory=list)
    _items: dict[str, Item] = field(default_factory=dict)

    def count(self, name: str, value: int, counted: Counted | None = None) -> str:
        """Declare a count: injuries, exposures, athletes, guards.

        Args:
            name: Its name; the same name again is the same count.
            value: The true count.
            counted: What it counts, so that later handouts can be compared with this one.

        Raises:
            ValueError: The name is taken by another value, or the count is negative.
        """
        if self._cells.get(name, value) != value or value < 0:
            raise ValueError(f"{name} is {self._cells.get(name)} already, or negative: {value}")
        self._cells[name] = value
        if counted is not None:
            self._counted[name] = counted
        return self._item(name, Shown(name))

    def known(self, name: str, value: int) -> str:
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
        rest = self.known(f"{whole} without {', '.join(parts)}", left)
        self.adds_up(whole, [*parts, rest])
        return rest

    def table(  # noqa: PLR0913 - the parts of a table, by name
        self,
        title: str,
        rows: Sequence[str],
        columns: Sequence[str],
        counts: Sequence[Sequence[int]],
        *,
        across: bool = False,
        down: bool = False,
        counted: Callable[[int | None, int | None], Counted | None] = lambda _row, _column: None,
    ) -> Grid:
        """Declare a table of counts.

        Args:
            title: What is counted.
            rows: A word for each row.
            columns: A word for each column.
            counts: The counts, row by row.
            across: Each row has a total.
            down: Each column has a total.
            counted: What a cell counts, by number of row and column; None is a total.
        """

        def name(row: int | None, column: int | None) -> str:
            lines = range(len(rows)) if row is None else [row]
            across = range(len(columns)) if column is None else [column]
            words = [
                "total" if number is None else words[number]
                for number, words in ((row, rows), (column, columns))
            ]
            value = sum(counts[line][place] for line in lines for place in across)
            return self.count(f"{title}: {', '.join(words)}", value, counted(row, column))

        cells = tuple(
            tuple(name(row, column) for column in range(len(columns))) for row in range(len(rows))
        )
        ends = tuple(name(row, None) for row in range(len(rows))) if across else ()
        feet = tuple(name(None, column) for column in range(len(columns))) if down else ()
        total = name(None, None) if across and down else ""
        for line, end in zip(cells, ends, strict=False):
            self.adds_up(end, line)
        for column, foot in enumerate(feet):
            self.adds_up(foot, [line[column] for line in cells])
        if total:
            self.adds_up(total, ends)
            self.adds_up(total, feet)
        return Grid(cells, ends, feet, total)

    def rate(
        self, name: str, count: str, denominator: str, *, per: int = PER, digits: int = 1
    ) -> str:
        """Declare a count per so many of another; an average is `per=1`."""
        return self._item(name, Rate(name, count, denominator, per, digits))

    def share(self, name: str, part: str, whole: str, *, per: int = 100, digits: int = 0) -> str:
        """Declare a share of a whole; those who are not in it are a count as well."""
        self.within(whole, [part])
        return self._item(name, Rate(name, part, whole, per, digits))

    def limits(  # noqa: PLR0913 - by name
        self,
        name: str,
        count: str,
        denominator: str,
        *,
        method: Method = "garwood",
        per: int = PER,
        digits: int = 1,
        level: float = 0.95,
    ) -> str:
        """Declare the limits of a rate or share, both."""
        return self._item(name, Limits(name, count, denominator, method, per, digits, level))

    def ratio(  # noqa: PLR0913 - by name
        self,
        name: str,
        *,
        count: str,
        exposures: str,
        other: str,
        other_exposures: str,
        digits: int = 2,
    ) -> str:
        """Declare the crude ratio of two rates."""
        return self._item(name, Ratio(name, count, exposures, other, other_exposures, digits))

    def rounded(self, name: str, count: str, base: int) -> str:
        """Declare a number in words, “about 40”: a count rounded to a multiple of `base`."""
        return self._item(name, Rounded(count, base))

    def bounded(self, name: str, count: str, low: int, high: int | None = None) -> str:
        """Declare something that tells no more of a count than a range it lies in, ends included.

        Raises:
            ValueError: The count does not lie in it.
        """
        if not low <= self._cells[count] <= (self._cells[count] if high is None else high):
            raise ValueError(f"{count} is {self._cells[count]}, not {low} to {high}")
        return self._item(name, Between(count, low, high))

    def derived(self, name: str, *counts: str) -> str:
        """Declare anything else that is worked out from counts: a ratio by strata, a chart."""
        return self._item(name, Derived(name, counts))

    def _item(self, name: str, item: Item) -> str:
        if self._items.setdefault(name, item) != item:
            raise ValueError(f"{name} is declared already, as something else")
        return name

    def release(self) -> Release:
        """Return everything that is declared, with all of it shown."""
        return Release(
            dict(self._cells), tuple(self._equations), tuple(dict.fromkeys(self._items.values()))
        )

    def settle(
        self,
        earlier: Sequence[Handout] = (),
        through: date | None = None,
        *,
        leave_out: Collection[str] = (),
    ) -> Told:
        """Return what may be shown, and whether the document may go out.

        Args:
            earlier: Handouts of the same store (`Ledger.read().handouts`).
            through: The last day known to this document; needed to compare with earlier ones.
            leave_out: Counts to hide in any case, as a refusal may advise.
        """
        known = with_earlier(self.release(), self._counted, earlier, through)
        hidden = hide(known, self.policy, also=leave_out)
        return check(
            with_marks(masked(known, hidden), self.policy),
            self.policy,
            earlier,
            through,
            counted=self._counted,
            items=dict(self._items),
        )


def labels(sizes: Sequence[tuple[str, int]], seed: int | None = None) -> dict[str, str]:
    """Return a neutral label for each name: “department A” is the largest, and so on.

    Labels stay the same within a document made of the same sizes. Equal sizes, and all of them
    with a `seed`, stand in an order that does not follow the names.
    """
    import hashlib

    def key(entry: tuple[str, int]) -> tuple[int, str]:
        mark = hashlib.sha256(f"{seed}|{entry[0]}".encode()).hexdigest()
        return (-entry[1] if seed is None else 0), mark

    ordered = sorted(sizes, key=key)
    return {name: f"department {_letters(place)}" for place, (name, _) in enumerate(ordered)}


def _letters(place: int) -> str:
    """Return A to Z, then AA, AB and so on."""
    first, last = divmod(place, 26)
    return (_letters(first - 1) if first else "") + chr(ord("A") + last)
