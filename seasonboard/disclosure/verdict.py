"""The verdict on a document for outsiders, and its numbers as they may be shown."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime

from seasonboard.disclosure.count_definition import CountDefinition
from seasonboard.disclosure.differencing import SmallDifference, small_differences
from seasonboard.disclosure.disclosure_risk import Disclosure, disclosures
from seasonboard.disclosure.ledger import LedgerEntry, PublishedCount
from seasonboard.disclosure.published_figures import (
    CountRange,
    HiddenCount,
    PublishedItem,
    ShownCount,
)
from seasonboard.disclosure.release import THRESHOLD, Policy, Release
from seasonboard.errors import SeasonboardError

HIDDEN = "hidden"
_NO_DEFINITIONS: Mapping[str, CountDefinition] = {}
_NO_ITEMS: Mapping[str, PublishedItem] = {}


class RefusedError(SeasonboardError):
    """A document may not be handed out: a small count can be worked out from it."""


@dataclass(frozen=True, slots=True)
class DisclosureVerdict:
    """What may be shown of a document, and whether it may go out.

    The `release` is what is published: hidden counts as “hidden”, nothing that is worked out of
    them. Small counts can be worked out from the document alone (`disclosures`) or with earlier
    handouts (`differences`). `items` are everything declared, by name.
    """

    release: Release
    policy: Policy
    disclosures: tuple[Disclosure, ...]
    differences: tuple[SmallDifference, ...]
    definitions: Mapping[str, CountDefinition] = field(default_factory=dict)
    items: Mapping[str, PublishedItem] = field(default_factory=dict)

    @property
    def is_refused(self) -> bool:
        """Say whether the document may not go out."""
        return bool(self.disclosures or self.differences)

    def sentences(self) -> tuple[str, ...]:
        """Return every reason against it: what, where, which numbers, what to do."""
        alone = (disclosure.sentence() for disclosure in self.disclosures)
        return (*alone, *(difference.sentence() for difference in self.differences))

    def check(self) -> None:
        """Refuse a document that may not go out.

        Raises:
            RefusedError: With every reason.
        """
        if self.is_refused:
            reasons = self.sentences()
            many = "a small count" if len(reasons) == 1 else f"{len(reasons)} small counts"
            raise RefusedError(
                f"The document was not made: {many} could be worked out from it.", " ".join(reasons)
            )

    def may_show(self, *names: str) -> bool:
        """Say whether all these may be shown: a sentence that names one that may not is left out.

        Raises:
            KeyError: A name was never declared.
        """
        return all(self.items[name] in self.release.items for name in names)

    def mark(self, name: str) -> str:
        """Return what stands in the place of a count, or what comes of counts, that is not shown.

        Raises:
            KeyError: The name was never declared: its count is not checked.
        """
        item = self.items[name]
        marks = [i.cell for i in self.release.items if isinstance(i, CountRange) and i.is_mark]
        is_marked = isinstance(item, ShownCount) and item.cell in marks
        return f"fewer than {self.policy.threshold}" if is_marked else HIDDEN

    def notes(self) -> tuple[str, ...]:
        """Return what to print on the document about hidden counts."""
        least, most = self.policy.least_hidden, self.policy.threshold - 1
        notes = []
        if any(item not in self.release.items for item in self.items.values()):
            notes.append(
                f"“hidden” stands for a count of {least} to {most}, for one from which such a "
                "count could be worked out, and for what is worked out from them."
            )
        if self.policy.threshold < THRESHOLD:
            notes.append(
                f"Counts from {self.policy.threshold} on are shown, not from {THRESHOLD} on as "
                f"usual: {self.policy.reason.strip()}"
            )
        return tuple(notes)

    def ledger_entry(
        self, made_at: datetime, *, kind: str, scope: str, through: date
    ) -> LedgerEntry:
        """Return what to write into the ledger once the document was handed out."""
        cells = tuple(
            PublishedCount(self.definitions[item.cell], self.release.cells[item.cell])
            for item in self.release.items
            if isinstance(item, ShownCount) and item.cell in self.definitions
        )
        lines = [kind, scope, *(f"{cell.definition.words()} {cell.value}" for cell in cells)]
        mark = hashlib.sha256("\n".join(lines).encode()).hexdigest()[:16]
        return LedgerEntry(made_at, kind, scope, through, self.policy.threshold, mark, cells)


def verdict_on(  # noqa: PLR0913 - the later ones by name
    release: Release,
    policy: Policy,
    earlier: Sequence[LedgerEntry] = (),
    through: date | None = None,
    *,
    definitions: Mapping[str, CountDefinition] = _NO_DEFINITIONS,
    items: Mapping[str, PublishedItem] = _NO_ITEMS,
) -> DisclosureVerdict:
    """Look at what is published, hidden counts marked as such, alone and with earlier handouts.

    Without `through`, the last day known to it, nothing earlier is compared; nor are cells without
    a definition. `items` are everything declared, by the name under which it is shown.

    Raises:
        ValueError: There are earlier handouts and no `through`.
    """
    if earlier and through is None:
        raise ValueError("earlier handouts can only be compared with a document's “through”")
    release = with_earlier(release, definitions, earlier, through)
    risks = disclosures(release, policy)
    verdict = DisclosureVerdict(release, policy, risks, (), definitions, items)
    entry = verdict.ledger_entry(
        datetime.now(UTC), kind="this document", scope="", through=through or date.max
    )
    return replace(verdict, differences=small_differences(earlier, entry, policy.threshold))


def with_earlier(
    release: Release,
    definitions: Mapping[str, CountDefinition],
    earlier: Sequence[LedgerEntry],
    through: date | None,
) -> Release:
    """Return the release with what a reader knows of its counts from earlier handouts.

    The very value where the day is the same; of an earlier day the least it can be by now, of a
    later day the most it can have been: counts grow with “through”. Corrected counts, which do
    not, tell nothing.
    """
    out: dict[PublishedItem, None] = dict.fromkeys(release.items)
    names = {what: cell for cell, what in definitions.items()}
    for entry in earlier if through is not None else ():
        for published in entry.cells:
            cell = names.get(published.definition)
            if cell is None:
                continue
            true, value = release.cells[cell], published.value
            low = value if entry.through <= (through or entry.through) else 0
            high = value if entry.through >= (through or entry.through) else None
            if low <= true and (high is None or true <= high):
                out[CountRange(cell, low, high, out_in=entry.words())] = None
    return replace(release, items=tuple(out))


def with_marks(release: Release, policy: Policy) -> Release:
    """Return the release with “fewer than …” for small counts that are in no sum.

    In a sum the mark would tell a small count from those hidden to protect it, and so give more
    of it away than “hidden” does.
    """
    linked = {cell for equation in release.equations for cell in equation.cells}
    linked |= {item.cell for item in release.items if isinstance(item, CountRange)}
    return replace(
        release,
        items=tuple(
            CountRange(item.cell, policy.least_hidden, policy.threshold - 1, is_mark=True)
            if isinstance(item, HiddenCount)
            and item.cell not in linked
            and policy.is_small(release.cells[item.cell])
            else item
            for item in release.items
        ),
    )
