"""Injury sheets as people keep them, and lists that say whether a guard was worn."""

import pytest

from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.undo import undo_last_load
from tests.intake.desk import Desk, Source


def injuries(plan, *columns):
    return plan.rows["injuries"].select("athlete", *columns).sort("athlete", *columns).rows()


@pytest.mark.parametrize("heading", ["RTP", "Cleared", "Return to play"])
def test_return_dates_are_read_under_their_usual_headings(source: Source, heading: str) -> None:
    text = f"Athlete No,Date,Body part,Side,{heading}\nA1,2026-09-13,Knee,L,2026-09-20\n"
    plan = source.plan(source.file(text))
    assert [str(day) for day in plan.rows["injuries"]["returned_on"]] == ["2026-09-20"]


def test_a_shin_and_a_calf_of_one_day_are_two_injuries(source: Source) -> None:
    text = "Athlete No,Date,Body part,Side\nA1,2026-09-13,Shin,L\nA1,2026-09-13,Calf,L\n"
    plan = source.plan(source.file(text))
    assert injuries(plan, "area", "side") == [("A1", "lower leg", "left")] * 2
    assert plan.rows["injuries"]["injury"].n_unique() == 2


def test_a_side_in_the_words_of_the_area_fills_an_empty_side(source: Source) -> None:
    text = "Athlete No,Date,Body part,Side\nA1,2026-09-13,left knee,\nA2,2026-09-14,Knee,\n"
    plan = source.plan(source.file(text))
    assert injuries(plan, "area", "side") == [("A1", "knee", "left"), ("A2", "knee", None)]


def test_a_game_long_before_or_after_its_season_is_refused(season: Desk) -> None:
    season.put(
        sessions="session,team,season,starts_at,setting\nS1,T1,2026,2062-09-05T18:00,game\n",
        attendance="session,athlete,part\nS1,A1,full\n",
    )
    for name in ("wear", "injuries", "offers", "decisions", "stages", "guards"):
        (season.folder / f"{name}.csv").unlink()
    problem = season.problem()
    assert "is more than a year away from its season, 2026" in problem.expected
    assert (problem.row, problem.column) == (2, "starts_at")


def test_a_summer_day_of_a_fall_season_is_kept_and_doubtful(own: Desk) -> None:
    plan = own.plan(
        roster="athlete,team,season,name\nA1,T1,2026 fall,Ana Reed\n",
        sessions="session,team,season,starts_at,setting\n"
        "F1,T1,2026 fall,2026-09-12T18:00,game\nF2,T1,2026 fall,2026-05-12T18:00,game\n",
    )
    assert plan.rows["sessions"]["session"].to_list() == ["F1", "F2"]
    (doubt,) = plan.notes[: plan.doubts]
    assert doubt.row == 3
    assert "lies outside the months or the year of its season, 2026 fall" in doubt.expected


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


WEAR = "session,guard,worn\nS1,G1,no\nS1,G2,\n"


def worn(desk: Desk) -> list[tuple[str, str, str | None]]:
    rows = export_tables(desk.store)["wear"].select("session", "guard", "worn")
    return sorted(rows.rows(), key=lambda row: row[:2])


def test_not_worn_survives_an_export(own: Desk) -> None:
    own.load(wear=WEAR)
    assert worn(own) == [("S1", "G1", "no"), ("S1", "G2", None), ("S2", "G1", None)]
    text = export_tables(own.store)["wear"].write_csv()
    plan = own.plan(wear=text)
    assert [(one.new, one.changed, one.same) for one in plan.tables] == [(0, 0, 3)]


def test_undo_takes_not_worn_back(own: Desk) -> None:
    before = worn(own)
    own.load(wear=WEAR)
    undo_last_load(own.store)
    assert worn(own) == before


@pytest.mark.parametrize(("answer", "was_on"), [("Yes", "yes"), ("no", "no"), ("Not sure", None)])
def test_an_injury_form_says_whether_a_guard_was_on(
    source: Source, answer: str, was_on: str | None
) -> None:
    """“Yes - shin guard” does not say that one was on at the hurt site, and is told."""
    head = "Athlete ID,Injury date,Body part,Side,Was a guard worn?\n"
    rows = f"A1,2026-09-05,knee,left,{answer}\nA2,2026-09-06,knee,left,Yes - shin guard\n"
    plan = source.plan(source.file(head + rows))
    assert plan.rows["injuries"].sort("athlete")["was_on"].to_list() == [was_on, None]
    (note,) = [one for one in plan.notes if "more than yes or no" in one.expected]
    assert (note.row, note.value) == (3, "Yes - shin guard")
