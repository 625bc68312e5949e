"""Every question of the board, a line each; the board, `ask`, its help and README go by these.

What belongs to a question lies in its folder of `answers/`, under names that are the same for all:
`answer.py` makes the answer with a function named after the folder, `parts.py` says what it is made
of (and `OPTIONS`, what it may be asked with), `report.py` tells it as `REPORT`, `cards.md` holds
its method cards. Its screen is `SCREEN` in `ui/<folder>/screen.py`; without that folder it has one
of the tables that its report has for people.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from keyword import iskeyword
from typing import TYPE_CHECKING, Any, Generic, TypeVar, cast

from seasonboard.answers.cards import Card, read_cards

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from seasonboard.answers.allotment.parts import AllotmentAnswer
    from seasonboard.answers.capacity.parts import CapacityAnswer, CapacityOptions
    from seasonboard.answers.checks.parts import ChecksAnswer
    from seasonboard.answers.compare.parts import CompareAnswer, CompareOptions
    from seasonboard.answers.departments.parts import DepartmentsAnswer
    from seasonboard.answers.games.parts import GamesAnswer, GamesOptions
    from seasonboard.answers.orders.parts import OrdersAnswer
    from seasonboard.answers.pitch.options import PitchOptions
    from seasonboard.answers.pitch.parts import PitchAnswer
    from seasonboard.answers.recall.parts import RecallAnswer, RecallOptions
    from seasonboard.answers.remakes.options import RemakesOptions
    from seasonboard.answers.remakes.parts import RemakesAnswer
    from seasonboard.answers.report import Report
    from seasonboard.answers.returns.parts import ReturnsAnswer
    from seasonboard.answers.roster.parts import RosterAnswer
    from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpOptions
    from seasonboard.answers.turnaround.options import TurnaroundOptions
    from seasonboard.answers.turnaround.parts import TurnaroundAnswer
    from seasonboard.answers.turns.parts import TurnsAnswer
    from seasonboard.answers.week.parts import WeekAnswer, WeekOptions

AnswerT = TypeVar("AnswerT")
OptionsT = TypeVar("OptionsT")


@dataclass(frozen=True, slots=True)
class Question(Generic[AnswerT, OptionsT]):
    """One question.

    Attributes:
        name: How it is asked: `ask NAME`.
        key: The key that shows its screen; empty: it has none.
        title: Its title on the board.
        asks: The question.
        brief: Its title where all of them share 80 cells; empty: `title`.
        counts_checks: Whether `ask` counts the data checks that touch it.
    """

    name: str
    key: str
    title: str
    asks: str
    brief: str = ""
    counts_checks: bool = False

    @property
    def folder(self) -> str:
        """Return the name of its folders; a name that Python keeps for itself gets an s."""
        return self.name.replace("-", "_") + ("s" if iskeyword(self.name) else "")

    @property
    def short(self) -> str:
        """Return the title for narrow terminals."""
        return self.brief or self.title

    def answer(self) -> Callable[..., AnswerT]:
        """Return what makes its answer, loading it."""
        return cast("Callable[..., AnswerT]", getattr(self._module("answer"), self.folder))

    def report(self) -> Report:
        """Return how its answer is told, loading it."""
        return cast("Report", self._module("report").REPORT)

    def cards(self) -> Mapping[str, Card]:
        """Return the cards that say how its numbers are made by name, in their order."""
        if self.name == "checks":
            from seasonboard.answers.checks.cards import check_cards

            return check_cards()
        return read_cards(self.folder)

    def options(self) -> type[OptionsT] | None:
        """Return the class of what it may be asked with, loading it; None: the scope alone."""
        return getattr(self._module("parts"), "OPTIONS", None)

    def _module(self, name: str) -> Any:  # noqa: ANN401 - a module
        return import_module(f"seasonboard.answers.{self.folder}.{name}")


WEEK: Question[WeekAnswer, WeekOptions] = Question(
    "week", "1", "Week", "What changed this week, and what must be decided?"
)
ROSTER: Question[RosterAnswer, None] = Question(
    "roster", "2", "Roster", "Who can play the next game, and in what guard?", "Rost"
)
ORDERS: Question[OrdersAnswer, None] = Question(
    "orders", "3", "Orders", "What is on its way, and will it be there in time?", "Ord"
)
TURNAROUND: Question[TurnaroundAnswer, TurnaroundOptions] = Question(
    "turnaround", "4", "Turnaround", "How long does a guard take?", "Turn"
)
REMAKES: Question[RemakesAnswer, RemakesOptions] = Question(
    "remakes", "5", "Remakes", "What came back, and why?", "Redo"
)
ALLOTMENT: Question[AllotmentAnswer, None] = Question(
    "allotment", "", "Allotment", "Do the prints keep to the plan?"
)
RECALL: Question[RecallAnswer, RecallOptions] = Question(
    "recall", "z", "Lots", "Who wears what was made alike?", "Lot"
)
CAPACITY: Question[CapacityAnswer, CapacityOptions] = Question(
    "capacity", "v", "Capacity", "What is printed first, and is there room for it?", "Cap"
)
TURNS: Question[TurnsAnswer, None] = Question("turns", "", "Turns", "Whose guard comes first?")
COMPARE: Question[CompareAnswer, CompareOptions] = Question(
    "compare", "6", "Compare", "Are guarded athletes hurt less?", "Comp", counts_checks=True
)
RETURN: Question[ReturnsAnswer, None] = Question(
    "return", "j", "Return", "How soon are hurt athletes back, and in what guard?", "Ret"
)
GAMES: Question[GamesAnswer, GamesOptions] = Question(
    *("games", "7", "Games", "How many games are played before an injury?", "Game"),
    counts_checks=True,
)
TAKE_UP: Question[TakeUpAnswer, TakeUpOptions] = Question(
    "take-up", "8", "Take-up", "Who was offered a guard, and who wears it?", "Take"
)
DEPARTMENTS: Question[DepartmentsAnswer, None] = Question(
    "departments", "9", "Departments", "How is each client doing?", "Dep"
)
PITCH: Question[PitchAnswer, PitchOptions] = Question(
    "pitch", "p", "Pitch", "What can we promise the next department?"
)
CHECKS: Question[ChecksAnswer, None] = Question(
    "checks", "0", "Checks", "What in the records is doubtful?", "Check"
)

QUESTIONS: tuple[Question[Any, Any], ...] = (
    *(WEEK, ROSTER, ORDERS, CAPACITY, TURNAROUND, REMAKES, RECALL, ALLOTMENT, TURNS),
    *(COMPARE, RETURN, GAMES, TAKE_UP, DEPARTMENTS, PITCH, CHECKS),
)
"""Every question, in the order of the title line."""

WITH_SCREENS: tuple[Question[Any, Any], ...] = tuple(one for one in QUESTIONS if one.key)
"""Those that have a screen."""


def question_named(name: str) -> Question[Any, Any]:
    """Return the question called `name`.

    Raises:
        KeyError: There is none.
    """
    return {one.name: one for one in QUESTIONS}[name]
