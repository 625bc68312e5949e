"""Files in other words: a mapping is proposed, confirmed once, kept as text, and used again."""

import tomllib
from pathlib import Path

import pytest

from seasonboard.errors import IntakeError
from seasonboard.store.intake.mapping import read_mapping
from tests.intake.desk import Desk, Source

LOG = """\
Record,Athlete No,Injury date,Body part,Laterality,Doctor
R1,A1,13/09/2026,Shin,L,x
R2,A2,14/09/2026,Knee,rt.,y
"""


RECORD = {"injury": "Record"}


def test_a_mapping_is_proposed_from_headings_and_values_and_kept(source: Source) -> None:
    plan = source.plan(source.file(LOG), columns=RECORD)
    (shown,) = source.person.proposals
    assert "injury log.csv → injuries" in shown
    assert "“Injury date”: 13/09/2026, 14/09/2026" in shown
    assert "day/month/year, as “13/09/2026”" in shown
    assert "left out: “Doctor”" in shown
    rows = plan.rows["injuries"].select("injury", "athlete", "area", "side").rows()
    assert rows == [("R1", "A1", "lower leg", "left"), ("R2", "A2", "knee", "right")]
    kept = tomllib.loads(source.kept().read_text("utf-8"))
    assert kept["sheet"][0]["columns"]["occurred_on"] == "Injury date"
    assert kept["sheet"][0]["dates"] == "dmy"


def test_next_week_the_same_headings_load_without_a_question(source: Source) -> None:
    source.plan(source.file(LOG), columns=RECORD)
    later = LOG.replace("13/09", "04/10").replace("14/09", "05/10").replace("R", "Q")
    later = later.replace("Qecord", "Record")
    plan = source.plan(source.file(later, "log week 2.csv"))
    assert len(source.person.proposals) == 1
    assert [str(day) for day in plan.rows["injuries"]["occurred_on"]] == [
        "2026-10-04",
        "2026-10-05",
    ]
    assert any("mapping “injury-log”" in note.expected for note in plan.notes)


def test_columns_in_another_order_are_the_same_headings(source: Source) -> None:
    source.plan(source.file(LOG), columns=RECORD)
    turned = "\n".join(",".join(reversed(row.split(","))) for row in LOG.splitlines())
    source.plan(source.file(turned))
    assert len(source.person.proposals) == 1


def test_one_renamed_and_moved_column_goes_on_with_the_kept_answers(source: Source) -> None:
    source.plan(source.file(LOG), columns=RECORD)
    changed = LOG.replace("Injury date", "Day it was")
    moved = "\n".join(",".join(reversed(row.split(","))) for row in changed.splitlines())
    plan = source.plan(source.file(moved, "injury log 2.csv"))
    shown = source.person.proposals[-1]
    assert "as the mapping “injury-log” says" in shown
    assert "gone: “Injury date”; new: “Day it was”" in shown
    assert [str(day) for day in plan.rows["injuries"]["occurred_on"]] == [
        "2026-09-13",
        "2026-09-14",
    ]
    assert plan.rows["injuries"]["injury"].to_list() == ["R1", "R2"]


def test_a_renamed_column_that_holds_something_else_is_asked_about(source: Source) -> None:
    source.plan(source.file(LOG), columns=RECORD)
    text = LOG.replace("Injury date", "Weather").replace("13/09/2026", "rain")
    refusal = source.refusal(source.file(text))
    (problem,) = refusal.problems
    assert problem.column == "occurred_on"
    assert "--column occurred_on=HEADING" in problem.expected


def test_a_mapping_named_is_the_one_used(source: Source) -> None:
    source.plan(source.file(LOG), columns=RECORD, mapping="north")
    assert source.kept("north").exists()
    source.plan(source.file(LOG, "whatever.csv"), mapping="north")
    assert len(source.person.proposals) == 1
    other = "a,b,c\n1,2,3\n"
    assert (
        "other headings than the mapping “north”"
        in source.refusal(source.file(other), mapping="north").problems[0].expected
    )


def test_a_proposal_that_is_not_confirmed_keeps_and_loads_nothing(source: Source) -> None:
    with pytest.raises(IntakeError, match="not confirmed"):
        source.plan(source.file(LOG), columns=RECORD, confirm=False)
    assert not source.kept().exists()


def test_a_mere_plan_keeps_no_mapping(source: Source) -> None:
    plan = source.plan(source.file(LOG), columns=RECORD, write=False)
    assert plan.tables[0].new == 2
    assert not source.kept().parent.exists()


OPEN = LOG.replace("Body part", "Where").replace("Knee", "!!").replace("Shin", "%")


def test_open_questions_are_told_with_how_to_answer_and_never_confirmed(source: Source) -> None:
    refusal = source.refusal(source.file(OPEN), columns=RECORD)
    (problem,) = refusal.problems
    assert problem.column == "area"
    assert "--column area=HEADING" in problem.expected
    assert "--value area=VALUE" in problem.expected
    assert source.person.proposals == []
    assert not source.kept().exists()


def test_a_draft_with_its_questions_waits_for_answers(source: Source) -> None:
    source.refusal(source.file(OPEN), columns=RECORD)
    draft = source.kept().with_suffix(".draft")
    text = draft.read_text("utf-8")
    source.kept().write_text(text, "utf-8")
    refusal = source.refusal(source.file(OPEN))
    assert "still has open questions" in refusal.what
    answered = tomllib.loads(text)
    assert len(answered.pop("questions")) == 1
    start = text.index("[[sheet]]")
    answer = '\n[sheet.constants]\narea = "knee"\n'
    source.kept().write_text(text[start:] + answer, "utf-8")
    assert source.plan(source.file(OPEN)).rows["injuries"]["area"].to_list() == ["knee", "knee"]


def test_values_may_be_given_for_all_rows(source: Source) -> None:
    plan = source.plan(source.file(OPEN), columns=RECORD, constants={"injuries.area": "knee"})
    assert plan.rows["injuries"]["area"].to_list() == ["knee", "knee"]


def test_a_heading_that_is_not_there_is_told_with_the_nearest(source: Source) -> None:
    refusal = source.refusal(source.file(LOG), columns={"injury": "Recrod"})
    assert "Did you mean “Record”?" in refusal.problems[0].expected


def test_two_columns_of_one_heading_are_asked_about_with_their_values(source: Source) -> None:
    text = (
        "injury_id,athlete_id,date,date,body_part,side\n"
        "I8,A1,2026-09-05,2026-09-11,knee,L\nI9,A2,2026-09-12,,wrist,L\n"
    )
    (problem,) = source.refusal(source.file(text)).problems
    assert "“date” holds 2026-09-05, 2026-09-12" in problem.expected
    assert "“date (2)” holds 2026-09-11" in problem.expected
    answers = {"occurred_on": "date", "returned_on": "date (2)"}
    row = source.plan(source.file(text), columns=answers).rows["injuries"].row(0, named=True)
    assert (str(row["occurred_on"]), str(row["returned_on"])) == ("2026-09-05", "2026-09-11")


def test_a_column_whose_values_are_something_else_is_asked_about(source: Source) -> None:
    text = LOG.replace("Body part", "Team").replace("Team", "Part").replace("Shin", "red")
    text = text.replace("Knee", "blue")
    problems = source.refusal(source.file(text), columns=RECORD).problems
    assert [one.column for one in problems] == ["area"]
    assert "red, blue" in problems[0].expected


def test_dates_that_can_be_read_in_two_ways_are_a_question(source: Source) -> None:
    text = LOG.replace("13/09", "03/09").replace("14/09", "04/09")
    (problem,) = source.refusal(source.file(text), columns=RECORD).problems
    assert "--dates dmy" in problem.expected
    plan = source.plan(source.file(text), columns=RECORD, dates="mdy")
    assert str(plan.rows["injuries"]["occurred_on"][0]) == "2026-03-09"
    assert 'dates = "mdy"' in source.kept().read_text("utf-8")


def test_values_outside_the_mapping_are_listed_once_with_their_counts(source: Source) -> None:
    source.plan(source.file(LOG), columns=RECORD)
    many = LOG + "".join(f"R{i},A1,15/09/2026,Elbo,L,x\n" for i in range(10, 52))
    (problem,) = source.refusal(source.file(many)).problems
    assert (problem.row, problem.value, problem.nearest) == (4, "Elbo", "elbow")
    assert "42 rows" in problem.expected


def test_the_mapping_translates_values(source: Source) -> None:
    many = LOG.replace("Shin", "Zone 7")
    source.refusal(source.file(many), columns=RECORD)
    kept = source.kept()
    kept.write_text(kept.read_text("utf-8") + '\n[sheet.values.area]\n"ZONE 7" = "foot"\n', "utf-8")
    assert source.plan(source.file(many)).rows["injuries"]["area"].to_list() == ["foot", "knee"]


def test_the_mapping_may_say_which_athlete_a_name_is(source: Source) -> None:
    text = LOG.replace("Athlete No", "Athlete name").replace("A1", "Annie").replace("A2", "Bo Lind")
    source.refusal(source.file(text), columns=RECORD)
    kept = source.kept()
    kept.write_text(kept.read_text("utf-8") + '\n[sheet.values.athlete]\n"Annie" = "A1"\n', "utf-8")
    with pytest.raises(IntakeError, match="likely A2"):  # two departments, no session
        source.plan(source.file(text))
    rows = source.plan(source.file(text), accept_likely=True).rows["injuries"]
    assert rows["athlete"].to_list() == ["A1", "A2"]


SCHEDULE = "Event,Date,Time,Type\nE1,9/25/2026,6:30 PM,Match\nE2,9/27/2026,7:00 PM,Training\n"
TEAM = {"team": "T1", "season": "2026"}


def test_a_day_and_a_time_in_two_columns_are_one_instant(source: Source) -> None:
    file = source.file(SCHEDULE, "schedule.csv")
    plan = source.plan(file, columns={"session": "Event"}, constants=TEAM)
    rows = plan.rows["sessions"]
    assert [str(one) for one in rows["starts_at"]] == [
        "2026-09-25 23:30:00+00:00",
        "2026-09-28 00:00:00+00:00",
    ]
    assert rows["setting"].to_list() == ["game", "practice"]


def test_a_mapping_may_have_a_time_zone_of_its_own(source: Source) -> None:
    file = source.file(SCHEDULE, "schedule.csv")
    source.plan(file, columns={"session": "Event"}, constants=TEAM)
    kept = source.kept("schedule")
    zoned = kept.read_text("utf-8").replace("dates =", 'time_zone = "Asia/Tokyo"\ndates =')
    kept.write_text(zoned, "utf-8")
    starts = source.plan(file).rows["sessions"]["starts_at"]
    assert str(starts[0]) == "2026-09-25 09:30:00+00:00"


def test_days_without_a_time_get_noon_and_say_so_or_the_time_that_is_named(source: Source) -> None:
    file = source.file(SCHEDULE.replace(",6:30 PM", ",").replace(",7:00 PM", ","), "schedule.csv")
    event = {"session": "Event"}
    plan = source.plan(file, columns=event, constants=TEAM)
    assert str(plan.rows["sessions"]["starts_at"][0]) == "2026-09-25 17:00:00+00:00"
    assert any("12:00 was put" in note.expected for note in plan.notes)
    source.kept("schedule").unlink()
    plan = source.plan(file, columns=event, constants={**TEAM, "time": "16:00"})
    assert str(plan.rows["sessions"]["starts_at"][0]) == "2026-09-25 21:00:00+00:00"


def test_the_unit_of_a_heading_is_turned(source: Source) -> None:
    text = "device no,athlete id,device,side,use,Shell (in)\nG9,A1,wrist guard,L,prevention,0.125\n"
    plan = source.plan(source.file(text, "devices.csv"))
    row = plan.rows["guards"].row(0, named=True)
    assert (row["kind"], row["purpose"], row["shell_mm"]) == ("wrist", "preventive", 3.175)
    assert any("unit of the heading" in note.expected for note in plan.notes)


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
    assert plan.rows["stages"].select("guard", "stage").sort("guard", "stage").rows() == [
        ("G2", "delivered"),
        ("G2", "requested"),
        ("G3", "requested"),
    ]
    assert [one.file for one in plan.tables] == ["orders.csv", "orders.csv › stages delivered"]


def test_rows_without_keys_get_keys_of_their_cells_so_that_again_is_the_same(
    own: Desk, tmp_path: Path
) -> None:
    source = Source(own, tmp_path / "s.duckdb")
    text = "athlete_id,date,body_part,side\nA1,2026-09-05,knee,L\nA1,2026-09-05,knee,L\n"
    file = source.file(text)
    from seasonboard.store.intake.write import write_load

    plan = source.plan(file)
    assert plan.tables[0].new == 1
    assert any("was reported twice" in note.expected for note in plan.notes)
    write_load(own.store, plan)
    assert source.plan(file).is_empty


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[[sheet", "is not TOML"),
        ("name = 'x'", "holds no"),
        ("[[sheet]]\ntable = 'injurys'", "Did you mean “injuries”?"),
        ("[[sheet]]\ntable = 'injuries'\ncolums = 1", "Did you mean “columns”?"),
        (
            "[[sheet]]\ntable = 'injuries'\nheadings = ['a']\n[sheet.columns]\nside = 'b'",
            "“b” is not among its headings",
        ),
        (
            "[[sheet]]\ntable = 'injuries'\n[sheet.columns]\nsde = 'b'",
            "columns.sde is not a column",
        ),
        ("[[sheet]]\ntable = 'injuries'\ndates = 'ydm'", "dates = “ydm” is not known"),
        ("[[sheet]]\ntable = 'injuries'\ntime_zone = 'Chicago'", "such as America/Chicago"),
    ],
)
def test_a_wrong_mapping_is_told_with_its_place(tmp_path: Path, text: str, said: str) -> None:
    path = tmp_path / "north.toml"
    path.write_text(text, "utf-8")
    with pytest.raises(IntakeError, match=r"north\.toml") as refused:
        read_mapping(path)
    assert said in refused.value.what


def test_headings_with_quotes_and_backslashes_survive_in_the_mapping(source: Source) -> None:
    text = LOG.replace("Record", '"Re""c\\ord é"')
    source.plan(source.file(text), columns={"injury": 'Re"c\\ord é'})
    source.plan(source.file(text))
    assert len(source.person.proposals) == 1


def test_a_kept_mapping_is_never_written_over(source: Source) -> None:
    source.plan(source.file(LOG), columns=RECORD)
    before = source.kept().read_text("utf-8")
    other = "Case,Who,On,Place,Side\nR8,A1,2026-09-05,knee,L\n"
    answers = {"injury": "Case", "athlete": "Who", "occurred_on": "On", "area": "Place"}
    source.plan(source.file(other), columns=answers)
    assert source.kept().read_text("utf-8") == before
    assert source.kept("injury-log-2").exists()
