"""Cells become words, numbers, dates and instants, or are told one by one."""

from datetime import UTC, date, datetime, timedelta

import pytest

from seasonboard.store.intake.problems import LISTED
from seasonboard.store.store import Store
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES
from tests.intake.desk import Desk

INJURY = "injury,athlete,occurred_on,area,side,{column}\nI9,A1,2026-09-05,knee,left,{cell}\n"
GUARD = "guard,athlete,kind,side,purpose,{column}\nG9,A1,wrist,left,preventive,{cell}\n"
PLAYED = "session,athlete,part,{column}\nS2,A1,full,{cell}\n"
SESSION = "session,team,season,starts_at,setting\nS9,T1,2026,{cell},game\n"


def injuries(area: str = "knee", side: str = "left", occurred_on: str = "2026-09-05") -> str:
    return f"injury,athlete,occurred_on,area,side\nI9,A1,{occurred_on},{area},{side}\n"


def test_words_are_read_whatever_their_capitals_and_blanks(loaded: Desk) -> None:
    rows = loaded.plan(injuries=injuries(" Lower LEG ", "LEFT")).rows["injuries"]
    assert rows.select("area", "side").row(0) == ("lower leg", "left")


def test_an_unknown_word_is_told_with_the_list_and_the_nearest(loaded: Desk) -> None:
    problem = loaded.problem(injuries=injuries("shoudler"))
    assert (problem.file, problem.row, problem.column) == ("injuries.csv", 2, "area")
    assert problem.value == "shoudler"
    assert problem.nearest == "shoulder"
    assert "is not one of: head, neck, shoulder" in problem.expected
    assert problem.sentence().endswith("Did you mean “shoulder”?")


@pytest.mark.parametrize(
    ("table", "column"),
    [
        (table.name, column.name)
        for table in TABLES.values()
        for column in table.columns
        if column.holds is CellType.WORD
    ],
)
def test_the_word_lists_are_those_of_the_store(
    loaded_store: Store, table: str, column: str
) -> None:
    """What a file may hold and what the store can hold are the same words."""
    shown = loaded_store._connection.execute(
        "SELECT data_type FROM duckdb_columns() WHERE table_name = $1 AND column_name = $2 "
        "AND database_name = 'store'",
        [table, column],
    ).fetchone()
    words = ", ".join(f"'{word}'" for word in TABLES[table].column(column).words)
    assert shown == (f"ENUM({words})",)


@pytest.mark.parametrize("cell", ["90", "90.5", "0", "+3", ".5", "7.", "1e2"])
def test_numbers(loaded: Desk, cell: str) -> None:
    rows = loaded.plan(attendance=PLAYED.format(column="minutes", cell=cell)).rows["attendance"]
    assert rows["minutes"].to_list() == [float(cell)]


@pytest.mark.parametrize("cell", ["-1", "ninety", "inf", "1e999", "60:30", "0x10", "1_000"])
def test_what_is_no_number_is_refused(loaded: Desk, cell: str) -> None:
    problem = loaded.problem(attendance=PLAYED.format(column="minutes", cell=cell))
    assert problem.value == cell
    assert "is not a number of 0 or more" in problem.expected


@pytest.mark.parametrize("cell", ["0", "100", "82.25"])
def test_contact_may_be_0_to_100_per_cent(loaded: Desk, cell: str) -> None:
    rows = loaded.plan(guards=GUARD.format(column="contact_pct", cell=cell)).rows["guards"]
    assert rows["contact_pct"].to_list() == [float(cell)]


@pytest.mark.parametrize("cell", ["100.1", "-0.5", "182%"])
def test_contact_over_100_per_cent_is_refused(loaded: Desk, cell: str) -> None:
    problem = loaded.problem(guards=GUARD.format(column="contact_pct", cell=cell))
    assert "is not a number from 0 to 100" in problem.expected


@pytest.mark.parametrize("cell", ["41.0", "-1", "4 1", "forty", "99999999999", "9" * 30])
def test_what_is_no_whole_number_is_refused(loaded: Desk, cell: str) -> None:
    problem = loaded.problem(attendance=PLAYED.format(column="plays", cell=cell))
    assert problem.column == "plays"
    assert "is not a whole number" in problem.expected


@pytest.mark.parametrize(
    "cell", ["2026-02-30", "2026-13-01", "31/31/2026", "462", "soon", "Octember 3 2026"]
)
def test_what_is_no_date_is_refused(loaded: Desk, cell: str) -> None:
    problem = loaded.problem(injuries=INJURY.format(column="returned_on", cell=cell))
    assert problem.value == cell
    assert "2026-10-03" in problem.expected


def test_29_february_exists_in_leap_years_only(loaded: Desk) -> None:
    rows = loaded.plan(injuries=injuries(occurred_on="2028-02-29")).rows["injuries"]
    assert rows["occurred_on"].to_list() == [date(2028, 2, 29)]
    assert loaded.problem(injuries=injuries(occurred_on="2026-02-29")).row == 2


@pytest.mark.parametrize("day", ["1989-12-31", "2101-01-01", "0026-09-05"])
def test_dates_and_instants_of_other_centuries_are_refused(loaded: Desk, day: str) -> None:
    assert "1990 to 2100" in loaded.problem(injuries=injuries(occurred_on=day)).expected
    (loaded.folder / "injuries.csv").unlink()
    problem = loaded.problem(sessions=SESSION.format(cell=f"{day}T18:00Z"))
    assert "1990 to 2100" in problem.expected


EVENING = datetime(2026, 9, 5, 23, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("cell", "instant"),
    [
        ("2026-09-05T18:00", EVENING),
        ("2026-09-05 18:00", EVENING),
        ("2026-09-05T18:00:30", EVENING + timedelta(seconds=30)),
        ("2026-09-05T18:00:00.250", EVENING + timedelta(milliseconds=250)),
        ("2026-09-05T23:00Z", EVENING),
        ("2026-09-05t23:00z", EVENING),
        ("2026-09-05T18:00-05:00", EVENING),
        ("2026-09-06T08:30:00+0930", EVENING),
        ("2026-09-05 23:00:00 +00:00", EVENING),
    ],
)
def test_instants_with_and_without_an_offset(loaded: Desk, cell: str, instant: datetime) -> None:
    """Without an offset the time is that of the department, here in Chicago."""
    rows = loaded.plan(sessions=SESSION.format(cell=cell)).rows["sessions"]
    assert rows["starts_at"].to_list() == [instant]


@pytest.mark.parametrize(
    "cell",
    [
        *("2026-09-05", "2026-09-05T25:00", "2026-09-05T18", "18:00", "2026-02-30T10:00", "soon"),
        *("2026-09-05T18:00+99:00", "2026-09-05T18:00 CST", "2026-09-05T18:60"),
    ],
)
def test_what_is_no_instant_is_refused(loaded: Desk, cell: str) -> None:
    problem = loaded.problem(sessions=SESSION.format(cell=cell))
    assert problem.value == cell
    assert "is not a date and time" in problem.expected


def test_a_time_zone_must_be_in_the_iana_list(loaded: Desk) -> None:
    text = "department,name,plan,time_zone\nD3,West,onsite printer,America/Chicagoo\n"
    problem = loaded.problem(departments=text)
    assert problem.nearest == "America/Chicago"


@pytest.mark.parametrize("column", ["name", "time_zone"])
def test_a_required_cell_must_not_be_empty(loaded: Desk, column: str) -> None:
    cells = {"department": "D3", "name": "W", "plan": "onsite printer", "time_zone": "UTC"}
    cells[column] = " "
    text = ",".join(cells) + "\n" + ",".join(cells.values()) + "\n"
    problem = loaded.problem(departments=text)
    assert (problem.row, problem.column, problem.value) == (2, column, None)
    assert "is empty" in problem.expected


def test_many_bad_cells_are_all_counted_but_not_all_listed(loaded: Desk) -> None:
    rows = "".join(f"B{place},T1,2026,Ana,soon\n" for place in range(2500))
    refusal = loaded.refusal(roster="athlete,team,season,name,joined_on\n" + rows)
    assert "2,500 problems" in refusal.what
    assert len(refusal.problems) == LISTED + 1
    assert any("and 1,500 more rows" in problem.expected for problem in refusal.problems)


def test_many_ragged_rows_are_all_counted_but_not_all_listed(loaded: Desk) -> None:
    refusal = loaded.refusal(teams="team,department,sport,sex\n" + "a,b\n" * 2500)
    ragged = [problem for problem in refusal.problems if "cells" in problem.expected]
    assert len(ragged) == LISTED + 1
    assert any("1,500 more rows" in problem.expected for problem in ragged)
