"""Grids of marks: a day in each column or row, as trainers keep them."""

import datetime as dt
import random

import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from tests.deep import tries
from tests.intake.desk import SMALL_SEASON, Desk, Source
from tests.reused import ReusedStore

TITLE = ["North women's soccer, 2026 practices"]
GRID = [
    TITLE,
    ["#", "Player", "9/14", "9/15", "9/16"],
    ["07", "Reed, Ana", "X", "L", "X"],
    ["10", "Lind, Bo", "I", "X", "X"],
]


def told(plan):
    """Return every note of a plan as one text."""
    return "\n".join(one.sentence() for one in plan.notes)


def parts(plan):
    """Return (athlete, part, reason) of the attendance of a plan, in the order of the file."""
    return plan.rows["attendance"].select("athlete", "part", "reason").rows()


def clocks(plan, zone="America/Chicago"):
    """Return the local day and time of each new session, in order."""
    starts = plan.rows["sessions"]["starts_at"].dt.convert_time_zone(zone).sort()
    return [f"{one:%m-%d %H:%M}" for one in starts]


def asked(source: Source, *files, **options):
    """Return what a plan is refused for, by its columns."""
    return [one.column for one in source.refusal(*files, **options).problems]


def test_a_grid_gives_sessions_at_noon_and_attendance(source: Source) -> None:
    plan = source.plan(source.workbook({"Sheet1": GRID}))
    assert clocks(plan) == ["09-14 12:00", "09-15 12:00", "09-16 12:00"]
    assert plan.rows["sessions"]["setting"].unique().to_list() == ["practice"]
    assert sorted(parts(plan)) == [
        ("A1", "full", None), ("A1", "full", None), ("A1", "limited", None),
        ("A2", "full", None), ("A2", "full", None), ("A2", "out", "injury"),
    ]  # fmt: skip
    assert "12:00 for sessions without a time (3)" in told(plan)


def test_a_hidden_row_is_read_and_told(source: Source) -> None:
    plan = source.plan(source.workbook({"Sheet1": GRID}, hidden=[4]))
    assert {athlete for athlete, *_ in parts(plan)} == {"A1", "A2"}
    assert "row 4: 1 row is hidden in the sheet (4); read all the same." in told(plan)


def test_morning_and_afternoon_of_a_day_are_two_sessions(source: Source) -> None:
    rows = [
        TITLE,
        ["", "", "AM", "PM", "AM"],
        ["#", "Player", "9/14", "9/14", "9/15"],
        ["07", "Reed, Ana", "X", "L", "X"],
        ["10", "Lind, Bo", "X", "X", "X"],
    ]
    plan = source.plan(source.workbook({"Sheet1": rows}))
    assert clocks(plan) == ["09-14 09:00", "09-14 16:00", "09-15 09:00"]
    said = "09:00 for AM sessions (2), 16:00 for PM sessions (1)"
    assert said in told(plan)
    later = source.plan(source.workbook({"Sheet1": rows}), constants={"pm": "15:30"}, mapping="b")
    assert clocks(later)[1] == "09-14 15:30"


def test_marks_nobody_explains_and_blanks_are_each_asked_once(source: Source) -> None:
    rows = [*GRID[:2], ["07", "Reed, Ana", "Z", "X", "Q"], ["10", "Lind, Bo", "Z", "", "X"]]
    book = source.workbook({"Aug": rows, "Sep": [row[:5] for row in rows]})
    refusal = source.refusal(book)
    marks, blank = sorted(refusal.problems, key=lambda one: one.column, reverse=True)
    assert (marks.column, blank.column) == ("marks", "blank")
    assert "“z” (2 cells)" in marks.expected
    assert "--value marks='z=full" in marks.expected
    answers = {"marks": "Z=out injury, Q=full", "blank": "no row"}
    plan = source.plan(source.workbook({"Aug": rows}), constants=answers)
    assert sorted(parts(plan)) == [
        ("A1", "full", None), ("A1", "full", None), ("A1", "out", "injury"),
        ("A2", "full", None), ("A2", "out", "injury"),
    ]  # fmt: skip


def test_an_answer_for_blanks_that_says_nothing_is_asked_again(source: Source) -> None:
    rows = [*GRID[:3], ["10", "Lind, Bo", "X", "", "X"], ["", "", "", "", ""]]
    book = source.workbook({"Aug": rows})
    assert asked(source, book) == ["blank"]
    assert asked(source, book, constants={"blank": "perhaps"}) == ["blank"]
    plan = source.plan(book, constants={"blank": "out"})
    assert ("A2", "out", None) in parts(plan)


def test_the_grid_of_a_second_month_loads_without_a_question(own: Desk, tmp_path) -> None:
    source = Source(own, tmp_path / "s.duckdb")
    write_load(own.store, source.plan(source.workbook({"Sheet1": GRID})))
    october = [["North women's soccer, 2026 practices"], ["#", "Player", "10/5", "10/6", "10/7"],
               *GRID[2:]]  # fmt: skip
    plan = source.plan(source.workbook({"Sheet1": october}))
    assert len(source.person.proposals) == 1
    assert clocks(plan) == ["10-05 12:00", "10-06 12:00", "10-07 12:00"]
    assert len(parts(plan)) == 6


OTHER_LAYOUTS = {
    "weekdays in the headings, names in two columns": [
        ["North women's soccer 2026 practice attendance"],
        ["First", "Last", "Mon 9/14", "Tue 9/15", "Wed 9/16"],
        ["Ana", "Reed", "P", "P", "A"],
        ["Bo", "Lind", "P", "A", "P"],
    ],
    "months written out, days down, a column that says game or practice": [
        ["North women's soccer 2026"],
        ["Date", "Type", "Ana Reed", "Bo Lind", "Dee Ost"],
        ["14 Sep", "practice", "present", "present", "present"],
        ["15 Sep", "practice", "present", "absent", "present"],
        ["16 Sep", "game", "absent", "present", "present"],
    ],
    "ISO days across, words as marks, the setting below the days": [
        ["North women's soccer 2026"],
        ["Name", "2026-09-14", "2026-09-15", "2026-09-16"],
        ["", "practice", "practice", "game"],
        ["Ana Reed", "full", "full", "out"],
        ["Bo Lind", "full", "out", "full"],
    ],
}


@pytest.mark.parametrize("name", OTHER_LAYOUTS)
def test_other_layouts_go_in_with_one_confirmation(own: Desk, tmp_path, name) -> None:
    roster = SMALL_SEASON["roster"] + "A4,T1,2026,Dee Ost,11,back,defence,2026-08-01,\n"
    own.load(roster=roster)
    (own.folder / "roster.csv").unlink()
    source = Source(own, tmp_path / "s.duckdb")
    plan = source.plan(source.workbook({"Sheet1": OTHER_LAYOUTS[name]}))
    assert len(source.person.proposals) == 1
    assert [one[:5] for one in clocks(plan)] == ["09-14", "09-15", "09-16"]
    mine = plan.rows["attendance"].filter(pl.col("athlete") != "A4").sort("session", "athlete")
    assert mine["athlete"].to_list() == ["A1", "A2"] * 3
    assert mine["part"].value_counts(sort=True).rows() == [("full", 4), ("out", 2)]


MARKS = {"W": "full", "H": "limited", "J": "out injury", "K": "out illness"}
WORDS = {"W": "took part in full", "H": "limited", "J": "out, injured", "K": "out, sick"}
PEOPLE = [f"{first} {last}" for first in ("Ada", "Bea", "Cleo") for last in ("Orr", "Pim", "Quay")]


@st.composite
def attendance(draw: st.DrawFn) -> tuple[list[str], list[dt.date], list[list[str]], int]:
    """Draw who, which days, a mark or a blank for each, and how the columns are shuffled."""
    people = draw(st.lists(st.sampled_from(PEOPLE), min_size=2, max_size=6, unique=True))
    numbers = draw(st.lists(st.integers(0, 60), min_size=3, max_size=9, unique=True))
    days = [dt.date(2026, 9, 1) + dt.timedelta(days=one) for one in sorted(numbers)]
    marks = st.sampled_from([*MARKS, "W", "W", ""])
    return (
        people, days, [[draw(marks) for _ in days] for _ in people], draw(st.integers(0, 99)),
    )  # fmt: skip


@settings(max_examples=tries(8), derandomize=True, database=None)
@given(drawn=attendance())
def test_a_grid_of_random_attendance_gives_exactly_its_rows(tmp_path_factory, drawn) -> None:
    """Days and people stand in any order; every mark becomes its row, and no blank does."""
    people, days, marks, dice = drawn
    order = list(range(len(days)))
    random.Random(dice).shuffle(order)
    legend = "; ".join(f"{mark} = {said}" for mark, said in WORDS.items())
    rows = [
        ["North women's soccer, fall 2026 practices"],
        [f"{legend}; blank = not marked"],
        ["Player", *(f"{days[one]:%m/%d/%Y}" for one in order)],
        *([name, *(marks[nth][one] for one in order)] for nth, name in enumerate(people)),
    ]
    wanted = {
        (name, str(days[one]), *MARKS[mark].split()): 1
        for nth, name in enumerate(people)
        for one, mark in enumerate(marks[nth])
        if mark
    }
    if not wanted:
        return
    roster = "athlete,team,season,name\n" + "".join(
        f"P{nth},T1,2026 fall,{name}\n" for nth, name in enumerate(PEOPLE)
    )
    with ReusedStore() as store:
        desk = Desk(tmp_path_factory.mktemp("grid") / "desk", store)
        desk.load(
            departments=SMALL_SEASON["departments"], teams=SMALL_SEASON["teams"], roster=roster
        )
        path = Source(desk, desk.folder / "s").workbook({"Fall": rows})
        plan = plan_load(store, [path], LoadOptions(propose=True, write=False), UnattendedLoad())
    played = plan.rows["sessions"].select(
        "session", day=pl.col("starts_at").dt.convert_time_zone("America/Chicago").dt.date()
    )
    read = plan.rows["attendance"].join(played, on="session")
    got = [
        (PEOPLE[int(athlete[1:])], str(day), *filter(None, (part, reason)))
        for athlete, day, part, reason in read.select("athlete", "day", "part", "reason").rows()
    ]
    assert sorted(got) == sorted(wanted)


def test_dates_beside_columns_without_a_mark_are_no_grid(own: Desk) -> None:
    text = "injury,athlete,occurred_on,area,side,Kim Lee,Ada Roe\nI8,A1,2026-09-05,knee,left,,\n"
    refusal = own.refusal(injuries=text + "I9,A2,2026-09-06,hand,right,,\n")
    assert "“Kim Lee” is not a column of injuries" in refusal.problems[0].sentence()
