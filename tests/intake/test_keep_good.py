"""Only the good rows: the others stay whole in files that load once they are corrected."""

from pathlib import Path

import polars as pl
import pytest

from seasonboard.errors import IntakeError, StoreError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.store import open_store
from tests.intake.desk import Desk
from tests.person import Person

GOOD = LoadOptions(keep_good=True)


@pytest.fixture
def place(season: Desk, tmp_path: Path) -> Path:
    """Return a store file that holds the small season."""
    path = tmp_path / "season.duckdb"
    load_paths(path, [season.folder], UnattendedLoad())
    for file in season.folder.iterdir():
        file.unlink()
    return path


BAD = (
    "session,athlete,part,reason,minutes\n"
    "S3,A1,full,,90\nS3,A2,ful,,=1+1\nQ9,A2,out,injury,\nS2,A3,full,,10\n"
)


def test_good_rows_are_planned_and_the_others_named_whole(loaded: Desk) -> None:
    loaded.put(attendance=BAD)
    plan = plan_load(loaded.store, [loaded.folder], GOOD)
    assert plan.tables[0].new == 2
    assert plan.summary.rejected == 2
    rows = plan.rejected["attendance"]
    assert rows.columns[:5] == [
        f"rejected_{one}" for one in ("file", "row", "column", "value", "reason")
    ]
    assert rows["rejected_file"].to_list() == ["attendance.csv"] * 2
    assert rows["rejected_row"].to_list() == ["3", "4"]
    assert rows["rejected_column"].to_list() == ["part | minutes", "session"]
    assert rows["rejected_value"].to_list() == ["ful | =1+1", "Q9"]
    assert "Did you mean “full”?" in rows["rejected_reason"][0]
    assert rows.select("session", "athlete", "part", "minutes").row(0) == (
        "S3",
        "A2",
        "ful",
        "=1+1",
    )


def test_without_the_wish_nothing_is_planned(loaded: Desk) -> None:
    assert "--keep-good" in loaded.refusal(attendance=BAD).hint


def test_the_rejected_rows_load_once_they_are_corrected(season, place, tmp_path) -> None:
    season.put(attendance=BAD)
    person = Person(keep_good=True)
    load_paths(place, [season.folder], person)
    folder = Path(f"{place}.rejects") / "1"
    assert str(folder) in person.told[-1]
    file = folder / "attendance.csv"
    text = file.read_text("utf-8")
    assert "'=1+1" in text
    text = text.replace("S3,A2,ful,,'=1+1", "S3,A2,full,,45").replace("Q9,A2", "S3,A3")
    file.write_text(text, "utf-8")
    plan = load_paths(place, [folder], UnattendedLoad())
    assert plan is not None
    assert [(one.new, one.changed, one.same) for one in plan.tables] == [(1, 1, 0)]


def test_rows_that_point_to_rejected_rows_go_with_them(loaded: Desk) -> None:
    """The guard is not there, so neither are its stages; the other guard stays."""
    loaded.put(
        guards="guard,athlete,kind,side,purpose,remake_of\n"
        "G8,A1,wrist,lefft,preventive,\nG9,A1,wrist,left,preventive,G8\n"
        "G7,A1,wrist,right,preventive,\n",
        stages="guard,stage,reached_at\nG8,requested,2026-08-03T09:00\n"
        "G9,requested,2026-08-03T09:00\nG7,requested,2026-08-03T09:00\n",
    )
    plan = plan_load(loaded.store, [loaded.folder], GOOD)
    assert {one.table: one.new for one in plan.tables} == {"guards": 1, "stages": 1}
    assert {name: rows.height for name, rows in plan.rejected.items()} == {"guards": 2, "stages": 2}


def test_rows_with_too_many_cells_are_rejected_as_they_are_written(loaded: Desk) -> None:
    loaded.put(teams="team,department,sport,sex\nT8,D1,judo,men,extra\nT9,D1,golf,men\n")
    plan = plan_load(loaded.store, [loaded.folder], GOOD)
    assert plan.tables[0].new == 1
    assert plan.rejected["teams"]["rejected_value"].to_list() == ["T8 | D1 | judo | men | extra"]


def test_what_can_be_read_is_written_in_one_way(loaded: Desk) -> None:
    """A rejected row needs no mapping or order of dates when it comes again."""
    loaded.put(
        injuries="injury,athlete,occurred_on,area,side,reported_on\n"
        "I8,A3,13/09/2026,Shin,L,14/09/2026\nI9,A3,10/09/2026,Shiin,L,11/09/2026\n"
    )
    plan = plan_load(loaded.store, [loaded.folder], GOOD)
    row = plan.rejected["injuries"].select("occurred_on", "area", "side", "reported_on").row(0)
    assert row == ("2026-09-10", "Shiin", "left", "2026-09-11")


def test_a_file_that_cannot_be_used_at_all_still_stops_the_load(loaded: Desk) -> None:
    loaded.put(teams="team,sport\nT9,judo\n", attendance=BAD)
    with pytest.raises(IntakeError, match="Nothing was loaded"):
        plan_load(loaded.store, [loaded.folder], GOOD)


def test_a_load_of_bad_rows_only_writes_only_the_file_of_them(season: Desk, place: Path) -> None:
    before = place.read_bytes()
    season.put(attendance="session,athlete,part\nQ9,A1,full\n")
    load_paths(place, [season.folder], Person(keep_good=True))
    assert place.read_bytes() == before
    rows = pl.read_csv(Path(f"{place}.rejects") / "1" / "attendance.csv")
    assert rows.height == 1


def test_files_of_rejected_rows_are_never_written_over(season: Desk, place: Path) -> None:
    season.put(attendance=BAD)
    load_paths(place, [season.folder], Person(keep_good=True))
    load_paths(place, [season.folder], Person(keep_good=True))
    assert sorted(one.name for one in Path(f"{place}.rejects").iterdir()) == ["1", "2"]


def test_rejected_rows_that_cannot_be_written_stop_the_load(season, place, tmp_path) -> None:
    season.put(attendance=BAD)
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(StoreError, match="--rejects"):
        load_paths(place, [season.folder], Person(keep_good=True, rejects=tmp_path / "taken"))
    with open_store(place) as store:
        assert store.read("store/attendance").height == 5


def test_a_load_that_fails_leaves_no_file_of_rejected_rows(season, place, monkeypatch) -> None:
    from seasonboard.store.intake import write

    monkeypatch.setattr(write, "load_sql", lambda _: "SELECT nothing")
    season.put(attendance=BAD)
    with pytest.raises(StoreError):
        load_paths(place, [season.folder], Person(keep_good=True))
    assert list(Path(f"{place}.rejects").iterdir()) == []
