"""What an offer is made of, and the words that its pages share."""

from dataclasses import dataclass

from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.documents.proposal.options import ProposalOptions
from seasonboard.releases.block import Block

OPEN = "to be agreed"
_TO_THEM = {
    "their building": "your building",
    "theirs to say": "yours to say",
    "none given": OPEN,
    "not known: no fee was given": OPEN,
    "(proposed)": "(as we propose)",
}


@dataclass(frozen=True, slots=True)
class Offered:
    """A plan for a prospect, the block of a release it rests on, and what its offer says."""

    pitch: PitchAnswer
    block: Block
    options: ProposalOptions


def addressed(text: str) -> str:
    """Return a sentence of the plan in words to the department itself."""
    for of_the_plan, to_them in _TO_THEM.items():
        text = text.replace(of_the_plan, to_them)
    return text


def sentence(text: str) -> str:
    """Return what was typed with a full stop; to be agreed where nothing was."""
    plain = (text or OPEN).strip()
    return plain if plain.endswith((".", "!", "?")) else f"{plain}."


def released_sentences(block: Block, of: str) -> tuple[str, ...]:
    """Return the sentences of a release: those that may be said, or those that may not."""
    figures = (block.figure(f"{of}, {topic}") for topic in block.cuts(of))
    return tuple(figure.words for figure in figures if figure is not None)
