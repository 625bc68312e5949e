"""What may be said to outsiders, and what not yet, as parts of a page."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from seasonboard.answers.claims.parts import (
    GAMES,
    HURT,
    READY,
    REMADE,
    TURNAROUND,
    WORN,
    Claim,
)
from seasonboard.ui.layout.blocks import Block, Paper, item, title
from seasonboard.ui.layout.opens import INJURIES, Opens, What

if TYPE_CHECKING:
    from seasonboard.answers.pitch.parts import PitchAnswer

_OPENS: Mapping[str, Opens] = {
    HURT: INJURIES,
    GAMES: INJURIES,
    READY: Opens(What.ORDERS),
    TURNAROUND: Opens(What.ORDERS),
    REMADE: Opens(What.REMADE),
    WORN: Opens(What.STEPS),
}


def claims(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return the sentences that may be said, then those that may not, with what they lack."""
    may = [claim for claim in answer.claims if claim.is_supported]
    may_not = [claim for claim in answer.claims if not claim.is_supported]
    blocks = [title("May be said", paper), *(_claim("+", claim, paper) for claim in may)]
    if not may:
        blocks.append(Block(item(" ", "nothing yet", paper)))
    if may_not:
        blocks.append(title("May not be said yet", paper))
        blocks += [_claim("–", claim, paper) for claim in may_not]
    return blocks


def _claim(mark: str, claim: Claim, paper: Paper) -> Block:
    text = claim.sentence + (f" Missing: {claim.missing}." if claim.missing else "")
    if claim.is_supported and not claim.is_for_outsiders:
        text += " Not for outsiders: a count of 1 to 10 stands in it."
    opens = _OPENS.get(claim.topic)
    return Block(item(mark, text, paper), name=f"claim {claim.topic}", card="claims", opens=opens)
