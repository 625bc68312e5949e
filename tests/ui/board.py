"""Driving the board in tests: open it, wait for it, read what it shows."""

import asyncio
import os
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager, suppress
from itertools import groupby
from pathlib import Path
from threading import Event
from time import monotonic
from typing import Any

import pytest
from rich.cells import cell_len
from textual.pilot import Pilot
from textual.widgets import Input
from textual.widgets._toast import Toast, ToastRack
from textual.worker import WorkerCancelled

from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.widgets.lines import StateLine
from seasonboard.ui.widgets.page import Page
from tests.patience import PATIENCE
from tests.ui.stand_in import StandIn

SNAPSHOTS = Path(__file__).parent / "snapshots"
REWRITE = "SEASONBOARD_REWRITE_SNAPSHOTS"
"""Set in the environment, the snapshots are written anew; look at each before keeping it."""

SMALL, LARGE = (80, 24), (120, 40)


@asynccontextmanager
async def opened(
    answer_source: StandIn | None = None, *, screen: str = "compare", size: tuple[int, int] = SMALL
) -> AsyncIterator[Pilot[None]]:
    """Open a board and wait until its first answer is shown."""
    shown = answer_source or StandIn()
    async with running(SeasonboardApp(lambda: shown, screen=screen), size=size) as pilot:
        yield pilot


@asynccontextmanager
async def running(
    app: SeasonboardApp,
    is_so: Callable[[SeasonboardApp], bool] | None = None,
    *,
    size: tuple[int, int] = SMALL,
) -> AsyncIterator[Pilot[None]]:
    """Run a board, and wait until an answer is shown, there is none to show, or `is_so`."""
    async with app.run_test(size=size, notifications=True) as pilot:
        _keep_notices(app)
        await until(pilot, lambda: (is_so or _is_shown)(app))
        await settle(pilot)
        yield pilot


def _keep_notices(app: SeasonboardApp) -> None:
    """Let a notice stay as long as a test may take, so that no slow machine misses it."""
    notify = app.notify

    def kept(message: str, **wishes: Any) -> None:
        notify(message, **{**wishes, "timeout": PATIENCE})

    app.notify = kept  # type: ignore[method-assign]


def is_on_a_screen(app: SeasonboardApp) -> bool:
    """Say whether a screen is shown, answered or not."""
    return isinstance(app.screen, BoardScreen)


def _is_shown(app: SeasonboardApp) -> bool:
    screen = app.screen
    if not isinstance(screen, BoardScreen):
        return False
    if app.answer_source.scope_values.is_empty:
        return True
    has_room = app.size.width >= 20  # nothing is drawn on less
    return screen.answer is not None and all(
        page._blocks or not has_room for page in screen.query(Page)
    )


async def settle(pilot: Pilot[Any], rounds: int = 3) -> None:
    """Wait for every thread and for what it sets off, notices too."""
    for _ in range(rounds):
        with suppress(WorkerCancelled):  # its screen was left before it had quite ended
            await pilot.app.workers.wait_for_complete()
        await pilot.pause()
        await _refreshed(pilot)
    for _ in range(200):  # a notice is put on the screen a little after it was given
        if _are_notices_shown(pilot):
            return
        await pilot.pause()


async def _refreshed(pilot: Pilot[Any]) -> None:
    """Wait until what was to be done after a refresh was done, as saving a form is."""
    end = monotonic() + PATIENCE
    while any(screen._callbacks for screen in pilot.app.screen_stack) and monotonic() < end:
        await asyncio.sleep(0.005)
        await pilot.pause()


def _are_notices_shown(pilot: Pilot[Any]) -> bool:
    app = pilot.app
    if not app.is_running or not app.screen.query(ToastRack):
        return True
    laid_out = [toast for toast in app.screen.query(Toast) if toast.region]
    return len(laid_out) >= len(app._notifications)


async def press(pilot: Pilot[Any], *keys: str) -> None:
    """Press keys one after another, each to its end; letters typed in a row go together."""
    for typed, run in groupby(keys, key=lambda key: len(key) == 1 and key.isalnum()):
        if typed:
            first, *rest = run
            await pilot.press(first)
            await settle(pilot, 1)
            await pilot.press(*rest)
            await settle(pilot, 1)
        else:
            for key in run:
                await pilot.press(key)
                await settle(pilot, 1)
    await settle(pilot)


async def until(pilot: Pilot[Any], is_so: Callable[[], bool]) -> None:
    """Wait for something that a thread sets off."""
    end = monotonic() + PATIENCE
    while not is_so():
        assert monotonic() < end, "it never came to be"
        await pilot.pause()
        await asyncio.sleep(0.001)


async def resize(pilot: Pilot[Any], width: int, height: int) -> None:
    """Make the terminal another size, and wait until the screen is laid out for it."""
    await pilot.resize_terminal(width, height)
    await until(pilot, lambda: tuple(pilot.app.screen._compositor.size) == (width, height))
    await settle(pilot)


async def until_quiet(*_seconds: float) -> None:
    """Let the board do all it can without a thread or a timer.

    Textual's own way takes a board for idle that uses little of the processor, as one does that a
    busy machine does not let run.
    """
    waiting = asyncio.get_running_loop()._ready  # type: ignore[attr-defined]
    rounds_without = 0
    while rounds_without < 3:
        await asyncio.sleep(0)
        rounds_without = 0 if waiting else rounds_without + 1


def text(pilot: Pilot[Any]) -> str:
    """Return what the terminal shows, as lines without what trails.

    The bar at the right edge is left out: its place hangs on lines that may still come.
    """
    strips = pilot.app.screen._compositor.render_strips()
    shown = "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)
    return _without_thumb(shown)


def words(pilot: Pilot[Any]) -> str:
    """Return the words that the terminal shows, however they are broken into lines."""
    return " ".join(text(pilot).replace("│", " ").split())


def page(pilot: Pilot[Any]) -> Page:
    """Return the page of the screen in sight."""
    return pilot.app.screen.query_one(Page)


async def go_to(pilot: Pilot[Any], name: str) -> None:
    """Put the cursor on a line of the page by its name."""
    page(pilot).go_to_name(name)
    await settle(pilot, 1)
    assert page(pilot).block.name == name


async def fill(pilot: Pilot[Any], **texts: str) -> None:
    """Put texts into fields of the form in sight, at once."""
    for column, typed in texts.items():
        pilot.app.screen.query_one(f"#field-{column}", Input).value = typed
    await settle(pilot)


async def press_held(pilot: Pilot[Any], key: str) -> Event:
    """Press a key that asks the stand-in, and wait until it holds the reply; return its gate."""
    source = pilot.app.answer_source
    gate, asked = source._gate or source.hold(), len(source.asked)
    await pilot.press(key)
    await until(pilot, lambda: len(source.asked) > asked)
    return gate


async def shown_in_all_colours(
    show: Callable[[], Awaitable[str]], patch: pytest.MonkeyPatch
) -> set[str]:
    """Return what is shown with all colours, without any, and with sixteen."""
    shown = set()
    for name, value in (("COLORTERM", "truecolor"), ("NO_COLOR", "1"), ("COLORTERM", "")):
        with patch.context() as terminal:
            terminal.setenv(name, value)
            shown.add(await show())
    return shown


def state(pilot: Pilot[Any]) -> str:
    """Return what the line under the sentence says."""
    return pilot.app.screen.query_one(StateLine).state


def check(shown: str, name: str) -> None:
    """Compare with a snapshot, or write it anew when asked to."""
    path = SNAPSHOTS / f"{name}.txt"
    if os.environ.get(REWRITE):
        path.write_text(shown + "\n", encoding="utf-8")
    agreed = path.read_text(encoding="utf-8")
    assert _without_thumb(shown + "\n") == _without_thumb(agreed)


def _without_thumb(shown: str) -> str:
    """Return a page without the bar at its right edge."""
    lines = shown.split("\n")
    wide = max(map(cell_len, lines))
    return "\n".join(
        line[:-1].rstrip() if cell_len(line) == wide and line[-1:] in set("▁▂▃▄▅▆▇█") else line
        for line in lines
    )
