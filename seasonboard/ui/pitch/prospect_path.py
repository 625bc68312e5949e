"""Naming the table of a prospect's teams, and reading it in a thread."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from textual import work
from textual.message import Message
from textual.widgets import Input

from seasonboard.errors import SeasonboardError
from seasonboard.prospect import Prospect
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.loading.paths import completed, typed_path

NO_FILES = "This board cannot read tables; use “seasonboard ask pitch --teams FILE”."
FILE_HINT = "A table with sport, sex, athletes, games, practices; position_group may be there too."

MOST_LINES = 8
"""Problems, and paths, told at once."""

ReadProspect = Callable[[Path], Prospect]


class ProspectPath(Input):
    """A line for the path of a table; hidden until it is asked for."""

    @dataclass
    class Says(Message):
        """What there is to say."""

        lines: tuple[str, ...]

    @dataclass
    class Read(Message):
        """What became of reading the table that was named last."""

        name: str
        outcome: Prospect | SeasonboardError

    def __init__(self) -> None:
        """Begin without a path."""
        super().__init__(id="path", compact=True, placeholder="a CSV, XLSX or Parquet file")
        self._number = 0

    @property
    def is_open(self) -> bool:
        """Say whether a path is asked for."""
        return self.has_class("-shown")

    def open(self) -> None:
        """Ask for a path, unless the board cannot read tables."""
        if self._reader() is None:
            self.post_message(self.Says((NO_FILES,)))
            return
        self.add_class("-shown")
        self.focus()
        self.post_message(self.Says((FILE_HINT,)))

    def close(self) -> None:
        """Ask no more; what is being read is dropped."""
        self._number += 1
        self.remove_class("-shown")

    def complete(self) -> None:
        """Complete the path, and show what it could become."""
        self.value, names = completed(self.value)
        self.cursor_position = len(self.value)
        wide = max(20, self.screen.size.width - 2)
        lines = [fit(clean(name), wide).rstrip() for name in names[:MOST_LINES] if len(names) > 1]
        self.post_message(self.Says(tuple(lines)))

    def read(self) -> None:
        """Read the table that is named."""
        read = self._reader()
        if self.value.strip() and read is not None:
            self._number += 1
            self.post_message(self.Says(("reading …",)))
            self._read_in_thread(self._number, typed_path(self.value), read)

    def _reader(self) -> ReadProspect | None:
        maker = getattr(self.app, "maker", None)
        return None if maker is None else maker.read_prospect

    @work(thread=True, exclusive=True, group="prospect")
    def _read_in_thread(self, number: int, path: Path, read: ReadProspect) -> None:
        outcome: Prospect | SeasonboardError
        try:
            outcome = read(path)
        except SeasonboardError as problem:
            outcome = problem
        except Exception as bug:  # noqa: BLE001 - a bug in reading must not end the board
            outcome = written_down(bug, "reading the prospect's teams")
        self.app.call_from_thread(self._has_read, number, path.name, outcome)

    def _has_read(self, number: int, name: str, outcome: Prospect | SeasonboardError) -> None:
        if number == self._number:
            self.post_message(self.Read(name, outcome))
