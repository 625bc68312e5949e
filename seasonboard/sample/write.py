"""The sample season as files."""

import json
import shutil
import tempfile
from pathlib import Path

from seasonboard.errors import SeasonboardError
from seasonboard.sample.season import make_season
from seasonboard.sample.truth import DEFAULT_SEED, DEFAULT_SIZE, truth_as_json


def write_season(
    directory: Path,
    *,
    seed: int = DEFAULT_SEED,
    size: float = DEFAULT_SIZE,
    return_ratio: float = 1.0,
) -> list[Path]:
    """Write one CSV for each table, and truth.json; all of them or none.

    UTF-8, comma, LF, empty is missing. Files that are there already with the very same content
    are left as they are.

    Args:
        directory: Where to; made when it is not there.
        seed: As for `make_season`.
        size: As for `make_season`.
        return_ratio: As for `make_season`.

    Returns:
        The files, tables first.

    Raises:
        SeasonboardError: Other files of those names are there, the folder cannot be written, or
            the seed, size or ratio is out of range.
    """
    if directory.exists() and not directory.is_dir():
        raise SeasonboardError(
            f"{directory} is a file, not a folder.", "Name a folder for the sample season."
        )
    tables = make_season(seed=seed, size=size, return_ratio=return_ratio)
    try:
        directory.parent.mkdir(parents=True, exist_ok=True)
        waiting = Path(tempfile.mkdtemp(prefix=".sample-season-", dir=directory.parent))
        try:
            for name, table in tables.items():
                table.write_csv(waiting / f"{name}.csv", line_terminator="\n", null_value="")
            told = truth_as_json(seed=seed, size=size, return_ratio=return_ratio)
            planted = json.dumps(told, indent=2, ensure_ascii=False)
            (waiting / "truth.json").write_text(planted + "\n", encoding="utf-8", newline="\n")
            names = [*(f"{name}.csv" for name in tables), "truth.json"]
            _refuse_others(waiting, directory, names)
            _move(waiting, directory, names)
        finally:
            shutil.rmtree(waiting, ignore_errors=True)
    except OSError as problem:
        raise SeasonboardError(
            f"The sample season could not be written to {directory}: {problem.strerror}.",
            "Choose a folder that can be written, with enough room.",
        ) from problem
    return [directory / name for name in names]


def _refuse_others(waiting: Path, directory: Path, names: list[str]) -> None:
    """Stop before anything is touched when a file of ours would replace a different one."""
    others = [
        name
        for name in names
        if (directory / name).exists()
        and (
            not (directory / name).is_file()
            or (directory / name).read_bytes() != (waiting / name).read_bytes()
        )
    ]
    if others:
        raise SeasonboardError(
            f"{directory} already holds other files named {', '.join(others)}.",
            "Choose an empty folder, or move these files away first. Nothing was written.",
        )


def _move(waiting: Path, directory: Path, names: list[str]) -> None:
    """Move the files that are not there yet; take them back if one cannot be moved."""
    fresh = not directory.exists()
    directory.mkdir(exist_ok=True)
    moved: list[Path] = []
    try:
        for name in names:
            if not (directory / name).exists():
                (waiting / name).replace(directory / name)
                moved.append(directory / name)
    except OSError:
        for path in moved:
            path.unlink(missing_ok=True)
        if fresh:
            directory.rmdir()
        raise
