"""The terminal that the screens are tested in."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from textual._compositor import Compositor
from textual.css.stylesheet import Stylesheet

from seasonboard.answers.source import AnswerSource
from seasonboard.ui.forms.form_screen import FormScreen
from tests.reused import made_once
from tests.ui.board import SMALL, opened, until_quiet
from tests.ui.covered import quagmires
from tests.ui.kept import NOW, kept_store, make_store
from tests.ui.logging_season import squad, store_of
from tests.ui.stand_in import StandIn


@pytest.fixture(scope="package", autouse=True)
def _sheets_parsed_once() -> Iterator[None]:
    """Parse a style sheet once for each theme, not for each board: a tenth of the time."""
    kept: dict[tuple, list] = {}
    parse = Stylesheet._parse_rules

    def parse_once(self, *given, **named):
        key = (*given, *sorted(named.items()), tuple(sorted(self._variables.items())))
        if key not in kept:
            kept[key] = parse(self, *given, **named)
        return kept[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Stylesheet, "_parse_rules", parse_once)
        yield


@pytest.fixture(scope="session")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Load the season of Zebulon Quagmires once."""
    return made_once(tmp_path_factory, "quagmire", quagmires) / "quagmire.duckdb"


@pytest.fixture(autouse=True)
def _terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Give a terminal with all colours and without moving parts, whatever runs the tests."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")
    monkeypatch.setattr("textual.app.wait_for_idle", until_quiet)
    monkeypatch.setattr("textual.pilot.wait_for_idle", until_quiet)


@pytest.fixture(autouse=True)
def _unpainted(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Paint only windows, and all in long tests: `text` draws what a test looks at by itself."""
    paint = Compositor.render_update

    def seldom(self, *, screen_stack, **how):
        return paint(self, screen_stack=screen_stack, **how) if screen_stack else None

    if "long" not in request.keywords:
        monkeypatch.setattr(Compositor, "render_update", seldom)


@pytest.fixture(scope="package")
def loaded_squad(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Load a squad of 60 once."""
    return made_once(tmp_path_factory, "squad", lambda to: store_of(squad(), to)) / "season.store"


@pytest.fixture
def squad_store(loaded_squad: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give a store of the squad to each test, and a folder for drafts."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    path = tmp_path / "season.store"
    path.write_bytes(loaded_squad.read_bytes())
    return path


@pytest.fixture
def answer_source() -> StandIn:
    """Give the stand-in for a store that `pilot`, `games` and `pitch` ask."""
    return StandIn()


@pytest.fixture
def screen() -> str:
    """Name the screen that `pilot` opens on; a test or a module may name another."""
    return "compare"


@pytest.fixture
def size() -> tuple[int, int]:
    """Give the size of the terminal; a test may give another."""
    return SMALL


@pytest.fixture
async def pilot(answer_source, screen, size):
    """Open the board, answered."""
    async with opened(answer_source, screen=screen, size=size) as board:
        yield board


@pytest.fixture
async def games(answer_source, size):
    """Open the board on Games."""
    async with opened(answer_source, screen="games", size=size) as board:
        yield board


@pytest.fixture
async def pitch(answer_source, size):
    """Open the board on Pitch."""
    async with opened(answer_source, screen="pitch", size=size) as board:
        yield board


@pytest.fixture(scope="package")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Make the small season's store once."""
    return made_once(tmp_path_factory, "made", make_store) / "season.store"


@pytest.fixture
def board(made: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[AnswerSource]:
    """Give the board of a copy of that store, to be typed into on an evening in September."""
    monkeypatch.setattr(FormScreen, "now", lambda _: NOW)
    with kept_store(made, tmp_path) as kept:
        yield kept
