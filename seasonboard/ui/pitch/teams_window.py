"""The window in which a prospect's teams are listed, changed, or read from a table."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers.words import plural
from seasonboard.errors import SeasonboardError
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.forms.prospect_team_form import read_team, team_form, typed_team
from seasonboard.ui.forms.sitting_form import TakenForm
from seasonboard.ui.layout.format import clean
from seasonboard.ui.pitch.prospect_path import ProspectPath
from seasonboard.ui.pitch.team_words import (
    HEAD,
    MOST_LINES,
    problem_lines,
    team_groups,
    team_line,
)
from seasonboard.ui.pitch.teams_bindings import BINDINGS, CSS
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource

HOLDS = "They hold until the board is left; e on Pitch saves them as a table for f."
LEAVING = "The teams were changed. Again leaves them as they were; any other key goes on."
NO_TEAM = "There is no team: a adds one, f reads a table, o takes teams like those served."


class TeamList(Choices, can_focus=True):
    """The teams, one of them under the cursor."""


@dataclass(frozen=True, slots=True)
class ListedTeams:
    """The teams of the list; `is_served` says that they are those of the store."""

    teams: tuple[ProspectTeam, ...]
    is_served: bool
    notes: tuple[str, ...] = ()


class TeamsScreen(ModalScreen[bool]):
    """Lists the teams; `take` gets the prospect, or None for one like those served."""

    CSS = CSS
    AUTO_FOCUS = "TeamList"
    BINDINGS: ClassVar[list[BindingType]] = BINDINGS

    def __init__(
        self,
        listed: ListedTeams,
        served: Sequence[ProspectTeam],
        answer_source: "AnswerSource",
        *,
        take: Callable[[Prospect | None], None],
    ) -> None:
        """Begin with `listed`; `served` are the teams of a department like those served."""
        super().__init__()
        self._first = self._listed = listed
        self._served = tuple(served)
        self._answer_source = answer_source
        self._take_over = take
        self._before: list[ListedTeams] = []
        self._is_leaving = False

    def compose(self) -> ComposeResult:
        """Put the teams over what is told of them."""
        yield Static(Text(" The prospect's teams, for one season"), id="title")
        yield TeamList()
        yield Static(Text(""), id="says")
        yield ProspectPath()
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Show what there is."""
        self._show()
        self._say(HOLDS)

    @on(ProspectPath.Says)
    def _path_says(self, message: ProspectPath.Says) -> None:
        message.stop()
        self._say(*message.lines)

    def _say(self, *lines: str) -> None:
        self.query_one("#says", Static).update(Text("\n".join(clean(line) for line in lines)))

    @property
    def _path(self) -> ProspectPath:
        return self.query_one(ProspectPath)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Leave letters to the path while it is typed."""
        of_list = {"change", "add", "remove", "undo", "file", "served", "walk"}
        return action not in of_list or not self.is_mounted or not self._path.is_open

    @property
    def _cursor(self) -> int:
        return self.query_one(TeamList).cursor

    def _show(self, cursor: int = 0) -> None:
        lines = [(team_line(team), team_groups(team)) for team in self._listed.teams]
        self.query_one(TeamList).show(f"  {HEAD}", lines, min(cursor, len(lines) - 1))

    def _change(self, listed: ListedTeams, cursor: int, *lines: str) -> None:
        self._before.append(self._listed)
        self._listed = listed
        self._is_leaving = False
        self._show(cursor)
        self._say(*lines)

    # The teams

    def action_walk(self, by: int) -> None:
        """Go along the teams."""
        self._goes_on()
        last = len(self._listed.teams) - 1
        self.query_one(TeamList).cursor = min(max(0, self._cursor + by), last)

    def action_add(self) -> None:
        """Add a team after the last one."""
        self._edit(len(self._listed.teams), {})

    def action_change(self) -> None:
        """Change the team under the cursor."""
        if self._listed.teams:
            self._edit(self._cursor, typed_team(self._listed.teams[self._cursor]))
        else:
            self.action_add()

    def _edit(self, number: int, start: Mapping[str, str]) -> None:
        self._goes_on()
        teams = self._listed.teams
        sports = [value.value for value in self._answer_source.scope_values.values.get("sport", ())]
        others = (*teams[:number], *teams[number + 1 :])
        self.app.push_screen(
            TakenForm(
                team_form(sports),
                self._answer_source,
                start,
                read=partial(read_team, sports=sports, others=others),
                take=partial(self._replace, number),
            )
        )

    def _replace(self, number: int, team: ProspectTeam) -> None:
        teams = self._listed.teams
        if teams[number : number + 1] != (team,):
            changed = (*teams[:number], team, *teams[number + 1 :])
            self._change(ListedTeams(changed, is_served=False), number)

    def action_remove(self) -> None:
        """Remove the team under the cursor."""
        number, teams = self._cursor, self._listed.teams
        if teams:
            others = (*teams[:number], *teams[number + 1 :])
            line = f"Removed: {teams[number].name}. u brings it back."
            self._change(ListedTeams(others, is_served=False), number, line)

    def action_served(self) -> None:
        """Take the teams of a department like those served."""
        if not self._listed.is_served:
            self._change(ListedTeams(self._served, is_served=True), 0, "Teams like those served.")

    def action_undo(self) -> None:
        """Take back the last change."""
        self._goes_on()
        if self._before:
            self._listed = self._before.pop()
            self._show(self._cursor)
            self._say("As it was before the last change.")
        else:
            self._say("Nothing was changed here.")

    # The table

    def action_file(self) -> None:
        """Ask for a table."""
        self._goes_on()
        self._path.open()
        self.refresh_bindings()

    def action_complete(self) -> None:
        """Complete the path, and show what it could become."""
        if self._path.is_open:
            self._path.complete()

    @on(ProspectPath.Submitted)
    def _path_typed(self, event: ProspectPath.Submitted) -> None:
        event.stop()
        self._path.read()

    @on(ProspectPath.Read)
    def _table_read(self, message: ProspectPath.Read) -> None:
        """List the teams of a table, or say what is wrong with it."""
        message.stop()
        prospect = message.outcome
        if isinstance(prospect, SeasonboardError):
            self._say(*problem_lines(prospect))
            return
        self._close_path()
        line = f"{plural(len(prospect.teams), 'team')} of {message.name}; u brings the others back."
        listed = ListedTeams(prospect.teams, is_served=False, notes=prospect.notes)
        self._change(listed, 0, line, *prospect.notes[: MOST_LINES - 1])

    def _close_path(self) -> None:
        self._path.close()
        self.set_focus(self.query_one(TeamList))
        self._say(HOLDS)
        self.refresh_bindings()

    # Leaving

    def action_take(self) -> None:
        """Read the table that is named; else plan with these teams."""
        if self._path.is_open:
            self._path.read()
            return
        if not self._listed.teams:
            self._say(NO_TEAM)
            return
        listed = self._listed
        self._take_over(None if listed.is_served else Prospect(listed.teams, listed.notes))
        self.dismiss(True)

    def holds_back(self) -> bool:
        """Say whether leaving now would lose something; if so, ask about it."""
        is_same = replace(self._listed, notes=()) == replace(self._first, notes=())
        if is_same or self._is_leaving:
            return False
        self._is_leaving = True
        self._say(LEAVING)
        return True

    def _goes_on(self) -> None:
        if self._is_leaving:
            self._is_leaving = False
            self._say(HOLDS)

    def action_leave(self) -> None:
        """Leave the path, then the window; ask once when the teams were changed."""
        if self._path.is_open:
            self._close_path()
        elif not self.holds_back():
            self.dismiss(False)
