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


def hollow_parts(offered: Offered) -> tuple[str, ...]:
    """Return what is missing on its two pages, a sentence each with what to do."""
    pitch, asked = offered.pitch, offered.options
    served = [plan.served for plan in pitch.plans]
    missing = (
        (not (asked.by and asked.to), "It does not say from whom and for whom: --from, --for."),
        (not pitch.planned, "There is no team to plan for: --teams."),
        (not pitch.is_given, "The teams are like those served, not the prospect's: --teams."),
        (
            not all(plan.is_given for plan in pitch.plans),
            "A plan's printers or weekly prints are proposed, not yours: --printers, "
            "--prints-per-week.",
        ),
        (
            not all(plan.fees.is_told for plan in pitch.plans),
            "A plan has no fees and no total: --printer-per-print, --weekly-per-print and others.",
        ),
        (
            all(one is None or one.median is None for one in served),
            "No turnaround is told for either plan: the release has too few orders of each.",
        ),
        (
            pitch.ahead is None,
            "How many injuries to expect is not known for any team: give last season's in --teams.",
        ),
    )
    return tuple(text for is_missing, text in missing if is_missing)
