"""What the commands need of the rest of the program, as callables that `wiring` supplies."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from seasonboard.load_dialog import LoadDialog
from seasonboard.store_outcomes import BundleContent, ExportedTable, ListedBackup

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from seasonboard.answers.source import AnswerSource
    from seasonboard.prospect import Prospect


@dataclass(frozen=True, slots=True)
class Tools:
    """The callables behind the commands; each raises the program's own errors.

    `load` and `undo` return None when what they would do was shown but not done; `restore` returns
    where the replaced store lies. Those of `...` take what they ask and tell by name.
    """

    open_board: "Callable[[Path], AbstractContextManager[AnswerSource]]"
    open_kept: "Callable[[Path], AbstractContextManager[AnswerSource]]"
    open_sample: "Callable[[], AbstractContextManager[AnswerSource]]"
    sample_path: Callable[[], Path]
    last_store: Callable[[], Path | None]
    remember_store: Callable[[Path], None]
    load: Callable[[Path, Sequence[Path], LoadDialog], object]
    undo: Callable[..., object]
    backup: Callable[[Path, Path | None], Path]
    backups: Callable[[Path], Sequence[ListedBackup]]
    restore: Callable[..., Path | None]
    verify: Callable[..., Mapping[str, int]]
    bundle: Callable[[Path, Path, str | None], BundleContent]
    export: Callable[..., Sequence[ExportedTable]]
    read_prospect: "Callable[[Path], Prospect]"
    write_sample: Callable[..., Sequence[Path]]
    show_board: Callable[[Path | None, bool, bool], int]
    help_part: Callable[[str], str]
