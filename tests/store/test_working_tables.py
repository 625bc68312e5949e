"""Working tables are made once for questions about the same, and never outlive what they show."""

from datetime import date

import pytest

from seasonboard.errors import StoreError
from seasonboard.store.cursor_pool import KEPT
from seasonboard.store.query_cursor import QueryCursor
from seasonboard.store.store import memory_store

LISTS = ("seasons", "departments", "teams", "sports", "sexes", "settings", "position_groups")
SCOPE: dict[str, object] = dict.fromkeys((*LISTS, "areas", "sides", "made_of")) | {
    "kinds": ["shin"],
    "purpose": "preventive",
    "outcome": "time loss",
    "until": date(2027, 1, 1),
}


@pytest.fixture
def store():
    with memory_store() as made:
        with made.writing() as cursor:
            cursor.execute(
                "INSERT INTO store.departments (department, name, time_zone) "
                "VALUES ('D', 'D', 'UTC');"
                "INSERT INTO store.teams VALUES ('T', 'D', 'soccer', 'women', 0);"
                "INSERT INTO store.athletes VALUES (1, 'A'), (2, 'B')"
            )
            add_session(cursor, 1)
        yield made


@pytest.fixture
def made(monkeypatch):
    """List every making of a working table."""
    made = []
    make = QueryCursor._make

    def listed(cursor, table, needed):
        made.append(table.name)
        make(cursor, table, needed)

    monkeypatch.setattr(QueryCursor, "_make", listed)
    return made


def add_session(cursor, number):
    cursor.execute(
        "INSERT INTO store.sessions VALUES ($1, 'S' || $1, 'T', '2026 fall', "
        "'2026-09-01 12:00Z', '2026-09-01', 'game', NULL, NULL, 0, NULL)",
        [number],
    )
    cursor.execute(
        "INSERT INTO store.attendance VALUES ($1, 1, 'full', NULL, NULL, NULL, 0)", [number]
    )


def bare(store, **parts):
    rows = store.read("compare/strata", **SCOPE | parts).filter(comparison="crude")
    return int(rows["exposures_unguarded"].sum())


def test_a_second_question_about_the_same_finds_them_ready(store, made):
    assert bare(store) == bare(store) == 2  # two shins in one session
    assert made.count("scoped_marks") == 1


def test_a_question_makes_what_it_reads_and_the_next_what_is_lacking(store, made):
    teams = ("seasons", "departments", "teams", "sports", "sexes", "until")
    assert store.read("compare/pace", **{name: SCOPE[name] for name in teams})["games"].item() == 1
    assert made == ["season_sessions"]
    assert bare(store) == 2
    assert len(made) == len(set(made))


def test_another_scope_has_its_own(store, made):
    assert bare(store) == 2
    assert bare(store, sides=["left"]) == 1
    assert bare(store) == 2
    assert made.count("scoped_marks") == 2


def test_what_is_written_is_seen_by_the_next_question(store, made):
    assert bare(store) == 2
    with store.writing() as cursor:
        add_session(cursor, 2)
    assert bare(store) == 4
    assert made.count("scoped_marks") == 2


def test_a_block_that_fails_leaves_them_as_they_are(store, made):
    assert bare(store) == 2
    with pytest.raises(ZeroDivisionError), store.writing() as cursor:
        add_session(cursor, 2)
        raise ZeroDivisionError
    assert bare(store) == 2
    assert made.count("scoped_marks") == 1


def test_only_a_few_are_kept(store, made):
    sides = [["left"], ["right"], ["midline"], ["left", "right"], ["left", "midline"], None]
    assert len(sides) > KEPT
    for each in sides:
        bare(store, sides=each)
    bare(store, sides=sides[0])
    assert made.count("scoped_marks") == len(sides) + 1


def test_questions_put_together_answer_in_their_order(store):
    asked = [("compare/strata", SCOPE), ("scope/days", {}), ("compare/left_out", SCOPE)]
    strata, days, left_out = store.read_each(asked)
    assert strata.equals(store.read("compare/strata", **SCOPE))
    assert days.equals(store.read("scope/days"))
    assert left_out.equals(store.read("compare/left_out", **SCOPE))


def test_a_question_refused_spoils_nothing_for_the_next(store):
    with pytest.raises(StoreError):
        store.read("compare/strata", **SCOPE | {"until": "no day"})
    assert bare(store) == 2
