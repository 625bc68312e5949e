"""Three words by fixed rules: seen, claimed with its condition, claimed; else “not shown”.

The one function that says whether “less often” may be claimed, wherever a claim is made.
"""

from dataclasses import dataclass
from enum import StrEnum

from seasonboard.answers import words
from seasonboard.answers.claims.parts import FEWEST
from seasonboard.answers.compare.control_sites import ControlSites
from seasonboard.answers.compare.recording_checks import AttendanceCheck, Recording
from seasonboard.answers.compare.verdict import DISAGREE, LESS, NO_LARGE, NOTHING
from seasonboard.scope import Scope, View
from seasonboard.stats.anytime_valid import AnytimeValid
from seasonboard.stats.ratios import RateRatio

CONDITION = "unless careful athletes differ at this site only"
"""What a comparison of those who chose their guards cannot rule out, whatever is recorded."""


class ClaimWord(StrEnum):
    """How far “guarded sites were hurt less often” may be said."""

    NOT_SHOWN = "not shown"
    SEEN = "seen"
    CONDITIONAL = "claimed with its condition"
    CLAIMED = "claimed"

    @property
    def is_claim(self) -> bool:
        """Say whether it may be said to others."""
        return self in {ClaimWord.CONDITIONAL, ClaimWord.CLAIMED}


@dataclass(frozen=True, slots=True)
class ClaimVerdict:
    """The word, and what is missing before it may be claimed with its condition.

    `drawn` is the ratio that is claimed where drawn turns show it: that of the turns.
    """

    word: ClaimWord
    missing: tuple[str, ...] = ()
    drawn: RateRatio | None = None

    @property
    def line(self) -> str:
        """Return the word in a sentence, with what is missing."""
        if self.word is ClaimWord.CONDITIONAL:
            return f"Claimed with its condition: {CONDITION}."
        if self.word is ClaimWord.CLAIMED:
            return "Claimed: whose guard came first was drawn at random."
        opening = "Seen, which is no claim" if self.word is ClaimWord.SEEN else "Not shown"
        return f"{opening}. Missing for a claim: {'; '.join(self.missing)}."


@dataclass(frozen=True, slots=True)
class DrawnClaim:
    """The ratio of those whose turn had come to those waiting, and check A between these two."""

    ratio: RateRatio
    attendance: AttendanceCheck

    @property
    def is_shown(self) -> bool:
        """Say whether the turns show “less”: limits below 1, attendance recorded alike."""
        check, high = self.attendance, self.ratio.high
        return high is not None and high < 1 and check.can_tell and not check.rings


@dataclass(frozen=True, slots=True)
class Evidence:
    """What a claim is judged by; `crude` has the counts, `drawn` is None without drawn turns."""

    scope: Scope
    verdict: str
    headline: RateRatio
    crude: RateRatio
    now: AnytimeValid
    controls: ControlSites
    recording: Recording
    drawn: DrawnClaim | None = None


def claim_of(evidence: Evidence) -> ClaimVerdict:
    """Return how far “guarded sites were hurt less often” may be said.

    Claimed: drawn turns show it. Claimed with its condition: seen, 11 injuries in both groups, one
    purpose, quiet control sites by which the headline stays below 1, and both checks of recording
    silent and able to tell. Seen: the verdict says so and the limits that hold at every look too.
    """
    if evidence.drawn is not None and evidence.drawn.is_shown:
        return ClaimVerdict(ClaimWord.CLAIMED, drawn=evidence.drawn.ratio)
    unseen, crude = _unseen(evidence), evidence.crude
    hurt = crude.injuries_guarded, crude.injuries_unguarded
    missing = [*of_scope(evidence.scope), *few(*hurt), *unseen]
    if not unseen:
        missing += [*_controls(evidence.controls), *evidence.recording.missing]
    if not missing:
        return ClaimVerdict(ClaimWord.CONDITIONAL)
    return ClaimVerdict(ClaimWord.NOT_SHOWN if unseen else ClaimWord.SEEN, tuple(missing))


def opening(verdict: str, word: ClaimWord) -> str:
    """Return what a sentence on the verdict opens with: “less often” never without its word."""
    if verdict != LESS:
        return verdict
    return {
        ClaimWord.NOT_SHOWN: "fewer guarded injuries are not shown yet: weekly looks need more",
        ClaimWord.SEEN: "seen, which is no claim: guarded sites were hurt less often",
        ClaimWord.CONDITIONAL: f"{LESS}, {CONDITION}",
        ClaimWord.CLAIMED: f"{LESS}, and whose guard came first was drawn",
    }[word]


def of_scope(scope: Scope) -> list[str]:
    """Return what is missing of the scope before anything may be claimed."""
    both = "guards of one purpose alone: the scope puts both purposes together"
    return [both] if scope.purpose is View.ALL else []


def few(guarded: int, bare: int) -> list[str]:
    """Return that injuries are missing, where a group has fewer than 11."""
    if min(guarded, bare) >= FEWEST:
        return []
    return [f"{FEWEST} injuries in both groups ({guarded} guarded and {bare} bare so far)"]


def _unseen(evidence: Evidence) -> list[str]:
    """Return what is missing before “less” is seen."""
    verdict, headline, now = evidence.verdict, evidence.headline, evidence.now
    if verdict == NOTHING:
        return ["sessions in which guarded and bare sites were both recorded"]
    if headline.low is None and headline.high is None:
        return ["limits of the ratio, which cannot be set yet"]
    if verdict == DISAGREE:
        return ["comparisons that agree: another one lies on the other side"]
    limits = words.interval(headline.low, headline.high)
    if verdict == NO_LARGE:
        return [f"a difference: a large one is unlikely by the limits ({limits})"]
    if verdict != LESS:
        return [f"limits below 1: these ({limits}) still allow no difference"]
    often = (
        "limits below 1 that hold however often one looks: those "
        f"({words.interval(now.low, now.high)}) still allow no difference"
    )
    return [often] if now.high is None or now.high >= 1 else []


def _controls(found: ControlSites) -> list[str]:
    far, corrected = found.far, found.corrected
    if far.value is None or corrected.value is None or corrected.high is None:
        return [f"control sites to set it against ({far.why or corrected.why})"]
    if not far.is_quiet:
        limits = words.interval(far.low, far.high)
        return [f"quiet control sites: there the limits ({limits}) exclude no difference"]
    if corrected.high < 1:
        return []
    limits = words.interval(corrected.low, corrected.high)
    return [f"limits below 1 also when divided by the control sites: those are {limits}"]
