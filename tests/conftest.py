"""What the tests share: the command line as a process, and stores made once a run."""

import gc
import json
import os
import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

# Each worker has one core: further threads of its own only get in the way of the others'. It is set
# before polars is imported, which is why it stands here.
os.environ.setdefault("POLARS_MAX_THREADS", "1")

from tests import front_door
from tests.forked import run_forked
from tests.patience import PATIENCE
from tests.reused import made_once

ROOT = Path(__file__).resolve().parent.parent

gc.set_threshold(200_000, 50, 50)  # garbage is looked for seldom: a tenth of the time

# No property fails because the machine is slow or busy.
settings.register_profile("no clock", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("no clock")


@dataclass(frozen=True)
class Done:
    """A command that has ended."""

    status: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """Return what it printed, as JSON without NaN or Infinity."""

        def refuse(word: str) -> None:
            raise ValueError(f"{word} in JSON")

        return json.loads(self.out, parse_constant=refuse)


Run = Callable[..., Done]


def pytest_collection_finish() -> None:
    """Leave what was imported and collected out of every later search for garbage."""
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a home folder of the tests' own, so that no test touches the user's."""
    return tmp_path_factory.mktemp("home")


@pytest.fixture(scope="session")
def run(home: Path) -> Run:
    """Run `seasonboard` as a process: `run("ask", "games", …)` gives status, out and err.

    It is forked from one that has imported all it needs; with `fresh=True` it starts from nothing.
    """
    environment = {
        **os.environ, "HOME": str(home), "XDG_CONFIG_HOME": str(home / "config"),
        "XDG_CACHE_HOME": str(home / "cache"), "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8",
    }  # fmt: skip

    def run_it(
        *words: object, env: dict[str, str] | None = None, stdin: str = "", fresh: bool = False
    ) -> Done:
        own = {**environment, **(env or {})}
        if not fresh:
            with TemporaryDirectory() as folder:
                streams = Path(folder)
                (streams / "in").write_text(stdin, "utf-8", newline="")
                status = run_forked([*map(str, words)], own, streams, timeout_s=PATIENCE)
                out, err = ((streams / name).read_text("utf-8") for name in ("out", "err"))
                return Done(status, out, err)
        done = subprocess.run(
            [sys.executable, "-m", "seasonboard", *map(str, words)],
            capture_output=True,
            text=True,
            encoding="utf-8",
            env=own,
            input=stdin,
            timeout=PATIENCE,
            check=False,
        )
        return Done(done.returncode, done.stdout, done.stderr)

    return run_it


@pytest.fixture(scope="session")
def loaded(run: Run, tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Path]:
    """Turn published intervals into a loaded store, by the command line."""

    def load(
        name: str, intervals: Sequence[front_door.Interval], also: Sequence[front_door.Injury] = ()
    ) -> Path:
        folder = tmp_path_factory.mktemp(name)
        tables = front_door.write_season(folder / "tables", intervals, also)
        store = folder / f"{name}.duckdb"
        done = run("load", tables, "--store", store, "--yes")
        assert done.status == 0, done.err
        return store

    return load


@pytest.fixture(scope="session")
def freireich_store(loaded: Callable[..., Path]) -> Path:
    return loaded("freireich", front_door.freireich())


@pytest.fixture(scope="session")
def stanford_store(loaded: Callable[..., Path]) -> Path:
    return loaded("stanford", front_door.stanford())


@pytest.fixture(scope="session")
def sample_store(run: Run, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Load the shipped sample season once, as a user would."""

    def load(folder: Path) -> None:
        words = ("load", ROOT / "sample_season", "--store", folder / "sample.duckdb", "--yes")
        done = run(*words, fresh=True)
        assert done.status == 0, done.err

    return made_once(tmp_path_factory, "sample", load) / "sample.duckdb"
