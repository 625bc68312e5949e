"""No sentence of Games can be contradicted by one of Compare: one verdict speaks on both."""

import re
from dataclasses import fields
from types import SimpleNamespace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from seasonboard.answers.compare.verdict import (
    DISAGREE,
    LESS,
    MORE,
    NO_LARGE,
    NONE_YET,
    NOTHING,
    TOO_FEW,
    Judged,
)
from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.games.words import games_sentence
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.answers.source import AnswerSource
from seasonboard.scope import Outcome, Scope, read_scope
from seasonboard.stats.survival import RestrictedMean
from tests.contradiction import opposed
from tests.queries.seasons import scopes, seasons
from tests.queries.test_queries_against_loops import MODEST, loaded
from tests.stats.laws import law

VERDICTS = (DISAGREE, LESS, MORE, NO_LARGE, NONE_YET, NOTHING, TOO_FEW)


@law
@given(
    st.sampled_from(VERDICTS),
    st.one_of(st.none(), st.floats(0, 8)),
    st.one_of(st.none(), st.lists(st.floats(-9, 9), min_size=3, max_size=3).map(sorted)),
)
def test_whatever_is_counted_the_sentence_goes_with_the_verdict(verdict, ratio, limits):
    is_other = ratio is not None and {MORE: ratio <= 1, LESS: ratio >= 1}.get(verdict, False)
    assume(not is_other)
    low, value, high = limits or (None, None, None)
    gap = RestrictedMean(value, low, high, why="none", horizon=9, start=1)
    mix = SimpleNamespace(difference=gap, mean_guarded=gap, mean_unguarded=gap)
    group = SimpleNamespace(ticks=9)
    judged = Judged(verdict, SimpleNamespace(value=ratio, why="no ratio yet"))
    sentence = games_sentence(group, group, mix, judged, GamesOptions(), "shins")
    assert not opposed(sentence, verdict, ratio), sentence
    assert max(len(one.split()) for one in re.split(r"\. |: see", sentence)) <= 30


@pytest.mark.long
@MODEST
@given(season=seasons(), parts=scopes())
def test_in_random_seasons_and_scopes_both_say_the_same(season, parts):
    with loaded(season) as store:
        source = AnswerSource(store, "a test")
        names = (field.name for field in fields(Scope))
        asked = {name: tuple(parts[name]) for name in names if isinstance(parts.get(name), list)}
        for outcome in Outcome:
            scope = Scope(parts["until"], outcome=outcome, **asked)
            compared = source.ask(COMPARE, scope)
            ratio = compared.comparisons[0].ratio
            for clock in Clock:
                answer = source.ask(GAMES, scope, GamesOptions(clock, min_at_risk=1))
                assert answer.judged == compared.judged
                sentence = answer.summary.answer
                assert not opposed(sentence, compared.verdict, ratio.value), sentence


@pytest.mark.parametrize(("clock", "ticks"), [(Clock.GAMES, "games"), (Clock.SESSIONS, "sessions")])
def test_of_several_kinds_shins_are_not_compared_with_thumbs(sample, clock, ticks):
    """As played, sites at more risk wear more guards: it once said “3.6 fewer sessions”."""
    scope = read_scope({}, sample.scope_values)
    sentence = sample.ask(GAMES, scope, GamesOptions(clock)).summary.answer
    n = r"[0-9]+\.[0-9]{2}"
    assert re.fullmatch(
        rf"No difference shown yet\. Of [0-9]+ {ticks} guarded sites went {n} before an injury, "
        rf"bare ones of like athletes {n}: {n} more \({n} fewer to {n} more\)\.",
        sentence,
    ), sentence
    compared = sample.ask(COMPARE, scope).judged
    assert compared.ratio.value < 1
    assert not opposed(sentence, compared.verdict, compared.ratio.value)
