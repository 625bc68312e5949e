"""The rows behind the working season: each cell under the heading of what it holds."""

import json
from datetime import UTC, date, datetime

from seasonboard.answers.base import Summary
from seasonboard.answers.departments.report import DEPARTMENT_ROWS
from seasonboard.answers.report import table_rows
from seasonboard.answers.roster.athlete import AthleteTimeline, TimelineEntry, What
from seasonboard.answers.roster.athlete_report import BY_GROUP, REPORT
from seasonboard.answers.roster.athletes_table import GUARD_ROWS
from seasonboard.answers.take_up.report import STEP_ROWS
from seasonboard.answers.week.item_tables import LATE
from seasonboard.scope import Scope
from tests.answers.reading_worked import WORKED
from tests.answers.worked import departments, roster, take_up, week

EXPECTED = json.loads((WORKED / "opened_rows.json").read_text("utf-8"))

WORE = TimelineEntry(
    on=date(2026, 9, 1), at=datetime(2026, 9, 1, 16, 30, tzinfo=UTC), what=What.SESSION,
    item="N-P1", word="full", reason="illness", kind="practice", side="left", label="in the hall",
    guards=("G-1", "G-2"), days_lost=3, sentence="practice: full",
)  # fmt: skip
LEFT = TimelineEntry(
    date(2026, 9, 2), None, What.LEFT, "N", "2026 fall", *(None,) * 4, (), None, "left N"
)
TIMELINE = AthleteTimeline(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20))),
    athlete="A-1", name="Ada Lee", teams=("North",), entries=(WORE, LEFT), parts={"full": 4},
    guarded=5, injuries=6,
)  # fmt: skip


def lines(table, answer):
    """Return a dictionary a row, by the headings."""
    rows = table_rows(table, answer, "Rows")
    headings = [column.heading for column in rows.columns]
    assert len(set(headings)) == len({column.name for column in rows.columns}) == len(headings)
    return [dict(zip(headings, row, strict=True)) for row in rows.rows]


def test_the_roster_has_a_row_a_guard_and_one_for_everybody_without_any():
    first, second, none = lines(GUARD_ROWS, roster.ANSWER)
    assert first == EXPECTED["guard"]
    assert (second["athlete"], second["guard"], second["guard is"]) == ("A-1", "G-2", "being made")
    assert (none["athlete"], none["guard"], none["worn"], none["needs"]) == ("A-2", *(None,) * 3)


def test_a_timeline_opens_with_the_latest_entry_first():
    left, wore = lines(BY_GROUP, TIMELINE)
    assert left["recorded"] == "left N"
    assert wore == EXPECTED["timeline row"]


def test_a_timeline_has_every_field_under_its_name():
    printed = REPORT.as_object(TIMELINE, "roster")
    assert [printed[name] for name in ("athlete", "name", "teams", "parts", "guarded")] == [
        "A-1", "Ada Lee", ["North"], {"full": 4}, 5,
    ]  # fmt: skip
    assert printed["injuries"] == 6
    assert printed["timeline"][0] == EXPECTED["timeline entry"]
    heads, first, _ = REPORT.as_csv(TIMELINE).splitlines()
    assert heads.split(",") == list(printed["timeline"][0])
    assert first == (
        "2026-09-01,2026-09-01T16:30:00+00:00,session,practice: full,N-P1,full,illness,practice,"
        'left,in the hall,"G-1, G-2",3'
    )


def test_the_departments_have_their_figures_unrounded():
    first, _ = lines(DEPARTMENT_ROWS, departments.ANSWER)
    assert first == EXPECTED["department"]


def test_take_up_has_every_step_of_every_group():
    rows = lines(STEP_ROWS, take_up.ANSWER)
    assert [(row["by"], row["group"]) for row in rows[::5]] == [
        ("all", "all"),
        ("kind", "shin"),
        ("team", "N-MSOC"),
    ]
    assert rows[1] == EXPECTED["step"]


def test_an_item_of_the_week_has_all_its_fields():
    (late,) = lines(LATE, week.ANSWER.item("late"))
    assert late == EXPECTED["late"]
    assert all(lines(item.table, item) for item in week.ANSWER.items)
