"""Pitch: what can we promise the next department?"""

from dataclasses import replace
from datetime import datetime
from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.answers.questions import PITCH, REMAKES, TAKE_UP
from seasonboard.answers.report import table_rows
from seasonboard.answers.rows import page_in_memory
from seasonboard.answers.take_up.report import STEP_ROWS
from seasonboard.documents.kinds import PROPOSAL
from seasonboard.errors import ScopeError
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.scope import View
from seasonboard.ui.board.answer_screen import Request
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.forms.prospect_team_form import prospect_rows
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Opens, What
from seasonboard.ui.pitch.page import pitch_page
from seasonboard.ui.saving.offers import ExtraFile, table_file


class PitchScreen(BoardScreen[PitchAnswer]):
    """One season of a department that is no client yet, with all that is not known in it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("t", "teams", "teams", "Say which teams the prospect has", "pitch.teams"),
        key("i", "inputs", "inputs", "Change what the plan rests on: take-up, price, prints",
            "pitch.inputs"),
        key("F,shift+f", "release", "release", "Release figures for outsiders", "pitch.release",
            display="F", is_quiet=True),
    ]  # fmt: skip
    DOCUMENTS = (PROPOSAL,)
    QUESTION = PITCH
    PAGE = staticmethod(pitch_page)
    HELP = (
        "One season ahead at a department that is no client yet, simulated from what is recorded: "
        "■ is the median, ━ holds 80 % of the seasons, ├─┤ 95 %. A range that reaches 0 promises "
        "nothing. Without teams of your own it is a department like those served. t lists the "
        "prospect's teams, or reads them from a table; i takes take-up, price and prints. Both "
        "hold until the board is left and are written to no store: e saves the teams as a table "
        "that t, and --teams on the command line, read again. e also makes the offer to the "
        "department: it quotes the last release of figures, which F makes, and holds no athlete "
        "and no small count."
    )

    ROWS = ((What.PROSPECT, "The prospect's teams", lambda one: prospect_rows(one.prospect)),)
    _served: tuple[ProspectTeam, ...] = ()

    def ask_for(self, request: Request) -> PitchAnswer:
        """Ask for the plan."""
        if request.scope.purpose is View.RETURN:
            raise ScopeError(
                "A pitch plans guards that are to prevent, not those for a return after an injury.",
                "Change “return” in the sentence on top: s leads there.",
            )
        return super().ask_for(request)

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return a team's athletes, guards that came back, take-up, or the prospect's teams."""
        if self.answer is None:
            return super().rows_of(opens)
        scope, source = self.answer.summary.scope, self.answer_source
        match opens.what:
            case What.TEAM:
                team = self.answer.prospect.teams[int(opens.key)]
                one = replace(scope, sports=(team.sport,), sexes=(team.sex,))
                return "Athletes", partial(source.athlete_rows, one)
            case What.REMADE:
                return "Guards asked for anew", lambda page: page_in_memory(
                    source.ask(REMAKES, scope).rows, page
                )
            case What.STEPS:
                return "Steps", lambda page: page_in_memory(
                    table_rows(STEP_ROWS, source.ask(TAKE_UP, scope), "Steps"), page
                )
        return super().rows_of(opens)

    def extra_files(self) -> tuple[ExtraFile, ...]:
        """Offer the prospect's teams as a table of their own."""
        teams = self.answer.prospect if self.answer is not None else Prospect(())
        if not teams.teams:
            return super().extra_files()
        label = "save the prospect's teams as CSV"
        file = table_file("teams", label, "for t, and for --teams", prospect_rows(teams))
        return (file, *super().extra_files())

    def _can_plan(self) -> bool:
        if self.scope is None or self.answer_source.scope_values.is_empty:
            self.notify("Nothing is recorded yet to plan from.", markup=False, timeout=3)
            return False
        return True

    def action_teams(self) -> None:
        """List the prospect's teams."""
        from seasonboard.ui.pitch.teams_window import TeamsScreen

        if not self._can_plan():
            return
        answer, prospect = self.answer, self.options.prospect
        if answer is not None and not answer.is_given:
            self._served = answer.prospect.teams

        def take(prospect: Prospect | None) -> None:
            self.ask_with(replace(self.options, prospect=prospect))

        self.app.push_screen(TeamsScreen(prospect, self._served, self.answer_source, take=take))

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

    def action_release(self) -> None:
        """Show the next release of figures for outsiders, to be made."""
        from seasonboard.ui.pitch.release_window import ReleaseScreen

        def say(made: str | None) -> None:
            if made is not None:
                self.notify(f"Released as {made}. e makes the offer that quotes it.", markup=False)

        if self._can_plan():
            today = datetime.now().astimezone().date()
            self.app.push_screen(ReleaseScreen(self.answer_source, today), say)


SCREEN = PitchScreen
