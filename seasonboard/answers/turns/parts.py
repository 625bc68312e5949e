"""What the Turns answer is made of."""

from dataclasses import dataclass
from datetime import date

from seasonboard.answers.base import Summary

EARLY = "made early: say why"
"""State of a guard made before its week without a recorded jump."""


@dataclass(frozen=True, slots=True)
class Turn:
    """One athlete's turn, as it was drawn, and what became of it.

    `turn_on` is the first day of its week of printing, `come_on` the day from which it counts as
    come; `guard` the order that was asked for, `stage`, `made_on` (printed) and `fitted_on` what is
    known of it.
    """

    draw: str
    turn: int
    week: int
    turn_on: date
    come_on: date
    athlete: str
    name: str
    team: str
    department: str
    kind: str
    side: str
    stratum: str
    earlier_injury: str
    drawn_on: date
    prints_per_week: int
    ready_days: float
    seed: int
    board_number: str | None
    no_board_reason: str | None
    jumped_on: date | None
    jump_reason: str | None
    guard: str | None
    stage: str | None
    made_on: date | None
    fitted_on: date | None
    left_on: date | None

    @property
    def board(self) -> str:
        """Return what the review board said, or why none was asked."""
        if self.board_number is not None:
            return f"review board: {self.board_number}"
        return f"no review board needed: {self.no_board_reason}"

    @property
    def is_early(self) -> bool:
        """Say whether it was made before its week, and no jump was recorded."""
        return self.jumped_on is None and self.made_on is not None and self.made_on < self.turn_on

    def state(self, through: date) -> str:
        """Return what became of it, as of a day."""
        if self.jumped_on is not None:
            return f"jumped, {self.jumped_on.day} {self.jumped_on:%b}"
        if self.is_early:
            return EARLY
        if self.fitted_on is not None:
            return "fitted"
        if self.left_on is not None:
            return "left the team"
        if self.made_on is not None:
            return str(self.stage)
        return "its turn" if self.turn_on <= through else "waits"


@dataclass(frozen=True, slots=True)
class TurnsAnswer:
    """The turns of every draw of the scope, the latest draw first; `through` is the last day."""

    summary: Summary
    turns: tuple[Turn, ...]
    through: date
