"""Athletes and keys that nearly match: taken when sure, offered when likely, never guessed."""

import pytest

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.plan import LoadPlan, plan_load
from tests.intake.desk import Desk

HEADER = "session,athlete_name,athlete_jersey,part\n"


@pytest.fixture
def squad(own: Desk) -> Desk:
    """Return a store with an O’Brien in North, a namesake in South, and twins."""
    own.load(
        roster="athlete,team,season,name,jersey\n"
        "A7,T1,2026,Jonathan O’Brien,12\nA8,T1,2026,Mia Park,7\n"
        "B7,T2,2026,Jonathan O'Brien,12\n"
        "C1,T1,2026,Sam Twin,30\nC2,T1,2026,Sam Twin,31\n"
    )
    (own.folder / "roster.csv").unlink()
    return own


def part(name: str, jersey: str = "") -> str:
    return f'{HEADER}S1,"{name}",{jersey},full\n'


def athletes(plan: LoadPlan) -> list[str]:
    return plan.rows["attendance"]["athlete"].to_list()


@pytest.mark.parametrize(
    "name", ["Jonathan O'Brien", "O'BRIEN, JONATHAN", "jonathan o`brien", "Jonathan  O’Brien"]
)
def test_the_same_name_within_the_department_is_the_athlete(squad: Desk, name: str) -> None:
    """Capitals, apostrophes and “Last, First” make no other person; another department does."""
    plan = squad.plan(attendance=part(name))
    assert athletes(plan) == ["A7"]
    assert any("was taken as athlete A7" in note.expected for note in plan.notes)


def test_another_jersey_is_told(squad: Desk) -> None:
    plan = squad.plan(attendance=part("Jonathan O'Brien", "21"))
    assert athletes(plan) == ["A7"]
    assert any("has jersey 12" in note.expected for note in plan.notes)


@pytest.mark.parametrize("name", ["Jon O'Brien", "Johnathan OBrien"])
def test_a_nickname_or_a_slip_is_offered_not_taken(squad: Desk, name: str) -> None:
    problem = squad.problem(attendance=part(name, "12"))
    assert (problem.row, problem.column, problem.value) == (2, "athlete_name", name)
    assert "likely A7 (Jonathan O’Brien, 12)" in problem.expected


def test_likely_athletes_are_taken_when_that_is_said(squad: Desk) -> None:
    squad.put(attendance=part("Jon O'Brien"))
    plan = plan_load(squad.store, [squad.folder], LoadOptions(accept_likely=True))
    assert athletes(plan) == ["A7"]
    assert any("likely athlete A7" in note.expected for note in plan.notes)


def test_of_two_of_one_name_the_jersey_decides(squad: Desk) -> None:
    assert athletes(squad.plan(attendance=part("Sam Twin", "31"))) == ["C2"]


def test_two_of_one_name_without_a_jersey_are_named(squad: Desk) -> None:
    problem = squad.problem(attendance=part("Sam Twin"))
    assert "more than one athlete (C1, C2)" in problem.expected


def test_a_stranger_is_told(squad: Desk) -> None:
    assert "is no athlete's name" in squad.problem(attendance=part("Zed Quux")).expected


def test_without_a_department_a_name_is_only_offered(squad: Desk) -> None:
    """An injury without session could be of any department of the store."""
    text = "injury,athlete_name,occurred_on,area,side\nI9,Mia Park,2026-09-05,knee,left\n"
    assert "likely A8" in squad.problem(injuries=text).expected
    team = text.replace("athlete_name", "athlete_name,athlete_team").replace("Park", "Park,T1")
    assert squad.plan(injuries=team).rows["injuries"]["athlete"].to_list() == ["A8"]


def test_a_written_key_stands_whatever_the_name(squad: Desk) -> None:
    text = "session,athlete,athlete_name,part\nS1,A8,Jonathan O'Brien,full\nS1,,Mia Park,out\n"
    problems = squad.refusal(attendance=text).problems
    assert "already stands in" in problems[0].expected


ZEROS = ["417", "417.0", "4.17E+02", "0417"]


@pytest.fixture
def zeros(own: Desk) -> Desk:
    own.load(roster="athlete,team,season,name\n00417,T1,2026,Ana\nx-01,T1,2026,Bo\n")
    (own.folder / "roster.csv").unlink()
    return own


@pytest.mark.parametrize("key", ZEROS)
def test_a_key_without_its_zeros_is_offered_not_taken(zeros: Desk, key: str) -> None:
    problem = zeros.problem(attendance=f"session,athlete,part\nS1,{key},full\n")
    assert problem.value == key
    assert "“00417” is" in problem.expected


@pytest.mark.parametrize("key", ZEROS)
def test_a_key_without_its_zeros_is_taken_when_that_is_said(zeros: Desk, key: str) -> None:
    zeros.put(attendance=f"session,athlete,part\nS1,{key},full\nS1,A1,full\n")
    plan = plan_load(zeros.store, [zeros.folder], LoadOptions(accept_likely=True))
    assert athletes(plan) == ["00417"]
    assert any("without leading zeros" in note.expected for note in plan.notes)


def test_a_key_that_may_be_two_is_not_offered(zeros: Desk) -> None:
    zeros.load(roster="athlete,team,season,name\n0417,T1,2026,Cy\n")
    problem = zeros.problem(
        attendance="session,athlete,part\nS1,417,full\n",
        roster="athlete,team,season,name\n0417,T1,2026,Cy\n",
    )
    assert "they match without" not in problem.expected


def test_a_new_key_that_differs_in_zeros_only_is_told(zeros: Desk) -> None:
    plan = zeros.plan(roster="athlete,team,season,name\n417,T1,2026,Ana\n")
    assert any("“417” is new, but 00417" in note.sentence() for note in plan.notes)
