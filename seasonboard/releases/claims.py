"""Which sentences the records of a release allow, where the counts behind them are told."""

from collections.abc import Sequence

from seasonboard.answers.claims import parts as topics
from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.pitch import inputs
from seasonboard.answers.take_up.parts import FITTED as FITTED_STEP
from seasonboard.releases import injuries, work
from seasonboard.releases.block import Figure
from seasonboard.releases.draft import Draft

CLAIM, NO_CLAIM = "claim", "no claim"
_RESTS_ON = {
    topics.HURT: (injuries.GUARDED, injuries.BARE),
    topics.GAMES: (f"{injuries.GUARDED}, followed", f"{injuries.BARE}, followed"),
    topics.READY: (work.DECIDED, work.READY),
    topics.TURNAROUND: (work.ORDERS,),
    topics.REMADE: (work.FITTED, work.REMADE),
    topics.WORN: (work.FITTED_SESSIONS, work.WORN_SESSIONS, work.step_name(FITTED_STEP)),
}
_NEEDED_FIGURE = {topics.TURNAROUND: "median", topics.WORN: inputs.WORN_IN}


def declare_claims(draft: Draft, claims: Sequence[Claim]) -> None:
    """Declare the sentence of each topic: one that may be said, or that may not and so stands."""
    names = {figure.name for figure in draft.figures}
    for claim in claims:
        rests_on = _RESTS_ON.get(claim.topic)
        if rests_on is None:
            continue
        is_counted = all(name in draft.table.cells for name in rests_on)
        needed = _NEEDED_FIGURE.get(claim.topic)
        is_told = claim.is_supported and claim.is_for_outsiders and is_counted
        if is_told and (needed is None or needed in names):
            if claim.topic == topics.HURT:
                rests_on += tuple(injuries.behind("same session", draft))
            draft.figure(Figure(f"{CLAIM}, {claim.topic}", words=claim.sentence), *rests_on)
        if not claim.is_supported:
            draft.figure(Figure(f"{NO_CLAIM}, {claim.topic}", words=claim.sentence))
