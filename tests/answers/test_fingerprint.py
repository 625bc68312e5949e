"""The store's mark: the same for the same files, another one after anything else."""

import pytest

from seasonboard.answers.source import AnswerSource
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from tests.queries.build import drawn
from tests.reused import ReusedStore

GRID = """
       A  B
   G1  .! .
   P2  .  g
"""


@pytest.fixture
def loaded(tmp_path):
    """Load grids, one after the other, from files into a store of their own; give its board."""
    stores = []

    def load(*grids):
        stores.append(ReusedStore())
        for grid in grids:
            folder = tmp_path / str(len(list(tmp_path.iterdir())))
            folder.mkdir()
            write_load(stores[-1], plan_load(stores[-1], [drawn(grid).write(folder)]))
        return AnswerSource(stores[-1], "a test")

    yield load
    for store in stores:
        store.close()


@pytest.mark.long
def test_the_same_files_have_the_same_mark_and_others_another(loaded):
    one, other, changed = loaded(GRID), loaded(GRID), loaded(GRID.replace("g", "."))
    more = loaded(GRID, GRID.replace("P2  .  g", "P2  .  g\n   P3  .  g"))
    assert one.fingerprint() == other.fingerprint()
    assert len({one.fingerprint(), changed.fingerprint(), more.fingerprint()}) == 3
    assert more.fingerprint().endswith(", 2 loads")
    assert len(one.fingerprint().partition(",")[0]) == 12


def test_rows_that_came_without_a_file_count_by_their_own_mark(tmp_path):
    with drawn(GRID).load(tmp_path) as one, drawn(GRID).load(tmp_path) as other:
        assert len({AnswerSource(store, "a test").fingerprint() for store in (one, other)}) == 2


def test_the_curtain_does_not_change_it(board):
    one = board(GRID)
    mark = one.fingerprint()
    one.cover(is_down=True)
    assert one.fingerprint() == mark
