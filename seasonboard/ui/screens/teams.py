"""The window in which a prospect's teams are listed, changed, or read from a table."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from seasonboard.errors import IntakeError, SeasonboardError
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.ui.bugs import written_down
from seasonboard.ui.format import clean, fit
from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.forms.of_prospect import read_team, team_form, typed_team
from seasonboard.ui.forms.taken import TakenForm
from seasonboard.ui.loading.paths import completed, typed_path
from seasonboard.ui.screens.teams_bindings import BINDINGS, CSS, FILE_KEYS, KEYS
from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from seasonboard.answers.asker import Asker

LEAVING = "The teams were changed. Again leaves them as they were; any other key goes on."
NO_TEAM = "There is no team: a adds one, f reads a table, o takes teams like those served."
NO_FILES = "This board cannot read tables; use “seasonboard ask pitch --teams FILE”."
_MOST = 8
"""Problems told at once."""

ReadProspect = Callable[[Path], Prospect]


@dataclass(frozen=True, slots=True)
class Listed:
    """The teams of the list; `is_served` says that they are those of the store."""

    teams: tuple[ProspectTeam, ...]
    is_served: bool
    notes: tuple[str, ...] = ()


class TeamsScreen(ModalScreen[bool]):
    """Lists the teams; `take` gets the prospect, or None for one like those served."""

    CSS = CSS
    HELP = (
        "The teams of the department you want to win, for one season. They hold until the board is "
        "left and are written to no store; e on Pitch saves them as a table, which f reads here "
        "and --teams on the command line."
    )
    BINDINGS: ClassVar[list[BindingType]] = BINDINGS

    @dataclass
    class Read(Message):
        """What became of reading a table."""

        number: int
        path: Path
        outcome: Prospect | SeasonboardError

    def __init__(
        self,
        listed: Listed,
        served: Sequence[ProspectTeam],
        asker: "Asker",
        *,
        take: Callable[[Prospect | None], None],
    ) -> None:
        """Begin with `listed`; `served` are the teams of a department like those served."""
        super().__init__()
        self._first = self._listed = listed
        self._served = tuple(served)
        self._asker = asker
        self._take_over = take
        self._before: list[Listed] = []
        self._is_leaving = False
        self._number = 0

    def compose(self) -> ComposeResult:
        """Put the teams over what is told of them."""
        yield Static(Text(" The prospect's teams, for one season"), id="title")
        yield Choices()
        yield Static(Text(""), id="told")
        yield Input(id="path", compact=True, placeholder="a CSV, XLSX or Parquet file")
        yield Static(Text(f" {KEYS}", no_wrap=True), id="keys")
        yield TooSmall()

    def on_mount(self) -> None:
        """Show what there is."""
        self.set_focus(None)
        self._show()

    @property
    def _cursor(self) -> int:
        return self.query_one(Choices).cursor

    def _show(self, cursor: int = 0) -> None:
        head = f"{'team':30} {'athletes':>8} {'games':>6} {'practices':>10}   position groups"
        lines = [(_line(team), _groups(team)) for team in self._listed.teams]
        self.query_one(Choices).show(f"  {head}", lines, min(cursor, len(lines) - 1))

    def _tell(self, *told: str) -> None:
        self.query_one("#told", Static).update(Text("\n".join(clean(one) for one in told)))

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
        self.query_one(Choices).cursor = min(max(0, self._cursor + by), last)

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
        sports = [value.value for value in self._asker.known.values.get("sport", ())]
        others = (*teams[:place], *teams[place + 1 :])
        self.app.push_screen(
            TakenForm(
                team_form(sports),
                self._asker,
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
            told = f"Removed: {_named(teams[place])}. u brings it back."
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

    # A table

    @property
    def _path(self) -> Input:
        return self.query_one("#path", Input)

    def action_file(self) -> None:
        """Ask for a table."""
        self._goes_on()
        if self._reader() is None:
            self._tell(NO_FILES)
            return
        self._ask_path(is_asked=True)

    def _reader(self) -> ReadProspect | None:
        maker = getattr(self.app, "maker", None)
        return None if maker is None else maker.read_prospect

    def _ask_path(self, *, is_asked: bool) -> None:
        self._path.set_class(is_asked, "-shown")
        self.set_focus(self._path if is_asked else None)
        told = FILE_KEYS if is_asked else KEYS
        self.query_one("#keys", Static).update(Text(f" {told}", no_wrap=True))

    def action_complete(self) -> None:
        """Complete the path, and show what it could become."""
        if not self._path.has_class("-shown"):
            return
        grown, names = completed(self._path.value)
        self._path.value = grown
        self._path.cursor_position = len(grown)
        wide = max(20, self.size.width - 2)
        self._tell(*(fit(clean(name), wide).rstrip() for name in names[:_MOST] if len(names) > 1))

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        read = self._reader()
        if event.value.strip() and read is not None:
            self._number += 1
            self._tell("reading …")
            self._fetch(self._number, typed_path(event.value), read)

    @work(thread=True, exclusive=True, group="prospect")
    def _fetch(self, number: int, path: Path, read: ReadProspect) -> None:
        outcome: Prospect | SeasonboardError
        try:
            outcome = read(path)
        except SeasonboardError as problem:
            outcome = problem
        except Exception as bug:  # noqa: BLE001 - a bug in reading must not end the board
            outcome = written_down(bug, "reading the prospect's teams")
        self.post_message(self.Read(number, path, outcome))

    def on_teams_screen_read(self, message: Read) -> None:
        """List the teams of the table, or say what is wrong with it."""
        message.stop()
        if message.number != self._number:
            return
        outcome = message.outcome
        if isinstance(outcome, SeasonboardError):
            self._tell(*_problems(outcome))
            return
        self._ask_path(is_asked=False)
        told = f"{len(outcome.teams)} teams of {message.path.name}; u brings the others back."
        listed = Listed(outcome.teams, is_served=False, notes=outcome.notes)
        self._change(listed, 0, told, *outcome.notes[: _MOST - 1])

    # Leaving

    def action_take(self) -> None:
        """Plan with these teams."""
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
            self._tell()

    def action_leave(self) -> None:
        """Leave the path, then the window; ask once when the teams were changed."""
        if self._path.has_class("-shown"):
            self._number += 1
            self._ask_path(is_asked=False)
            self._tell()
        elif not self.holds_back():
            self.dismiss(False)


def _named(team: ProspectTeam) -> str:
    whose = {"women": "women's", "men": "men's"}.get(team.sex, team.sex)
    return f"{whose} {team.sport}"


def _line(team: ProspectTeam) -> str:
    name = fit(clean(_named(team)), 30)
    return f"{name} {team.athletes:>8} {team.games:>6} {team.practices:>10}"


def _groups(team: ProspectTeam) -> str:
    return ", ".join(f"{name} {athletes}" for name, athletes in team.groups)


def _problems(error: SeasonboardError) -> list[str]:
    found = error.problems if isinstance(error, IntakeError) else ()
    told = [error.what, *(problem.sentence() for problem in found[:_MOST])]
    if len(found) > _MOST:
        told.append(f"… and {len(found) - _MOST} more.")
    return [*told, error.hint] if not found else told
