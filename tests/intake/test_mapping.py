"""Files in other words: a mapping is proposed, confirmed once, kept as text, and used again."""

import tomllib
from pathlib import Path

import pytest

from seasonboard.errors import IntakeError
from seasonboard.store.intake.mapping import read_mapping
from seasonboard.store.intake.write import write_load
from tests.intake.desk import Desk, Source, said

LOG = """\
Record,Athlete No,Injury date,Body part,Laterality,Doctor
R1,A1,13/09/2026,Shin,L,x
R2,A2,14/09/2026,Knee,rt.,y
"""
RECORD = {"injury": "Record"}
OPEN = LOG.replace("Body part", "Where").replace("Knee", "!!").replace("Shin", "%")


def turned(text: str) -> str:
    """Return a table with its columns in the other order."""
    return "\n".join(",".join(reversed(row.split(","))) for row in text.splitlines())


def injuries(plan, *columns: str) -> list[tuple[str, ...]]:
    return [tuple(map(str, row)) for row in plan.rows["injuries"].select(columns).rows()]


@pytest.fixture
def logged(source: Source) -> Source:
    """Return a source whose log was read once, so that its mapping is kept."""
    source.plan(source.file(LOG), columns=RECORD)
    return source


def test_a_mapping_is_proposed_from_headings_and_values_and_kept(source: Source) -> None:
    plan = source.plan(source.file(LOG), columns=RECORD)
    (shown,) = source.person.proposals
    for words in (
        "injury log.csv → injuries",
        "“Injury date”: 13/09/2026, 14/09/2026",
        "day/month/year, as “13/09/2026”",
        "left out: “Doctor”",
    ):
        assert words in shown
    rows = injuries(plan, "injury", "athlete", "area", "side")
    assert rows == [("R1", "A1", "lower leg", "left"), ("R2", "A2", "knee", "right")]
    (sheet,) = tomllib.loads(source.kept().read_text("utf-8"))["sheet"]
    assert (sheet["columns"]["occurred_on"], sheet["dates"]) == ("Injury date", "dmy")


def test_next_week_the_same_headings_load_without_a_question(logged: Source) -> None:
    later = LOG.replace("13/09", "04/10").replace("14/09", "05/10").replace("\nR", "\nQ")
    plan = logged.plan(logged.file(later, "log week 2.csv"))
    assert len(logged.person.proposals) == 1
    assert injuries(plan, "occurred_on") == [("2026-10-04",), ("2026-10-05",)]
    assert "mapping “injury-log”" in said(plan.notes)
    logged.plan(logged.file(turned(LOG)))
    assert len(logged.person.proposals) == 1


def test_one_renamed_and_moved_column_goes_on_with_the_kept_answers(logged: Source) -> None:
    changed = turned(LOG.replace("Injury date", "Day it was"))
    plan = logged.plan(logged.file(changed, "injury log 2.csv"))
    shown = logged.person.proposals[-1]
    assert "as the mapping “injury-log” says" in shown
    assert "gone: “Injury date”; new: “Day it was”" in shown
    assert injuries(plan, "injury", "occurred_on") == [("R1", "2026-09-13"), ("R2", "2026-09-14")]


def test_a_renamed_column_that_holds_something_else_is_asked_about(logged: Source) -> None:
    text = LOG.replace("Injury date", "Weather").replace("13/09/2026", "rain")
    (problem,) = logged.refusal(logged.file(text)).problems
    assert problem.column == "occurred_on"
    assert "--column occurred_on=HEADING" in problem.expected


def test_a_mapping_named_is_the_one_used(source: Source) -> None:
    source.plan(source.file(LOG), columns=RECORD, mapping="north")
    assert source.kept("north").exists()
    source.plan(source.file(LOG, "whatever.csv"), mapping="north")
    assert len(source.person.proposals) == 1
    refusal = source.refusal(source.file("a,b,c\n1,2,3\n"), mapping="north")
    assert "other headings than the mapping “north”" in refusal.problems[0].expected


def test_a_proposal_that_is_not_confirmed_keeps_and_loads_nothing(source: Source) -> None:
    with pytest.raises(IntakeError, match="not confirmed"):
        source.plan(source.file(LOG), columns=RECORD, confirm=False)
    assert not source.kept().exists()
    assert source.plan(source.file(LOG), columns=RECORD, write=False).tables[0].new == 2
    assert not source.kept().parent.exists()


def test_open_questions_are_told_with_how_to_answer_and_never_confirmed(source: Source) -> None:
    (problem,) = source.refusal(source.file(OPEN), columns=RECORD).problems
    assert problem.column == "area"
    assert "--column area=HEADING" in problem.expected
    assert "--value area=VALUE" in problem.expected
    assert source.person.proposals == []
    assert not source.kept().exists()


def test_a_draft_with_its_questions_waits_for_answers(source: Source) -> None:
    source.refusal(source.file(OPEN), columns=RECORD)
    text = source.kept().with_suffix(".draft").read_text("utf-8")
    source.kept().write_text(text, "utf-8")
    assert "still has open questions" in source.refusal(source.file(OPEN)).what
    assert len(tomllib.loads(text)["questions"]) == 1
    answer = '\n[sheet.constants]\narea = "knee"\n'
    source.kept().write_text(text[text.index("[[sheet]]") :] + answer, "utf-8")
    assert injuries(source.plan(source.file(OPEN)), "area") == [("knee",)] * 2


def test_values_may_be_given_for_all_rows(source: Source) -> None:
    plan = source.plan(source.file(OPEN), columns=RECORD, constants={"injuries.area": "knee"})
    assert injuries(plan, "area") == [("knee",)] * 2


def test_two_columns_of_one_heading_are_asked_about_with_their_values(source: Source) -> None:
    file = source.file(
        "injury_id,athlete_id,date,date,body_part,side\n"
        "I8,A1,2026-09-05,2026-09-11,knee,L\nI9,A2,2026-09-12,,wrist,L\n"
    )
    (problem,) = source.refusal(file).problems
    assert "“date” holds 2026-09-05, 2026-09-12" in problem.expected
    assert "“date (2)” holds 2026-09-11" in problem.expected
    plan = source.plan(file, columns={"occurred_on": "date", "returned_on": "date (2)"})
    assert injuries(plan, "occurred_on", "returned_on")[0] == ("2026-09-05", "2026-09-11")


QUESTIONS = {  # name: (text, answers, column, words)
    "a heading that is not there": (LOG, {"injury": "Recrod"}, "injury", "mean “Record”?"),
    "values of something else": (
        LOG.replace("Body part", "Part").replace("Shin", "red").replace("Knee", "blue"),
        *(RECORD, "area", "red, blue"),
    ),
    "dates of two readings": (
        LOG.replace("13/09", "03/09").replace("14/09", "04/09"),
        *(RECORD, "occurred_on", "--dates dmy"),
    ),
}


@pytest.mark.parametrize("name", QUESTIONS)
def test_what_cannot_be_told_is_asked(source: Source, name: str) -> None:
    text, answers, column, words = QUESTIONS[name]
    problem = source.refusal(source.file(text), columns=answers).problems[0]
    assert problem.column == column
    assert words in problem.expected


def test_the_order_of_dates_that_is_said_is_kept(source: Source) -> None:
    text, *_ = QUESTIONS["dates of two readings"]
    plan = source.plan(source.file(text), columns=RECORD, dates="mdy")
    assert injuries(plan, "occurred_on")[0] == ("2026-03-09",)
    assert 'dates = "mdy"' in source.kept().read_text("utf-8")


def test_values_outside_the_mapping_are_listed_once_with_their_counts(logged: Source) -> None:
    many = LOG + "".join(f"R{i},A1,15/09/2026,Elbo,L,x\n" for i in range(10, 52))
    (problem,) = logged.refusal(logged.file(many)).problems
    assert (problem.row, problem.value, problem.nearest) == (4, "Elbo", "elbow")
    assert "42 rows" in problem.expected


def add(source: Source, text: str) -> None:
    with source.kept().open("a", encoding="utf-8") as kept:
        kept.write(text)


def test_the_mapping_translates_values(source: Source) -> None:
    many = LOG.replace("Shin", "Zone 7")
    source.refusal(source.file(many), columns=RECORD)
    add(source, '\n[sheet.values.area]\n"ZONE 7" = "foot"\n')
    assert injuries(source.plan(source.file(many)), "area") == [("foot",), ("knee",)]


def test_the_mapping_may_say_which_athlete_a_name_is(source: Source) -> None:
    text = LOG.replace("Athlete No", "Athlete name").replace("A1", "Annie").replace("A2", "Bo Lind")
    source.refusal(source.file(text), columns=RECORD)
    add(source, '\n[sheet.values.athlete]\n"Annie" = "A1"\n')
    with pytest.raises(IntakeError, match="likely A2"):  # two departments, no session
        source.plan(source.file(text))
    plan = source.plan(source.file(text), accept_likely=True)
    assert injuries(plan, "athlete") == [("A1",), ("A2",)]


SCHEDULE = "Event,Date,Time,Type\nE1,9/25/2026,6:30 PM,Match\nE2,9/27/2026,7:00 PM,Training\n"
EVENTS = {"columns": {"session": "Event"}, "constants": {"team": "T1", "season": "2026"}}


def starts(plan) -> list[str]:
    return [f"{one:%m-%d %H:%M}" for one in plan.rows["sessions"]["starts_at"]]


def test_a_day_and_a_time_in_two_columns_are_one_instant_in_its_zone(source: Source) -> None:
    file = source.file(SCHEDULE, "schedule.csv")
    plan = source.plan(file, **EVENTS)
    assert starts(plan) == ["09-25 23:30", "09-28 00:00"]
    assert plan.rows["sessions"]["setting"].to_list() == ["game", "practice"]
    kept = source.kept("schedule")
    zoned = kept.read_text("utf-8").replace("dates =", 'time_zone = "Asia/Tokyo"\ndates =')
    kept.write_text(zoned, "utf-8")
    assert starts(source.plan(file))[0] == "09-25 09:30"


def test_days_without_a_time_get_noon_and_say_so_or_the_time_that_is_named(source: Source) -> None:
    file = source.file(SCHEDULE.replace(",6:30 PM", ",").replace(",7:00 PM", ","), "schedule.csv")
    plan = source.plan(file, **EVENTS)
    assert starts(plan)[0] == "09-25 17:00"
    assert "12:00 was put" in said(plan.notes)
    source.kept("schedule").unlink()
    constants = EVENTS["constants"] | {"time": "16:00"}
    assert starts(source.plan(file, **(EVENTS | {"constants": constants})))[0] == "09-25 21:00"


def test_a_stage_with_a_day_alone_is_taken_at_noon_and_has_no_hour(source: Source) -> None:
    text = "device no,step,when\nG1,shipped,9/5/2026\nG1,delivered,9/13/2026 4:30 PM\n"
    plan = source.plan(source.file(text, "tracking.csv"))
    rows = plan.rows["stages"].sort("reached_at").select("stage", "timed").rows()
    assert rows == [("shipped", "no"), ("delivered", None)]
    assert "12:00 was put" in said(plan.notes)


def test_the_unit_of_a_heading_is_turned(source: Source) -> None:
    text = "device no,athlete id,device,side,use,Shell (in)\nG9,A1,wrist guard,L,prevention,0.125\n"
    plan = source.plan(source.file(text, "devices.csv"))
    row = plan.rows["guards"].row(0, named=True)
    assert (row["kind"], row["purpose"], row["shell_mm"]) == ("wrist", "preventive", 3.175)
    assert "unit of the heading" in said(plan.notes)


def test_a_unit_that_is_the_columns_own_leaves_plain_numbers_as_they_are(source: Source) -> None:
    """A heading of our own, as print_hours, is no column “print” in hours."""
    text = "guard,athlete,kind,side,purpose,Mass (g),print_hours\nG9,A1,wrist,left,return,88,7.5\n"
    row = source.plan(source.file(text, "devices.csv")).rows["guards"].row(0, named=True)
    assert (row["mass_g"], row["print_hours"]) == (88, 7.5)


def test_one_sheet_may_hold_several_tables(source: Source) -> None:
    """A list of orders with a column of dates per stage gives one row per stage reached."""
    head = '[[sheet]]\ntable = "stages"\nheadings = ["Order", "Asked", "Handed over"]\n'
    head += 'dates = "dmy"\ntime = "12:00"\nskip_without = "reached_at"\n'
    parts = [
        f'{head}[sheet.columns]\nguard = "Order"\nreached_at = "{heading}"\n'
        f'[sheet.constants]\nstage = "{stage}"\n'
        for heading, stage in (("Asked", "requested"), ("Handed over", "delivered"))
    ]
    source.kept("orders").parent.mkdir()
    source.kept("orders").write_text("\n".join(parts), "utf-8")
    text = "Order,Asked,Handed over\nG2,03/10/2026,13/10/2026\nG3,04/10/2026,\n"
    plan = source.plan(source.file(text, "orders.csv"))
    stages = plan.rows["stages"].select("guard", "stage").sort("guard", "stage").rows()
    assert stages == [("G2", "delivered"), ("G2", "requested"), ("G3", "requested")]
    assert [one.file for one in plan.tables] == ["orders.csv", "orders.csv › stages delivered"]


def test_rows_without_keys_get_keys_of_their_cells_so_that_again_is_the_same(own: Desk, tmp_path):
    source = Source(own, tmp_path / "s.duckdb")
    row = "A1,2026-09-05,knee,L\n"
    file = source.file(f"athlete_id,date,body_part,side\n{row}{row}")
    plan = source.plan(file)
    assert plan.tables[0].new == 1
    assert "was reported twice" in said(plan.notes)
    write_load(own.store, plan)
    assert source.plan(file).is_empty


SHEET = "[[sheet]]\ntable = 'injuries'\n"
WRONG = {
    "[[sheet": "is not TOML",
    "name = 'x'": "holds no",
    "[[sheet]]\ntable = 'injurys'": "Did you mean “injuries”?",
    f"{SHEET}colums = 1": "Did you mean “columns”?",
    f"{SHEET}headings = ['a']\n[sheet.columns]\nside = 'b'": "“b” is not among its headings",
    f"{SHEET}[sheet.columns]\nsde = 'b'": "columns.sde is not a column",
    f"{SHEET}dates = 'ydm'": "dates = “ydm” is not known",
    f"{SHEET}time_zone = 'Chicago'": "such as America/Chicago",
}


@pytest.mark.parametrize("text", WRONG)
def test_a_wrong_mapping_is_told_with_its_place(tmp_path: Path, text: str) -> None:
    path = tmp_path / "north.toml"
    path.write_text(text, "utf-8")
    with pytest.raises(IntakeError, match=r"north\.toml") as refused:
        read_mapping(path)
    assert WRONG[text] in refused.value.what


def test_headings_with_quotes_and_backslashes_survive_in_the_mapping(source: Source) -> None:
    text = LOG.replace("Record", '"Re""c\\ord é"')
    source.plan(source.file(text), columns={"injury": 'Re"c\\ord é'})
    source.plan(source.file(text))
    assert len(source.person.proposals) == 1


def test_a_kept_mapping_is_never_written_over(logged: Source) -> None:
    before = logged.kept().read_text("utf-8")
    other = "Case,Who,On,Place,Side\nR8,A1,2026-09-05,knee,L\n"
    answers = {"injury": "Case", "athlete": "Who", "occurred_on": "On", "area": "Place"}
    logged.plan(logged.file(other), columns=answers)
    assert logged.kept().read_text("utf-8") == before
    assert logged.kept("injury-log-2").exists()
