"""`seasonboard draw` as a process: who waits, what is asked before freezing, what is refused."""

import csv
import io
import shutil
from datetime import UTC, datetime, time
from pathlib import Path

import pytest

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.load_files import load_paths
from tests.queries.build import Season, day, department, guard, injury, member
from tests.reused import made_once

DAY = ("--through", day(20).isoformat())
BOARD = ("--board-number", "B 12")
ATHLETES = "ABCEFGHIJ"


def offered() -> Season:
    """Nine accepted a chest guard, J declined; A to E wait: B's order is begun, C was hurt before.

    Not drawn: F's is fitted (6 days after its print), G's printed, H's cancelled, I is hurt and not
    back. K accepted and left the roster.
    """
    made = Season(departments=[department("D", prints_per_week=2)])
    made.roster = [member(a, position_group="back" if a in "AB" else None) for a in ATHLETES]
    made.roster.append(member("K", left_on=day(3)))
    made.offers = [
        {"offer": f"O{a}", "athlete": a, "kind": "chest", "offered_on": day(2),
         "answer": "declined" if a == "J" else "accepted"}
        for a in (*ATHLETES, "K")
    ]  # fmt: skip
    made.guards = [guard(f"c-{a}", a) for a in "BFGH"]
    reached = {"B": {"scanned": 4}, "F": {"printed": 5, "fitted": 11}}
    reached |= {"G": {"printed": 15}, "H": {"requested": 4, "cancelled": 6}}
    made.stages = [
        {"guard": f"c-{a}", "stage": stage, "reached_at": datetime.combine(day(on), time(9), UTC)}
        for a, stages in reached.items()
        for stage, on in stages.items()
    ]
    made.injuries = [injury("i", "C", day(3), returned_on=day(9)), injury("j", "I", day(18))]
    return made


@pytest.fixture(scope="session")
def waiting(tmp_path_factory):
    def load(folder):
        tables = offered().write(folder / "tables")
        load_paths(folder / "s.store", [tables], UnattendedLoad())

    return made_once(tmp_path_factory, "waiting", load) / "s.store"


@pytest.fixture
def store(waiting, tmp_path):
    return Path(shutil.copy(waiting, tmp_path))


def turns(run, store):
    done = run("ask", "turns", "--store", store, "--format", "csv")
    return list(csv.DictReader(io.StringIO(done.out)))


def test_the_plan_says_who_waits_and_writes_nothing_until_the_board_is_named(run, store):
    before = store.read_bytes()
    done = run("draw", "--store", store, *DAY, "--seed", "7", "--plan")
    assert done.status == 0, done.err
    for words in (
        "Draw T01, D: 4 guards wait in 2 strata; seed 7.",
        "2 a week from Mon 21 Sep 2026: 2 weeks of printing.",
        "ready 6 days after its turn (the median from print to fitting of 1 order)",
        "1 of them were hurt at the site before",
        "such a guard was fitted or worn already: 1",
        "it is printed already: 1",
        "its order was cancelled: 1",
        "hurt at the site and not back: medical need: 1",
        "research on people in many places",
        "Not frozen yet: give the number of the review board",
    ):
        assert words in done.out
    assert "turn  week" not in done.out, "the order is not shown before it is frozen"
    refused = run("draw", "--store", store, *DAY, "--yes")
    assert refused.status == 2
    assert "Give --board-number" in refused.err
    declined = run("draw", "--store", store, *DAY, *BOARD, stdin="n\n")
    assert (declined.status, "Nothing was written." in declined.out) == (0, True)
    assert store.read_bytes() == before


def test_a_draw_is_written_as_a_load_listed_printed_and_taken_back(run, store, tmp_path):
    done = run("draw", "--store", store, *DAY, *BOARD, "--seed", "7", "--yes")
    assert done.status == 0, done.err
    assert "review board: B 12" in done.out
    rows = turns(run, store)
    assert [row["turn"] for row in rows] == ["1", "2", "3", "4"]
    assert {row["athlete"] for row in rows} == set("ABCE")
    assert [row["week"] for row in rows] == ["1", "1", "2", "2"]
    assert {row["athlete"]: row["earlier_injury"] for row in rows}["C"] == "yes"
    assert {row["stratum"] for row in rows} == {"T · back", "T · position not recorded"}
    assert {row["come_on"] for row in rows} == {day(27).isoformat(), day(34).isoformat()}
    again = run("draw", "--store", store, *DAY, *BOARD, "--yes")
    assert again.status == 2
    assert "Nobody waits" in again.err
    assert "it has a turn already: 4" in again.err
    page = tmp_path / "turns.html"
    assert run("handout", "turns", "--store", store, "--out", page).status == 0
    assert "review board: B 12" in page.read_text("utf-8")
    assert run("undo", "--store", store, "--yes").status == 0
    assert turns(run, store) == []
    same = run("draw", "--store", store, *DAY, *BOARD, "--seed", "7", "--yes")
    assert same.status == 0
    assert turns(run, store) == rows


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--prints-per-week", "0"), "at 0 prints a week"),
        (("--seed", "many"), "is not a valid integer"),
        (("--seed", "-3"), "The seed -3 is not from 0"),
        (("--ready-days", "-1"), "are not from 0 to 1,000"),
        (("--starts-on", "2026-09-01"), "before the day of the draw"),
        (("--starts-on", "soon"), "no day, such as 2026-09-07"),
        (("--leave-out", "Z"), "is no athlete who accepted"),
        ((*BOARD, "--no-board-because", "no"), "exclude each other"),
        (("--kind", "shin"), "No offer of a preventive guard was accepted"),
        (("--department", "X"), "There is no department"),
    ],
)
def test_what_makes_no_draw_is_refused_in_words(run, store, words, told):
    done = run("draw", "--store", store, *DAY, *words, "--plan")
    assert done.status == 2
    assert told in " ".join(done.err.split())
    assert "Traceback" not in done.err


def test_a_key_that_is_taken_and_medical_need(run, store):
    taken = (*BOARD, "--leave-out", "A", "--yes", "--key", "X1")
    done = run("draw", "--store", store, *DAY, *taken)
    assert done.status == 0, done.err
    assert "left out by name: medical need: 1" in done.out
    refused = run("draw", "--store", store, *DAY, *BOARD, "--key", "X1", "--yes")
    assert refused.status == 2
    assert "There is a draw X1 already, of 2026-09-20, and it is frozen" in refused.err


def test_without_stages_the_days_until_ready_are_asked_for(run, tmp_path):
    season = offered()
    season.stages = []
    path = tmp_path / "s.store"
    load_paths(path, [season.write(tmp_path / "tables")], UnattendedLoad())
    done = run("draw", "--store", path, *DAY, "--plan")
    assert done.status == 2
    assert "How long a guard takes" in done.err
    assert run("draw", "--store", path, *DAY, "--plan", "--ready-days", "6").status == 0
