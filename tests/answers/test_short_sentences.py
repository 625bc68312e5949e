"""What is said of the sample season: at most 30 words and one interval a sentence."""

import re

import pytest

from seasonboard.answers.compare.burden_report import burden_notes, ratio_words
from seasonboard.answers.compare.control_sites import control_lines
from seasonboard.answers.compare.drawn_turns import turns_sentences
from seasonboard.answers.compare.parts import CompareOptions
from seasonboard.answers.pitch.lines import effect_lines
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.answers.questions import COMPARE, GAMES, PITCH, TURNS, WEEK
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.scope import read_scope

SCOPES = [
    {}, {"kind": "shin"}, {"kind": "thumb", "department": "SW"}, {"purpose": "return"},
    {"purpose": "all"}, {"through": "2026-08-20"}, {"setting": "game"}, {"outcome": "any"},
]  # fmt: skip


def long_sentences(text):
    """Return the sentences of a text that have more than 30 words, or two intervals."""
    sentences = re.split(r"(?<=[.?!]) (?=[A-Z0-9“])", text)
    return [s for s in sentences if len(s.split()) > 30 or len(re.findall(r"\d to \d", s)) > 1]


def lines_beside(answer):
    """Yield what Compare says beside its sentence and caveats."""
    yield from (*answer.recording.lines, *control_lines(answer.controls), answer.claim.line)
    yield from (*answer.undo.sentences, ratio_words(answer.burden.ratio))
    yield from (note for group in answer.burden.groups for note in burden_notes(group))
    yield from turns_sentences(answer.drawn_turns) if answer.drawn_turns else ()


@pytest.mark.long
@pytest.mark.parametrize("parts", SCOPES, ids=str)
def test_no_sentence_is_long_or_holds_two_intervals(sample, parts):
    scope = read_scope(parts, sample.scope_values)
    compared = sample.ask(COMPARE, scope, CompareOptions(is_whole=True))
    told = list(lines_beside(compared))
    for answer in (compared, *(sample.ask(question, scope) for question in (GAMES, TURNS, WEEK))):
        told += [answer.summary.answer, *answer.summary.caveats]
    assert [one for text in told for one in long_sentences(text)] == []


@pytest.mark.long
@pytest.mark.parametrize("kind", ["shin", "thumb", "wrist", "shin,ankle"])
def test_no_sentence_of_a_pitch_is_long_or_holds_two_intervals(sample, kind):
    teams = (ProspectTeam("soccer", "men", 26, (), 20, 60, 9, 12),
             ProspectTeam("rugby", "women", 30, (), 10, 40))  # fmt: skip
    fees = {"weekly_monthly": 100.0, "currency": "USD"}
    scope = read_scope({"kind": kind}, sample.scope_values)
    usual = sample.ask(PITCH, scope, PitchOptions(seasons=200))
    given = PitchOptions(Prospect(teams), prints_per_week=2, printers=1, seasons=200, **fees)
    for answer in (usual, usual.again(given)):
        told = [answer.summary.answer, *answer.summary.caveats, answer.choice.why]
        told += [answer.swing_sentence, *(text for _, text in effect_lines(answer))]
        assert [one for text in told for one in long_sentences(text)] == []


def test_a_long_sentence_would_be_seen():
    long = "ord word" * 31
    assert long_sentences(f"It is short. W{long}.") == [f"W{long}."]
    assert long_sentences("From 1 to 2, or 3 to 4.") == ["From 1 to 2, or 3 to 4."]
