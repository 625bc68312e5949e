"""Files as people keep them, loaded by the command as it is typed, and looked up in an export."""

import json
import re
from pathlib import Path

import pytest

from tests.intake.exported_rows import Export, differences

FOLDERS = sorted(path.parent for path in (Path(__file__).parent / "kept").glob("*/expected.json"))
QUICK = "schedule_without_times"
"""The one that is not left to the long run."""


def is_in(words: list[str], text: str) -> bool:
    """Say whether any of `words` stands in a text as whole words."""
    return any(re.search(rf"(?<!\w){re.escape(one)}(?!\w)", text, re.IGNORECASE) for one in words)


def counts(text: str) -> list[tuple[int, int]]:
    """Return how many rows are new and changed, of each line of a plan."""
    rows = re.findall(r"^\w+ +([\d,]+) +([\d,]+) +[\d,]+  ", text, re.MULTILINE)
    return [(int(new), int(changed)) for new, changed in rows]


@pytest.mark.parametrize(
    "folder",
    [
        pytest.param(one, marks=() if one.name == QUICK else pytest.mark.long, id=one.name)
        for one in FOLDERS
    ],
)
def test_it_loads_with_at_most_one_answer_to_what_is_expected(run, folder, tmp_path):
    expected = json.loads((folder / "expected.json").read_text("utf-8"))
    store, export = tmp_path / "s.duckdb", tmp_path / "export"
    done = run("load", folder / "start", "--store", store, "--yes")
    assert done.status == 0, done.err
    load = ("load", folder / expected["input"], "--store", store, "--yes", "--keep-good")
    if expected["answer"]:
        asked = run(*load)
        assert asked.status == 2
        assert "1 question is open" in asked.err
    done = run(*load, *expected["answer"], fresh=True)
    left_behind = 1 if expected["rejected"] else 0
    assert done.status == left_behind, done.err
    assert [words for words in expected["told"] if not is_in(words, done.out)] == []
    assert run("export", export, "--format", "csv", "--store", store).status == 0
    assert differences(Export(export), expected) == []
    again = run(*load)
    assert again.status == left_behind, again.err
    assert set(counts(again.out)) == {(0, 0)}


def test_every_kept_file_is_tried():
    assert len(FOLDERS) == 8
    assert QUICK in [folder.name for folder in FOLDERS]
