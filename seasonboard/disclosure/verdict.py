"""The verdict on a document for outsiders, and its numbers as they may be shown."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime

from seasonboard.disclosure.count_definition import Counted
from seasonboard.disclosure.earlier_handouts import Difference, Handout, Published, between
from seasonboard.disclosure.statements import (
    THRESHOLD,
    Between,
    Derived,
    Hidden,
    Item,
    Leak,
    Policy,
    Release,
    Shown,
    leaks,
)
from seasonboard.errors import SeasonboardError

HIDDEN = "hidden"
_NOBODY: Mapping[str, Counted] = {}
_NOTHING: Mapping[str, Item] = {}


class RefusedError(SeasonboardError):
    """A document may not be handed out: a small count can be worked out from it."""


@dataclass(frozen=True, slots=True)
class Told:
    """What may be shown of a document, and whether it may go out.

    Attributes:
        release: What is published: hidden counts as “hidden”, nothing that is worked out of them.
        policy: How small a count may be shown.
        leaks: Small counts that can be worked out from the document.
        differences: Small counts that can be worked out together with earlier handouts.
        counted: What the counts count.
        items: Everything that was declared, by name.
    """

    release: Release
    policy: Policy
    leaks: tuple[Leak, ...]
    differences: tuple[Difference, ...]
    counted: Mapping[str, Counted] = field(default_factory=dict)
    items: Mapping[str, Item] = field(default_factory=dict)

    @property
    def is_refused(self) -> bool:
        """Say whether the document may not go out."""
        return bool(self.leaks or self.differences)

    @property
    def hidden(self) -> frozenset[str]:
        """Return the counts that are hidden or stand as “fewer than …”."""
        return frozenset(
            item.cell
            for item in self.release.items
            if isinstance(item, Hidden) or (isinstance(item, Between) and item.is_mark)
        )

    def sentences(self) -> tuple[str, ...]:
        """Return every reason against it: what, where, which numbers, what to do."""
        alone = (leak.sentence() for leak in self.leaks)
        return (*alone, *(difference.sentence() for difference in self.differences))

    def check(self) -> None:
        """Refuse a document that may not go out.

        Raises:
            RefusedError: With every reason.
        """
        if self.is_refused:
            told = self.sentences()
            many = "a small count" if len(told) == 1 else f"{len(told)} small counts"
            raise RefusedError(
                f"The document was not made: {many} could be worked out from it.", " ".join(told)
            )

    def may_show(self, *names: str) -> bool:
        """Say whether all these may be shown: a sentence that names one that may not is left out.

        Raises:
            KeyError: A name was never declared.
        """
        return all(self.items[name] in self.release.items for name in names)

    def show(self, name: str, text: str | None = None) -> str:
        """Return the text of a count or of what is worked out from counts, or its mark.

        Args:
            name: As it was declared.
            text: How it is written where it may be shown; else its plain digits.

        Raises:
            KeyError: The name was never declared: its count is not checked.
        """
        item = self.items[name]
        if self.may_show(name):
            return self._plain(item) if text is None else text
        marks = [i for i in self.release.items if isinstance(i, Between) and i.is_mark]
        if isinstance(item, Shown) and any(mark.cell == item.cell for mark in marks):
            return f"fewer than {self.policy.threshold}"
        return HIDDEN

    def _plain(self, item: Item) -> str:
        if isinstance(item, Shown):
            return str(self.release.cells[item.cell])
        if isinstance(item, Hidden | Between | Derived):
            told = item.told(self.release.cells)
            raise ValueError(f"{told} has no text of its own; give one")  # noqa: TRY004 - its use is
        return item.text(self.release.cells) or "–"

    def notes(self) -> tuple[str, ...]:
        """Return what to print on the document about hidden counts."""
        least, most = self.policy.least_hidden, self.policy.threshold - 1
        said = []
        if any(item not in self.release.items for item in self.items.values()):
            said.append(
                f"“hidden” stands for a count of {least} to {most}, for one from which such a "
                "count could be worked out, and for what is worked out from them."
            )
        if self.policy.threshold < THRESHOLD:
            said.append(
                f"Counts from {self.policy.threshold} on are shown, not from {THRESHOLD} on as "
                f"usual: {self.policy.reason.strip()}"
            )
        return tuple(said)

    def handout(self, made_at: datetime, *, kind: str, scope: str, through: date) -> Handout:
        """Return what to write into the ledger once the document was handed out."""
        cells = tuple(
            Published(self.counted[item.cell], self.release.cells[item.cell])
            for item in self.release.items
            if isinstance(item, Shown) and item.cell in self.counted
        )
        told = [kind, scope, *(f"{cell.counted.words()} {cell.value}" for cell in cells)]
        mark = hashlib.sha256("\n".join(told).encode()).hexdigest()[:16]
        return Handout(made_at, kind, scope, through, self.policy.threshold, mark, cells)


def check(  # noqa: PLR0913 - the later ones by name
    release: Release,
    policy: Policy,
    earlier: Sequence[Handout] = (),
    through: date | None = None,
    *,
    counted: Mapping[str, Counted] = _NOBODY,
    items: Mapping[str, Item] = _NOTHING,
) -> Told:
    """Look at what is published, alone and together with earlier handouts.

    Args:
        release: What is published, hidden counts marked as such.
        policy: How small a count may be shown.
        earlier: Earlier handouts of the same store.
        through: The last day known to the document; without it nothing earlier is compared.
        counted: What the cells count; others are not compared.
        items: Everything declared, by the name under which it is shown.

    Raises:
        ValueError: There are earlier handouts and no `through`.
    """
    if earlier and through is None:
        raise ValueError("earlier handouts can only be compared with a document's “through”")
    release = with_earlier(release, counted, earlier, through)
    told = Told(release, policy, leaks(release, policy), (), counted, items)
    now = told.handout(
        datetime.now(UTC), kind="this document", scope="", through=through or date.max
    )
    return replace(told, differences=between(earlier, now, policy.threshold))


def with_earlier(
    release: Release,
    counted: Mapping[str, Counted],
    earlier: Sequence[Handout],
    through: date | None,
) -> Release:
    """Return the release with what a reader knows of its counts from earlier handouts.

    The very value where the day is the same; of an earlier day the least it can be by now, of a
    later day the most it can have been: counts grow with “through”. Corrected counts, which do
    not, tell nothing.
    """
    out: dict[Item, None] = dict.fromkeys(release.items)
    names = {what: cell for cell, what in counted.items()}
    for handout in earlier if through is not None else ():
        for published in handout.cells:
            cell = names.get(published.counted)
            if cell is None:
                continue
            true, value = release.cells[cell], published.value
            low = value if handout.through <= (through or handout.through) else 0
            high = value if handout.through >= (through or handout.through) else None
            if low <= true and (high is None or true <= high):
                out[Between(cell, low, high, out_in=handout.words())] = None
    return replace(release, items=tuple(out))


def with_marks(release: Release, policy: Policy) -> Release:
    """Return the release with “fewer than …” for small counts that are in no sum.

    In a sum the mark would tell a small count from those hidden to protect it, and so give more
    of it away than “hidden” does.
    """
    linked = {cell for equation in release.equations for cell in equation.cells}
    linked |= {item.cell for item in release.items if isinstance(item, Between)}
    return replace(
        release,
        items=tuple(
            Between(item.cell, policy.least_hidden, policy.threshold - 1, is_mark=True)
            if isinstance(item, Hidden)
            and item.cell not in linked
            and policy.is_small(release.cells[item.cell])
            else item
            for item in release.items
        ),
    )
