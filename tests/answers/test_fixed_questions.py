"""Whether a question was fixed before the season, and how many scopes were looked at since."""

from datetime import date

import pytest

from seasonboard.answers.compare.fixed_questions import NOBODY_FIXED
from seasonboard.answers.compare.parts import CompareOptions
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.answers.source import AnswerSource
from seasonboard.looks import UNCOUNTED, LookBook, digest
from seasonboard.scope import Scope, View, read_scope
from tests.queries.build import Season, day, drawn

GRID = """
        A    B    C
    G1  g!   .    .
    G2  g    .    .!
"""
FIXED = {
    "kind": "chest", "area": None, "outcome": "time loss", "setting": "both", "horizon": None,
    "comparison": "same session",
}  # fmt: skip


class Asking(Season):
    questions: list


def asking(*fixed):
    """Return a season that begins on day 1, with questions fixed on days: (day, cells)."""
    season = drawn(GRID)
    season.questions = [{"asked_on": day(n), **FIXED, **cells} for n, cells in fixed]
    return season


def fixed_of(board, season, **asked):
    this = board(season)
    answer = this.ask(COMPARE, read_scope({"kind": "chest", **asked}, this.scope_values))
    return answer, [one for one in answer.summary.caveats if "advance" in one or "fixed" in one]


def test_a_question_fixed_before_the_first_session_was_asked_in_advance(board):
    answer, said = fixed_of(board, asking((-9, {"comparison": "same athlete", "horizon": 8})))
    assert said == [
        f"Asked in advance on {day(-9)}, before the first session on {day(1)}, to be decided by "
        "same athlete."
    ]
    told = COMPARE.report().as_object(answer, "compare")["asked_in_advance"]
    assert (told["asked_on"], told["is_in_advance"]) == (str(day(-9)), True)
    assert (told["horizon"], told["first_session_on"]) == (8, str(day(1)))


def test_one_fixed_on_the_first_day_was_tried_later_and_the_first_of_two_counts(board):
    _, said = fixed_of(board, asking((2, {}), (1, {})))
    assert said == [
        f"This question was fixed on {day(1)}, not before the first session on {day(1)}: it was "
        "tried later."
    ]


@pytest.mark.parametrize(
    ("fixed", "asked"),
    [
        ((), {}),
        (((-9, {"outcome": "any"}),), {}),
        (((-9, {"setting": "games"}),), {}),
        (((-9, {"area": "knee"}),), {}),
        (((-9, {"kind": "vest"}),), {}),
        (((-9, {}),), {"team": "T"}),
        (((-9, {}),), {"purpose": "return"}),
        (((-9, {}),), {"outcome": "any"}),
        (((-9, {}),), {"through": str(day(-10))}),
    ],
)
def test_any_other_question_was_tried_later(board, fixed, asked):
    answer, said = fixed_of(board, asking(*fixed), **asked)
    assert said == [NOBODY_FIXED]
    assert answer.fixed is None


def test_what_came_into_the_store_after_the_season_began_is_told(board, tmp_path):
    """A row of a load knows its day: that of today, long after a season of 2026 in this test."""
    this = board(asking((-9, {})))
    store = this._store
    with store.writing() as cursor:
        cursor.execute("INSERT INTO store.loads VALUES (77, '2026-10-05 12:00:00+00')")
        cursor.execute("UPDATE store.questions SET load_no = 77")
    answer = this.ask(COMPARE, read_scope({"kind": "chest"}, this.scope_values))
    assert "It came into this store only on 2026-10-05, not before that session." in (
        answer.summary.caveats
    )


def test_the_curtain_hides_nothing_of_it(board):
    this = board(asking((-9, {})))
    scope = read_scope({"kind": "chest"}, this.scope_values)
    seen = this.ask(COMPARE, scope, CompareOptions(is_whole=True))
    this.cover(is_down=True)
    covered = this.ask(COMPARE, scope, CompareOptions(is_whole=True))
    assert (covered.fixed, covered.burden) == (seen.fixed, seen.burden)
    assert covered.undo == seen.undo


# Looks


def scope(**parts):
    return Scope(**({"through": date(2026, 9, 30), "kinds": ("shin",)} | parts))


def test_scopes_are_counted_once_whatever_their_last_day_and_level(tmp_path):
    days = iter([date(2026, 9, n) for n in (1, 1, 2, 3, 3)])
    book = LookBook(tmp_path / "looks" / "ab.txt", today=lambda: next(days))
    counts = [
        book.note(one).scopes
        for one in (
            scope(), scope(through=date(2026, 10, 7), level=0.9), scope(purpose=View.ALL),
            scope(kinds=("thumb",)),
        )
    ]  # fmt: skip
    assert counts == [1, 1, 2, 3]
    found = book.note(scope())
    assert (found.scopes, found.first_on) == (3, date(2026, 9, 1))
    assert [found.since(date(2026, 9, n)).scopes for n in (1, 2, 3, 4)] == [3, 3, 2, 0]
    assert "shin" not in (tmp_path / "looks" / "ab.txt").read_text()
    assert len((tmp_path / "looks" / "ab.txt").read_text().splitlines()) == 4


@pytest.mark.parametrize(
    "broken", ["not a line\n", "2026-09-01\n", "2026-13-01 0123456789abcdef\n"]
)
def test_a_file_that_cannot_be_read_is_no_refusal_and_the_count_is_not_known(tmp_path, broken):
    path = tmp_path / "ab.txt"
    path.write_text(broken)
    found = LookBook(path).note(scope())
    assert (found.scopes, found.first_on) == (None, None)
    assert "cannot be read or written" in found.why
    assert path.read_text() == broken
    (tmp_path / "file").write_text("")
    assert LookBook(tmp_path / "file" / "ab.txt").note(scope()).scopes is None


def counting(board, tmp_path, season):
    """Return a board that counts from 5 September 2026 on."""
    book = LookBook(tmp_path / "looks.txt", today=lambda: date(2026, 9, 5))
    return AnswerSource(board(season)._store, "a test", look_book=lambda _: book)


def looked(this, question, **asked):
    return this.ask(question, read_scope({"kind": "chest", **asked}, this.scope_values))


def test_looks_at_compare_and_games_are_told_on_compare(board, tmp_path):
    this = counting(board, tmp_path, asking((-9, {})))
    looked(this, GAMES)
    looked(this, GAMES, setting="games")
    answer = looked(this, COMPARE, outcome="any")
    assert answer.summary.caveats[-1] == (
        "3 scopes of Compare and Games were looked at since 2026-09-05 by this user on this "
        "computer; how many before or elsewhere is not known."
    )
    told = COMPARE.report().as_object(answer, "compare")["scopes_looked_at"]
    assert (told["count"], told["since"]) == (3, "2026-09-05")
    assert "settings folder" in told["kept_in"]


def test_since_the_day_a_question_was_fixed_where_counting_is_older(board, tmp_path):
    this = counting(board, tmp_path, asking((3, {})))
    (tmp_path / "looks.txt").write_text(f"2026-09-01 {digest(scope())}\n")
    assert looked(this, COMPARE).summary.caveats[-1] == (
        "1 scope of Compare and Games was looked at since 2026-09-03 by this user on this "
        "computer; how many elsewhere is not known."
    )


def test_who_does_not_count_says_so(board):
    answer, _ = fixed_of(board, asking())
    told = COMPARE.report().as_object(answer, "compare")["scopes_looked_at"]
    assert (told["count"], told["why"]) == (None, UNCOUNTED.why)


@pytest.mark.long
def test_the_command_counts_in_the_settings_folder_and_not_in_the_store(run, sample_store):
    before = sample_store.read_bytes()
    asked = ("ask", "compare", "--store", sample_store, "--kind", "shin", "--format", "json")
    first = run(*asked).json["scopes_looked_at"]
    assert run(*asked).json["scopes_looked_at"]["count"] == first["count"] >= 1
    more = run(*asked, "--side", "left", "--sex", "women").json["scopes_looked_at"]
    assert more["count"] >= first["count"]
    assert sample_store.read_bytes() == before
    assert {one.name for one in sample_store.parent.iterdir()} >= {sample_store.name}
