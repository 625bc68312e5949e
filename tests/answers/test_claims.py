"""What may be said of the sample season, topic by topic, and that none of it promises."""

from functools import cache

import pytest

from seasonboard.answers.all_cards import ALL_CARDS
from seasonboard.answers.claims import parts as topics
from seasonboard.answers.claims.answer import claims
from seasonboard.answers.questions import COMPARE, GAMES, REMAKES, TAKE_UP, TURNAROUND
from seasonboard.scope import read_scope
from tests.answers.wording import PROMISES


@pytest.fixture(scope="module")
def sample_claims(sample):
    """Give every claim of the sample season in some scope, by topic; each is made once."""

    @cache
    def made_of(**scope):
        asked = read_scope(scope, sample.scope_values)
        found = claims(
            sample.scope_values,
            compare=sample.ask(COMPARE, asked),
            games=sample.ask(GAMES, asked),
            turnaround=sample.ask(TURNAROUND, asked),
            remakes=sample.ask(REMAKES, asked),
            take_up=sample.ask(TAKE_UP, asked),
        )
        return {claim.topic: claim for claim in found}

    return made_of


def test_the_sample_season_carries_claims_about_work_and_none_about_injuries(sample_claims):
    """Its shin guards were planted at 0.60; 63 injuries are too few to show it."""
    found = sample_claims(kind="shin")
    assert tuple(found) == topics.TOPICS
    work = {topics.READY, topics.TURNAROUND, topics.REMADE, topics.WORN, topics.CONTACT}
    assert {topic for topic, claim in found.items() if claim.is_supported} == work
    assert "guarded lower legs" in found[topics.HURT].sentence
    assert "more guarded site-exposures" in found[topics.HURT].missing


def test_digits_are_those_of_the_answers(sample, sample_claims):
    asked = read_scope({"kind": "shin"}, sample.scope_values)
    found = sample_claims(kind="shin")
    limits = found[topics.HURT].interval.removeprefix("95 %: ")
    assert limits in sample.ask(COMPARE, asked).summary.answer
    middle = found[topics.TURNAROUND].interval.removeprefix("95 %: ")
    assert middle in sample.ask(TURNAROUND, asked).summary.answer


def test_early_in_a_season_readiness_is_not_told_from_those_who_were_quick(sample_claims):
    """By 10 August 31 were fitted and none had missed its game, since no game had been played."""
    assert not sample_claims(through="2026-08-10")[topics.READY].is_supported


@pytest.mark.parametrize("scope", [{"kind": "shin"}, {"through": "2026-08-10"}])
def test_no_sentence_of_the_sample_season_promises(sample_claims, scope):
    for claim in sample_claims(**scope).values():
        assert not any(word in claim.sentence.casefold() for word in PROMISES)
        assert (claim.missing is None) == claim.is_supported


def test_claims_are_given_for_the_answers_there_are(sample):
    assert [claim.topic for claim in claims(sample.scope_values)] == [topics.CONTACT]


def test_the_rules_have_their_card():
    assert "however often one looks" in ALL_CARDS["claims"].what
