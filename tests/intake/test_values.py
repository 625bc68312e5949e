"""Cells become words, numbers, dates and instants, or are told one by one."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.plan import LoadPlan, plan_load
from seasonboard.store.intake.problems import LISTED
from seasonboard.store.store import Store
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES
from tests.intake.desk import Desk

INJURY = "injury,athlete,occurred_on,area,side,returned_on\nI9,A1,{},{},{},{}\n"
SESSION = "session,team,season,starts_at,setting\nS9,T1,2026,{cell},game\n"


def injuries(area="knee", side="left", occurred_on="2026-09-05", returned_on="") -> str:
    return INJURY.format(occurred_on, area, side, returned_on)


def played(column: str, cell: str) -> str:
    return f'session,athlete,part,{column}\nS2,A1,full,"{cell}"\n'


def guards(column: str, *cells: str) -> str:
    doubled = [cell.replace('"', '""') for cell in cells]
    rows = [f'G9{nth},A1,wrist,left,preventive,"{cell}"\n' for nth, cell in enumerate(doubled)]
    return f"guard,athlete,kind,side,purpose,{column}\n" + "".join(rows)


def numbers(plan: LoadPlan, column: str) -> list[float]:
    return plan.rows["guards"].sort("guard")[column].to_list()


def test_words_are_read_whatever_their_capitals_and_blanks(loaded: Desk) -> None:
    rows = loaded.plan(injuries=injuries(" Lower LEG ", "LEFT")).rows["injuries"]
    assert rows.select("area", "side").row(0) == ("lower leg", "left")


def test_an_unknown_word_is_told_with_the_list_and_the_nearest(loaded: Desk) -> None:
    problem = loaded.problem(injuries=injuries("shoudler"))
    assert (problem.file, problem.row, problem.column) == ("injuries.csv", 2, "area")
    assert (problem.value, problem.nearest) == ("shoudler", "shoulder")
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
def test_the_word_lists_are_those_of_the_store(loaded_store: Store, table, column) -> None:
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
    rows = loaded.plan(attendance=played("minutes", cell)).rows["attendance"]
    assert rows["minutes"].to_list() == [float(cell)]


@pytest.mark.parametrize(
    ("column", "said", "cells"),
    [
        (
            "minutes",
            "is not a number of 0 or more",
            ("-1", "ninety", "inf", "1e999", "60:30", "0x10", "1_000"),
        ),
        ("plays", "is not a whole number", ("41.0", "-1", "4 1", "forty", "99999999999", "9" * 30)),
    ],
)
def test_what_is_no_number_is_refused(loaded: Desk, column, said, cells) -> None:
    for cell in cells:
        problem = loaded.problem(attendance=played(column, cell))
        assert (problem.column, problem.value) == (column, cell)
        assert said in problem.expected


SIZES = [
    *(("contact_pct", cell, float(cell)) for cell in ("0", "100", "82.25")),
    ("contact_pct", "82%", 82.0),
    *(("shell_mm", cell, 3.175) for cell in ("0.125 in", '0.125"')),
    *(("shell_mm", cell, 4.0) for cell in ("4 mm", "0.4 cm")),
    ("shell_mm", "0,5cm", 5.0),
    ("mass_g", "2 oz", 56.69904625),
    ("mass_g", "0.25 kg", 250.0),
    ("print_hours", "90 min", 1.5),
    *(("mass_g", cell, 1250.0) for cell in ("1 250", "1\u00a0250", "1'250", "1.250,0")),
]


@pytest.mark.parametrize(("column", "cell", "size"), SIZES)
def test_sizes_with_and_without_their_units_are_read(loaded: Desk, column, cell, size) -> None:
    (number,) = numbers(loaded.plan(guards=guards(column, cell)), column)
    assert number == pytest.approx(size, rel=1e-12)


COLUMNS_OF_NUMBERS = {
    "decimal commas are read": ("shell_mm", {"3,5": 3.5, "4.0": 4, "4,25": 4.25}),
    "thousands": ("mass_g", {"1,250": 1250, "1,250.50": 1250.5, "980": 980}),
    "a point after a zero is one of decimals": ("print_hours", {"0.125": 0.125, "7,5": 7.5}),
}


@pytest.mark.parametrize("name", COLUMNS_OF_NUMBERS)
def test_marks_in_numbers_are_settled_by_the_whole_column(loaded: Desk, name: str) -> None:
    column, cells = COLUMNS_OF_NUMBERS[name]
    plan = loaded.plan(guards=guards(column, *cells))
    assert numbers(plan, column) == list(cells.values())
    assert ("decimal points" in plan.notes[0].expected) == (column != "mass_g")


def test_a_comma_in_a_whole_number_parts_thousands(loaded: Desk) -> None:
    rows = loaded.plan(attendance=played("plays", "1,250")).rows["attendance"]
    assert rows["plays"].to_list() == [1250]


@pytest.mark.parametrize(
    ("cells", "value", "said"),
    [
        (("1,250", "980"), "1,250", "can be 1250 or 1.250"),
        (("61,5", "1.250"), "1.250", "--decimal"),
    ],
)
def test_a_lone_comma_or_point_before_three_digits_is_asked_about(loaded, cells, value, said):
    problem = loaded.problem(guards=guards("mass_g", *cells))
    assert problem.value == value
    assert said in problem.expected


@pytest.mark.parametrize(
    ("said", "cell", "mass"), [("comma", "2,250", 2.25), ("point", "1,250", 1250.0)]
)
def test_what_a_lone_comma_means_can_be_said(loaded: Desk, said, cell, mass) -> None:
    loaded.put(guards=guards("mass_g", cell))
    plan = plan_load(loaded.store, [loaded.folder], LoadOptions(decimal=said))
    assert numbers(plan, "mass_g") == [mass]


@pytest.mark.parametrize(
    ("column", "said", "cells"),
    [
        ("contact_pct", "is not a number from 0 to 100", ("100.1", "-0.5", "182%")),
        ("shell_mm", "is not a number", ("4 kg", "4 furlongs", "4 mm mm", "4..5", "1,2,3")),
        ("shell_mm", "Was another unit meant?", ("0.16", "40")),
        ("mass_g", "Was another unit meant?", ("0.06",)),
        ("contact_pct", "Was another unit meant?", ("0.82",)),
    ],
)
def test_sizes_that_cannot_be_are_refused_and_those_that_hardly_can(loaded, column, said, cells):
    for cell in cells:
        problem = loaded.problem(guards=guards(column, cell))
        assert problem.value == cell
        assert said in problem.expected


def test_a_store_may_widen_what_is_plausible(loaded: Desk, tmp_path: Path) -> None:
    (tmp_path / "s.duckdb.synonyms.toml").write_text("[plausible]\nshell_mm = [0.1, 50]\n")
    loaded.put(guards=guards("shell_mm", "40", "0.16"))
    plan = plan_load(loaded.store, [loaded.folder], LoadOptions(store=tmp_path / "s.duckdb"))
    assert numbers(plan, "shell_mm") == [40.0, 0.16]


@pytest.mark.parametrize(
    "cell", ["2026-02-30", "2026-13-01", "31/31/2026", "462", "soon", "Octember 3 2026"]
)
def test_what_is_no_date_is_refused(loaded: Desk, cell: str) -> None:
    problem = loaded.problem(injuries=injuries(returned_on=cell))
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
INSTANTS = {
    **dict.fromkeys(("2026-09-05T18:00", "2026-09-05 18:00", "2026-09-05T18:00-05:00"), EVENING),
    **dict.fromkeys(("2026-09-05T23:00Z", "2026-09-05t23:00z"), EVENING),
    **dict.fromkeys(("2026-09-06T08:30:00+0930", "2026-09-05 23:00:00 +00:00"), EVENING),
    "2026-09-05T18:00:30": EVENING + timedelta(seconds=30),
    "2026-09-05T18:00:00.250": EVENING + timedelta(milliseconds=250),
}


@pytest.mark.parametrize("cell", INSTANTS)
def test_instants_with_and_without_an_offset(loaded: Desk, cell: str) -> None:
    """Without an offset the time is that of the department, here in Chicago."""
    rows = loaded.plan(sessions=SESSION.format(cell=cell)).rows["sessions"]
    assert rows["starts_at"].to_list() == [INSTANTS[cell]]


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


def department(**cells: str) -> str:
    row = {"department": "D3", "name": "W", "plan": "onsite printer", "time_zone": "UTC"} | cells
    return ",".join(row) + "\n" + ",".join(row.values()) + "\n"


def test_a_time_zone_must_be_in_the_iana_list(loaded: Desk) -> None:
    problem = loaded.problem(departments=department(time_zone="America/Chicagoo"))
    assert problem.nearest == "America/Chicago"


@pytest.mark.parametrize("column", ["name", "time_zone"])
def test_a_required_cell_must_not_be_empty(loaded: Desk, column: str) -> None:
    problem = loaded.problem(departments=department(**{column: " "}))
    assert (problem.row, problem.column, problem.value) == (2, column, None)
    assert "is empty" in problem.expected


MISSING = ["N/A", "n/a", "NA", "-", "–", "TBD", "null", "#N/A", "nan", "."]


@pytest.mark.parametrize("mark", MISSING)
def test_marks_for_nothing_are_missing_in_dates_numbers_and_words(loaded: Desk, mark: str) -> None:
    plan = loaded.plan(
        attendance=f"session,athlete,part,reason,minutes,plays\nS3,A1,full,{mark},{mark},{mark}\n"
    )
    assert plan.rows["attendance"].select("reason", "minutes", "plays").row(0) == (None,) * 3
    assert len([note for note in plan.notes if "as missing" in note.expected]) == 3


@pytest.mark.parametrize("name", ["NA", "None", "Null", "Nan Li", "None Okafor", "-"])
def test_people_and_keys_may_be_called_like_a_mark_for_nothing(loaded: Desk, name: str) -> None:
    text = f"athlete,team,season,name,position\n{name},T1,2026,{name},{name}\n"
    row = loaded.plan(roster=text).rows["roster"].select("athlete", "name", "position").row(0)
    assert row == (name, name, name)


def test_a_mark_for_nothing_where_something_is_needed_is_told_as_written(loaded: Desk) -> None:
    problem = loaded.problem(attendance="session,athlete,part\nS2,A1,N/A\n")
    assert problem.value == "N/A"
    assert "is empty" in problem.expected


@pytest.mark.parametrize(
    ("table", "head", "row", "said"),
    [
        ("roster", "athlete,team,season,name,joined_on\n", "B{},T1,2026,Ana,soon\n", "kind of"),
        ("teams", "team,department,sport,sex\n", "a,b\n", "cells"),
    ],
)
def test_many_bad_rows_are_all_counted_but_not_all_listed(loaded, table, head, row, said) -> None:
    refusal = loaded.refusal(**{table: head + "".join(row.format(nth) for nth in range(2500))})
    listed = [one for one in refusal.problems if table == "roster" or "cells" in one.expected]
    assert ("2,500 problems" in refusal.what) == (table == "roster")
    assert len(listed) == LISTED + 1
    (more,) = [one for one in listed if "and 1,500 more rows" in one.expected]
    assert said in more.expected
