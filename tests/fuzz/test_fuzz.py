"""Files made wrong at random are refused in words and leave the store as it was."""

from pathlib import Path

import pytest

from tests.fuzz.__main__ import report, table
from tests.fuzz.cases import KINDS
from tests.fuzz.harness import MOST_BYTES, peak_bytes, run

TIMES = 64


@pytest.mark.long
def test_wrong_files_are_refused_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    tallies = run(tmp_path, TIMES, seed=64)
    assert not any(one.wrong for one in tallies.values()), report(tallies, TIMES, 64)
    assert {kind: one.files for kind, one in tallies.items()} == dict.fromkeys(KINDS, 8)
    assert all(one.refused for one in tallies.values()), table(tallies)
    assert sum(one.loaded for one in tallies.values()) > 5
    assert peak_bytes() < MOST_BYTES
