"""A small store on disk with a board over it, to type into."""

import shutil
from collections.abc import AsyncIterator, Iterator
from contextlib import AbstractAsyncContextManager, asynccontextmanager, contextmanager
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from textual.pilot import Pilot

from seasonboard.answers.source import AnswerSource
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.entry_writer import StoreEntryWriter
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.reopening_store import ReopeningStore
from seasonboard.store.store import open_store
from seasonboard.ui.app.app import SeasonboardApp
from tests.queries.build import Season, day, department, guard, injury, member, session, team
from tests.ui.board import SMALL, is_on_a_screen, running, settle, until

NOW = datetime(2026, 9, 4, 1, 30, tzinfo=ZoneInfo("UTC"))
"""3 September, half past eight in the evening, in Chicago."""


def season() -> Season:
    """Two athletes, two games, a shin guard worn in the second by Zoë, one open injury."""
    return Season(
        departments=[department("D", time_zone="America/Chicago")],
        teams=[team("T")],
        roster=[
            member("A1", name="Zoë Abbott", jersey="7"),
            member("A2", name="Bo [/x] Reyes"),
            member("A3", name="Bo Reyes"),
        ],
        sessions=[session("G1", day(1)), session("G2", day(3))],
        attendance=[
            {"session": s, "athlete": a, "part": "full"} for s in ("G1", "G2") for a in ("A1", "A2")
        ],
        guards=[guard("G0041", "A1", kind="shin", side="left")],
        wear=[{"session": "G2", "guard": "G0041"}],
        injuries=[injury("I7", "A2", day(1), session="G1")],
    )


def make_store(folder: Path) -> Path:
    """Make that season's store."""
    tables = season().write(folder / "tables")
    (tables / "stages.csv").write_text(
        "guard,stage,reached_at\nG0041,requested,2026-08-20T09:00\nG0041,scanned,2026-08-21T09:00\n"
    )
    load_paths(folder / "season.store", [tables], UnattendedLoad())
    return folder / "season.store"


@contextmanager
def kept_store(made: Path, folder: Path) -> Iterator[AnswerSource]:
    """Give the board of a copy of a store, open to be written to."""
    path = folder / "season.store"
    shutil.copy(made, path)
    held = ReopeningStore(path)
    try:
        yield AnswerSource(held, "season.store", entry_writer=StoreEntryWriter(held))
    finally:
        held.close()


def typing(
    board: AnswerSource, screen: str = "week", size: tuple[int, int] = SMALL
) -> AbstractAsyncContextManager[Pilot[None]]:
    """Open the board and wait until its first answer is shown."""
    return running(SeasonboardApp(lambda: board, screen=screen), size=size)


@asynccontextmanager
async def at_work(
    path: Path,
    screen: str = "week",
    size: tuple[int, int] = SMALL,
    *,
    label: str = "invented sample season",
    down: bool = False,
    **parts: object,
) -> AsyncIterator[Pilot[None]]:
    """Open a sample season at Lanternfield College on a Friday in November, covered or not."""
    with open_store(path) as store:
        board = AnswerSource(store, label, secret=lambda: "one secret")
        board.cover(is_down=down)
        app = SeasonboardApp(lambda: board, screen=screen)
        async with running(app, is_on_a_screen, size=size) as pilot:
            asked = {"through": date(2026, 11, 13), "departments": ("LF",)} | parts
            app.scope = replace(board.opening_scope(), **asked)
            await answered(pilot)
            yield pilot


async def answered(pilot: Pilot[None]) -> None:
    """Wait until the answer of the screen in sight is the one that was asked for last."""
    screen = pilot.app.screen
    await until(pilot, lambda: screen.answer is not None and screen._pending is None)
    await settle(pilot)


def rows(board: AnswerSource, table: str) -> list[dict[str, Any]]:
    """Return what the store holds in one table."""
    assert isinstance(board._store, ReopeningStore)
    return board._store.ask(lambda store: export_tables(store)[table]).to_dicts()
