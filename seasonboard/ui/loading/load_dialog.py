"""What the board says to a load: what is wished of it, and whether its plan is still the one shown.

Nothing waits for a person while the store is held: files are read once to show a plan, and read
again to write it, which is done only if it is the same plan.
"""

from dataclasses import dataclass, field, replace

from seasonboard.errors import SeasonboardError
from seasonboard.load_dialog import PlanSummary
from seasonboard.load_options import LoadOptions


class LoadStopped(SeasonboardError):  # noqa: N818 - a wish, not an error
    """The person stopped the load before anything was written."""


@dataclass(frozen=True, slots=True)
class ShownPlan:
    """A plan as it is shown, with the proposed mapping in words; empty where none was needed."""

    plan: PlanSummary
    mapping: str


@dataclass(slots=True)
class BoardDialog:
    """One reading of the files.

    Attributes:
        answers: What was answered so far.
        agreed: The plan to write; None writes nothing.
        mapping: The proposed mapping, in words.
        shown: The plan that was made.
        summary: What was told beside it.
        step: What is being done.
        is_stopped: Whether the person stopped it.
    """

    answers: LoadOptions = field(default_factory=LoadOptions)
    agreed: ShownPlan | None = None
    mapping: str = ""
    shown: ShownPlan | None = None
    summary: list[str] = field(default_factory=list)
    step: str = ""
    is_stopped: bool = False

    @property
    def options(self) -> LoadOptions:
        """Return what is wished of the load."""
        return replace(self.answers, propose=True, write=self.agreed is not None)

    def progress(self, step: str) -> None:
        """Keep what is being done; stop here if the person did."""
        self.step = step
        if self.is_stopped:
            raise LoadStopped("The load was stopped; the store is as it was.")

    def tell(self, sentence: str) -> None:
        """Keep what was done beside the store."""
        self.summary.append(sentence)

    def accept_mapping(self, proposal: str) -> bool:
        """Keep a mapping, which is shown with the plan."""
        self.mapping += proposal
        return True

    def confirm(self, plan: PlanSummary) -> bool:
        """Keep what is shown of a plan; write it if it is the one that was agreed to."""
        self.progress("writing")
        self.shown = ShownPlan(plan, self.mapping)
        return self.agreed is not None and self.shown == self.agreed

    def stop(self) -> None:
        """Stop at the next step; what is being written is written to its end."""
        self.is_stopped = True
