"""The window in which a prospect's teams are listed, changed, or read from a table."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input, Static

from seasonboard.answers.words import plural
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.ui.forms.prospect_team_form import read_team, team_form, typed_team
from seasonboard.ui.forms.sitting_form import TakenForm
from seasonboard.ui.pitch.team_text import (
    HEAD,
    MOST_TOLD,
    team_groups,
    team_line,
    team_name,
)
from seasonboard.ui.pitch.teams_bindings import BINDINGS, CSS, HOLDS
from seasonboard.ui.pitch.teams_file import TableScreen, TeamList
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource

LEAVING = "The teams were changed. Again leaves them as they were; any other key goes on."
NO_TEAM = "There is no team: a adds one, f reads a table, o takes teams like those served."


@dataclass(frozen=True, slots=True)
class Listed:
    """The teams of the list; `is_served` says that they are those of the store."""

    teams: tuple[ProspectTeam, ...]
    is_served: bool
    notes: tuple[str, ...] = ()


class TeamsScreen(TableScreen):
    """Lists the teams; `take` gets the prospect, or None for one like those served."""

    CSS = CSS
    AUTO_FOCUS = "TeamList"
    BINDINGS: ClassVar[list[BindingType]] = BINDINGS

    def __init__(
        self,
        listed: Listed,
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
        self._before: list[Listed] = []
        self._is_leaving = False

    def compose(self) -> ComposeResult:
        """Put the teams over what is told of them."""
        yield Static(Text(" The prospect's teams, for one season"), id="title")
        yield TeamList()
        yield Static(Text(""), id="told")
        yield Input(id="path", compact=True, placeholder="a CSV, XLSX or Parquet file")
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Show what there is."""
        self._show()
        self._tell(HOLDS)

    @property
    def _cursor(self) -> int:
        return self.query_one(TeamList).cursor

    def _show(self, cursor: int = 0) -> None:
        lines = [(team_line(team), team_groups(team)) for team in self._listed.teams]
        self.query_one(TeamList).show(f"  {HEAD}", lines, min(cursor, len(lines) - 1))

    def _change(self, listed: Listed, cursor: int, *told: str) -> None:
        self._before.append(self._listed)
        self._listed = listed
        self._is_leaving = False
        self._show(cursor)
        self._tell(*told)

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

    def _edit(self, place: int, start: Mapping[str, str]) -> None:
        self._goes_on()
        teams = self._listed.teams
        sports = [value.value for value in self._answer_source.scope_values.values.get("sport", ())]
        others = (*teams[:place], *teams[place + 1 :])
        self.app.push_screen(
            TakenForm(
                team_form(sports),
                self._answer_source,
                start,
                read=partial(read_team, sports=sports, others=others),
                take=partial(self._put, place),
            )
        )

    def _put(self, place: int, team: ProspectTeam) -> None:
        teams = self._listed.teams
        if teams[place : place + 1] != (team,):
            put = (*teams[:place], team, *teams[place + 1 :])
            self._change(Listed(put, is_served=False), place)

    def action_remove(self) -> None:
        """Remove the team under the cursor."""
        place, teams = self._cursor, self._listed.teams
        if teams:
            left = (*teams[:place], *teams[place + 1 :])
            told = f"Removed: {team_name(teams[place])}. u brings it back."
            self._change(Listed(left, is_served=False), place, told)

    def action_served(self) -> None:
        """Take the teams of a department like those served."""
        if not self._listed.is_served:
            self._change(Listed(self._served, is_served=True), 0, "Teams like those served.")

    def action_undo(self) -> None:
        """Take back the last change."""
        self._goes_on()
        if self._before:
            self._listed = self._before.pop()
            self._show(self._cursor)
            self._tell("As it was before the last change.")
        else:
            self._tell("Nothing was changed here.")

    def has_read(self, prospect: Prospect, name: str) -> None:
        """List the teams of a table."""
        told = f"{plural(len(prospect.teams), 'team')} of {name}; u brings the others back."
        listed = Listed(prospect.teams, is_served=False, notes=prospect.notes)
        self._change(listed, 0, told, *prospect.notes[: MOST_TOLD - 1])

    # Leaving

    def action_take(self) -> None:
        """Read the table that is named; else plan with these teams."""
        if self._is_at_path:
            self._read()
            return
        if not self._listed.teams:
            self._tell(NO_TEAM)
            return
        held = self._listed
        self._take_over(None if held.is_served else Prospect(held.teams, held.notes))
        self.dismiss(True)

    def holds_back(self) -> bool:
        """Say whether leaving now would lose something; if so, ask about it."""
        is_same = replace(self._listed, notes=()) == replace(self._first, notes=())
        if is_same or self._is_leaving:
            return False
        self._is_leaving = True
        self._tell(LEAVING)
        return True

    def _goes_on(self) -> None:
        if self._is_leaving:
            self._is_leaving = False
            self._tell(HOLDS)

    def action_leave(self) -> None:
        """Leave the path, then the window; ask once when the teams were changed."""
        if self._is_at_path:
            self._number += 1
            self._ask_path(is_asked=False)
        elif not self.holds_back():
            self.dismiss(False)
