"""What the commands need of the rest of the program, as callables that `wiring` supplies."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from seasonboard.errors import Problem

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from seasonboard.answers.store_answers import StoreAnswers
    from seasonboard.cli.backup import BackupListed, Replaced
    from seasonboard.cli.bundle import Packed
    from seasonboard.cli.export import Exported
    from seasonboard.cli.undo import Undoing
    from seasonboard.prospect import Prospect


class TablePlanned(Protocol):
    """What a load would do to one table."""

    @property
    def table(self) -> str:
        """Return the table's name."""
        ...

    @property
    def file(self) -> str:
        """Return the file it is read from."""
        ...

    @property
    def new(self) -> int:
        """Return how many rows are new."""
        ...

    @property
    def changed(self) -> int:
        """Return how many rows change."""
        ...

    @property
    def same(self) -> int:
        """Return how many rows are already there as they are."""
        ...


class Planned(Protocol):
    """What a load would do."""

    @property
    def tables(self) -> Sequence[TablePlanned]:
        """Return the plan table by table."""
        ...

    @property
    def notes(self) -> Sequence[Problem]:
        """Return what is kept but doubtful, and what was cleaned."""
        ...


Confirm = Callable[[Planned], bool]


@dataclass(frozen=True, slots=True)
class Tools:
    """The callables behind the commands.

    `load` returns False when the plan was shown but not written.
    """

    open_board: "Callable[[Path], AbstractContextManager[StoreAnswers]]"
    open_sample: "Callable[[], AbstractContextManager[StoreAnswers]]"
    sample_path: Callable[[], Path]
    last_store: Callable[[], Path | None]
    remember_store: Callable[[Path], None]
    load: Callable[[Path, Sequence[Path], Confirm], bool]
    undo: "Callable[[Path, Callable[[Undoing], bool]], bool]"
    backup: Callable[[Path, Path | None], Path]
    backups: "Callable[[Path], Sequence[BackupListed]]"
    restore: "Callable[[Path, str | None, Callable[[Replaced], bool]], Path | None]"
    verify: Callable[[Path, Callable[[str], object]], Mapping[str, int]]
    bundle: "Callable[[Path, Path, str | None], Packed]"
    export: "Callable[[Path, Path, str, bool], Sequence[Exported]]"
    read_prospect: "Callable[[Path], Prospect]"
    write_sample: Callable[[Path, int, float], Sequence[Path]]
    show_board: Callable[[Path | None, bool, bool], int]
    help_part: Callable[[str], str]
