"""The scope: every part by name, unknown words answered with the known ones, nothing mutable."""

from dataclasses import FrozenInstanceError, fields, replace
from datetime import date

import pytest

from seasonboard.errors import ScopeError
from seasonboard.scope import (
    CHOICES,
    LISTS,
    PARTS,
    Outcome,
    Scope,
    Settings,
    View,
    read_scope,
    with_through,
    with_values,
    with_word,
)
from tests.scope.known import NOTHING, known

KNOWN = known()


def test_asking_for_nothing_takes_everything_up_to_the_last_day():
    scope = read_scope({}, KNOWN)
    assert scope == Scope(through=date(2026, 11, 14), kinds=("shin", "wrist"))
    assert (scope.purpose, scope.outcome) == (View.PREVENTIVE, Outcome.TIME_LOSS)
    assert (scope.setting, scope.level) == (Settings.BOTH, 0.95)
    assert {getattr(scope, field) for field in LISTS.values() if field != "kinds"} == {None}


def test_an_empty_store_has_a_scope_too():
    scope = read_scope({}, NOTHING)
    assert scope.kinds == ()
    assert scope.through <= date.max
    assert NOTHING.is_empty
    assert not KNOWN.is_empty


def test_without_guards_made_the_kinds_are_all_that_are_known():
    scope = read_scope({}, known(kinds_made=()))
    assert scope.kinds == ("shin", "wrist", "chest", "thigh")


@pytest.mark.parametrize(
    ("part", "text", "values"),
    [
        ("season", "2025 fall", ("2025 fall",)),
        ("department", "LC", ("LC",)),
        ("team", "D2-MIH", ("D2-MIH",)),
        ("sport", "soccer,ice hockey", ("soccer", "ice hockey")),
        ("sex", "women", ("women",)),
        ("position group", "forward , goalkeeper", ("forward", "goalkeeper")),
        ("kind", "chest", ("chest",)),
        ("area", "lower leg,chest,lower leg", ("lower leg", "chest")),
        ("side", "left,right", ("left", "right")),
        ("made of", "lot A7", ("lot A7",)),
        ("sport", "SOCCER", ("soccer",)),
        ("department", "lanternfield college", ("LC",)),
        ("team", "Women's soccer at Lanternfield College", ("LC-WSO", "LC-WSO2")),  # both
        ("team", "lc-wso3", ("lc-wso3",)),  # these two differ in capitals only
        ("team", "LC-WSO3", ("LC-WSO3",)),
    ],
)
def test_every_list_takes_one_value_or_several(part, text, values):
    scope = read_scope({part: text}, KNOWN)
    assert getattr(scope, LISTS[part]) == values


def test_these_are_all_the_lists():
    """So that a part added later cannot go without its test above."""
    assert set(LISTS) == {
        "season", "department", "team", "sport", "sex", "position group", "kind", "area", "side",
        "made of",
    }  # fmt: skip
    held = {*LISTS.values(), "through", *CHOICES, "level"}
    assert held == {field.name for field in fields(Scope)}
    assert set(PARTS) == {*LISTS, "through", *CHOICES, "level"}


@pytest.mark.parametrize("part", list(LISTS))
@pytest.mark.parametrize("text", ["all", "ALL", "", " , "])
def test_all_takes_everything_again(part, text):
    first = KNOWN.values[part][-1].value
    narrowed = with_values(read_scope({}, KNOWN), part, [first], KNOWN)
    assert narrowed != read_scope({}, KNOWN)
    words = [word.strip() for word in text.split(",") if word.strip()]
    assert with_values(narrowed, part, words, KNOWN) == read_scope({}, KNOWN)
    assert read_scope({part: text}, KNOWN) == read_scope({}, KNOWN)


@pytest.mark.parametrize("part", list(LISTS))
def test_an_unknown_value_is_answered_with_the_known_and_the_nearest(part):
    wanted = KNOWN.values[part][0].value
    with pytest.raises(ScopeError) as refused:
        read_scope({part: wanted + "x"}, KNOWN)
    assert refused.value.what == f"There is no {part} “{wanted}x”."
    assert f"Did you mean “{wanted}”?" in refused.value.hint
    for value in KNOWN.values[part]:
        assert value.value in refused.value.hint


@pytest.mark.parametrize(
    ("text", "store", "said"),
    [
        ("soccer,curling", KNOWN, "There is no sport “curling”"),
        ("zzz", KNOWN, "“zzz”. Known: soccer, ice hockey."),  # too far off for a guess
        ("soccer", NOTHING, "The store holds none"),
    ],
)
def test_what_else_is_said_of_an_unknown_value(text, store, said):
    with pytest.raises(ScopeError) as refused:
        read_scope({"sport": text}, store)
    assert said in str(refused.value)


def test_an_unknown_part_is_answered_with_the_parts():
    with pytest.raises(ScopeError) as refused:
        read_scope({"seasn": "2026 fall"}, KNOWN)
    assert "There is no part of the scope “seasn”." in str(refused.value)
    assert "Did you mean “season”?" in str(refused.value)
    for part in PARTS:
        assert part in str(refused.value)


@pytest.mark.parametrize(
    ("part", "word", "member"),
    [
        ("purpose", "preventive", View.PREVENTIVE),
        ("purpose", "Return", View.RETURN),
        ("purpose", "all", View.ALL),
        ("outcome", "time loss", Outcome.TIME_LOSS),
        ("outcome", " time-loss ", Outcome.TIME_LOSS),
        ("outcome", "any", Outcome.ANY),
        ("setting", "games", Settings.GAMES),
        ("setting", "game", Settings.GAMES),
        ("setting", "practice", Settings.PRACTICES),
        ("setting", "BOTH", Settings.BOTH),
    ],
)
def test_words_of_a_closed_list(part, word, member):
    assert getattr(read_scope({part: word}, KNOWN), part) is member


@pytest.mark.parametrize("part", list(CHOICES))
def test_a_word_outside_its_closed_list_is_answered_with_the_list(part):
    with pytest.raises(ScopeError) as refused:
        with_word(read_scope({}, KNOWN), part, "sometimes")
    assert f"There is no {part} “sometimes”." in str(refused.value)
    for member in CHOICES[part]:
        assert member.value in refused.value.hint


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-10-01", date(2026, 10, 1)), (" 2026-10-01 ", date(2026, 10, 1)),
        ("last", date(2026, 11, 14)), ("LAST", date(2026, 11, 14)), ("", date(2026, 11, 14)),
    ],
)  # fmt: skip
def test_the_last_day_known_can_be_set_back(text, day):
    assert read_scope({"through": text}, KNOWN).through == day
    moved = with_through(read_scope({"through": "2025-09-01"}, KNOWN), text, KNOWN)
    assert moved.through == day


@pytest.mark.parametrize("text", ["yesterday", "2026-13-01", "2026-02-30", "11/14/2026"])
def test_what_is_no_date_is_refused_with_an_example(text):
    with pytest.raises(ScopeError) as refused:
        read_scope({"through": text}, KNOWN)
    assert text in refused.value.what
    assert "2026-11-14" in refused.value.hint


@pytest.mark.parametrize(
    ("text", "level"),
    [("0.95", 0.95), ("95", 0.95), ("95%", 0.95), ("90 %", 0.90), ("99.9", 0.999), ("50", 0.5)],
)
def test_a_level_may_be_a_share_or_a_percentage(text, level):
    assert read_scope({"level": text}, KNOWN).level == pytest.approx(level, abs=1e-12)


@pytest.mark.parametrize("text", ["100", "1", "0", "40", "0.4", "-95", "nan", "inf", "high", ""])
def test_a_level_that_is_none_is_refused(text):
    with pytest.raises(ScopeError, match="is not a confidence level"):
        read_scope({"level": text}, KNOWN)


def test_a_scope_never_changes_a_change_is_another_scope():
    scope = read_scope({}, KNOWN)
    before = replace(scope)
    with pytest.raises(FrozenInstanceError):
        scope.level = 0.5
    other = with_word(with_values(scope, "sport", ["soccer"], KNOWN), "setting", "games")
    assert scope == before
    assert (other.sports, other.setting) == (("soccer",), Settings.GAMES)
    assert len({scope, before, other}) == 2


def test_what_it_hands_on_cannot_reach_back_into_it():
    scope = read_scope({"kind": "shin", "sport": "soccer"}, KNOWN)
    scope.params()["kinds"].append("wrist")
    scope.resolved()["sport"].append("curling")
    assert (scope.kinds, scope.sports) == (("shin",), ("soccer",))


def test_the_parameters_of_a_question_say_until_the_day_after():
    params = read_scope({"through": "2026-10-31", "setting": "games"}, KNOWN).params()
    assert params["until"] == date(2026, 11, 1)
    assert params["settings"] == ["game"]
    assert read_scope({"setting": "practices"}, KNOWN).settings() == ["practice"]
    assert read_scope({}, KNOWN).settings() is None
    assert params["sports"] is None


def test_every_part_is_spelled_out_in_what_an_answer_repeats():
    resolved = read_scope({"through": "2026-10-31", "side": "left"}, KNOWN).resolved()
    assert set(resolved) == {part.replace(" ", "_") for part in PARTS}
    assert (resolved["through"], resolved["side"]) == ("2026-10-31", ["left"])
    assert (resolved["season"], resolved["outcome"]) == (None, "time loss")


def test_an_asked_scope_comes_back_from_its_own_repetition():
    scope = read_scope(
        {"team": "D2-MIH", "side": "left,right", "outcome": "any", "level": "90"}, KNOWN
    )
    again = {
        part: ",".join(value) if isinstance(value, list) else str(value)
        for part, value in ((p, scope.resolved()[p.replace(" ", "_")]) for p in PARTS)
        if value is not None
    }
    assert read_scope(again, KNOWN) == scope


def test_a_team_belongs_to_the_departments_chosen():
    with pytest.raises(ScopeError, match=r"of de Marsh .* not among the departments"):
        read_scope({"department": "LC", "team": "D2-MIH"}, KNOWN)
    both = read_scope({"team": "D2-MIH,LC-WSO"}, KNOWN)
    assert with_values(both, "department", ["LC"], KNOWN).teams == ("LC-WSO",)
    assert with_values(replace(both, teams=("D2-MIH",)), "department", ["LC"], KNOWN).teams is None
