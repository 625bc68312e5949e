"""A load is all there or not there, whatever happens in the middle, and so is a new store."""

import hashlib
import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path
from typing import Never

import pytest

from seasonboard.errors import IntakeError, StoreError, StoreLockedError
from seasonboard.load_dialog import PlanSummary, UnattendedLoad
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.plan import LoadPlan
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import open_store
from tests.intake.desk import Desk
from tests.person import Person

MORE = "team,department,sport,sex\nT9,D1,rowing,mixed\n"


def no(_plan: PlanSummary) -> bool:
    return False


@pytest.fixture
def place(tmp_path: Path) -> Path:
    (tmp_path / "stores").mkdir()
    return tmp_path / "stores" / "season.duckdb"


@pytest.fixture(scope="module")
def made(small_plan: LoadPlan, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a store file that holds the small season."""
    path = tmp_path_factory.mktemp("made") / "season.duckdb"
    with open_store(path, read_only=False) as store:
        write_load(store, small_plan)
    return path


@pytest.fixture
def stored(made: Path, place: Path) -> Path:
    """Return a copy of that store."""
    return Path(shutil.copy(made, place))


def teams(place: Path) -> int:
    with open_store(place) as store:
        return store.read("store/teams").height


def left_behind(place: Path) -> list[str]:
    return sorted(file.name for file in place.parent.iterdir())


def test_the_first_load_makes_the_store(season: Desk, place: Path) -> None:
    plan = load_paths(place, [season.folder], UnattendedLoad())
    assert plan is not None
    assert left_behind(place) == ["season.duckdb"]
    assert teams(place) == 2


def test_the_plan_is_shown_before_anything_is_made(season: Desk, place: Path) -> None:
    shown = []

    def look(plan: PlanSummary) -> bool:
        shown.append((plan.tables[0].new, place.exists()))
        return False

    assert load_paths(place, [season.folder], Person(look)) is None
    assert shown == [(2, False)]
    assert left_behind(place) == []


def test_a_refused_first_load_makes_no_file(season: Desk, place: Path) -> None:
    season.put(teams="team,department,sport,sex\nT1,D9,soccer,women\n")
    with pytest.raises(IntakeError):
        load_paths(place, [season.folder], UnattendedLoad())
    assert left_behind(place) == []


def test_a_first_load_of_nothing_makes_no_file(season: Desk, place: Path) -> None:
    season.put(teams="team,department,sport,sex\n")
    assert load_paths(place, [season.folder / "teams.csv"], UnattendedLoad()) is None
    assert left_behind(place) == []


def test_a_first_load_that_fails_in_writing_leaves_no_file(season, place, monkeypatch) -> None:
    from seasonboard.store.intake import write

    whole = write.write_sql
    monkeypatch.setattr(
        write, "write_sql", lambda one: "SELECT nothing" if one.name == "wear" else whole(one)
    )
    with pytest.raises(StoreError):
        load_paths(place, [season.folder], UnattendedLoad())
    assert left_behind(place) == []


def test_a_store_in_a_missing_folder_is_told_before_anything_is_asked(season, tmp_path) -> None:
    def never(_plan: PlanSummary) -> Never:
        raise AssertionError

    with pytest.raises(StoreError, match="does not exist"):
        load_paths(tmp_path / "none" / "s.duckdb", [season.folder], Person(never))


@pytest.mark.parametrize("refused", [False, True])
def test_a_load_not_carried_out_leaves_the_file_byte_for_byte(season, stored, *, refused) -> None:
    before = hashlib.sha256(stored.read_bytes()).hexdigest()
    season.put(teams=MORE.replace("D1", "D9") if refused else MORE)
    if refused:
        with pytest.raises(IntakeError):
            load_paths(stored, [season.folder], UnattendedLoad())
    else:
        assert load_paths(stored, [season.folder], Person(no)) is None
    assert hashlib.sha256(stored.read_bytes()).hexdigest() == before
    assert left_behind(stored) == ["season.duckdb"]


def test_a_second_load_goes_into_the_same_store(season: Desk, stored: Path) -> None:
    season.put(teams=MORE)
    load_paths(stored, [season.folder / "teams.csv"], UnattendedLoad())
    assert teams(stored) == 3


def test_a_store_in_use_is_told(season: Desk, stored: Path) -> None:
    """Another process holds the store; nothing is changed."""
    holder = _process(
        "store = open_store(PLACE, read_only=False); print('held', flush=True); input()", stored
    )
    try:
        assert holder.stdout.readline().strip() == "held"
        with pytest.raises(StoreLockedError):
            load_paths(stored, [season.folder], UnattendedLoad())
    finally:
        holder.communicate("\n")


KILL_AT = """
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake import write
from seasonboard.store.intake import load_files as action
by_table, by_name = write.write_sql, write.load_sql
def deadly(name: str):
    if name == AT:
        os.kill(os.getpid(), signal.SIGKILL)
write.write_sql = lambda table: deadly(table.name) or by_table(table)
write.load_sql = lambda name: deadly(name) or by_name(name)
if AT == 'after commit':
    action.write_load = lambda store, plan: (write.write_load(store, plan), deadly(AT))
load_paths(PLACE, [FOLDER], UnattendedLoad())
"""


def _process(code: str, place: Path, **names: str) -> "subprocess.Popen[str]":
    lines = [
        "import os, signal",
        "from pathlib import Path",
        "from seasonboard.store.store import open_store",
        f"PLACE = Path({str(place)!r})",
        *(f"{name} = {value!r}" for name, value in names.items()),
    ]
    program = "\n".join([*lines, code]).replace("[FOLDER]", "[Path(FOLDER)]")
    return subprocess.Popen(
        [sys.executable, "-c", program],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )


@pytest.mark.long
@pytest.mark.parametrize("at", ["attendance", "changes"])
def test_a_first_load_killed_in_the_middle_leaves_no_store(season, place, at) -> None:
    killed = _process(KILL_AT, place, FOLDER=str(season.folder), AT=at)
    killed.communicate()
    assert killed.returncode == -signal.SIGKILL
    assert not place.exists()
    load_paths(place, [season.folder], UnattendedLoad())
    assert left_behind(place) == ["season.duckdb"]
    assert teams(place) == 2


@pytest.mark.long
@pytest.mark.parametrize(("at", "there"), [("wear", 2), ("changes", 2), ("after commit", 3)])
def test_a_later_load_killed_in_the_middle_is_all_there_or_not_at_all(season, stored, at, there):
    season.put(teams=MORE, wear="session,guard,kept_on\nS2,G1,all\n")
    killed = _process(KILL_AT, stored, FOLDER=str(season.folder), AT=at)
    killed.communicate()
    assert killed.returncode == -signal.SIGKILL
    assert teams(stored) == there
    with open_store(stored) as store:
        assert store.read("store/last_load")["load_no"].item() == there - 1
    load_paths(stored, [season.folder], UnattendedLoad())
    assert teams(stored) == 3
