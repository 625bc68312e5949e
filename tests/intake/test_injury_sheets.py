"""Injury sheets and schedules as people keep them: returns, sides, doubles, and odd years."""

import pytest

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
