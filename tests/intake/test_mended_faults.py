"""What once ended in a traceback or took minutes, each as it happened."""

import time
from pathlib import Path

import pytest

from seasonboard.errors import IntakeError
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.plan import plan_load
from tests.intake.desk import Desk
from tests.person import Person


@pytest.mark.parametrize("table", ["roster", "injuries"])
def test_a_mapped_column_of_dates_may_be_empty(loaded: Desk, tmp_path: Path, table: str) -> None:
    text = {
        "roster": "Player No,Squad,Season,Name,Joined\nA9,T1,2026,Di Fox,\n",
        "injuries": "Record,Athlete No,Injury date,Body part,Laterality,Returned\n"
        "R1,A1,2026-09-13,Shin,L,\n",
    }[table]
    path = loaded.folder / f"{table} of ours.csv"
    path.write_text(text)
    person = Person()
    person.options = LoadOptions(store=tmp_path / "a.duckdb", propose=True)
    person.takes_mappings = True
    plan = plan_load(loaded.store, [path], dialog=person)
    assert plan.rows[table].height == 1


@pytest.mark.parametrize("columns", ["", 'returned_on = "Returned"'])
@pytest.mark.parametrize("keep_good", [True, False])
def test_a_mapping_that_names_hardly_any_column_is_refused(loaded, tmp_path, columns, keep_good):
    path = loaded.folder / "log.csv"
    path.write_text("Record,Returned\nR1,2026-09-20\n")
    (tmp_path / "a.duckdb.mappings").mkdir()
    (tmp_path / "a.duckdb.mappings" / "club.toml").write_text(
        '[[sheet]]\ntable = "injuries"\nheadings = ["Record", "Returned"]\n'
        f"[sheet.columns]\n{columns}\n"
    )
    options = LoadOptions(store=tmp_path / "a.duckdb", keep_good=keep_good)
    with pytest.raises(IntakeError, match="name its column in the mapping"):
        plan_load(loaded.store, [path], options)


@pytest.mark.long
def test_a_hundred_thousand_unknown_names_are_told_soon(loaded: Desk, tmp_path: Path) -> None:
    people = "".join(f"R{one},T1,2026,Person{one} Last{one},\n" for one in range(5_000))
    loaded.put(roster="athlete,team,season,name,jersey\n" + people)
    rows = "".join(f"Nobody{one} Known{one},S1,full\n" for one in range(100_000))
    loaded.put(attendance="athlete_name,session,part\n" + rows)
    before = time.monotonic()
    refused = loaded.refusal()
    assert time.monotonic() - before < 60
    assert "100,000 problems" in refused.what


@pytest.mark.long
def test_a_hundred_thousand_unknown_teams_are_told_soon(loaded: Desk) -> None:
    rows = "".join(f"R{one},Team{one},2026,Person {one}\n" for one in range(100_000))
    loaded.put(roster="athlete,team,season,name\n" + rows)
    before = time.monotonic()
    assert "problems" in loaded.refusal().what
    assert time.monotonic() - before < 60


@pytest.mark.long
def test_a_hundred_thousand_unknown_keys_are_told_soon(loaded: Desk) -> None:
    people = "".join(f"R{one},T1,2026,Person {one},\n" for one in range(100_000))
    loaded.put(roster="athlete,team,season,name,jersey\n" + people)
    rows = "".join(f"Q{one},S1,full\n" for one in range(100_000))
    loaded.put(attendance="athlete,session,part\n" + rows)
    before = time.monotonic()
    loaded.refusal()
    assert time.monotonic() - before < 60
