"""What the commands need of the rest of the program, as callables that `wiring` supplies."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from seasonboard.load_dialog import LoadDialog
from seasonboard.store_outcomes import (
    BundleContent,
    ExportedTable,
    ListedBackup,
    Replacement,
    UndoneLoad,
)

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from seasonboard.answers.source import AnswerSource
    from seasonboard.prospect import Prospect


@dataclass(frozen=True, slots=True)
class Tools:
    """The callables behind the commands; each raises the program's own errors.

    `load` returns False when the plan was shown but not written; `undo` takes what is shown of the
    load, what is told beside it, and whether the store is backed up first. `restore` returns where
    the replaced store lies, `export` takes whether an earlier export is replaced.
    """

    open_board: "Callable[[Path], AbstractContextManager[AnswerSource]]"
    open_sample: "Callable[[], AbstractContextManager[AnswerSource]]"
    sample_path: Callable[[], Path]
    last_store: Callable[[], Path | None]
    remember_store: Callable[[Path], None]
    load: Callable[[Path, Sequence[Path], LoadDialog], bool]
    undo: Callable[[Path, Callable[[UndoneLoad], bool], Callable[[str], object], bool], bool]
    backup: Callable[[Path, Path | None], Path]
    backups: "Callable[[Path], Sequence[ListedBackup]]"
    restore: "Callable[[Path, str | None, Callable[[Replacement], bool]], Path | None]"
    verify: Callable[[Path, Callable[[str], object]], Mapping[str, int]]
    bundle: "Callable[[Path, Path, str | None], BundleContent]"
    export: "Callable[[Path, Path, str, bool], Sequence[ExportedTable]]"
    read_prospect: "Callable[[Path], Prospect]"
    write_sample: Callable[[Path, int, float], Sequence[Path]]
    show_board: Callable[[Path | None, bool, bool], int]
    help_part: Callable[[str], str]
