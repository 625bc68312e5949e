"""Naming the table of a prospect's teams, and reading it in a thread."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from rich.text import Text
from textual import on, work
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from seasonboard.errors import SeasonboardError
from seasonboard.prospect import Prospect
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.loading.paths import completed, typed_path
from seasonboard.ui.pitch.team_text import MOST_TOLD, problems_told
from seasonboard.ui.pitch.teams_bindings import FILE_TOLD, HOLDS

NO_FILES = "This board cannot read tables; use “seasonboard ask pitch --teams FILE”."

ReadProspect = Callable[[Path], Prospect]


class TeamList(Choices, can_focus=True):
    """The teams, one of them under the cursor."""


class TableScreen(ModalScreen[bool]):
    """A window with a line for a path; a subclass lists the teams that are read."""

    @dataclass
    class Read(Message):
        """What became of reading a table."""

        number: int
        name: str
        outcome: Prospect | SeasonboardError

    def __init__(self) -> None:
        """Begin without a path."""
        super().__init__()
        self._number = 0

    def has_read(self, prospect: Prospect, name: str) -> None:
        """List the teams of a table."""
        raise NotImplementedError

    def _tell(self, *told: str) -> None:
        self.query_one("#told", Static).update(Text("\n".join(clean(one) for one in told)))

    def _goes_on(self) -> None:
        """Take back that the window was about to be left; nothing here."""

    @property
    def _path(self) -> Input:
        return self.query_one("#path", Input)

    @property
    def _is_at_path(self) -> bool:
        return self._path.has_class("-shown")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Leave letters to the path while it is typed."""
        of_list = {"change", "add", "remove", "undo", "file", "served", "walk"}
        return action not in of_list or not self.is_mounted or not self._is_at_path

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
        self.set_focus(self._path if is_asked else self.query_one(TeamList))
        self._tell(FILE_TOLD if is_asked else HOLDS)
        self.refresh_bindings()

    def action_complete(self) -> None:
        """Complete the path, and show what it could become."""
        if not self._is_at_path:
            return
        grown, names = completed(self._path.value)
        self._path.value = grown
        self._path.cursor_position = len(grown)
        wide = max(20, self.size.width - 2)
        self._tell(
            *(fit(clean(name), wide).rstrip() for name in names[:MOST_TOLD] if len(names) > 1)
        )

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self._read()

    def _read(self) -> None:
        read, typed = self._reader(), self._path.value
        if typed.strip() and read is not None:
            self._number += 1
            self._tell("reading …")
            self._fetch(self._number, typed_path(typed), read)

    @work(thread=True, exclusive=True, group="prospect")
    def _fetch(self, number: int, path: Path, read: ReadProspect) -> None:
        outcome: Prospect | SeasonboardError
        try:
            outcome = read(path)
        except SeasonboardError as problem:
            outcome = problem
        except Exception as bug:  # noqa: BLE001 - a bug in reading must not end the board
            outcome = written_down(bug, "reading the prospect's teams")
        self.post_message(self.Read(number, path.name, outcome))

    def on_table_screen_read(self, message: Read) -> None:
        """Hand the teams of the table over, or say what is wrong with it."""
        message.stop()
        if message.number != self._number:
            return
        outcome = message.outcome
        if isinstance(outcome, SeasonboardError):
            self._tell(*problems_told(outcome))
        else:
            self._ask_path(is_asked=False)
            self.has_read(outcome, message.name)
