"""A board over small tables."""

from pathlib import Path

import pytest

from seasonboard.answers.source import AnswerSource
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from tests import front_door
from tests.queries.build import Season
from tests.reused import ReusedStore


@pytest.fixture
def board(tmp_path):
    """Load a `Season`, a folder, or intervals as `front_door` writes them, into a board."""
    store = ReusedStore()

    def load(season):
        folder = tmp_path / "tables"
        if isinstance(season, Season):
            season.write(folder)
        elif isinstance(season, Path):
            folder = season
        else:
            front_door.write_season(folder, season)
        write_load(store, plan_load(store, [folder]))
        return AnswerSource(store, "a test")

    yield load
    store.close()
