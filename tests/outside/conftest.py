"""A board over small tables."""

import pytest

from seasonboard.answers.source import AnswerSource
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import memory_store
from tests import front_door
from tests.queries.build import Season


@pytest.fixture
def board(tmp_path):
    """Load a `Season`, or intervals as `front_door` writes them, into a board."""
    store = memory_store()

    def load(season):
        folder = tmp_path / "tables"
        if isinstance(season, Season):
            season.write(folder)
        else:
            front_door.write_season(folder, season)
        write_load(store, plan_load(store, [folder]))
        return AnswerSource(store, "a test")

    yield load
    store.close()
