"""Stores that hold the small season, for trying what can happen to a file."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.attaching import attach, connect, contents
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.reopening_store import ReopeningStore
from tests.intake.desk import SMALL_SEASON
from tests.queries.build import drawn

MORE = "team,department,sport,sex\nT9,D1,rowing,mixed\n"
NOBODY = 65534


def yes(_shown: object) -> bool:
    return True


def held(path: Path) -> dict[str, tuple[int, int]]:
    """Read every cell of a store: rows by table, and a sum over them."""
    connection = connect()
    try:
        attach(connection, path, read_only=True)
        return dict(contents(connection))
    finally:
        connection.close()


def names(folder: Path) -> list[str]:
    return sorted(file.name for file in folder.iterdir())


def more(folder: Path) -> list[Path]:
    """Write a load of one more team."""
    (folder / "teams.csv").write_text(MORE)
    return [folder / "teams.csv"]


@pytest.fixture(scope="session")
def season_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("season")
    for name, text in SMALL_SEASON.items():
        (folder / f"{name}.csv").write_text(text)
    return folder


@pytest.fixture(scope="session")
def season_store(season_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a store that holds the small season; tests copy it."""
    path = tmp_path_factory.mktemp("loaded") / "season.duckdb"
    load_paths(path, [season_folder], UnattendedLoad())
    return path


@pytest.fixture
def season(season_store: Path, tmp_path: Path) -> Path:
    """Return a copy of that store, alone in its folder."""
    (tmp_path / "stores").mkdir()
    return Path(shutil.copy(season_store, tmp_path / "stores" / "season.duckdb"))


@pytest.fixture(scope="session")
def one_game(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a store of one game, played by A bare and by B guarded; tests copy it."""
    folder = tmp_path_factory.mktemp("one-game")
    tables = drawn("A B\nG2@2 . g").write(folder / "tables")
    load_paths(folder / "season.store", [tables], UnattendedLoad())
    return folder / "season.store"


@pytest.fixture
def path(one_game: Path, tmp_path: Path) -> Path:
    """Return a copy of the store of one game."""
    return Path(shutil.copy(one_game, tmp_path / "season.store"))


@pytest.fixture(name="held")
def held_open(path: Path) -> Iterator[ReopeningStore]:
    """Hold that copy as the board does."""
    store = ReopeningStore(path)
    yield store
    store.close()


@pytest.fixture
def outsider():
    """Give a context in which this process may no more than a stranger, and a folder for it."""

    @contextmanager
    def as_stranger() -> Iterator[None]:
        if os.geteuid() != 0:
            yield
            return
        os.seteuid(NOBODY)
        try:
            yield
        finally:
            os.seteuid(0)

    return as_stranger


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """Give a folder that a stranger may enter, unlike those of the tests."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o777)
    yield folder
    folder.chmod(0o777)
    shutil.rmtree(folder)
