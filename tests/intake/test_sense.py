"""What cannot be is refused; what hardly can be is kept and told."""

import pytest

from tests.intake.desk import Desk

GUARDS = "guard,athlete,kind,side,purpose,remake_of\n"
INJURIES = "injury,athlete,occurred_on,session,area,side,reported_on,returned_on\n"
ROSTER = "athlete,team,season,name,joined_on,left_on\n"


@pytest.mark.parametrize(
    ("table", "column", "text"),
    [
        ("injuries", "returned_on", INJURIES + "I9,A1,2026-09-05,,knee,left,,2026-09-04\n"),
        ("injuries", "reported_on", INJURIES + "I9,A1,2026-09-05,,knee,left,2026-09-04,\n"),
        ("roster", "left_on", ROSTER + "B1,T1,2026,Di,2026-09-05,2026-09-04\n"),
    ],
)
def test_no_end_before_its_beginning(loaded: Desk, table: str, column: str, text: str) -> None:
    problem = loaded.problem(**{table: text})
    assert (problem.column, problem.value) == (column, "2026-09-04")
    assert "lies before" in problem.expected
    assert "2026-09-05" in problem.expected


def test_the_same_day_is_fine(loaded: Desk) -> None:
    text = INJURIES + "I9,A1,2026-09-05,,knee,left,2026-09-05,2026-09-05\n"
    assert loaded.plan(injuries=text).tables[0].new == 1


def test_a_date_the_file_leaves_out_is_checked_as_stored(loaded: Desk) -> None:
    """I1 returned on 19 September; a file without that column cannot move the injury past it."""
    text = "injury,athlete,occurred_on,area,side\nI1,A2,2026-09-25,lumbosacral,midline\n"
    problems = loaded.refusal(injuries=text).problems
    assert {problem.column for problem in problems} == {"reported_on", "returned_on", "occurred_on"}


def test_a_guard_is_no_remake_of_itself(loaded: Desk) -> None:
    problem = loaded.problem(guards=GUARDS + "G9,A1,wrist,left,preventive,G9\n")
    assert problem.column == "remake_of"
    assert "itself" in problem.expected


@pytest.mark.parametrize("length", [2, 3, 7])
def test_remakes_do_not_go_round_in_a_circle(loaded: Desk, length: int) -> None:
    rows = [f"H{i},A1,wrist,left,preventive,H{(i + 1) % length}\n" for i in range(length)]
    problems = loaded.refusal(guards=GUARDS + "".join(rows)).problems
    assert {problem.column for problem in problems} == {"remake_of"}
    assert len(problems) == length


def test_a_circle_through_stored_guards_is_found(loaded: Desk) -> None:
    """G3 is a remake of G1; now G1 claims to be a remake of G3."""
    problem = loaded.problem(guards=GUARDS + "G1,A1,wrist,left,preventive,G3\n")
    assert problem.value == "G3"


def test_a_long_chain_of_remakes_is_fine(loaded: Desk) -> None:
    rows = [f"H{i},A1,wrist,left,preventive,H{i - 1}\n" for i in range(1, 40)]
    text = GUARDS + "H0,A1,wrist,left,preventive,\n" + "".join(rows)
    assert loaded.plan(guards=text).tables[0].new == 40


@pytest.mark.parametrize(("area", "side"), [("knee", "midline"), ("hip/groin", "midline")])
def test_an_injury_has_the_side_of_its_area(loaded: Desk, area: str, side: str) -> None:
    problem = loaded.problem(injuries=INJURIES + f"I9,A1,2026-09-05,,{area},{side},,\n")
    assert (problem.column, problem.value) == ("side", side)
    assert area in problem.expected


@pytest.mark.parametrize(("area", "side"), [("head", "left"), ("lumbosacral", "both")])
def test_a_side_given_on_the_midline_is_kept_in_the_note(
    loaded: Desk, area: str, side: str
) -> None:
    plan = loaded.plan(injuries=INJURIES + f"I9,A1,2026-09-05,,{area},{side},,\n")
    row = plan.rows["injuries"].row(0, named=True)
    assert (row["side"], row["note"]) == ("midline", f"side given: {side}")
    assert any(f"the side of the {area}" in note.expected for note in plan.notes)


@pytest.mark.parametrize(
    ("area", "side"),
    [
        ("head", "midline"),
        ("knee", "both"),
        ("multiple", "left"),
        ("region unspecified", "midline"),
    ],
)
def test_sides_that_fit(loaded: Desk, area: str, side: str) -> None:
    text = INJURIES + f"I9,A1,2026-09-05,,{area},{side},,\n"
    assert loaded.plan(injuries=text).tables[0].new == 1


@pytest.mark.parametrize(
    ("kind", "side"), [("chest", "left"), ("lower back", "both"), ("wrist", "midline")]
)
def test_a_guard_has_the_side_of_its_kind(loaded: Desk, kind: str, side: str) -> None:
    problem = loaded.problem(guards=GUARDS + f"G9,A1,{kind},{side},preventive,\n")
    assert (problem.column, problem.value) == ("side", side)
    assert f"a {kind} guard covers" in problem.expected


@pytest.mark.parametrize("side", ["left", "midline"])
def test_a_kind_over_midline_and_limb_takes_any_side(loaded: Desk, side: str) -> None:
    kinds = "kind,area,function\nyoke,shoulder,impact\nyoke,chest,impact\n"
    guards = GUARDS + f"G9,A1,yoke,{side},preventive,\n"
    assert loaded.plan(kinds=kinds, guards=guards).tables[1].new == 1


@pytest.mark.parametrize(
    ("day", "fine"),
    [("2026-09-03", False), ("2026-09-04", True), ("2026-09-06", True), ("2026-09-07", False)],
)
def test_an_injury_is_within_a_day_of_its_session(loaded: Desk, day: str, *, fine: bool) -> None:
    text = INJURIES + f"I9,A1,{day},S1,knee,left,,\n"
    if fine:
        assert loaded.plan(injuries=text).tables[0].new == 1
    else:
        problem = loaded.problem(injuries=text)
        assert problem.column == "occurred_on"
        assert "2026-09-05" in problem.expected
