"""Kills processes that write to a store, at random moments, and looks at what is left."""

import random
import shutil
import time
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from multiprocessing import get_context
from pathlib import Path

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.attaching import attach, connect, contents
from seasonboard.store.backups import back_up_by_hand, list_backups
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.store import open_store
from tests.killing.acts import act
from tests.killing.season import write_before, write_load
from tests.patience import PATIENCE

State = Mapping[str, tuple[int, int]]
"""Rows of every table, and a sum over them; the moment of a load is left out. Empty: no store."""


@dataclass
class Tally:
    """What was seen of one act: how often it was killed or had ended, and what was left."""

    killed: int = 0
    ended: int = 0
    left: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)


_BY_CHANCE = ("loads", "marks", "about")
"""Tables with moments and random words, which no two runs have alike: only their rows count."""


def held(store: Path) -> State:
    """Read every cell of a store, as the next program to open it would."""
    if not store.exists():
        return {}
    connection = connect()
    try:
        attach(connection, store, read_only=True)
        found = dict(contents(connection))
    finally:
        connection.close()
    by_chance = {name: (found[name][0], 0) for name in _BY_CHANCE if name in found}
    return {**found, **by_chance}


class Harness:
    """A season, the stores before and after each act, and a server that forks the processes."""

    def __init__(self, folder: Path, *, sessions: int, seed: int) -> None:
        """Write the season below `folder`."""
        self._folder = folder
        self._random = random.Random(seed)
        self._context = get_context("forkserver")
        self._context.set_forkserver_preload(["tests.killing.acts", "polars", "duckdb"])
        self._load = write_load(folder / "load", sessions)
        self._early = folder / "early" / "season.duckdb"
        self._early.parent.mkdir()
        load_paths(self._early, [write_before(folder / "before", sessions)], UnattendedLoad())
        back_up_by_hand(self._early, None)
        self._late = folder / "late" / "season.duckdb"
        shutil.copytree(self._early.parent, self._late.parent)
        load_paths(self._late, [self._load], UnattendedLoad())

    def kill(self, name: str, times: int) -> Tally:
        """Kill one act so often; return what was left."""
        tally = Tally()
        whole = self._place(name)
        before = held(whole)
        started = self._act(name, whole, None)
        after = held(whole)
        for _ in range(times):
            store = self._place(name)
            is_done = self._act(name, store, self._random.uniform(0, 1.1 * started)) > 0
            tally.ended += is_done
            tally.killed += not is_done
            self._look(name, store, (before, after), tally, is_done=is_done)
        return tally

    def _place(self, name: str) -> Path:
        """Lay out the store as it is before an act."""
        folder = self._folder / "now"
        shutil.rmtree(folder, ignore_errors=True)
        late = name in {"undo", "migration", "restore", "backup"}
        if name == "first load":
            folder.mkdir()
        else:
            shutil.copytree((self._late if late else self._early).parent, folder)
        return folder / "season.duckdb"

    def _act(self, name: str, store: Path, after: float | None) -> float:
        """Run an act; kill it so many seconds after it began. Return how long it took, else 0."""
        near, far = self._context.Pipe()
        folder = self._folder / "before" if name == "first load" else self._load
        process = self._context.Process(target=act, args=(name, store, folder, far))
        process.start()
        far.close()
        assert near.poll(PATIENCE)
        assert near.recv() == "begun"
        began = time.monotonic()
        is_done = near.poll(PATIENCE if after is None else after)
        took = time.monotonic() - began
        process.kill()
        process.join()
        is_done = is_done or near.poll(0)
        said = _received(near) if is_done else ""
        assert after is not None or said == "done", f"{name} ended with {process.exitcode}"
        return took if said == "done" else 0.0

    def _look(
        self, name: str, store: Path, states: tuple[State, State], tally: Tally, *, is_done: bool
    ) -> None:
        """Say what an act left, and whether that may be."""
        before, after = states
        found = self._found(name, store, tally)
        left = {True: "after", False: "between"}[found == after]
        left = "before" if found == before and before != after else left
        tally.left[left] += 1
        if left == "between":
            tally.wrong.append("neither as before nor as after")
        if (is_done or name == "checkpoint") and found != after:
            tally.wrong.append("what was acknowledged is not there")
        tally.wrong += [f"a backup cannot be read: {one.why}" for one in _broken(store, name)]
        if name in {"load", "first load", "commit"}:
            load_paths(store, [self._load_of(name)], UnattendedLoad())
            if held(store) != after:
                tally.wrong.append("the same load again does not complete it")

    def _load_of(self, name: str) -> Path:
        return self._folder / "before" if name == "first load" else self._load

    def _found(self, name: str, store: Path, tally: Tally) -> State:
        """Open a store as the program does, then read it; a migrated one is only read."""
        try:
            if store.exists() and name != "migration":
                open_store(store, read_only=False).close()
            return held(store)
        except Exception as error:  # noqa: BLE001 - whatever it is, it is what is looked for
            tally.wrong.append(f"does not open: {error}")
            return {"unreadable": (0, 0)}


def _broken(store: Path, name: str) -> list[object]:
    return [one for one in list_backups(store) if one.why and name != "migration"]


def _received(line: object) -> str:
    try:
        return str(line.recv())
    except EOFError:
        return ""


def run(folder: Path, *, times: Mapping[str, int], sessions: int, seed: int) -> Mapping[str, Tally]:
    """Kill each act so many times; return what was left of each."""
    harness = Harness(folder, sessions=sessions, seed=seed)
    return {name: harness.kill(name, number) for name, number in times.items()}
