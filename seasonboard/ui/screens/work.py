"""The screens of the working season: week, roster, orders, remakes, departments."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType

from seasonboard.answers import departments, orders, roster, week
from seasonboard.answers.departments_parts import DepartmentsAnswer
from seasonboard.answers.orders_parts import OrdersAnswer
from seasonboard.answers.roster_parts import RosterAnswer
from seasonboard.answers.roster_words import STRIP_KEY
from seasonboard.answers.rows import held
from seasonboard.answers.week_parts import WeekAnswer
from seasonboard.answers.work_rows import department_rows, roster_rows, week_rows
from seasonboard.ui.blocks import Block, Paper
from seasonboard.ui.departments_page import departments_page
from seasonboard.ui.orders_page import KEY, MARKS_KEY, orders_page
from seasonboard.ui.roster_page import roster_page
from seasonboard.ui.screens.asking import AnswerT, Request
from seasonboard.ui.screens.base import BoardScreen
from seasonboard.ui.screens.behind import Behind
from seasonboard.ui.week_page import week_page
from seasonboard.ui.widgets.page import Page

if TYPE_CHECKING:
    from seasonboard.ui.screens.meeting import Meeting

WORK_PARTS = frozenset(
    {
        *("season", "through", "department", "team", "sport", "sex", "position group"),
        *("kind", "area", "side", "level"),
    }
)
"""What these answers depend on: guards of both purposes and all sessions count."""


class WorkScreen(BoardScreen[AnswerT]):
    """A screen of the working season; a department's line opens its orders."""

    USES = WORK_PARTS

    def rows_behind(self, opens: str) -> Behind | None:
        """Return a department's orders, or what every screen can open."""
        kind, _, key = opens.partition(":")
        scope = self.scope
        if scope is not None and kind == "department":
            one = replace(scope, departments=(key,))
            return "Orders", partial(self.asker.order_rows, one)
        if kind == "orders":
            return super().rows_behind("orders")
        return super().rows_behind(opens)


class WeekScreen(WorkScreen[WeekAnswer]):
    """What changed since a week ago, and what is ahead."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "g",
            "meeting",
            "meeting",
            tooltip="Go through the week one item at a time, and type decisions",
            id="week.meeting",
        ),
    ]
    NAME = "week"
    QUESTION = week.QUESTION
    HELP = (
        "Made to be read aloud from top to bottom in a meeting: the days of the week, what must be "
        "looked at next, what changed. Every item opens to its rows. “Through” another day shows "
        "the week as it was known then. g goes through it one item at a time."
    )

    _meeting: "Meeting | None" = None

    def ask_for(self, request: Request) -> WeekAnswer:
        """Ask for the week."""
        return self.asker.week(request.scope)

    def draw(self, answer: WeekAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return week_page(answer, paper)

    def action_meeting(self) -> None:
        """Go through the week one item at a time, from where it was left."""
        from seasonboard.ui.screens.meeting import Meeting, MeetingScreen

        if self.answer is None:
            return
        if self._meeting is None:
            self._meeting = Meeting()
        self.app.push_screen(MeetingScreen(self._meeting, self.asker, lambda: self.answer))

    def rows_behind(self, opens: str) -> Behind | None:
        """Return the rows of one item."""
        kind, _, key = opens.partition(":")
        if kind != "week" or self.answer is None:
            return super().rows_behind(opens)
        item = self.answer.item(key) if key else self.answer.items[0]
        return item.title, partial(held, week_rows(item))


class RosterScreen(WorkScreen[RosterAnswer]):
    """Who can play the next game, and in what guard."""

    NAME = "roster"
    QUESTION = roster.QUESTION
    HELP = (
        "Every athlete by the last record, those first that need attention: the last sessions "
        f"({STRIP_KEY}), the state, the guards. Not recorded is not out. ↵ on an athlete opens "
        "all that was recorded of them."
    )

    def ask_for(self, request: Request) -> RosterAnswer:
        """Ask for the roster."""
        return self.asker.roster(request.scope)

    def draw(self, answer: RosterAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return roster_page(answer, paper)

    def rows_behind(self, opens: str) -> Behind | None:
        """Return the roster as a table, or what the screens of the working season can open."""
        if opens not in {"roster", "availability"} or self.answer is None:
            return super().rows_behind(opens)
        return "Roster", partial(held, roster_rows(self.answer))


class OrdersScreen(WorkScreen[OrdersAnswer]):
    """What is on its way, and will it be there in time?"""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "space",
            "stage",
            "next stage",
            key_display="␣",
            tooltip="Record the next stage of the order under the cursor",
            id="orders.stage",
        ),
    ]
    NAME = "orders"
    QUESTION = orders.QUESTION
    HELP = (
        "Every open order on an axis of days, the most pressing first. Letters are the stages "
        f"({KEY}); {MARKS_KEY}. “By game” is the chance to be fitted by the team's next game, "
        "from like orders that had waited as long. Space records the next stage of an order."
    )

    def ask_for(self, request: Request) -> OrdersAnswer:
        """Ask for the orders."""
        return self.asker.orders(request.scope)

    def draw(self, answer: OrdersAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return orders_page(answer, paper)

    def action_stage(self) -> None:
        """Open the form of the next stage; it proposes the usual one, and now."""
        from seasonboard.ui.forms.all import form_screen
        from seasonboard.ui.forms.of_orders import STAGE

        block = self.query_one(Page).block
        kind, _, guard = block.name.partition(" ") if block is not None else ("", "", "")
        start = {"guard": guard} if kind == "order" else {}
        self.app.push_screen(form_screen(STAGE, self.asker, **start))


class DepartmentsScreen(WorkScreen[DepartmentsAnswer]):
    """How is each client doing?"""

    NAME = "departments"
    QUESTION = departments.QUESTION
    HELP = (
        "One department after the other, those first that need attention, with the reasons. Block "
        "letters are weeks, the last one at the right; · is a week without a figure."
    )
    OPENS: ClassVar[str] = "departments"

    def ask_for(self, request: Request) -> DepartmentsAnswer:
        """Ask for the departments."""
        return self.asker.departments(request.scope)

    def draw(self, answer: DepartmentsAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return departments_page(answer, paper)

    def rows_behind(self, opens: str) -> Behind | None:
        """Return the departments as a table, or one's orders."""
        if opens != self.OPENS or self.answer is None:
            return super().rows_behind(opens)
        return "Departments", partial(held, department_rows(self.answer))
