"""The terminal that the screens are tested in."""

import gc
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.ui.covered import quagmires


@pytest.fixture(scope="package", autouse=True)
def _seldom_tidied() -> Iterator[None]:
    """Look for garbage seldom: a hundred boards are opened and left, a fifth of the time."""
    before = gc.get_threshold()
    gc.set_threshold(200_000, 50, 50)
    yield
    gc.set_threshold(*before)


@pytest.fixture(scope="session")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Load the season of Zebulon Quagmires once."""
    return quagmires(tmp_path_factory.mktemp("quagmire"))


@pytest.fixture(autouse=True)
def _terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Give a terminal with all colours and without moving parts, whatever runs the tests."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")
    monkeypatch.setattr("textual._wait.SLEEP_GRANULARITY", 0.002)
    monkeypatch.setattr("textual._wait.SLEEP_IDLE", 0.0005)
