"""What the board says to a load: what is wished of it, and whether its plan is still the one shown.

Nothing waits for a person while the store is held: files are read once to show a plan, and read
again to write it, which is done only if it is the same plan.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from seasonboard.errors import SeasonboardError

MOST_CHANGES = 200
"""Changed cells that are shown; the others are only counted."""


class LoadStopped(SeasonboardError):  # noqa: N818 - a wish, not an error
    """The person stopped the load before anything was written."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A plan as it is shown.

    Attributes:
        mapping: The proposed mapping, in words; empty where none was needed.
        tables: Table, file, and how many rows are new, changed and the same.
        changes: File, row, column, old and new value of the first changed cells.
        changed: How many cells change in all.
        told: What a bundle is, in sentences.
        notes: What is kept, but worth a look.
        rejected: How many rows are left behind.
        reasons: Why.
        brings: Whether there is anything to write.
    """

    mapping: str
    tables: tuple[tuple[str, str, int, int, int], ...]
    changes: tuple[tuple[str, int, str, str, str], ...]
    changed: int
    told: tuple[str, ...]
    notes: tuple[str, ...]
    rejected: int
    reasons: tuple[str, ...]
    brings: bool


def shown_plan(plan: Any, mapping: str) -> Shown:  # noqa: ANN401 - the store's plan, unseen here
    """Return what is shown of a plan."""
    changes = tuple(
        (one.file, one.file_row, f"{one.table}.{one.column}", one.old or "", one.new or "")
        for one in plan.first_changes(MOST_CHANGES)
    )
    return Shown(
        mapping,
        tuple((one.table, one.file, one.new, one.changed, one.same) for one in plan.tables),
        changes,
        plan.changes.height,
        tuple(plan.told),
        tuple(one.sentence() for one in plan.notes),
        plan.rejected_count,
        tuple(one.sentence() for one in plan.problems) if plan.rejected_count else (),
        not plan.is_empty,
    )


@dataclass(slots=True)
class Talk:
    """One reading of the files; `agreed` is the plan to write, None to write nothing."""

    answers: Mapping[str, Any] = field(default_factory=dict)
    agreed: Shown | None = None
    mapping: str = ""
    shown: Shown | None = None
    summary: list[str] = field(default_factory=list)
    step: str = ""
    is_stopped: bool = False

    @property
    def wishes(self) -> Mapping[str, Any]:
        """Return what is wished of the load."""
        return {
            **self.answers,
            "propose": True,
            "write": self.agreed is not None,
            "accept_mapping": self._proposed,
            "tell": self.summary.append,
            "progress": self._progress,
        }

    def __call__(self, plan: Any) -> bool:  # noqa: ANN401 - as above
        """Keep what is shown of a plan; write it if it is the one that was agreed to."""
        self._progress("writing")
        self.shown = shown_plan(plan, self.mapping)
        return self.agreed is not None and self.shown == self.agreed

    def stop(self) -> None:
        """Stop at the next step; what is being written is written to its end."""
        self.is_stopped = True

    def _proposed(self, proposal: Any) -> bool:  # noqa: ANN401 - the store's proposal
        self.mapping = proposal.text
        return True

    def _progress(self, step: str) -> None:
        self.step = step
        if self.is_stopped:
            raise LoadStopped("The load was stopped; the store is as it was.")
