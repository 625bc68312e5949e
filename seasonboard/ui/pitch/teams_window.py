"""The window in which a prospect's teams are listed, changed, or read from a table."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers.words import plural
from seasonboard.errors import IntakeError, SeasonboardError
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.forms.prospect_team_form import read_team, team_form, typed_team
from seasonboard.ui.forms.sitting_form import TakenForm
from seasonboard.ui.keys import key
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.pitch.prospect_path import MOST_LINES, ProspectPath
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource

HEAD = f"{'team':24} {'athletes':>8} {'games':>6} {'practices':>10}   position groups"
HOLDS = "They hold until the board is left; e on Pitch saves them as a table for f."
LEAVING = "The teams were changed. Again leaves them as they were; any other key goes on."
NO_TEAM = "There is no team: a adds one, f reads a table, o takes teams like those served."


class TeamList(Choices, can_focus=True):
    """The teams, one of them under the cursor."""


class TeamsScreen(ModalScreen[bool]):
    """Lists the teams; `take` gets the prospect, or None for one like those served."""

    CSS = """
    TeamsScreen { align: left top; background: $ground; }
    TeamsScreen #title { height: 1; background: $chosen; color: $chosen-text; text-style: bold; }
    TeamsScreen TeamList { height: 1fr; border: none; }
    TeamsScreen #says { height: auto; max-height: 10; padding: 0 1; text-style: bold; }
    TeamsScreen #path { display: none; background: $chosen; color: $chosen-text; margin: 0 1; }
    TeamsScreen #path.-shown { display: block; }
    """
    AUTO_FOCUS = "TeamList"
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "change", "change", "Change the team under the cursor", "teams.change"),
        key("a", "add", "add", "Add a team", "teams.add"),
        key("minus,delete", "remove", "remove", "Remove the team under the cursor", "teams.remove"),
        key("u", "undo", "undo", "Take back the last change of the teams", "teams.undo"),
        key("f", "file", "file", "Read the teams from a table", "teams.file"),
        key("o", "served", "as served", "Teams like those that are served", "teams.served"),
        key("ctrl+s", "take", "done", "Plan with these teams", "teams.take", priority=True),
        key("escape", "leave", "leave", "Leave the teams as they were", "teams.leave",
            priority=True),
        key("down", "walk(1)", "next", "The next team", "teams.next", is_quiet=True),
        key("up", "walk(-1)", "previous", "The team before", "teams.previous", is_quiet=True),
        key("tab", "complete", "complete", "Complete the path", "teams.complete", is_quiet=True,
            priority=True),
    ]  # fmt: skip

    def __init__(
        self,
        prospect: Prospect | None,
        served: Sequence[ProspectTeam],
        answer_source: "AnswerSource",
        *,
        take: Callable[[Prospect | None], None],
    ) -> None:
        """Begin with `prospect`; without one with `served`, a department like those served."""
        super().__init__()
        self._first = self._prospect = prospect
        self._served = tuple(served)
        self._answer_source = answer_source
        self._take_over = take
        self._before: list[Prospect | None] = []
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
    def _teams(self) -> tuple[ProspectTeam, ...]:
        return self._served if self._prospect is None else self._prospect.teams

    @property
    def _path(self) -> ProspectPath:
        return self.query_one(ProspectPath)

    @property
    def _team_list(self) -> TeamList:
        return self.query_one(TeamList)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Leave letters to the path while it is typed."""
        of_list = {"change", "add", "remove", "undo", "file", "served", "walk"}
        return action not in of_list or not self.is_mounted or not self._path.is_open

    def _show(self, cursor: int = 0) -> None:
        lines = [_team_words(team) for team in self._teams]
        self._team_list.show(f"  {HEAD}", lines, min(cursor, len(lines) - 1))

    def _change(self, prospect: Prospect | None, cursor: int, *lines: str) -> None:
        self._before.append(self._prospect)
        self._prospect = prospect
        self._is_leaving = False
        self._show(cursor)
        self._say(*lines)

    # The teams

    def action_walk(self, by: int) -> None:
        """Go along the teams."""
        self._goes_on()
        last = len(self._teams) - 1
        self._team_list.cursor = min(max(0, self._team_list.cursor + by), last)

    def action_add(self) -> None:
        """Add a team after the last one."""
        self._edit(len(self._teams), {})

    def action_change(self) -> None:
        """Change the team under the cursor."""
        number, teams = self._team_list.cursor, self._teams
        if teams:
            self._edit(number, typed_team(teams[number]))
        else:
            self.action_add()

    def _edit(self, number: int, start: Mapping[str, str]) -> None:
        self._goes_on()
        teams = self._teams
        sports = [value.value for value in self._answer_source.scope_values.values.get("sport", ())]
        others = (*teams[:number], *teams[number + 1 :])
        read = partial(read_team, sports=sports, others=others)

        def take(team: ProspectTeam) -> None:
            if teams[number : number + 1] != (team,):
                changed = (*teams[:number], team, *teams[number + 1 :])
                self._change(Prospect(changed), number)

        form = team_form(sports)
        self.app.push_screen(TakenForm(form, self._answer_source, start, read=read, take=take))

    def action_remove(self) -> None:
        """Remove the team under the cursor."""
        number, teams = self._team_list.cursor, self._teams
        if teams:
            others = (*teams[:number], *teams[number + 1 :])
            line = f"Removed: {teams[number].name}. u brings it back."
            self._change(Prospect(others), number, line)

    def action_served(self) -> None:
        """Take the teams of a department like those served."""
        if self._prospect is not None:
            self._change(None, 0, "Teams like those served.")

    def action_undo(self) -> None:
        """Take back the last change."""
        self._goes_on()
        if self._before:
            self._prospect = self._before.pop()
            self._show(self._team_list.cursor)
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
            self._say(*_problem_lines(prospect))
            return
        self._close_path()
        line = f"{plural(len(prospect.teams), 'team')} of {message.name}; u brings the others back."
        self._change(prospect, 0, line, *prospect.notes[: MOST_LINES - 1])

    def _close_path(self) -> None:
        self._path.close()
        self.set_focus(self._team_list)
        self._say(HOLDS)
        self.refresh_bindings()

    # Leaving

    def action_take(self) -> None:
        """Read the table that is named; else plan with these teams."""
        if self._path.is_open:
            self._path.read()
        elif not self._teams:
            self._say(NO_TEAM)
        else:
            self._take_over(self._prospect)
            self.dismiss(True)

    def holds_back(self) -> bool:
        """Say whether leaving now would lose something; if so, ask about it."""
        now, first = (one.teams if one else None for one in (self._prospect, self._first))
        if now == first or self._is_leaving:
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


def _team_words(team: ProspectTeam) -> tuple[str, str]:
    """Return a team as a line of the list, under `HEAD`, and its position groups."""
    line = f"{fit(clean(team.name), 24)} {team.athletes:>8} {team.games:>6} {team.practices:>10}"
    return line, ", ".join(f"{name} {athletes}" for name, athletes in team.groups)


def _problem_lines(error: SeasonboardError) -> list[str]:
    """Return what is wrong with a table, as many lines as there is room for."""
    problems = error.problems if isinstance(error, IntakeError) else ()
    lines = [error.what, *(problem.sentence() for problem in problems[:MOST_LINES])]
    if len(problems) > MOST_LINES:
        lines.append(f"… and {len(problems) - MOST_LINES} more.")
    return lines if problems else [*lines, error.hint]
