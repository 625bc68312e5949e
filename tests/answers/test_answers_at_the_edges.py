"""Whatever was recorded, every answer has its words and numbers, and none is NaN."""

import csv
import io
import json
from dataclasses import replace
from datetime import date, timedelta
from itertools import cycle

import pytest

from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.answers.questions import (
    ALLOTMENT,
    CHECKS,
    COMPARE,
    DEPARTMENTS,
    GAMES,
    ORDERS,
    PITCH,
    REMAKES,
    ROSTER,
    TAKE_UP,
    TURNAROUND,
    WEEK,
)
from seasonboard.answers.take_up.parts import STEPS, TakeUpBy, TakeUpOptions
from seasonboard.scope import read_scope
from tests.answers.edges import EDGES
from tests.answers.test_pitch import PLAN
from tests.answers.wording import check_said, check_words, nulls_not_optional, plain

NAMES = ["same session", "alike athletes", "same athlete", "other side", "crude"]
EARLY_AND_LATE = ("last", "2026-08-01", "2027-08-01")
WITH_CAVEATS = (COMPARE, GAMES, TAKE_UP, PITCH, DEPARTMENTS, CHECKS)
VIEWS = (
    {"purpose": "preventive", "outcome": "time loss"},
    {"purpose": "return", "outcome": "any"},
    {"purpose": "all", "outcome": "any"},
)


@pytest.fixture(params=EDGES)
def edge(request):
    return request.param


@pytest.fixture
def told(edge_board, edge):
    """Ask a question at the edge; give the answer and its JSON, once every form holds."""

    def ask(question, options=None, **parts):
        this, report = edge_board(edge), question.report()
        answer = this.ask(
            question, read_scope({"kind": "chest"} | parts, this.scope_values), options
        )
        found = json.loads(report.as_json(answer, question.name))
        (check_said if question in WITH_CAVEATS else check_words)(found, question.name)
        assert set(nulls_not_optional(report.elements, found)) == set()
        assert report.as_text(answer)
        rows = list(csv.DictReader(io.StringIO(report.as_csv(answer))))
        assert len(rows) == len(list(report.csv.rows(answer)))
        return answer, found

    return ask


@pytest.mark.long
def test_compare_in_every_view(told):
    for view in VIEWS:
        answer, found = told(COMPARE, **view)
        assert found["scope"]["purpose"] == view["purpose"]
        assert [one["comparison"] for one in found["comparisons"]] == NAMES
        assert all(one["informative_strata"] <= one["strata"] for one in found["comparisons"])
        assert all(one["removes"] for one in found["comparisons"])
        assert found["verdict"]
        assert found["peek_proof"]["looks_valid"] is True
        text = COMPARE.report().as_text(answer)
        assert plain(text), text


@pytest.mark.long
def test_games_on_every_clock(told):
    for clock, view, min_at_risk in zip(Clock, cycle(VIEWS), cycle((5, 2, 1)), strict=False):
        options = GamesOptions(clock, min_at_risk=min_at_risk, naive=min_at_risk == 1)
        answer, found = told(GAMES, options, **view)
        assert found["clock"] == clock.value
        assert [group["group"] for group in found["groups"]] == ["guarded", "unguarded"]
        for group in found["groups"]:
            check_group(group)
        assert plain(GAMES.report().as_text(answer))


def check_group(group):
    points = group["curve"]
    assert all(point["at_risk"] > 0 for point in points), (
        "a row for every tick with someone at risk"
    )
    assert [p["tick"] for p in points] == sorted({p["tick"] for p in points})
    assert sum(point["injuries"] for point in points) == group["injuries"]
    assert sum(point["left"] for point in points) == group["left"]
    entered = sum(point["entered"] for point in points)
    assert entered == group["injuries"] + group["left"], "who came in has gone out"
    shares = [p["survival"] for p in points if p["survival"] is not None]
    assert shares == sorted(shares, reverse=True)


@pytest.mark.long
def test_roster_early_and_late(told):
    for through in ("2026-08-01", "2026-09-02", "2026-12-01"):
        answer, found = told(ROSTER, through=through)
        states = {one["status"] for one in found["athletes"]}
        assert states <= {"full", "limited", "out", "not recorded"}
        assert all(one["expected_back"] is None for one in found["athletes"])
        assert max(map(len, ROSTER.report().as_text(answer).splitlines())) <= 100
        counted = answer.headline
        states = (counted.full, counted.limited, counted.out, counted.not_recorded)
        assert sum(states) == counted.rostered == len(answer.athletes)


@pytest.mark.long
def test_week_early_and_late(told, edge):
    for through in EARLY_AND_LATE:
        answer, _ = told(WEEK, through=through)
        assert all(item.sentence for item in answer.items)
        assert len(answer.days) == 7
        assert answer.since == answer.summary.scope.through - timedelta(days=7)
        if through == "last" and edge == "nothing at all":
            assert answer.summary.answer.startswith("Nothing is recorded yet")
            assert answer.through == date(2000, 1, 1)


@pytest.mark.long
def test_departments_early_and_late(told, edge_board, edge):
    recorded = edge_board(edge).scope_values.values.get("department", ())
    for through in EARLY_AND_LATE:
        answer, _ = told(DEPARTMENTS, through=through)
        assert len(answer.departments) == len(recorded)


@pytest.mark.long
def test_take_up_by_every_group(told):
    for by in TakeUpBy:
        _, found = told(TAKE_UP, TakeUpOptions(by))
        assert [step["step"] for step in found["steps"]] == list(STEPS)


@pytest.mark.long
def test_pitch_to_a_department_like_those_served_and_to_one_given(told):
    for options in (PitchOptions(seasons=200), replace(PLAN, seasons=200)):
        answer, _ = told(PITCH, options)
        assert answer.ahead is None, "no edge has 11 injuries"


@pytest.mark.long
@pytest.mark.parametrize("question", [ORDERS, TURNAROUND, REMAKES, ALLOTMENT, CHECKS])
def test_the_others_early_and_late(told, question):
    for through in ("last", "2026-08-01"):
        told(question, through=through)


SAYS = {
    "nothing at all": ("Nothing to compare yet: nobody is recorded", "Nothing to follow yet"),
    "a roster and no session": ("Nothing to compare yet: nobody", "Nothing to follow yet"),
    "nobody took part": ("Nothing to compare yet: nobody", "Nothing to follow yet"),
    "no guards": ("Nothing to compare yet: no guard counted here was worn", "No guard counted"),
    "nothing bare": ("Nothing to compare with: every recorded exposure", "Every exposure in"),
    "guards worn while out": ("Nothing to compare yet: no guard", "No guard counted here was worn"),
    "no injuries": ("Too few injuries to tell: 0 guarded, 0 bare", ""),
    "all hurt in the first game": ("Too few injuries to tell: 5 guarded, 5 bare", ""),
    "no guarded injury": ("Too few injuries to tell: 0 guarded, 3 bare", ""),
}


@pytest.mark.long
@pytest.mark.parametrize("edge", list(SAYS))
def test_what_cannot_be_told_is_told_in_words(edge_board, edge):
    this = edge_board(edge)
    scope = read_scope({"kind": "chest"}, this.scope_values)
    compared, followed = SAYS[edge]
    assert this.ask(COMPARE, scope).summary.answer.startswith(compared)
    assert this.ask(GAMES, scope).summary.answer.startswith(followed)


LEFT_OUT = {
    "nobody took part": {"athletes' sessions: attendance not recorded": 1},
    "injuries without a session": {
        "injuries: no session recorded": 1,
        "site-exposures: after an earlier injury to the site": 3,
    },
    "two injuries in one session": {
        "injuries: a second record of the same site in the same session": 1,
        "site-exposures: after an earlier injury to the site": 1,
    },
    "guards worn while out": {
        "athletes' sessions: attendance not recorded": 1,
        "guards worn: the athlete is not recorded as taking part in that session": 2,
    },
}


@pytest.mark.parametrize("edge", list(LEFT_OUT))
def test_what_is_left_out_is_counted_with_its_reason(edge_board, edge):
    """The same list stands in both answers, in the text and in the JSON."""
    this = edge_board(edge)
    scope = read_scope({"kind": "chest"}, this.scope_values)
    compared, followed = this.ask(COMPARE, scope), this.ask(GAMES, scope)
    for found in (
        COMPARE.report().as_object(compared, "compare"),
        GAMES.report().as_object(followed, "games"),
    ):
        told = {left["why"]: left["count"] for left in found["left_out"]}
        assert told == LEFT_OUT[edge]
    for text in (COMPARE.report().as_text(compared), GAMES.report().as_text(followed)):
        assert all(why in text for why in LEFT_OUT[edge])


def test_before_the_first_attendance_the_day_is_that_of_the_first_session(edge_board):
    board = edge_board("sessions and no attendance")
    known = board.scope_values
    assert not known.is_empty
    assert read_scope({}, known).through == known.first_day
    answer = board.ask(ROSTER, read_scope({}, known)).summary.answer
    assert "Who of 2 athletes can play is not recorded yet." in answer
