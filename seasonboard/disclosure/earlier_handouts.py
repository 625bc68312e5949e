"""Earlier handouts: what outsiders already have, and what a new one would add to it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from seasonboard.disclosure.count_definition import Counted, narrowed_in
from seasonboard.disclosure.statements import THRESHOLD


@dataclass(frozen=True, slots=True)
class Published:
    """One count that outsiders can read."""

    counted: Counted
    value: int


@dataclass(frozen=True, slots=True)
class Handout:
    """One handout as it is kept: published counts only, never a hidden one.

    Attributes:
        made_at: When, with its offset.
        kind: What kind of document.
        scope: The sentence of what it looks at.
        through: The last day known to it.
        threshold: The smallest count it shows.
        fingerprint: A short mark of what it says, to know it again.
        cells: The counts it shows.
    """

    made_at: datetime
    kind: str
    scope: str
    through: date
    threshold: int
    fingerprint: str
    cells: tuple[Published, ...]

    def __post_init__(self) -> None:
        """Refuse a moment without its offset: two of them could not be put in order."""
        if self.made_at.tzinfo is None:
            raise ValueError(f"{self.made_at} has no offset")

    def words(self) -> str:
        """Return which handout it is."""
        return f"{self.kind} of {self.made_at:%Y-%m-%d %H:%M} (through {self.through})"


@dataclass(frozen=True, slots=True)
class Difference:
    """A small count that two handouts, or two counts of one, give when one is taken from another.

    Attributes:
        rest: What the small count is, in words.
        value: How many.
        taken: The counts that are taken from each other, in words, each with where it stands.
        is_change: The same count at two times; else a whole without its parts.
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


def between(
    earlier: Sequence[Handout], now: Handout, threshold: int = THRESHOLD
) -> tuple[Difference, ...]:
    """Return the small counts that `now` gives away together with what is out already.

    The same count at two times (more was recorded, or corrected), and a whole without parts that
    lie within it and do not overlap: all departments without all but one, all seasons without
    this one, or a whole without one part. A part of an earlier day may have grown since, so that
    the rest is “at most”; a part of a later day than the whole says nothing of the rest then.
    """
    told: dict[tuple[str, int], Difference] = {}
    new = _cells([now])
    for handout in earlier:
        for difference in _changes(handout, now, threshold):
            told.setdefault((difference.rest, difference.value), difference)
    for known in [[], *([handout] for handout in earlier), list(earlier)]:
        for difference in _rests({**_cells(known), **new}, set(new), threshold):
            told.setdefault((difference.rest, difference.value), difference)
    return tuple(told.values())


@dataclass(frozen=True, slots=True)
class _Seen:
    """A published value and the handout that holds it; the new one is “this document”."""

    counted: Counted
    value: int
    handout: Handout

    def words(self, now: Handout | None = None) -> str:
        where = "this document" if self.handout is now else self.handout.words()
        return f"{self.counted.words()}, {self.value} in {where}"


def _cells(handouts: Iterable[Handout]) -> dict[Counted, _Seen]:
    """Return the newest value of every count."""
    ordered = sorted(handouts, key=lambda handout: (handout.through, handout.made_at))
    return {
        cell.counted: _Seen(cell.counted, cell.value, handout)
        for handout in ordered
        for cell in handout.cells
    }


def _changes(then: Handout, now: Handout, threshold: int) -> Iterator[Difference]:
    before = _cells([then])
    for cell in now.cells:
        old = before.get(cell.counted)
        if old is not None and 0 < abs(cell.value - old.value) < threshold:
            yield Difference(
                f"The change of {cell.counted.words()}",
                abs(cell.value - old.value),
                (f"{cell.value} in this document", f"{old.value} in the {then.words()}"),
                is_change=True,
                threshold=threshold,
            )


def _rests(
    seen: Mapping[Counted, _Seen], new: set[Counted], threshold: int
) -> Iterator[Difference]:
    """Return the small rests of wholes; every one uses a count of the new document."""
    for whole in seen.values():
        for part in _sets_of_parts(seen, whole):
            used = {whole.counted, *(each.counted for each in part)}
            left = whole.value - sum(each.value for each in part)
            if 0 < left < threshold and used & new:
                now = next(seen[counted].handout for counted in used & new)
                names = ", ".join(each.counted.words() for each in part)
                yield Difference(
                    f"{whole.counted.words()} without {names}",
                    left,
                    tuple(each.words(now) for each in (whole, *part)),
                    is_change=False,
                    threshold=threshold,
                )


def _sets_of_parts(seen: Mapping[Counted, _Seen], whole: _Seen) -> Iterator[tuple[_Seen, ...]]:
    """Return each part of a whole, and for each part of the scope all that do not overlap."""
    by_name: dict[str, list[_Seen]] = {}
    for each in seen.values():
        names = narrowed_in(each.counted, whole.counted)
        if names and each.handout.through <= whole.handout.through:
            yield (each,)
            if len(names) == 1:
                by_name.setdefault(names[0], []).append(each)
    for name, parts in by_name.items():
        taken: list[_Seen] = []
        covered: frozenset[str] = frozenset()
        for each in sorted(parts, key=lambda part: len(part.counted.widths()[name])):
            values = each.counted.widths()[name]
            if not values & covered:
                taken.append(each)
                covered |= values
        if len(taken) > 1:
            yield tuple(taken)
