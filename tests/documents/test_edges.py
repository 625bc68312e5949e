"""A sheet can be made of any store: an empty one, one without games, orders or decisions."""

from pathlib import Path

import pytest

from seasonboard.answers.source import AnswerSource
from seasonboard.documents.destination import ENDINGS, document_bytes
from seasonboard.documents.origin import Making
from seasonboard.documents.week.document import week_sheet
from seasonboard.scope import read_scope
from tests.documents.conftest import MADE_ON
from tests.documents.test_page import parsed, summary
from tests.queries.build import drawn
from tests.reused import ReusedStore

GRIDS = {
    "nothing": None,
    "a practice": "\n       A\n   P1  .\n",
    "injuries": "\n       A  B\n   G1  .! .\n   P2  .  g!\n",
}


@pytest.fixture(params=GRIDS)
def board(request, tmp_path):
    grid = GRIDS[request.param]
    store = ReusedStore() if grid is None else drawn(grid).load(tmp_path / "tables")
    yield AnswerSource(store, "a test")
    store.close()


@pytest.mark.long
def test_every_writer_takes_it(board):
    made = week_sheet(board, read_scope({}, board.scope_values), Making("week", MADE_ON))
    page = parsed(made)
    assert made.lead in summary(page)
    for ending in ENDINGS:
        data, told = document_bytes(made, Path(f"sheet{ending}"), "letter")
        assert data
        assert told == ""
