"""Differencing: small counts that a new handout gives away beside those that are out already."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from seasonboard.disclosure.count_definition import CountDefinition, narrowed_in
from seasonboard.disclosure.ledger import LedgerEntry
from seasonboard.disclosure.release import THRESHOLD


@dataclass(frozen=True, slots=True)
class SmallDifference:
    """A small count that two handouts, or two counts of one, give when one is taken from another.

    `rest` is what it is, in words; `taken` are the counts, each with where it stands. A change is
    the same count at two times; else it is a whole without its parts.
    """

    rest: str
    value: int
    taken: tuple[str, ...]
    is_change: bool
    threshold: int = THRESHOLD

    def sentence(self) -> str:
        """Return what is given away, through what, and what to do."""
        what = (
            "Wait until it changed by more, or leave it out."
            if self.is_change
            else "Leave one of them out, or pool the rest with another group."
        )
        at_most = "" if self.is_change else "at most "
        return (
            f"{self.rest} is {at_most}{self.value}, below {self.threshold}: "
            f"{' less '.join(self.taken)}. {what}"
        )


def small_differences(
    earlier: Sequence[LedgerEntry], now: LedgerEntry, threshold: int = THRESHOLD
) -> tuple[SmallDifference, ...]:
    """Return the small counts that `now` gives away together with what is out already.

    The same count at two times (more was recorded, or corrected), and a whole without parts that
    lie within it and do not overlap: all departments without all but one, all seasons without
    this one, or a whole without one part. A part of an earlier day may have grown since, so that
    the rest is “at most”; a part of a later day than the whole says nothing of the rest then.
    """
    new = _newest([now])
    differences = [one for entry in earlier for one in _changes(entry, now, threshold)]
    for entries in [[], *([entry] for entry in earlier), list(earlier)]:
        differences += _rests({**_newest(entries), **new}, set(new), threshold)
    by_words: dict[tuple[str, int], SmallDifference] = {}
    for difference in differences:
        by_words.setdefault((difference.rest, difference.value), difference)
    return tuple(by_words.values())


@dataclass(frozen=True, slots=True)
class _OutCount:
    """A published value and the handout that holds it; the new one is “this document”."""

    definition: CountDefinition
    value: int
    entry: LedgerEntry

    def words(self, now: LedgerEntry | None = None) -> str:
        where = "this document" if self.entry is now else self.entry.words()
        return f"{self.definition.words()}, {self.value} in {where}"


def _newest(entries: Iterable[LedgerEntry]) -> dict[CountDefinition, _OutCount]:
    ordered = sorted(entries, key=lambda entry: (entry.through, entry.made_at))
    return {
        cell.definition: _OutCount(cell.definition, cell.value, entry)
        for entry in ordered
        for cell in entry.cells
    }


def _changes(then: LedgerEntry, now: LedgerEntry, threshold: int) -> Iterator[SmallDifference]:
    before = _newest([then])
    for cell in now.cells:
        old = before.get(cell.definition)
        if old is not None and 0 < abs(cell.value - old.value) < threshold:
            yield SmallDifference(
                f"The change of {cell.definition.words()}",
                abs(cell.value - old.value),
                (f"{cell.value} in this document", f"{old.value} in the {then.words()}"),
                is_change=True,
                threshold=threshold,
            )


def _rests(
    counts: Mapping[CountDefinition, _OutCount], new: set[CountDefinition], threshold: int
) -> Iterator[SmallDifference]:
    """Return the small rests of wholes; every one uses a count of the new document."""
    for whole in counts.values():
        for parts in _sets_of_parts(counts, whole):
            used = {whole.definition, *(part.definition for part in parts)}
            rest = whole.value - sum(part.value for part in parts)
            if 0 < rest < threshold and used & new:
                now = next(counts[definition].entry for definition in used & new)
                names = ", ".join(part.definition.words() for part in parts)
                yield SmallDifference(
                    f"{whole.definition.words()} without {names}",
                    rest,
                    tuple(count.words(now) for count in (whole, *parts)),
                    is_change=False,
                    threshold=threshold,
                )


def _sets_of_parts(
    counts: Mapping[CountDefinition, _OutCount], whole: _OutCount
) -> Iterator[tuple[_OutCount, ...]]:
    """Return each part of a whole, and for each part of the scope all that do not overlap."""
    by_name: dict[str, list[_OutCount]] = {}
    for count in counts.values():
        names = narrowed_in(count.definition, whole.definition)
        if names and count.entry.through <= whole.entry.through:
            yield (count,)
            if len(names) == 1:
                by_name.setdefault(names[0], []).append(count)
    for name, parts in by_name.items():
        apart: list[_OutCount] = []
        covered: frozenset[str] = frozenset()
        for part in sorted(parts, key=lambda part: len(part.definition.widths()[name])):
            values = part.definition.widths()[name]
            if not values & covered:
                apart.append(part)
                covered |= values
        if len(apart) > 1:
            yield tuple(apart)
