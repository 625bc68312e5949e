"""Mappings, spellings, settings and drafts: what is wrong in them is told, or left."""

import json
import os
from datetime import UTC, datetime
from pathlib import Path

import pytest

from seasonboard.answers.log.parts import LogSession, Mark
from seasonboard.errors import IntakeError, SeasonboardError
from seasonboard.file_limits import MOST_SETTINGS
from seasonboard.regular_files import UnusableFileError, read_json, read_toml
from seasonboard.settings import SettingsError, read_settings
from seasonboard.store.intake.mapping import read_mapping
from seasonboard.store.intake.synonyms import synonyms_beside
from seasonboard.ui.log.drafts import Drafts, SheetDraft

SHEET = '[[sheet]]\ntable = "teams"\nheadings = ["Team"]\n'

SHAPES = {
    "columns = 3": "[[sheet]] 1: columns is “3”, a number; expected is a section",
    "columns = ['x']": "columns is a list",
    "constants = 'x'": "constants is “x”, one value",
    "units = 3": "units is “3”",
    "values = 3": "values is “3”",
    "values = {sex = 3}": "values.sex is “3”",
    "values = {sex = {m = []}}": "values.sex.m is a list",
    "stages = []": "stages is a list",
    "sites = {x = {y = 1}}": "sites.x is a section",
    "columns = {team = {x = 1}}": "columns.team is a section",
    "columns = {team = [['x']]}": "columns.team is a list",
    "dates = 3": "dates is “3”",
    "time_zone = ['x']": "time_zone is a list",
    "blank = true": "blank is “True”, yes or no",
    "file = {}": "file is a section",
}


@pytest.mark.parametrize("line", SHAPES)
def test_a_mapping_of_another_shape_is_told_with_its_place(tmp_path: Path, line: str) -> None:
    path = tmp_path / "club.toml"
    path.write_text(SHEET + line)
    with pytest.raises(IntakeError) as refused:
        read_mapping(path)
    assert SHAPES[line] in refused.value.what
    assert refused.value.hint == "Correct that mapping, or move it away."


@pytest.mark.parametrize(
    "text",
    [
        "questions = 3",
        "sheet = 3",
        "sheet = [3]",
        "[sheet]\ntable = 'teams'",
        "[[sheet]]\ntable = 3",
        "[[sheet]]\ntable = 'teams'\nheadings = 'x'",
        "[[sheet]]\ntable = 'left out'\nfile = 3",
    ],
)
def test_other_things_in_place_of_sheets_are_told(tmp_path: Path, text: str) -> None:
    path = tmp_path / "club.toml"
    path.write_text(text)
    with pytest.raises(IntakeError, match="club"):
        read_mapping(path)


@pytest.mark.parametrize(
    "text",
    [
        "words = {side = 3}",
        "words = {side = {left = 3}}",
        "words = {side = {left = [3]}}",
        "months = {1 = 3}",
        "months = {x = ['x']}",
        "units = {mm = {ell = 'x'}}",
        "units = {mm = 3}",
        "plausible = {minutes = [1]}",
        "plausible = {minutes = ['a', 'b']}",
        "missing = {marks = 3}",
        "totals = {marks = [3]}",
        "headings = {teams = {team = 'x'}}",
        "tables = {teams = 'x'}",
        "words = 3",
    ],
)
def test_spellings_of_another_shape_are_told(tmp_path: Path, text: str) -> None:
    (tmp_path / "a.duckdb.synonyms.toml").write_text(text)
    with pytest.raises(IntakeError, match=r"synonyms\.toml"):
        synonyms_beside(tmp_path / "a.duckdb")


DEEP = {
    "arrays": "a = " + "[" * 100_000,
    "tables": "a = " + "{b=" * 100_000,
    "keys": "a." * 200_000 + "b = 1",
    "quoted keys": '"a".' * 200_000 + "b = 1",
    "digits": "a = " + "1" * 10_000,
    "half of a letter": 'a = "\\ud800"',
    "quotes": "a = " + '"\\' * 100_000,
}


@pytest.mark.parametrize("what", DEEP)
def test_deep_and_long_words_are_refused_soon(tmp_path: Path, what: str) -> None:
    path = tmp_path / "settings.toml"
    path.write_text(DEEP[what])
    with pytest.raises(UnusableFileError):
        read_toml(path)
    with pytest.raises(SettingsError, match="Mend the file or remove it"):
        read_settings(path)


@pytest.mark.parametrize(
    "text", ["[" * 100_000, '{"a":' * 100_000, "1" * 10_000, '"\\ud800"', "", "{"]
)
def test_deep_and_broken_json_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "x.json"
    path.write_text(text)
    with pytest.raises(UnusableFileError):
        read_json(path)


def test_a_file_of_words_has_a_size(tmp_path: Path) -> None:
    path = tmp_path / "settings.toml"
    path.write_bytes(b"#" * (MOST_SETTINGS + 1))
    with pytest.raises(SettingsError, match="larger than 4 MB"):
        read_settings(path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_pipes_are_not_waited_for(tmp_path: Path) -> None:
    store = tmp_path / "a.duckdb"
    (tmp_path / "a.duckdb.handouts").mkdir()
    for name in ("settings.toml", "a.duckdb.synonyms.toml", "club.toml"):
        os.mkfifo(tmp_path / name)
    os.mkfifo(tmp_path / "a.duckdb.handouts" / "x.json")
    for read in (
        lambda: read_settings(tmp_path / "settings.toml"),
        lambda: synonyms_beside(store),
        lambda: read_mapping(tmp_path / "club.toml"),
    ):
        with pytest.raises(SeasonboardError, match="a pipe or a device"):
            read()


NOW = datetime(2026, 9, 5, 18, tzinfo=UTC)


@pytest.fixture
def drafts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Drafts:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    kept = Drafts(str(tmp_path / "a.duckdb"))
    for name in ("S1", "S2"):
        session = LogSession(name, "T1", "2026", NOW, NOW.replace(tzinfo=None), "game")
        kept.keep(SheetDraft(session, NOW, {"A1": Mark("full", minutes=90.0)}), 1)
    return kept


@pytest.mark.parametrize(
    ("part", "name", "value"),
    [
        (None, "kept_at", "2026-09-05T18:00:00"),
        ("session", "starts_at", "2026-09-05T18:00:00"),
        ("session", "local_start", "2026-09-05T18:00:00+00:00"),
        ("session", "session", 3),
        ("session", "recorded", "x"),
        ("session", "is_new", "x"),
        ("session", "more", 1),
        (None, "marks", {"A1": {"part": 3}}),
        (None, "marks", {"A1": {"worn": [3]}}),
        (None, "marks", {"A1": {"minutes": "x", "worn": []}}),
        (None, "marks", []),
        (None, "form", 2),
    ],
)
def test_a_draft_that_is_none_is_left_alone(
    drafts: Drafts, part: str | None, name: str, value: object
) -> None:
    path = next(iter(sorted(drafts.folder.glob("*.json"))))
    content = json.loads(path.read_text())
    (content if part is None else content[part])[name] = value
    path.write_text(json.dumps(content))
    assert len(drafts.all()) == 1
    assert path.exists()
