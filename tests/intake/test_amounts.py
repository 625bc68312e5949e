"""Numbers with commas, groups of digits and units; sizes that cannot be are set aside."""

from pathlib import Path

import pytest

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.plan import LoadPlan, plan_load
from tests.intake.desk import Desk


def guards(column: str, *cells: str) -> str:
    rows = [
        f'G9{place},A1,wrist,left,preventive,"{_doubled(cell)}"\n'
        for place, cell in enumerate(cells)
    ]
    return f"guard,athlete,kind,side,purpose,{column}\n" + "".join(rows)


def _doubled(cell: str) -> str:
    return cell.replace('"', '""')


def numbers(plan: LoadPlan, column: str) -> list[float]:
    return plan.rows["guards"].sort("guard")[column].to_list()


def test_decimal_commas_are_read_and_a_mixture_is_told(loaded: Desk) -> None:
    plan = loaded.plan(guards=guards("shell_mm", "3,5", "4.0", "4,25"))
    assert numbers(plan, "shell_mm") == [3.5, 4.0, 4.25]
    assert "decimal points" in plan.notes[0].expected


def test_commas_between_thousands_are_settled_by_a_row_that_shows_them(loaded: Desk) -> None:
    plan = loaded.plan(guards=guards("mass_g", "1,250", "1,250.50", "980"))
    assert numbers(plan, "mass_g") == [1250.0, 1250.5, 980.0]


def test_a_lone_comma_before_three_digits_is_asked_about(loaded: Desk) -> None:
    problem = loaded.problem(guards=guards("mass_g", "1,250", "980"))
    assert "can be 1250 or 1.250" in problem.expected
    assert "--decimal" in problem.expected


@pytest.mark.parametrize(("said", "mass"), [("comma", 1.25), ("point", 1250.0)])
def test_what_a_lone_comma_means_can_be_said(loaded: Desk, said: str, mass: float) -> None:
    loaded.put(guards=guards("mass_g", "1,250" if said == "point" else "2,250"))
    plan = plan_load(loaded.store, [loaded.folder], LoadOptions(decimal=said))
    assert numbers(plan, "mass_g") == [mass if said == "point" else 2.25]


def test_a_lone_point_is_asked_about_where_commas_part_decimals(loaded: Desk) -> None:
    problem = loaded.problem(guards=guards("mass_g", "61,5", "1.250"))
    assert problem.value == "1.250"


def test_a_point_after_a_zero_is_a_decimal_point_whatever_the_rest(loaded: Desk) -> None:
    plan = loaded.plan(guards=guards("print_hours", "0.125", "7,5"))
    assert numbers(plan, "print_hours") == [0.125, 7.5]


@pytest.mark.parametrize("cell", ["1 250", "1\u00a0250", "1'250", "1.250,0"])
def test_other_marks_between_thousands_are_read(loaded: Desk, cell: str) -> None:
    assert numbers(loaded.plan(guards=guards("mass_g", cell)), "mass_g") == [1250.0]


@pytest.mark.parametrize(
    ("column", "cell", "size"),
    [
        ("shell_mm", "4 mm", 4.0),
        ("shell_mm", "0.4 cm", 4.0),
        ("shell_mm", "0.125 in", 3.175),
        ("shell_mm", '0.125"', 3.175),
        ("shell_mm", "0,5cm", 5.0),
        ("mass_g", "2 oz", 56.69904625),
        ("mass_g", "0.25 kg", 250.0),
        ("print_hours", "90 min", 1.5),
        ("contact_pct", "82%", 82.0),
    ],
)
def test_units_that_are_written_are_turned(
    loaded: Desk, column: str, cell: str, size: float
) -> None:
    (number,) = numbers(loaded.plan(guards=guards(column, cell)), column)
    assert number == pytest.approx(size, rel=1e-12)


@pytest.mark.parametrize("cell", ["4 kg", "4 furlongs", "4 mm mm", "4..5", "1,2,3"])
def test_units_of_something_else_are_refused(loaded: Desk, cell: str) -> None:
    assert loaded.problem(guards=guards("shell_mm", cell)).value == cell


@pytest.mark.parametrize(
    ("column", "cell"),
    [("shell_mm", "0.16"), ("shell_mm", "40"), ("mass_g", "0.06"), ("contact_pct", "0.82")],
)
def test_a_size_that_can_hardly_be_is_set_aside_with_its_range(
    loaded: Desk, column: str, cell: str
) -> None:
    problem = loaded.problem(guards=guards(column, cell))
    assert problem.value == cell
    assert "Was another unit meant?" in problem.expected


def test_a_store_may_widen_what_is_plausible(loaded: Desk, tmp_path: Path) -> None:
    (tmp_path / "s.duckdb.synonyms.toml").write_text("[plausible]\nshell_mm = [0.1, 50]\n")
    loaded.put(guards=guards("shell_mm", "40", "0.16"))
    options = LoadOptions(store=tmp_path / "s.duckdb")
    plan = plan_load(loaded.store, [loaded.folder], options)
    assert numbers(plan, "shell_mm") == [40.0, 0.16]


def test_a_comma_in_a_whole_number_parts_thousands(loaded: Desk) -> None:
    text = 'session,athlete,part,plays\nS2,A1,full,"1,250"\n'
    assert loaded.plan(attendance=text).rows["attendance"]["plays"].to_list() == [1250]


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
