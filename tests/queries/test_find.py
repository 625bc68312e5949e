"""Finding by a part of a name or key, on a season small enough to read."""

from datetime import timedelta

import pytest

from seasonboard.answers.finder import MOST_FOUND, Thing, find, narrowed, session_rows
from seasonboard.scope import Scope
from tests.queries import build
from tests.queries.build import day

SCOPE = Scope(through=day(20))


@pytest.fixture
def store(load):
    season = build.drawn("""
            A    B    C
        G1  g!   .?   o*
        P2  .    .    .
        G9@9  .  .    -
    """)
    season.departments = [build.department("D", name="Lanternfield College")]
    season.roster = [
        build.member("A", name="Bo Reyes"),
        build.member("B", name="José Ångström-Bok"),
        build.member("C", name="Søren Weiß", joined_on=day(2)),
    ]
    season.guards[0]["lot"] = "A7"
    return load(season)


def found(store, typed, scope=SCOPE):
    return [(hit.what.value, hit.key) for hit in find(store, scope, typed).hits]


@pytest.mark.parametrize("typed", ["Bo Reyes", "reyes bo", "  BO   rey ", "reyes a"])
def test_words_are_found_in_any_order_and_capitals(store, typed):
    hits = found(store, typed)
    assert hits[0] == ("athlete", "A")
    assert {key for what, key in hits if what == "guard"}


@pytest.mark.parametrize(
    ("typed", "key"), [("jose angstrom", "B"), ("JOSÉ", "B"), ("soren weiss", "C"), ("søren", "C")]
)
def test_accents_do_not_matter(store, typed, key):
    assert ("athlete", key) in found(store, typed)


def test_every_kind_of_thing_is_found(store):
    kinds = {
        what
        for typed in ("lantern", "chest", "game", "bo", "a7")
        for what, _ in found(store, typed)
    }
    assert kinds == {thing.value for thing in Thing}


def test_a_name_whose_word_begins_so_comes_before_one_that_only_holds_it(store):
    names = [key for what, key in found(store, "bo") if what == "athlete"]
    assert names == ["A", "B"]
    assert [key for what, key in found(store, "ok") if what == "athlete"] == ["B"]


def test_what_is_not_known_on_the_day_is_not_found(store):
    assert ("athlete", "C") in found(store, "weiss")
    assert found(store, "weiss", Scope(through=day(1))) == []


def test_nothing_typed_and_nothing_matching_find_nothing(store):
    for typed in ("", "   ", "zzz", "bo zzz", "%", "_", "' OR 1=1"):
        result = find(store, SCOPE, typed)
        assert (result.hits, result.matching, result.more) == ((), 0, 0)


def test_no_more_than_fifty_are_listed_and_the_rest_is_counted(load):
    season = build.drawn("""
            A
        G1  .
    """)
    season.roster += [build.member(f"X{n:03}", name=f"Lee {n}") for n in range(MOST_FOUND + 7)]
    result = find(load(season), SCOPE, "lee")
    assert len(result.hits) == MOST_FOUND
    assert result.more == 7


def test_session_tells_who_took_part_in_what_and_who_was_hurt(store):
    rows = session_rows(store, SCOPE, "G1").rows
    assert rows == (
        ("A", "Bo Reyes", "full", None, None, "chest", "chest"),
        ("B", "José Ångström-Bok", "full", None, None, None, "chest"),
        ("C", "Søren Weiß", "out", None, None, None, "chest"),
    )
    assert [row[2] for row in session_rows(store, SCOPE, "G9").rows][-1] == "not recorded"


def test_session_of_a_later_day_is_listed_but_tells_nothing_yet(store):
    early = Scope(through=day(9) - timedelta(days=1))
    assert ("session", "G9") in found(store, "G9", early)
    assert session_rows(store, early, "G9").rows == ()


def test_a_team_or_department_takes_the_place_of_both(store):
    scope = Scope(through=day(20), departments=("E",), teams=("U",), sports=("golf",))
    by_name = {hit.what: hit for hit in find(store, SCOPE, "lantern").hits}
    assert narrowed(scope, by_name[Thing.DEPARTMENT]).teams is None
    team = narrowed(scope, by_name[Thing.TEAM])
    assert (team.departments, team.teams, team.sports) == (None, ("T",), None)
