"""The data checks: their ids and words, their order, and the line on Compare and Games."""

import json
import re
from dataclasses import replace

import pytest

from seasonboard.answers.checks.all_checks import ALL_CHECKS, check_named, touching
from seasonboard.answers.checks.counting import check_params, with_doubts
from seasonboard.answers.checks.parts import ANSWERS
from seasonboard.answers.checks.rows import CHECK_ROWS, touching_rows
from seasonboard.answers.questions import CHECKS, COMPARE, WITH_SCREENS, question_named
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import ScopeError
from seasonboard.paging import PageAsked
from seasonboard.scope import read_scope
from seasonboard.store.catalogue import catalogue
from tests.queries.build import drawn
from tests.reused import ReusedStore

EVERY = pytest.mark.parametrize("check", ALL_CHECKS.values(), ids=list(ALL_CHECKS))


def test_every_question_of_the_checks_has_its_check_and_no_id_comes_twice():
    names = [check.name for check in ALL_CHECKS.values()]
    assert len(set(names)) == len(names) >= 30
    asked = {name for name in catalogue() if name.startswith("checks/")}
    assert {check.query for check in ALL_CHECKS.values()} == asked


@EVERY
def test_a_check_is_documented(check):
    """In the words of its question; what it touches are answers that there are."""
    assert re.fullmatch(r"[a-z]+(-[a-z]+){1,3}", check.name)
    assert check.asks == catalogue()[check.query].asks
    assert check.touches.keys() <= set(ANSWERS)
    assert check.touches
    assert len(check.why) > 20
    assert check.mend.endswith(".")


@EVERY
def test_rows_have_the_columns_that_are_shown(check):
    question = catalogue()[check.query]
    assert list(question.columns) == [field.name for field in CHECK_ROWS.elements]
    assert set(question.params) == set(check_params(read_scope({}, EMPTY), EMPTY))


with ReusedStore() as nothing:
    EMPTY = AnswerSource(nothing, "nothing").scope_values


def test_answers_that_may_be_touched_are_screens_in_their_order():
    assert [board.name for board in WITH_SCREENS if board.name in ANSWERS] == list(ANSWERS)


def test_an_unknown_id_names_the_nearest():
    assert check_named("Attendance not_recorded").name == "attendance-not-recorded"
    with pytest.raises(ScopeError) as error:
        check_named("injuries-without-sesion")
    assert "Did you mean “injuries-without-session”?" in error.value.hint


def test_an_empty_store_has_nothing_to_check():
    with ReusedStore() as store:
        this = AnswerSource(store, "nothing")
        answer = this.ask(CHECKS, this.opening_scope())
        assert answer.summary.answer == "Nothing to check yet: nothing is recorded."
        assert not answer.doubtful
        assert CHECKS.report().as_text(answer)
        for check in ALL_CHECKS:
            assert this.check_rows(this.opening_scope(), check).total == 0


def test_a_clean_season_is_told_so_without_promising_anything(board):
    season = drawn("A B\nG1 . .\nG2 . .", roster={k: {"position_group": "back"} for k in "AB"})
    season.departments[0]["time_zone"] = "America/Denver"
    this = board(season)
    summary = this.ask(CHECKS, this.opening_scope()).summary
    assert summary.answer == f"None of {len(ALL_CHECKS)} checks found anything doubtful."
    assert "does not show that the records are right" in " ".join(summary.caveats)
    number = len(touching("compare"))
    line = f"Data checks that touch this: none of {number} found anything."
    scope = this.opening_scope()
    assert line in COMPARE.report().as_text(
        with_doubts(this.ask(COMPARE, scope), this.doubts(scope, "compare"))
    )


def test_checks_that_touch_most_stand_first_and_the_sentence_names_those_of_compare(board):
    this = board(drawn("A B C\nG1 .! go -\nG2 . . -"))
    answer = this.ask(CHECKS, this.opening_scope())
    found = {each.check.name: each.count for each in answer.doubtful}
    assert found == {
        "attendance-not-recorded": 2, "worn-while-out": 1, "played-before-return": 1,
        "time-zone-not-set": 1, "orders-without-stage": 1, "position-group-missing": 2,
    }  # fmt: skip
    ranks = [(-len(each.check.touches), -each.count) for each in answer.doubtful]
    assert ranks == sorted(ranks)
    assert answer.summary.answer == (
        f"6 of {len(ALL_CHECKS)} checks found something; 5 touch Compare: "
        "attendance-not-recorded 2, played-before-return 1, time-zone-not-set 1 and 2 more."
    )


@pytest.mark.long
def test_counts_are_the_rows_that_open(sample):
    scope = sample.opening_scope()
    for each in sample.ask(CHECKS, scope).checks:
        rows = sample.check_rows(scope, each.check.name, PageAsked(5))
        assert rows.total == each.count, each.check.name
        assert len(rows.rows) == min(5, each.count)


def test_the_sample_season_has_the_doubts_that_were_planted(sample):
    """Attendance and wear with gaps, and a team that lists only those who took part."""
    found = {each.check.name for each in sample.ask(CHECKS, sample.opening_scope()).doubtful}
    assert {
        "attendance-not-recorded", "wear-not-recorded", "only-who-took-part",
        "injuries-without-session", "sites-without-kind",
    } <= found  # fmt: skip
    assert found.isdisjoint({"stages-out-of-order", "worn-while-out", "session-twice"})


def test_through_a_day_knows_no_doubt_of_later(sample):
    scope = read_scope({"through": "2026-10-01"}, sample.scope_values)
    for each in sample.ask(CHECKS, scope).doubtful:
        rows = sample.check_rows(scope, each.check.name)
        place = [column.name for column in rows.columns].index("dated_on")
        days = [str(row[place]) for row in rows.rows if row[place] is not None]
        assert all(day <= "2026-10-01" for day in days), each.check.name


@pytest.mark.parametrize("name", ["compare", "games"])
def test_compare_and_games_name_the_checks_that_touch_them(sample, name):
    scope = read_scope({"kind": "shin", "department": "LF"}, sample.scope_values)
    answer = with_doubts(sample.ask(question_named(name), scope), sample.doubts(scope, name))
    expected = {
        e.check.name: e.count for e in sample.ask(CHECKS, scope).doubtful if name in e.check.touches
    }
    assert expected
    report = question_named(name).report()
    as_json = report.as_object(answer, name)
    assert {e["check"]: e["count"] for e in as_json["data_checks"]} == expected
    text = report.as_text(answer)
    line = " ".join(text.split("Data checks that touch this: ")[1].split())
    assert line.startswith(", ".join(f"{key} {count:,}" for key, count in expected.items())[:20])
    rows = touching_rows(sample.ask(CHECKS, scope), name)
    assert {row[0] for row in rows.rows} == {check.name for check in touching(name)}


def test_a_count_is_made_anew_once_something_is_written(tmp_path):
    from seasonboard.store.intake.plan import plan_load
    from seasonboard.store.intake.write import write_load

    season = drawn("A B\nG1 . -")
    store = season.load(tmp_path / "first")
    asked = [("checks/attendance_not_recorded", check_params(read_scope({}, EMPTY), EMPTY))]
    asked[0][1]["until"] = season.played_on("G1").replace(year=2030)
    assert store.count_each(asked) == store.count_each(asked) == (1,)
    season.attendance.append({"session": "G1", "athlete": "B", "part": "full"})
    write_load(store, plan_load(store, [season.write(tmp_path / "more")]))
    assert store.count_each(asked) == (0,)
    store.close()


def test_kinds_in_a_scope_leave_out_injuries_to_other_sites(board):
    season = drawn("A\nG1 .g")
    season.injuries = [
        {"injury": "I1", "athlete": "A", "occurred_on": season.played_on("G1"), "area": area}
        | {"side": side}
        for area, side in (("chest", "midline"),)
    ]
    season.injuries.append(season.injuries[0] | {"injury": "I2", "area": "neck"})
    this = board(season)
    whole = this.opening_scope()
    name = "injuries-session-suggested"
    assert this.check_rows(whole, name).total == 2
    other = replace(whole, kinds=("shoulder",))
    assert this.check_rows(other, name).total == 0


@pytest.mark.long
def test_the_command_as_a_process(run, sample_store, tmp_path):
    done = run("check", "--store", sample_store, "--department", "LF", "--format", "json")
    assert done.status == 1
    counts = {each["check"]: each["count"] for each in done.json["checks"]}
    assert counts.keys() == ALL_CHECKS.keys()
    one = run(
        *("ask", "checks", "--store", sample_store, "--department", "LF"),
        *("--check", "attendance-not-recorded", "--format", "json"),
    )
    assert one.status == 1
    assert one.json["count"] == len(one.json["rows"]) == counts["attendance-not-recorded"]
    none = run("check", "--store", sample_store, "--check", "worn-while-out", "--format", "csv")
    assert none.status == 0
    assert none.out == ",".join(field.name for field in CHECK_ROWS.elements) + "\n"
    wrong = run("check", "--store", sample_store, "--check", "attendence")
    assert wrong.status == 2
    assert "There is no check “attendence”" in wrong.err
    assert json.dumps(done.json)
