"""Loads one wrong file after the other through the command, and looks at what it left."""

import hashlib
import resource
import shutil
import signal
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from types import FrameType

from click.testing import CliRunner

from seasonboard.cli.main import cli
from seasonboard.errors import SeasonboardError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.settings import Settings, read_settings, write_settings
from seasonboard.store.bundles.packing import packed_bundle
from seasonboard.store.intake.cleaning import escaped
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.store import open_store
from seasonboard.wiring import make_tools
from tests.fuzz.cases import Case
from tests.intake.desk import SMALL_SEASON

MOST_SECONDS = 20
MOST_BYTES = 2 << 30


class TooLongError(BaseException):
    """A case took longer than is waited for; nothing of the program may catch it."""


@dataclass
class Tally:
    """What came of the files of one kind."""

    files: int = 0
    loaded: int = 0
    refused: int = 0
    slowest_s: float = 0
    wrong: list[str] = field(default_factory=list)


def make_store(folder: Path) -> Path:
    """Make the store that every case begins with a copy of."""
    tables = folder / "tables"
    tables.mkdir()
    for name, text in SMALL_SEASON.items():
        (tables / f"{name}.csv").write_text(text)
    store = folder / "good.duckdb"
    load_paths(store, [tables], UnattendedLoad())
    return store


def good_bundle(store: Path) -> bytes:
    """Return a bundle of the store."""
    with open_store(store) as opened:
        return packed_bundle(opened, 0)[0]


def content_of(store: Path) -> str:
    """Return a mark of all that a store's export holds; empty where there is no store."""
    if not store.exists():
        return ""
    mark = hashlib.sha256()
    with open_store(store) as opened:
        for name, frame in export_tables(opened).items():
            mark.update(name.encode() + escaped(frame).write_csv().encode())
    return mark.hexdigest()


def run_case(case: Case, good: Path, before: str, folder: Path, tally: Tally) -> None:
    """Load one case in a folder of its own, and note what is wrong."""
    tally.files += 1
    folder.mkdir()
    begun = time.monotonic()
    try:
        with _waited_for(3 * MOST_SECONDS):
            said = _settings(case, folder) if case.kind == "settings" else _load(case, good, folder)
        if said is None:
            tally.loaded += 1
        else:
            tally.refused += 1
            _check_untouched(case, before, folder, said, tally)
    except TooLongError:
        tally.wrong.append(f"{case.name}: took longer than {3 * MOST_SECONDS} s")
    except Exception:  # noqa: BLE001 - this is what is looked for
        last = traceback.format_exc().strip().splitlines()
        where = next((one.strip() for one in reversed(last) if "seasonboard/" in one), "")
        tally.wrong.append(f"{case.name}: {last[-1][:200]} ({where})")
    seconds = time.monotonic() - begun
    tally.slowest_s = max(tally.slowest_s, seconds)
    if seconds > MOST_SECONDS:
        tally.wrong.append(f"{case.name}: took {seconds:.0f} s")
    shutil.rmtree(folder)


def peak_bytes() -> int:
    """Return the most memory that this process or one it started has had."""
    who = (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    return max(resource.getrusage(one).ru_maxrss for one in who) * 1024


def _load(case: Case, good: Path, folder: Path) -> str | None:
    """Load a case by the command; return what it said when it refused."""
    store = folder / "season.duckdb"
    if case.has_store:
        shutil.copy(good, store)
    for name, data in case.files.items():
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
    words = ["load", *(str(folder / name) for name in case.named), "--store", str(store), "--yes"]
    outcome = CliRunner().invoke(cli, [*words, *case.options], obj={"tools": make_tools()})
    if outcome.exception is not None and not isinstance(outcome.exception, SystemExit):
        raise outcome.exception
    return outcome.output if outcome.exit_code == 2 else None


def _settings(case: Case, folder: Path) -> str | None:
    """Read settings as a start does, and write them as a change does."""
    path = folder / "settings.toml"
    path.write_bytes(case.files["settings.toml"])
    try:
        read_settings(path)
        write_settings(path, Settings())
    except SeasonboardError as error:
        return f"{error}"
    return None


def _check_untouched(case: Case, before: str, folder: Path, said: str, tally: Tally) -> None:
    store = folder / "season.duckdb"
    if case.kind == "settings":
        if (folder / "settings.toml").read_bytes() != case.files["settings.toml"]:
            tally.wrong.append(f"{case.name}: refused settings were written over")
    elif content_of(store) != (before if case.has_store else ""):
        tally.wrong.append(f"{case.name}: refused, but the store is another")
    left = [one.name for one in folder.iterdir() if one.name.endswith((".making", ".rejects"))]
    if left:
        tally.wrong.append(f"{case.name}: left {left[0]} behind")
    if "Traceback" in said or len(said.strip()) < 20:
        tally.wrong.append(f"{case.name}: said “{said.strip()[:80]}”")


@contextmanager
def _waited_for(seconds: int) -> Iterator[None]:
    def end(_number: int, _frame: FrameType | None) -> None:
        raise TooLongError

    before = signal.signal(signal.SIGALRM, end)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def run(
    folder: Path, times: int, seed: int, *, tell: Callable[[str], object] = lambda _: None
) -> dict[str, Tally]:
    """Make and load so many files; return what came of them, kind by kind."""
    from tests.fuzz.cases import KINDS, case_of

    good = make_store(folder)
    bundle, before = good_bundle(good), content_of(good)
    tallies = {kind: Tally() for kind in KINDS}
    for number in range(times):
        case = case_of(number, Random(f"{seed} {number}"), bundle)
        run_case(case, good, before, folder / "case", tallies[case.kind])
        if number % 50 == 49:
            tell(f"{number + 1} of {times}")
    return tallies
