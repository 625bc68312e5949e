"""A season to write sessions down in: a squad of any size, its guards, and a store on disk."""

import re
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import date
from pathlib import Path

from textual.pilot import Pilot

from seasonboard.answers.source import AnswerSource
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.entry_writer import StoreEntryWriter
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.reopening_store import ReopeningStore
from seasonboard.store.store import open_store
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.log.sheet_screen import SheetScreen
from tests.queries.build import Season, day, guard, injury, member, session
from tests.ui.board import SMALL, press, running, settle, text, until

TODAY = day(4)
TO_SHEET = ("l", "a", "enter")


def squad(size: int = 60) -> Season:
    """Athletes 1 to `size` with their number as jersey, two games and a practice today.

    G1 is recorded: all full, every third in a chest guard. G2, a day later, and P4 today are not.
    Athlete 5 has been hurt since day 2 and is not back; athlete 9 has two guards, both worn.
    """
    made = Season()
    names = [f"A{number}" for number in range(1, size + 1)]
    made.roster = [
        member(name, jersey=str(number), name=f"{_first(number)} {_last(number)}")
        for number, name in enumerate(names, 1)
    ]
    made.sessions = [session("G1", day(1)), session("G2", day(2)), session("P4", TODAY)]
    made.attendance = [{"session": "G1", "athlete": name, "part": "full"} for name in names]
    made.guards = [guard(f"c-{name}", name) for name in names[::3]]
    if size >= 9:
        made.guards += [guard("s-A9", "A9", kind="shin", side="left"), guard("c-A9", "A9")]
        made.injuries = [injury("I1", "A5", day(2))]
    made.wear = [{"session": "G1", "guard": one["guard"]} for one in made.guards]
    return made


def _first(number: int) -> str:
    return ("Ada", "Bo", "Cleo", "Dag", "Eir", "Fen", "Gus")[number % 7]


def _last(number: int) -> str:
    return ("Lund", "Reyes", "Okafor", "Vega", "Holm")[number % 5] + f"-{number}"


def store_of(season: Season, folder: Path) -> Path:
    """Load a season into a store on disk."""
    path = folder / "season.store"
    load_paths(path, [season.write(folder / "tables")], UnattendedLoad())
    return path


@asynccontextmanager
async def logging(
    path: Path, *, size: tuple[int, int] = SMALL, screen: str = "week", today: date = TODAY
) -> AsyncIterator[Pilot[None]]:
    """Open the board of a store that is written to, as `seasonboard --store` does."""
    held = ReopeningStore(path)
    try:
        board = AnswerSource(held, str(path), StoreEntryWriter(held))
        app = SeasonboardApp(lambda: board, screen=screen)
        app.today = lambda: today
        async with running(app, size=size) as pilot:
            yield pilot
    finally:
        held.close()


def rows(path, table):
    with open_store(path) as held:
        return export_tables(held)[table]


def marks(pilot):
    assert isinstance(pilot.app.screen, SheetScreen)
    return pilot.app.screen.lines.marks


async def sheet(pilot, *keys):
    """Open a sheet by keys, and wait until it is there."""
    await press(pilot, *(keys or TO_SHEET))
    await until(
        pilot, lambda: getattr(getattr(pilot.app.screen, "lines", None), "sheet", None) is not None
    )
    await settle(pilot)


async def sessions(pilot, *keys):
    """Open the list of sessions, wait until it is there, then press keys."""
    await press(pilot, "l", "a")
    await until(pilot, lambda: "women's soccer at College D" in text(pilot).partition("\n")[2])
    await settle(pilot)
    await press(pilot, *keys)


async def on_the_board(pilot):
    """Wait until the board is back and its answer is there."""
    await until(pilot, lambda: isinstance(pilot.app.screen, BoardScreen))
    await settle(pilot)


def line(pilot, athlete):
    """Return the line of one jersey number as shown."""
    is_it = re.compile(rf"[▌ ][+~= ] *{athlete} ").match
    return next(one for one in text(pilot).splitlines() if is_it(one))
