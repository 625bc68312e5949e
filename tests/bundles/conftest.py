"""Two places: the maker's with two teams and their athletes, the trainer's empty or the same."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.bundles.pair import TEAMS, Place
from tests.intake.desk import SMALL_SEASON
from tests.one_reader import one_reader  # noqa: F401 - a fixture
from tests.reused import ReusedStore


@pytest.fixture
def maker(tmp_path: Path) -> Iterator[Place]:
    """Return a place that has loaded two teams and their athletes."""
    with ReusedStore() as store:
        place = Place(store, tmp_path / "maker")
        place.load(**TEAMS)
        yield place


@pytest.fixture
def season(tmp_path: Path) -> Iterator[Place]:
    """Return a place that has loaded the small season, every table of it."""
    with ReusedStore() as store:
        place = Place(store, tmp_path / "season")
        place.load(**SMALL_SEASON)
        yield place


@pytest.fixture
def trainer(tmp_path: Path) -> Iterator[Place]:
    """Return a place that has loaded nothing."""
    with ReusedStore() as store:
        yield Place(store, tmp_path / "trainer")


@pytest.fixture
def both(maker: Place, trainer: Place) -> tuple[Place, Place]:
    """Return two places after the first bundle from the maker to the trainer."""
    trainer.take(maker.bundle())
    return maker, trainer
