"""What an offer is made of, and the words that its pages share."""

from dataclasses import dataclass

from seasonboard.answers import words
from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.documents.proposal.options import ProposalOptions
from seasonboard.releases.block import Block

OPEN = "to be agreed"


@dataclass(frozen=True, slots=True)
class Offered:
    """A plan for a prospect, the block of a release it rests on, and what its offer says."""

    pitch: PitchAnswer
    block: Block
    options: ProposalOptions


def money(amount: float | None, currency: str) -> str:
    """Return an amount with its currency; to be agreed where it is not said."""
    return OPEN if amount is None else f"{words.whole(round(amount))} {currency}".strip()


def addressed(text: str) -> str:
    """Return a sentence of the plan in words to the department itself."""
    return text.replace("their building", "your building").replace("theirs to say", "yours to say")


def sentence(text: str) -> str:
    """Return what was typed with a full stop; to be agreed where nothing was."""
    plain = (text or OPEN).strip()
    return plain if plain.endswith((".", "!", "?")) else f"{plain}."


def released_sentences(block: Block, of: str) -> tuple[str, ...]:
    """Return the sentences of a release: those that may be said, or those that may not."""
    figures = (block.figure(f"{of}, {topic}") for topic in block.cuts(of))
    return tuple(figure.words for figure in figures if figure is not None)
