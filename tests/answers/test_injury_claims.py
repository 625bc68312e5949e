"""What may be said of injuries: only what the records carry, and never too much."""

import re
from dataclasses import replace
from datetime import date
from types import SimpleNamespace

import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.answers.base import Summary
from seasonboard.answers.claims.injury_claims import games_claim, hurt_claim
from seasonboard.answers.claims.rules import ClaimWord, DrawnClaim, Evidence, claim_of, opening
from seasonboard.answers.compare.comparisons import CRUDE, HEADLINE, ORDER
from seasonboard.answers.compare.control_sites import ControlSites
from seasonboard.answers.compare.recording_checks import AttendanceCheck, Recording, WearCheck
from seasonboard.answers.compare.verdict import DISAGREE, LESS, MORE, NONE_YET, Judged, verdict
from seasonboard.answers.games.parts import GamesOptions
from seasonboard.scope import Outcome, Scope, View
from seasonboard.stats.anytime_valid import RiskSet, anytime_valid
from seasonboard.stats.clustered_ratio import ClusteredRatio
from seasonboard.stats.negative_control import ControlRatio, corrected_ratio
from seasonboard.stats.ratios import Strata, mantel_haenszel
from seasonboard.stats.sample_size import sample_size
from seasonboard.stats.survival import RestrictedMean
from tests.answers.wording import PROMISES

SCOPE = Scope(date(2026, 11, 14), kinds=("shin",))
SHINS = "lower legs"


QUIET = ControlRatio(0.99, 0.90, 1.09, injuries=400, std_error=0.05)
EVEN = ClusteredRatio(1.0, 0.97, 1.03, std_error=0.015, athletes=80)
ALIKE = Recording(AttendanceCheck(90, 100, 180, 200, EVEN), WearCheck(20, 0, 1, 1.2, 0.6), 0.2)
"""Records in which nothing rings and both checks can tell."""
CONDITION = "unless careful athletes differ at this site only"


def compared(*sessions, scope=SCOPE, other=0.6, rest=(0, 0), far=QUIET, records=ALIKE, drawn=None):
    """Return a Compare answer in which each session had 50 guarded and 50 bare sites.

    Args:
        sessions: Guarded and bare injuries in each.
        scope: What is looked at.
        other: What the other comparisons say; their limits are a tenth of it away.
        rest: Injuries beside those sessions.
        far: The ratio at control sites.
        records: The checks of recording.
        drawn: What drawn turns show.
    """
    guarded, bare = ([one[side] for one in sessions] for side in (0, 1))
    fifty = [50] * len(sessions)
    headline = mantel_haenszel(Strata(guarded, bare, fifty, fifty, [1] * len(sessions)))
    both = [sum(guarded) + rest[0]], [sum(bare) + rest[1]]
    exposures = [sum(fifty) + 50 * any(rest)]
    crude = mantel_haenszel(Strata(*both, exposures, exposures, [1]))
    apart = replace(headline, value=other, low=other * 0.9, high=other * 1.1)
    ratios = dict.fromkeys(ORDER, apart) | {HEADLINE: headline, CRUDE: crude}
    adjusted = {n: r for n, r in ratios.items() if n not in {HEADLINE, CRUDE}}
    now, judged = anytime_valid([RiskSet(50, 50, a, b) for a, b in sessions]), verdict(
        headline, adjusted
    )  # fmt: skip
    controls = ControlSites(far, far, corrected_ratio(headline, far), pl.DataFrame())
    claim = claim_of(
        Evidence(scope=scope, verdict=judged, headline=headline, crude=crude, now=now,
                 controls=controls, recording=records, drawn=drawn)
    )  # fmt: skip
    return SimpleNamespace(
        summary=Summary("", "", (), (), scope),
        comparison=lambda name: SimpleNamespace(ratio=ratios[name]),
        verdict=judged,
        watched=SimpleNamespace(now=now),
        controls=controls,
        recording=records,
        claim=claim,
        sample_size=sample_size(
            injuries_unguarded=crude.injuries_unguarded,
            exposures_guarded=crude.exposures_guarded,
            exposures_unguarded=crude.exposures_unguarded,
        ),
        games_needed=40,
    )


STRONG = [(0, 1)] * 70 + [(1, 0)] * 15


def test_hurt_less_is_said_with_ratio_limits_and_day():
    claim = hurt_claim(compared(*STRONG), SHINS)
    assert claim.is_supported
    assert claim.is_for_outsiders
    assert claim.missing is None
    assert claim.sentence == (
        "In the same sessions guarded lower legs were hurt 0.21 times as often as bare ones "
        f"(95 %: 0.12 to 0.37; through 14 Nov 2026), {CONDITION}."
    )
    assert claim.interval == "95 %: 0.12 to 0.37"
    assert claim.rests_on.startswith("15 guarded and 70 bare injuries with time lost, in 4,250 and")


def test_what_is_not_shown_may_not_be_said_and_what_it_takes_is_told():
    claim = hurt_claim(compared(*[(1, 0), (0, 1)] * 12, (0, 1)), SHINS)
    assert not claim.is_supported
    assert claim.sentence == (
        "In the same sessions guarded lower legs were hurt less often than bare ones."
    )
    assert "still allow no difference" in claim.missing
    assert "more guarded site-exposures, some 40 games at this pace, would tell a" in claim.missing
    assert claim.is_for_outsiders


ONE_LOOK = compared(*[(0, 1)] * 28, *[(1, 0)] * 12)
"""One look excludes 1, looking every week does not."""
SMALL = compared(*[(0, 1)] * 60, *[(1, 0)] * 10)


@pytest.mark.parametrize(
    ("answer", "missing"),
    [
        (ONE_LOOK, "limits below 1 that hold however often one looks"),
        (SMALL, r"11 injuries in both groups \(10 guarded and 60 bare so far\)"),
        (compared(*STRONG, other=1.4), "comparisons that agree"),
        (compared(*STRONG, scope=replace(SCOPE, purpose=View.ALL)), ".*one purpose"),
        (compared(), r"11 injuries in both groups \(0 guarded.*both recorded"),
    ],
)
def test_what_carries_no_claim_says_what_is_missing(answer, missing):
    claim = hurt_claim(answer, SHINS)
    assert not claim.is_supported
    assert re.match(missing, claim.missing)
    assert claim.is_for_outsiders is (answer is not SMALL)
    assert (claim.interval is None) is (answer.comparison(HEADLINE).ratio.value is None)


def test_one_look_alone_would_have_said_so():
    assert ONE_LOOK.verdict == "guarded sites were hurt less often"


def test_hurt_more_is_said_without_a_second_proof():
    claim = hurt_claim(compared(*[(1, 0)] * 28, *[(0, 1)] * 9, other=2.0), SHINS)
    assert claim.is_supported
    assert "were hurt 3.11 times as often as bare ones" in claim.sentence
    assert not claim.is_for_outsiders  # nine bare injuries


def test_the_view_and_the_outcome_stand_in_the_words():
    again = replace(SCOPE, purpose=View.RETURN, outcome=Outcome.ANY)
    claim = hurt_claim(compared(*STRONG, scope=again), SHINS)
    assert claim.sentence.startswith("After an earlier injury, in the same sessions guarded")
    assert "time lost" not in claim.rests_on


UNALIKE = ClusteredRatio(1.2, 1.1, 1.3, std_error=0.04, athletes=80)
WIDE = ClusteredRatio(1.0, 0.8, 1.25, std_error=0.11, athletes=8)


@pytest.mark.parametrize(
    ("parts", "word", "missing"),
    [
        ({}, ClaimWord.CONDITIONAL, None),
        ({"far": replace(QUIET, value=0.6, low=0.4, high=0.9)}, ClaimWord.SEEN, "quiet control"),
        ({"far": replace(QUIET, value=1.6, low=1.1, high=2.3)}, ClaimWord.SEEN, "quiet control"),
        ({"far": replace(QUIET, value=0.5, low=0.2, high=1.3, std_error=0.5)}, ClaimWord.SEEN,
         "divided by the control sites"),
        ({"far": ControlRatio(None, why="nobody was hurt", injuries=0)}, ClaimWord.SEEN,
         "control sites to set it against (nobody was hurt)"),
        ({"records": replace(ALIKE, attendance=replace(ALIKE.attendance, ratio=UNALIKE))},
         ClaimWord.SEEN, "attendance recorded alike"),
        ({"records": replace(ALIKE, attendance=replace(ALIKE.attendance, ratio=WIDE))},
         ClaimWord.SEEN, "practices enough to tell"),
        ({"records": replace(ALIKE, wear=WearCheck(20, 0, 9, 1.2, 0.001))}, ClaimWord.SEEN,
         "wear recorded of the injured as of their fellows"),
        ({"records": replace(ALIKE, wear=WearCheck(9, 0, 0, 0.5, 0.6, "9 injured owners"))},
         ClaimWord.SEEN, "a check of the wear of the injured (9 injured owners)"),
        ({"records": replace(ALIKE, wear=WearCheck(20, 3, 0, 0.5, 0.6, "assumed"))},
         ClaimWord.SEEN, "a check of the wear of the injured (assumed)"),
        ({"scope": replace(SCOPE, purpose=View.ALL)}, ClaimWord.SEEN, "one purpose"),
    ],
)  # fmt: skip
def test_what_is_seen_is_claimed_with_its_condition_only_where_nothing_else_could_be_it(
    parts, word, missing
):
    answer = compared(*STRONG, **parts)
    assert answer.claim.word is word
    told = "; ".join(answer.claim.missing)
    assert (missing in told) if missing else not told
    claim = hurt_claim(answer, SHINS)
    assert claim.is_supported == word.is_claim
    assert (CONDITION in claim.sentence) == word.is_claim


@pytest.mark.parametrize(
    ("high", "ratio", "is_claimed"),
    [(0.9, EVEN, True), (1.0, EVEN, False), (None, EVEN, False), (0.9, UNALIKE, False),
     (0.9, WIDE, False)],
)  # fmt: skip
def test_drawn_turns_alone_are_claimed_without_a_condition(high, ratio, is_claimed):
    """Also where the sessions show nothing: the draw needs none of what else is looked at."""
    turns = replace(mantel_haenszel(Strata([9], [12], [50], [50])), value=0.6, low=0.4, high=high)
    drawn = DrawnClaim(turns, AttendanceCheck(9, 10, 18, 20, ratio))
    answer = compared(*[(0, 1)] * 4, drawn=drawn)
    assert (answer.claim.word is ClaimWord.CLAIMED) == is_claimed
    claim = hurt_claim(answer, SHINS)
    assert claim.is_supported == is_claimed
    assert ("drawn at random. Once it was their turn" in claim.sentence) == is_claimed
    assert not claim.is_for_outsiders, "nine injuries, or none at all"


def test_no_verdict_of_less_opens_without_its_word():
    said = {word: opening(LESS, word) for word in ClaimWord}
    assert len(set(said.values())) == len(ClaimWord)
    assert "no claim" in said[ClaimWord.SEEN]
    assert said[ClaimWord.CONDITIONAL].endswith(CONDITION)
    assert "not shown" in said[ClaimWord.NOT_SHOWN]
    assert all(opening(MORE, word) == MORE for word in ClaimWord)


RECORDED = st.lists(st.sampled_from([(0, 1)] * 4 + [(1, 0), (1, 1), (0, 2)]), max_size=90)


@settings(max_examples=60)
@given(RECORDED, st.floats(0.3, 3), st.sampled_from(View), st.tuples(*[st.integers(0, 12)] * 2))
def test_no_claim_says_too_much_whatever_was_recorded(sessions, other, view, rest):
    scope = replace(SCOPE, purpose=view)
    answer = compared(*sessions, scope=scope, other=other, rest=rest)
    claim = hurt_claim(answer, SHINS)
    told = " ".join(filter(None, (claim.sentence, claim.missing, claim.rests_on))).casefold()
    assert not any(word in told for word in PROMISES)
    assert (claim.missing is None) == claim.is_supported
    ratio = answer.comparison(HEADLINE).ratio
    if claim.is_supported:
        assert claim.interval.removeprefix("95 %: ") in claim.sentence
        assert "through 14 Nov 2026" in claim.sentence
        assert ratio.low > 1 or (ratio.high < 1 and answer.watched.now.high < 1)
    else:
        assert not any(letter.isdigit() for letter in claim.sentence)
    crude = answer.comparison(CRUDE).ratio
    small = {crude.injuries_guarded, crude.injuries_unguarded} & set(range(1, 11))
    assert claim.is_for_outsiders == (not small)


def _gap(value, low, high):
    why = "never 5 at risk at once" if value is None else ""
    return RestrictedMean(value, low, high, why=why, horizon=12, start=1, std_error=0.1)


def followed(gap, low, high, verdict=LESS, ratio=0.6, injuries=(20, 30)):
    group = [SimpleNamespace(injuries=count, sites=200) for count in (50, 60)]
    points = [(SimpleNamespace(injuries=count),) for count in injuries]
    return SimpleNamespace(
        summary=Summary("", "", (), (), SCOPE),
        options=GamesOptions(),
        guarded=group[0],
        unguarded=group[1],
        judged=Judged(verdict, SimpleNamespace(value=ratio, why="")),
        one_mix=SimpleNamespace(
            difference=_gap(gap, low, high), guarded=points[0], unguarded=points[1]
        ),
    )


@pytest.mark.parametrize(
    ("answer", "missing"),
    [
        (followed(0.8, 0.2, 1.4), None),
        (followed(0.8, -0.2, 1.8), "beyond chance: the limits (0.20 fewer to 1.80 more)"),
        (followed(0.8, 0.2, 1.4, NONE_YET), "goes with Compare (the games alone do not bear out"),
        (followed(0.8, -0.2, 1.4, LESS, 1.2), "goes with Compare (the games alone do not bear out"),
        (followed(-0.8, -1.4, -0.2), "goes with Compare (the games alone do not bear out"),
        (followed(0.8, 0.2, 1.4, DISAGREE), "goes with Compare (the comparisons disagree)"),
        (followed(0.8, 0.2, 1.4, injuries=(3, 30)), "11 injuries in both groups (3 guarded"),
        (followed(None, None, None), "goes with Compare (never 5 at risk at once)"),
    ],
)
def test_more_games_needs_a_difference_at_one_mix_and_the_verdict_of_compare(answer, missing):
    claim = games_claim(answer, SHINS)
    assert claim.is_supported == (missing is None)
    assert missing is None or missing in claim.missing


def test_more_and_fewer_games_are_said_with_their_limits():
    assert games_claim(followed(0.8, 0.2, 1.4), SHINS).sentence == (
        "Guarded lower legs went 0.80 more of 12 games before an injury on average than bare ones "
        "of like athletes (95 %: 0.20 to 1.40 more; through 14 Nov 2026)."
    )
    fewer = games_claim(followed(-0.8, -1.4, -0.2, MORE, 1.6), SHINS)
    assert fewer.is_supported
    assert "went 0.80 fewer of 12 games" in fewer.sentence
