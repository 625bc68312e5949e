"""What is wished of sheets that a mapping reads already, or of one sheet among several."""

import re

import pytest

from seasonboard.errors import IntakeError
from tests.intake.desk import Source

LOG = "Case,Athlete,Injury date,Body part,Side,Returned,Back\n"
ROW = "C1,A1,2026-09-11,knee,left,2026-09-20,2026-09-21\n"
ANSWER = "Old Quarry College, women, soccer, America/Denver"


@pytest.fixture
def kept(source: Source) -> Source:
    """Return a source whose log has a mapping that is kept."""
    source.plan(source.file(LOG + ROW))
    return source


@pytest.mark.parametrize(
    ("wished", "cells"),
    [
        ({"columns": {"injuries.returned_on": "back"}}, {"returned_on": "2026-09-21"}),
        ({"columns": {"returned_on": ""}}, {"returned_on": "None"}),
        ({"leave_out": ("Returned",)}, {"returned_on": "None"}),
        ({"constants": {"side": "right"}}, {"side": "right", "returned_on": "2026-09-20"}),
        ({"columns": {"note": "Case + Side"}}, {"note": "C1 left"}),
        ({"constants": {"teams.sport": "judo"}}, {"side": "left"}),
    ],
)
def test_a_kept_mapping_is_changed_by_what_is_wished_and_kept_so(
    kept: Source, wished: dict[str, object], cells: dict[str, str]
) -> None:
    side = {"constants": {"side": "left"}} if "note" in cells else {}
    for wish in ({**wished, **side}, {}):
        (row,) = kept.plan(kept.file(LOG + ROW), **wish).rows["injuries"].to_dicts()
        assert {name: str(row[name]) for name in cells} == cells
    changed = "sport" not in str(wished)
    assert len(kept.person.proposals) == 1 + changed
    assert not changed or kept.person.proposals[1].startswith("Changed mapping “injury-log”:\n")


def test_a_wish_for_a_heading_that_is_not_there_is_told(kept: Source) -> None:
    refused = kept.refusal(kept.file(LOG + ROW), columns={"returned_on": "Bak"})
    assert [(one.value, one.nearest) for one in refused.problems] == [("Bak", "Back")]
    assert len(kept.person.proposals) == 1


def test_a_kept_sheet_left_out_holds_nothing(source: Source) -> None:
    book = source.workbook(
        {"log": [LOG.strip().split(","), ROW.strip().split(",")],
         "squad": [["Player", "Team", "Season"], ["Di Fox", "T1", "2026"]]}
    )  # fmt: skip
    source.plan(book)
    plan = source.plan(book, leave_out=("squad",))
    assert list(plan.rows) == ["injuries"]
    assert [one.tables for one in plan.sheets] == [("injuries",), ()]


def test_each_sheet_may_have_a_team_of_its_own(source: Source) -> None:
    rows = [["Player", "Jersey", "Pos"], ["Di Fox", "4", "GK"], ["Flo Kay", "5", "GK"]]
    book = source.workbook({"one": rows, "other": rows})
    teams = {"season": "2026", "one › team": "T2", "other › team": ANSWER}
    plan = source.plan(book, constants=teams)
    assert set(plan.rows["roster"]["team"]) == {"T2", "OQ-WSOC"}
    assert plan.rows["departments"]["time_zone"].to_list() == ["America/Denver"]
    settled = [{one.name: one.value for one in sheet.settled} for sheet in plan.sheets]
    assert [one["team"] for one in settled] == ["T2", "OQ-WSOC"]
    (team,) = (one for one in plan.sheets[0].settled if one.name == "team")
    assert {"T1", "T2", "OQ-WSOC"} == set(team.choices)


def test_first_rows_stand_on_the_clock_of_the_department(source: Source) -> None:
    """2026-09-09 23:30 UTC is 18:30 in Chicago, where T1 plays (CDT, UTC−5; tz database)."""
    text = "session,team,season,starts_at,setting\nS9,T1,2026,2026-09-09T23:30Z,game\n"
    (first,) = source.plan(source.file(text, "sessions.csv")).summary.first_rows
    cells = dict(zip(first.columns, first.cells[0], strict=True))
    assert cells["starts_at (America/Chicago)"] == "2026-09-09 18:30"


def test_rows_of_one_key_that_differ_where_nothing_is_read_are_told(source: Source) -> None:
    text = "Session,Athlete,Status,Checked on\nS3,A1,full,2026-09-06\nS3,A1,full,2026-09-07\n"
    (problem,) = source.refusal(source.file(text, "status.csv")).problems
    assert "with other cells in columns that are not read" in problem.expected


def test_a_second_file_with_a_renamed_and_moved_column_is_read_alike(source: Source) -> None:
    own = "Athlete,Injury date,Body part,Side"
    first = source.file(f"{own},Said\nA1,2026-09-11,knee,left,stiff\n", "log 1.csv")
    source.plan(first, columns={"note": "Said"})
    moved = source.file(f"Told,{own}\nsore,A2,2026-09-12,knee,left\n", "log 2.csv")
    plan = source.plan(moved)
    assert plan.rows["injuries"].select("athlete", "note").rows() == [("A2", "sore")]
    assert "is read as the mapping “log-1” says" in source.person.proposals[-1]


def test_subtotals_and_a_footnote_of_a_file_named_after_a_table_are_no_people(
    source: Source,
) -> None:
    lines = ["Player,Team,Season,No.", "Di Fox,T1,2026,4", "Subtotal T1,,,1", "Flo Kay,T2,2026,6",
             "Total,,,2", "* captains first,,,"]  # fmt: skip
    plan = source.plan(source.file("\n".join(lines), "roster.csv"))
    assert plan.rows["roster"]["name"].to_list() == ["Di Fox", "Flo Kay"]
    told = [(one.row, re.sub(r"is (a \S+).*", r"\1", one.expected)) for one in plan.notes]
    assert told == [(3, "a subtotal,"), (5, "a subtotal,"), (6, "a remark")]


def test_more_problems_than_are_listed_are_counted_last(source: Source) -> None:
    rows = "".join(f"Q{one},S1,full\n" for one in range(1200))
    with pytest.raises(IntakeError) as refused:
        source.plan(source.file(f"athlete,session,part\n{rows}", "attendance.csv"))
    assert refused.value.problems[-1].expected.startswith("and 200 more rows")
