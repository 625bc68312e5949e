"""Order sheets, print logs and rosters as makers and offices keep them."""

import pytest

from tests.intake.desk import Desk, Source
from tests.intake.test_date_grids import told

PREVENTIVE = {"purpose": "preventive"}
ORDERS = """\
Order #,Athlete No,Guard,Side,Ordered,Scanned
2101,A1,Shin (pair),,8/13/2026,8/14/2026
2102,A2,Thumb,R,8/15/2026,
"""


def guards(plan, *columns):
    return plan.rows["guards"].select("guard", *columns).sort("guard").rows()


def test_a_pair_is_one_guard_of_both_sides(source: Source) -> None:
    plan = source.plan(source.file(ORDERS, "orders.csv"), constants=PREVENTIVE)
    assert guards(plan, "athlete", "kind", "side") == [
        ("2101", "A1", "shin", "both"),
        ("2102", "A2", "thumb", "right"),
    ]
    assert plan.rows["stages"].select("guard", "stage").sort("guard", "stage").rows() == [
        ("2101", "requested"),
        ("2101", "scanned"),
        ("2102", "requested"),
    ]


def test_every_ticked_site_is_a_guard(source: Source) -> None:
    text = "Athlete No,Shin L,Shin R,Thumb R\nA1,x,x,\nA2,,,x\n"
    plan = source.plan(source.file(text, "orders.csv"), constants=PREVENTIVE)
    made = plan.rows["guards"].select("athlete", "kind", "side").sort("athlete", "side").rows()
    assert made == [("A1", "shin", "left"), ("A1", "shin", "right"), ("A2", "thumb", "right")]
    assert "row 2: ticks more than one site (row 2)" in told(plan)


def test_a_print_log_adds_the_hours_of_its_runs(source: Source) -> None:
    orders = [["Job", "Athlete No", "Guard", "Side", "Use", "Ordered"],
              ["W-1", "A1", "Thumb", "R", "prevent", "8/13/2026"],
              ["W-2", "A2", "Shin", "L", "prevent", "8/14/2026"]]  # fmt: skip
    log = [["Job", "Printer", "Hrs"], ["W-1", "bench 1", "3:30"], ["W-2", "bench 1", "FAILED"],
           ["W-1", "bench 2", "1h15"], ["W-2", "bench 2", "2.5"]]  # fmt: skip
    plan = source.plan(source.workbook({"Orders": orders, "Print log": log}))
    assert guards(plan, "print_hours", "printer") == [
        ("W-1", 4.75, "bench 2"),
        ("W-2", 2.5, "bench 2"),
    ]
    assert "W-1 (2 runs, 4.75 h)" in told(plan)


def test_a_fraction_of_an_inch_is_read(source: Source) -> None:
    text = 'guard,athlete,kind,side,shell\nG8,A1,shin,left,"5/32"""\nG9,A2,shin,left,4 mm\n'
    plan = source.plan(source.file(text, "devices.csv"), constants=PREVENTIVE)
    assert guards(plan, "shell_mm") == [("G8", pytest.approx(25.4 * 5 / 32)), ("G9", 4.0)]


def test_a_bare_number_among_inches_is_refused(source: Source) -> None:
    text = 'guard,athlete,kind,side,shell\nG8,A1,shin,left,"0.16"""\nG9,A2,shin,left,4\n'
    (problem,) = source.refusal(source.file(text, "devices.csv"), constants=PREVENTIVE).problems
    assert (problem.row, problem.column, problem.value) == (3, "shell_mm", "4")
    assert "has no unit, but others of its column do" in problem.expected


def test_subtotals_and_a_footnote_are_left_out_by_name(source: Source) -> None:
    text = (
        "Order #,Athlete No,Guard,Side,Ordered\n2101,A1,Shin,L,8/13/2026\nSubtotal,,1,,\n"
        "2102,A2,Thumb,R,8/15/2026\nSubtotal,,1,,\n,,,,\n* rush orders first,,,,\n"
    )
    plan = source.plan(source.file(text, "orders.csv"), constants=PREVENTIVE)
    assert [key for (key,) in guards(plan)] == ["2101", "2102"]
    said = told(plan)
    assert "row 3: is a subtotal, not a record, and was left out." in said
    assert "“* rush orders first” is a remark below the table" in said


def test_one_answer_makes_a_department_and_a_team_in_an_empty_store(desk: Desk, tmp_path) -> None:
    source = Source(desk, tmp_path / "s.duckdb")
    file = source.file("Name,Jersey,Pos\nAna Reed,07,GK\nBo Lind,10,D\n", "roster.csv")
    wanted = {"season": "2026 fall"}
    refusal = source.refusal(file, constants=wanted)
    assert "Hollow Creek College, women, soccer, America/New_York" in refusal.problems[0].expected
    answer = {"team": "Elm College, women, soccer, America/Chicago"} | wanted
    plan = source.plan(file, constants=answer)
    assert plan.rows["departments"].select("department", "name", "plan", "time_zone").rows() == [
        ("E", "Elm College", None, "America/Chicago")
    ]
    assert plan.rows["teams"].rows() == [("E-WSOC", "E", "soccer", "women")]
    assert plan.rows["roster"].select("name", "team", "jersey").rows() == [
        ("Ana Reed", "E-WSOC", "07"),
        ("Bo Lind", "E-WSOC", "10"),
    ]


def test_rows_of_one_key_with_other_cells_in_a_column_not_read_are_told(source: Source) -> None:
    text = (
        "Order #,Athlete No,Guard,Side,Colour code\n2101,A1,Shin,L,red\n2101,A1,Shin,L,blue\n"
        "2102,A2,Thumb,R,red\n"
    )
    refusal = source.refusal(source.file(text, "orders.csv"), constants=PREVENTIVE)
    (problem,) = refusal.problems
    assert problem.row == 3
    plan = source.plan(source.file(text, "orders.csv"), constants=PREVENTIVE, keep_good=True)
    assert [one.row for one in plan.problems] == [3]


def test_a_log_without_hours_has_the_time_from_start_to_end(source: Source) -> None:
    text = "Job,Printer,Material,Start,End\nG1,bench 2,PETG,2026-08-05 22:00,2026-08-06 01:30\n"
    plan = source.plan(source.file(text, "print log.csv"))
    row = plan.rows["guards"].row(0, named=True)
    assert (row["guard"], row["printer"], row["print_hours"]) == ("G1", "bench 2", 3.5)


def test_a_cancellation_without_a_day_takes_the_last_stages_day_not_the_last_in_letters(source):
    text = (
        "Order,Athlete No,Guard,Side,Use,Ordered,Scanned,Notes\n"
        "O1,A1,wrist,L,prevent,9/28/2026,10/2/2026,cancelled\n"
    )
    plan = source.plan(source.file(text, "orders.csv"))
    stages = plan.rows["stages"].select("stage", "reached_at").rows()
    assert str(dict(stages)["cancelled"])[:10] == "2026-10-02"


def test_rows_that_tick_no_site_are_all_told(source):
    bare = "".join(f"A1,,{day}/9/2026\n" for day in range(13, 20))
    text = f"Athlete No,Shin L,Ordered\nA1,x,13/8/2026\n{bare}"
    plan = source.plan(source.file(text, "ticks.csv"), constants={"purpose": "return"})
    told = [one.expected for one in plan.notes if "ticks no site" in one.expected]
    assert all("(row 3, 4, 5, 6, 7, 8, 9)" in one for one in told)
    assert told
