"""Pitch: what can we promise the next department?"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType

from seasonboard.answers.pitch.parts import PitchAnswer, PitchOptions
from seasonboard.answers.questions import PITCH, REMAKES, TAKE_UP
from seasonboard.answers.report import table_rows
from seasonboard.answers.rows import Rows, page_in_memory
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.take_up.report import STEP_ROWS
from seasonboard.documents.kinds import PITCH_HANDOUT
from seasonboard.errors import ScopeError
from seasonboard.paging import PageAsked
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.scope import Scope, View
from seasonboard.ui.board.answer_screen import Request
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.forms.prospect_team_form import prospect_rows
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.pitch.page import pitch_page
from seasonboard.ui.saving.offers import ExtraFile, table_file


class PitchScreen(BoardScreen[PitchAnswer]):
    """One season of a department that is no client yet, with all that is not known in it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "t", "teams", "teams", tooltip="Say which teams the prospect has", id="pitch.teams"
        ),
        Binding(
            "i",
            "inputs",
            "inputs",
            tooltip="Change what the plan rests on: take-up, price, prints",
            id="pitch.inputs",
        ),
    ]
    DOCUMENTS = (PITCH_HANDOUT,)
    QUESTION = PITCH
    HELP = (
        "One season ahead at a department that is no client yet, simulated from what is recorded: "
        "■ is the median, ━ holds 80 % of the seasons, ├─┤ 95 %. A range that reaches 0 promises "
        "nothing. Without teams of your own it is a department like those served. t lists the "
        "prospect's teams, or reads them from a table; i takes take-up, price and prints. Both "
        "hold until the board is left and are written to no store: e saves the teams as a table "
        "that t, and --teams on the command line, read again. e also makes the handout for the "
        "department: no athlete and no small count is in it, and it is kept account of."
    )

    def __init__(self, answer_source: AnswerSource, stop: Callable[[], None]) -> None:
        """Begin with a department like those served, as recorded."""
        super().__init__(answer_source, stop)
        self.options: PitchOptions = PitchOptions()
        self._served: tuple[ProspectTeam, ...] = ()

    def ask_for(self, request: Request) -> PitchAnswer:
        """Ask for the plan."""
        options = request.options
        assert isinstance(options, PitchOptions)  # noqa: S101 - set by this screen alone
        if request.scope.purpose is View.RETURN:
            raise ScopeError(
                "A pitch plans guards that are to prevent, not those for a return after an injury.",
                "Change “return” in the sentence on top: s leads there.",
            )
        return self.answer_source.ask(PITCH, request.scope, options)

    def draw(self, answer: PitchAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return pitch_page(answer, paper)

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return a team's athletes, guards that came back, take-up, or the prospect's teams."""
        answer = self.answer
        if answer is None:
            return super().rows_of(opens)
        scope = answer.summary.scope
        if opens.what is What.TEAM:
            team = answer.prospect.teams[int(opens.key)]
            one = replace(scope, sports=(team.sport,), sexes=(team.sex,))
            return "Athletes", partial(self.answer_source.athlete_rows, one)
        if opens.what is What.PROSPECT:
            return "The prospect's teams", partial(page_in_memory, prospect_rows(answer.prospect))
        sources: dict[What, RowSource] = {
            What.REMADE: ("Guards asked for anew", partial(self._remade, scope)),
            What.STEPS: ("Steps", partial(self._steps, scope)),
        }
        return sources.get(opens.what) or super().rows_of(opens)

    def _remade(self, scope: Scope, page: PageAsked) -> Rows:
        return page_in_memory(self.answer_source.ask(REMAKES, scope).rows, page)

    def _steps(self, scope: Scope, page: PageAsked) -> Rows:
        answer = self.answer_source.ask(TAKE_UP, scope)
        return page_in_memory(table_rows(STEP_ROWS, answer, "Steps"), page)

    def extra_files(self) -> tuple[ExtraFile, ...]:
        """Offer the prospect's teams as a table of their own."""
        teams = self.answer.prospect if self.answer is not None else Prospect(())
        if not teams.teams:
            return super().extra_files()
        label = "save the prospect's teams as CSV"
        file = table_file("teams", label, "for t, and for --teams", prospect_rows(teams))
        return (file, *super().extra_files())

    def ask_with(self, options: PitchOptions) -> None:
        """Plan anew, unless nothing was changed."""
        if options != self.options:
            self.options = options
            self.action_ask()

    def _can_plan(self) -> bool:
        if self.scope is None or self.answer_source.scope_values.is_empty:
            self.notify("Nothing is recorded yet to plan from.", markup=False, timeout=3)
            return False
        return True

    def action_teams(self) -> None:
        """List the prospect's teams."""
        from seasonboard.ui.pitch.teams_window import ListedTeams, TeamsScreen

        if not self._can_plan():
            return
        given, answer = self.options.prospect, self.answer
        if answer is not None and not answer.is_given:
            self._served = answer.prospect.teams
        listed = ListedTeams(self._served, is_served=True)
        if given is not None:
            listed = ListedTeams(given.teams, is_served=False, notes=given.notes)
        self.app.push_screen(
            TeamsScreen(listed, self._served, self.answer_source, take=self._take_teams)
        )

    def _take_teams(self, prospect: Prospect | None) -> None:
        self.ask_with(replace(self.options, prospect=prospect))

    def action_inputs(self) -> None:
        """Ask for what the plan rests on."""
        from seasonboard.ui.forms.plan_form import plan_form, read_plan, typed_plan
        from seasonboard.ui.forms.sitting_form import TakenForm

        if not self._can_plan() or self.scope is None:
            return
        form = TakenForm(
            plan_form(self.answer),
            self.answer_source,
            typed_plan(self.options),
            read=partial(read_plan, options=self.options, scope=self.scope),
            take=self.ask_with,
        )
        self.app.push_screen(form)


SCREEN = PitchScreen
