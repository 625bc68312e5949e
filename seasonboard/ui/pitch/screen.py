"""Pitch: what can we promise the next department?"""

from dataclasses import replace
from datetime import date, datetime
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
        key("i", "inputs", "inputs", "Change what the plan rests on, and both plans",
            "pitch.inputs"),
        key("o", "offer_pages", "offer", "Read the offer as text, and write it", "pitch.offer"),
        key("F,shift+f", "release", "release", "Release figures for outsiders", "pitch.release",
            display="F", is_quiet=True),
    ]  # fmt: skip
    DOCUMENTS = (PROPOSAL,)
    QUESTION = PITCH
    PAGE = staticmethod(pitch_page)
    HELP = (
        "One season ahead at a department that is no client yet, simulated from what is recorded: "
        "what happens without guards, what guards would keep, what that takes under two plans. A "
        "range that reaches 0 promises nothing. Without teams of your own it is a department like "
        "those served. t lists the prospect's teams, or reads them from a table; i takes take-up, "
        "scanning, and the two plans with their fees. Both hold until the board is left and are "
        "written to no store: e saves the teams as a table that t, and --teams on the command "
        "line, read again. o shows the offer to the department as text, with what it lacks and "
        "hides, and writes it: it quotes the last release of figures, which F makes, and holds no "
        "athlete and no small count. e saves it in other forms."
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
        from seasonboard.ui.pitch.plan_window import PlanForm

        if self._can_plan() and self.scope is not None:
            asked = (self.answer, self.scope, self.options, self.answer_source)
            self.app.push_screen(PlanForm(*asked, self.ask_with))

    def action_offer_pages(self) -> None:
        """Show the offer as text, to be written with the notes."""
        from seasonboard.ui.pitch.offer_window import OfferScreen

        if self._can_plan() and self.scope is not None:
            window = OfferScreen(self.document_context(self.scope), self._today())
            self.app.push_screen(window, partial(self._say, "Written: {}."))

    def action_release(self) -> None:
        """Show the next release of figures for outsiders, to be made."""
        from seasonboard.ui.pitch.release_window import ReleaseScreen

        if self._can_plan():
            said = "Released as {}. o shows the offer that quotes it."
            window = ReleaseScreen(self.answer_source, self._today())
            self.app.push_screen(window, partial(self._say, said))

    def _today(self) -> date:
        return datetime.now().astimezone().date()

    def _say(self, said: str, what: str | None) -> None:
        if what is not None:
            self.notify(said.format(what), markup=False)


SCREEN = PitchScreen
