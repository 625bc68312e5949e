"""The scope as a sentence whose every phrase names the part that it says."""

import pytest

from seasonboard.scope import LISTS, PARTS, Scope, read_scope
from seasonboard.sentence import join, sentence
from tests.scope.known import NOTHING, known

KNOWN = known()


def phrases(**asked: str) -> dict[str, str]:
    asked = {part.replace("_", " "): text for part, text in asked.items()}
    found = sentence(read_scope(asked, KNOWN), KNOWN)
    assert len({phrase.part for phrase in found}) == len(found)
    return {phrase.part: phrase.text for phrase in found}


def test_everything_is_said_as_everything():
    assert phrases() == {
        "department": "all departments", "team": "all teams", "season": "all seasons",
        "through": "through Sat 14 Nov 2026", "purpose": "preventive",
        "kind": "shin and wrist guards", "outcome": "time loss", "setting": "games and practices",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("part", "text", "summary"),
    [
        ("season", "2026 fall,2025 fall", "2026 fall and 2025 fall"),
        ("department", "LC", "Lanternfield College"),
        ("team", "LC-WSO", "Women's soccer at Lanternfield College"),
        ("sport", "soccer,ice hockey", "soccer and ice hockey"),
        ("sex", "women", "women"),
        ("position group", "forward", "forward"),
        ("kind", "shin", "shin guards"),
        ("kind", "shin,wrist,chest", "shin, wrist and chest guards"),
        ("kind", "shin,wrist,chest,thigh", "guards of 4 kinds"),
        ("area", "lower leg", "lower leg"),
        ("side", "left", "left only"),
        ("made of", "lot A7,profile slow", "made of lot A7 and profile slow"),
        ("through", "2026-10-02", "through Fri 2 Oct 2026 (earlier than the last day)"),
        ("purpose", "return", "return"),
        ("purpose", "all", "all"),
        ("outcome", "any", "any injury"),
        ("setting", "games", "games"),
        ("setting", "practices", "practices"),
        ("level", "90", "90 % limits"),
        ("level", "99.9", "99.9 % limits"),
    ],
)
def test_each_part_has_its_phrase(part, text, summary):
    assert phrases(**{part: text})[part] == summary


def test_every_part_can_be_said():
    """So that a part added to the scope cannot be left out of the sentence."""
    asked = {part.replace(" ", "_"): KNOWN.values[part][0].value for part in LISTS}
    assert set(phrases(**asked, level="90")) == set(PARTS)


def test_a_level_of_95_percent_goes_without_saying():
    assert "level" not in phrases(level="95")


def test_teams_of_one_department_are_said_before_it():
    found = list(phrases(team="LC-WSO,D2-MIH", department="LC"))
    assert found[:2] == ["team", "department"]


def test_names_are_shown_letter_for_letter():
    """A department's small first letter and what looks like markup are its own."""
    assert phrases(department="D2")["department"] == "de Marsh [/x] Institute"
    assert phrases(team="D2-MIH")["team"] == "Men's ice hockey at de Marsh [/x] Institute"


def test_a_value_that_the_store_no_longer_knows_is_shown_as_it_is():
    scope = Scope(through=KNOWN.last_day, departments=("gone",), kinds=("shin",))
    assert sentence(scope, KNOWN)[0].text == "gone"


def test_an_empty_store_has_a_sentence_too():
    found = sentence(read_scope({}, NOTHING), NOTHING)
    assert all(phrase.text and phrase.text == phrase.text.strip() for phrase in found)


@pytest.mark.parametrize(
    ("words", "joined"),
    [((), ""), (("a",), "a"), (("a", "b"), "a and b"), (("a", "b", "c"), "a, b and c")],
)
def test_words_are_joined_as_a_person_lists_them(words, joined):
    assert join(words) == joined


def test_only_parts_that_an_answer_depends_on_are_said():
    """The working season counts guards of both purposes and all sessions."""
    scope = read_scope({"kind": "shin", "team": "LC-WSO", "season": "2026 fall"}, KNOWN)
    uses = {"team", "season", "through", "kind"}
    assert " · ".join(phrase.text for phrase in sentence(scope, KNOWN, uses)) == (
        "Women's soccer at Lanternfield College · 2026 fall · through Sat 14 Nov 2026 · shin guards"
    )
    assert sentence(scope, KNOWN, set()) == ()
    assert sentence(scope, KNOWN, PARTS) == sentence(scope, KNOWN)


def test_purpose_reads_on_into_the_kinds_however_many_they_are():
    asked = [{"kind": "shin"}, {"kind": "shin,wrist,chest,thigh"}]
    found = [phrases(**kinds) for kinds in asked]
    assert [f"{summary['purpose']} {summary['kind']}" for summary in found] == [
        "preventive shin guards",
        "preventive guards of 4 kinds",
    ]
