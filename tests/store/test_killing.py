"""What is killed while it writes leaves all of it or nothing (`python -m tests.killing`)."""

import pytest

from tests.killing.__main__ import table
from tests.killing.harness import run

TIMES = {"load": 5, "commit": 2, "undo": 1, "migration": 1}


@pytest.mark.long
def test_what_is_killed_is_whole_or_absent_and_what_was_acknowledged_is_there(tmp_path):
    tallies = run(tmp_path, times=TIMES, sessions=20, seed=20261)
    assert not any(one.wrong for one in tallies.values()), table(tallies)
    assert {name: one.killed + one.ended for name, one in tallies.items()} == TIMES
    assert sum(one.killed for one in tallies.values()) >= 3


@pytest.mark.long
def test_a_load_that_is_not_whole_is_noticed(tmp_path):
    (tally,) = run(tmp_path, times={"torn load": 3}, sessions=20, seed=20261).values()
    assert tally.killed
    assert "neither as before nor as after" in tally.wrong
