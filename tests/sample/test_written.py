"""The sample season as files, and as something that can be made again."""

import json
from pathlib import Path

import polars as pl
import pytest

from seasonboard.errors import SeasonboardError
from seasonboard.sample import TABLES, make_season, truth, write_season

KEPT = Path(__file__).parents[2] / "sample_season"
NAMES = [*(f"{table}.csv" for table in TABLES), "truth.json"]


def test_the_kept_files_are_made_again_byte_for_byte(tmp_path):
    written = write_season(tmp_path / "again")
    assert [path.name for path in written] == NAMES
    for path in written:
        assert path.read_bytes() == (KEPT / path.name).read_bytes(), path.name


def test_the_same_seed_gives_the_same_season_and_another_seed_another():
    first, second, other = (make_season(seed=seed, size=0.3) for seed in (5, 5, 6))
    assert all(first[table].equals(second[table]) for table in TABLES)
    assert not first["attendance"].equals(other["attendance"])


@pytest.mark.parametrize(("size", "departments"), [(0.1, 1), (0.34, 1), (1.0, 3), (4.0, 12)])
def test_size_scales_the_departments_and_with_them_the_rest(size, departments):
    season = make_season(size=size)
    assert season["departments"].height == departments
    assert season["departments"]["name"].n_unique() == departments
    assert 90 * departments < season["roster"]["athlete"].n_unique() < 180 * departments
    assert not season["roster"].select("athlete", "team", "season").is_duplicated().any()


@pytest.mark.parametrize("size", [0.0, -1.0, 401.0, float("nan")])
def test_a_size_out_of_range_is_refused(size):
    with pytest.raises(SeasonboardError, match="size"):
        make_season(size=size)


def test_a_negative_seed_is_refused():
    with pytest.raises(SeasonboardError, match="negative"):
        make_season(seed=-1)


def test_files_are_plain_csv_with_iso_dates_and_empty_for_missing(tmp_path):
    write_season(tmp_path, size=0.3)
    raw = (tmp_path / "injuries.csv").read_bytes()
    assert b"\r" not in raw
    assert not raw.startswith(b"\xef\xbb\xbf")
    text = pl.read_csv(tmp_path / "injuries.csv", infer_schema=False)
    assert text["occurred_on"].str.contains(r"^\d{4}-\d\d-\d\d$").all()
    assert text["session"].null_count() > 0
    keys = pl.read_csv(tmp_path / "roster.csv", infer_schema=False)
    assert keys.equals(make_season(size=0.3)["roster"].cast(pl.String))


def test_truth_is_written_beside_the_tables(tmp_path):
    write_season(tmp_path, seed=3, size=0.3)
    told = json.loads((tmp_path / "truth.json").read_text(encoding="utf-8"))
    assert (told["seed"], told["size"], told["effects_are_invented"]) == (3, 0.3, True)
    assert told["rate_ratios_preventive"] == dict(truth().rate_ratios_preventive)
    assert told["rate_ratios_preventive"]["shin"] == 0.60
    assert told["rate_ratios_preventive"]["thumb"] == 1.00


def test_other_files_of_those_names_are_never_replaced(tmp_path):
    (tmp_path / "wear.csv").write_text("mine", encoding="utf-8")
    with pytest.raises(SeasonboardError, match=r"wear\.csv"):
        write_season(tmp_path, size=0.3)
    assert [path.name for path in tmp_path.iterdir()] == ["wear.csv"]
    assert (tmp_path / "wear.csv").read_text(encoding="utf-8") == "mine"


def test_writing_the_same_season_again_changes_nothing(tmp_path):
    first = {path: path.stat().st_mtime_ns for path in write_season(tmp_path, size=0.3)}
    second = {path: path.stat().st_mtime_ns for path in write_season(tmp_path, size=0.3)}
    assert first == second


def test_a_write_that_fails_halfway_leaves_nothing(tmp_path, monkeypatch):
    real = Path.replace

    def fails_at_wear(self: Path, target: Path) -> Path:
        if self.name == "wear.csv":
            raise OSError(28, "No space left on device")
        return real(self, target)

    monkeypatch.setattr(Path, "replace", fails_at_wear)
    with pytest.raises(SeasonboardError, match="No space left"):
        write_season(tmp_path / "season", size=0.3)
    assert list(tmp_path.iterdir()) == []


def test_a_file_in_place_of_the_folder_is_refused(tmp_path):
    (tmp_path / "season").write_text("", encoding="utf-8")
    with pytest.raises(SeasonboardError, match="not a folder"):
        write_season(tmp_path / "season", size=0.3)


@pytest.mark.parametrize("table", TABLES)
def test_the_readme_counts_the_rows_of_the_kept_tables(table):
    text = (KEPT / "README.md").read_text(encoding="utf-8")
    rows = pl.read_csv(KEPT / f"{table}.csv", infer_schema=False).height
    assert f"| {table}.csv | {rows} |" in text


def test_the_readme_says_that_it_is_invented_and_what_the_main_effects_are():
    text = (KEPT / "README.md").read_text(encoding="utf-8")
    assert "All of this is invented" in text
    assert "not evidence about guards" in text
    for kind, ratio in truth().rate_ratios_preventive.items():
        assert f"{kind} {ratio:.2f}" in text
