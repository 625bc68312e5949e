"""Lists of attendance that also say whether a guard was worn give rows of wear, too."""

import pytest

from tests.intake.desk import Source

LOG = "Athlete ID,Date,Status,Guard worn?\n"


@pytest.mark.parametrize(
    ("answer", "said"), [("Yes", "yes"), ("yes - wrist guard", "yes"), ("no", "no"), ("x", "yes")]
)
def test_yes_and_no_are_worn_and_not_worn(source: Source, answer: str, said: str) -> None:
    """Of the two wrist guards of A1 the one counts that was there on the day."""
    plan = source.plan(source.file(f"{LOG}A1,2026-09-05,full,{answer}\n", "status log.csv"))
    assert plan.rows["wear"].select("session", "guard", "worn").rows() == [("S1", "G1", said)]


def test_neither_yes_nor_no_gives_no_row_and_is_told(source: Source) -> None:
    text = f"{LOG}A1,2026-09-05,full,Not sure\nA1,2026-09-07,full,yes\n"
    plan = source.plan(source.file(text, "status log.csv"))
    assert plan.rows["wear"]["session"].to_list() == ["S2"]
    assert any("says neither" in note.expected for note in plan.notes)


def test_a_day_without_a_session_is_told(source: Source) -> None:
    text = f"{LOG}A1,2026-09-05,full,yes\nA1,2026-11-30,full,yes\n"
    refusal = source.refusal(source.file(text, "status log.csv"))
    assert any("is the day of no session" in one.expected for one in refusal.problems)


def test_injuries_without_a_day_are_asked_about(source: Source) -> None:
    text = "Athlete ID,Body part,Side,Guard worn?\nA1,Knee,L,yes - wrist guard\n"
    problems = source.refusal(source.file(text)).problems
    assert "occurred_on" in {one.column for one in problems}


def test_not_worn_where_none_could_be_is_left_out_and_told(source: Source) -> None:
    """A2 was out on 9/7: that blank day makes no row of wear."""
    more = "session,team,season,starts_at,setting\nS4,T1,2026,2026-09-09T16:00,practice\n"
    days = ["Athlete", "Guard", "9/5/2026", "9/7/2026", "9/9/2026"]
    book = source.workbook(
        {"Guards worn": [["✓ worn, blank = no"], days, ["Bo Lind", "lower back", "✓", "", ""]]}
    )
    plan = source.plan(book, source.file(more, "sessions.csv"))
    assert plan.rows["wear"].select("session", "worn").rows() == [("S1", "yes"), ("S4", "no")]
    (note,) = [one for one in plan.notes if "could not be" in one.expected]
    assert (note.row, note.column, note.value) == (3, "“9/7/2026” (athlete_name)", "Bo Lind")
