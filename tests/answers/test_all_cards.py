"""Every number of the working season has its card, and its command prints it."""

import pytest
from click.testing import CliRunner

from seasonboard.answers.all_cards import ALL_CARDS
from seasonboard.answers.cards import read_cards
from seasonboard.answers.questions import QUESTIONS
from seasonboard.cli.ask import ask
from seasonboard.store.catalogue import catalogue


@pytest.mark.parametrize("question", QUESTIONS, ids=[one.name for one in QUESTIONS])
def test_explaining_prints_every_card_and_names_its_question(question):
    told = " ".join(CliRunner().invoke(ask, [question.name, "--explain"]).output.split())
    cards = tuple(question.cards().values())
    assert cards
    for card in cards:
        assert card.title in told
        assert f"queries/{card.query}.sql" in told
        assert card.query in catalogue()


def test_a_card_that_lacks_a_part_is_named_with_its_file(tmp_path):
    lines = ["# Cards", "## share: A share", "What it is.", "- Formula: a / b", "- Source: Ours."]
    (tmp_path / "cards.md").write_text("\n\n".join(lines), "utf-8")
    with pytest.raises(ValueError, match=r"cards\.md: card “share” needs .* Formula, Reading it"):
        read_cards(str(tmp_path))


def test_every_card_names_a_query():
    assert {card.query for card in ALL_CARDS.values()} <= catalogue().keys()


def test_cards_of_two_questions_do_not_take_each_other_s_place():
    assert set(ALL_CARDS.values()) >= {card for one in QUESTIONS for card in one.cards().values()}
    assert ALL_CARDS["roster/worn share"] is not ALL_CARDS["take_up/worn share"]
