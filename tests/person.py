"""A person at the other end of a load, as a test needs them."""

from collections.abc import Callable

from seasonboard.load_dialog import PlanSummary
from seasonboard.load_options import LoadOptions


class Person:
    """Wishes options, says what a test says to a plan, and keeps what was shown and told."""

    def __init__(
        self,
        answer: Callable[[PlanSummary], bool] = lambda _: True,
        *,
        takes_mappings: bool = True,
        **wished: object,
    ) -> None:
        self.options = LoadOptions(**wished)
        self.confirm = answer
        self.takes_mappings = takes_mappings
        self.proposals: list[str] = []
        self.told: list[str] = []

    def progress(self, step: str) -> None:
        """Wait."""

    def tell(self, sentence: str) -> None:
        self.told.append(sentence)

    def accept_mapping(self, proposal: str) -> bool:
        self.proposals.append(proposal)
        return self.takes_mappings
