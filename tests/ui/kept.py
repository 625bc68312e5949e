"""A small store on disk with a board over it, to type into."""

import shutil
from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager, contextmanager
from datetime import datetime
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
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from tests.queries.build import Season, day, department, guard, injury, member, session, team
from tests.ui.board import SMALL, settle, until

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


@asynccontextmanager
async def typing(
    board: AnswerSource, screen: str = "week", size: tuple[int, int] = SMALL
) -> AsyncIterator[Pilot[None]]:
    """Open the board and wait until its first answer is shown."""
    app = SeasonboardApp(lambda: board, screen=screen)
    async with app.run_test(size=size, notifications=True) as pilot:
        await until(pilot, lambda: isinstance(app.screen, BoardScreen))
        await settle(pilot)
        yield pilot


def rows(board: AnswerSource, table: str) -> list[dict[str, Any]]:
    """Return what the store holds in one table."""
    assert isinstance(board._store, ReopeningStore)
    return board._store.ask(lambda store: export_tables(store)[table]).to_dicts()
