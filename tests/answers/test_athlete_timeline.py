"""One athlete's timeline: the right athlete, entries in words, nothing from after the last day."""

import pytest

from seasonboard.answers.roster.athlete import What, athlete_timeline, now_lines
from seasonboard.answers.roster.athlete_report import REPORT
from seasonboard.answers.roster.words import STRIP_KEY
from seasonboard.errors import ScopeError
from seasonboard.scope import read_scope
from tests.queries.build import day, drawn, member, team
from tests.queries.test_roster_by_eye import stamp

GRID = "   A  B\nP1  .  .\nP2  g! .\nP3  o  -"


def timeline(this, athlete, **parts):
    scope = read_scope({"through": day(3).isoformat()} | parts, this.scope_values)
    return athlete_timeline(this._reader, scope, this.scope_values, athlete)


@pytest.fixture
def this(board):
    season = drawn(GRID, roster={"B": {"name": "Bo Bee"}, "A": {"name": "Ann [/x] Ay"}})
    season.stages = [stamp("g-A", "requested", 1, 8), stamp("g-A", "fitted", 2, 8)]
    return board(season)


def test_entries_are_told_in_words_in_order_of_time(this):
    answer = timeline(this, "A")
    assert [entry.sentence for entry in answer.entries] == [
        "chest guard g-A requested", "practice: full", "chest guard g-A fitted",
        "practice: full; wore g-A", "chest hurt (1 day lost)", "practice: out",
    ]  # fmt: skip
    assert (dict(answer.parts), answer.guarded, answer.injuries) == ({"full": 2, "out": 1}, 1, 1)
    assert answer.summary.answer.startswith("Ann [/x] Ay, women's soccer")
    assert "3 sessions (2 full, 1 out); a guard worn in 1; 1 injury." in answer.summary.answer


def test_how_it_stands_now_is_told_first(this):
    answer = timeline(this, "A")
    assert now_lines(answer) == [
        "Now: out, chest, day 1; 1 day lost this season.",
        "Like injuries over: not told, fewer than 10 lasted as long.",
        "Return guard: none asked for.",
        "Chest guard: its site was hurt on 2 Sep, when it was last worn.",
        f"Last sessions: •●○  ({STRIP_KEY})",
        "Next game: no game is recorded ahead; the last session was on 3 Sep.",
    ]
    assert REPORT.as_text(answer).index("Now:") < REPORT.as_text(answer).index("requested")


def test_what_came_after_the_last_day_is_not_there(this):
    early = timeline(this, "A", through=day(1).isoformat())
    assert [entry.what for entry in early.entries] == [What.STAGE, What.SESSION]


def test_a_session_without_a_record_is_an_entry(this):
    assert timeline(this, "B").entries[-1].word == "not recorded"


def test_an_athlete_may_be_named_by_name_whatever_the_capitals(this):
    assert timeline(this, "bo bee").athlete == "B"


def test_an_unknown_athlete_is_told_with_the_nearest(this):
    with pytest.raises(ScopeError) as caught:
        timeline(this, "Bo Be")
    assert caught.value.what == "There is no athlete “Bo Be”."
    assert caught.value.hint == "Did you mean “Bo Bee”? Known: A, B."


def test_two_of_one_name_are_not_guessed_at(board):
    both = {who: {"name": "Bo Bee"} for who in "AB"}
    with pytest.raises(ScopeError, match=r"2 athletes are called “Bo Bee”\. Name a key: A, B"):
        timeline(board(drawn(GRID, roster=both)), "Bo Bee")


def test_an_athlete_outside_the_scope_is_told_so(board):
    season = drawn(GRID)
    season.teams.append(team("U", sport="hockey"))
    season.roster.append(member("C", team="U"))
    with pytest.raises(ScopeError, match="on no roster of this scope"):
        timeline(board(season), "A", sport="hockey")


def test_text_fits_a_line(this):
    text = REPORT.as_text(timeline(this, "A"))
    assert "Wed  2 Sep  08:00  chest guard g-A fitted" in text
    assert max(map(len, text.splitlines())) <= 100
