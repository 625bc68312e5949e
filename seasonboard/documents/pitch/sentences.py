"""The words of the page for a new department."""

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION
from seasonboard.answers.cards import read_cards
from seasonboard.answers.fields import Kind
from seasonboard.answers.pitch.parts import Basis, PitchAnswer
from seasonboard.disclosure.count_table import THRESHOLD
from seasonboard.documents.model import Facts, Paragraph, Part, Points, written
from seasonboard.releases.block import AGREEMENT, SAME_SITES, Block
from seasonboard.releases.claims import CLAIM, NO_CLAIM

CAUTIONS = (
    CAUTION,
    "Local rules come first: whether a guard may be worn in a game is for the sport's rules, "
    "the officials and the institution to say.",
    "It plans with what was recorded elsewhere; a department is not the average of others.",
)
"""What the page does not show."""

_CARDS = (*read_cards("pitch").values(), read_cards("compare")["same session"])
SOURCES = (
    *(f"{card.title}: {card.source}" for card in _CARDS if "estimated" not in card.source),
    "Small counts: the cell size suppression policy of the United States' Medicare agency "
    "(2020) for 11; Hundepool et al. (2012), Statistical Disclosure Control, chapter 4.",
)
"""Where methods come from."""

NOTICE = (
    "For outsiders. No athlete and no department served is named. "
    f"Counts of 1 to {THRESHOLD - 1} of athletes, injuries, guards and orders are not shown, nor "
    "what they could be worked out from."
)
"""Whom it is for, and what is not in it."""


def title(pitch: PitchAnswer) -> str:
    """Return the title: the prospect in words, no name."""
    what = "What a season with guards could look like"
    teams = words.plural(len(pitch.teams), "team")
    return f"{what} for a department of {teams}" if pitch.teams else what


def of_line(block: Block, facts: Facts) -> str:
    """Return what and when it is about, in a line."""
    place = f"{facts.place} · " if facts.place else ""
    day, made = (written(on, Kind.TEXT) for on in (block.through, block.made_on))
    served = words.plural(block.departments, "department")
    return f"{place}{block.kind} guards at {served} · through {day} · released {made}"


def may_say(pitch: PitchAnswer, block: Block) -> tuple[Part, ...]:
    """Return the claims that the release holds, then contact."""
    contact = Paragraph(pitch.contact, "Contact, as mechanics:")
    lines = _sentences(block, CLAIM)
    if not lines:
        return (Paragraph("Nothing yet: the figures released support no claim."), contact)
    return (Points(lines), contact)


def may_not_say(block: Block) -> tuple[Part, ...]:
    """Return the claims that the records do not support."""
    never = "Never said: that guards prevent injury, or are safe; nothing recorded could show it."
    lines = (f"Not said, since the records do not show it: “{one}”" for one in _sentences(
        block, NO_CLAIM
    ))  # fmt: skip
    return (Points((*lines, never)),)


def _sentences(block: Block, of: str) -> tuple[str, ...]:
    figures = (block.figure(f"{of}, {topic}") for topic in block.cuts(of))
    return tuple(figure.words for figure in figures if figure is not None)


def published(pitch: PitchAnswer) -> tuple[Part, ...]:
    """Return the published rates used, each with source, definition and years."""
    used = dict.fromkeys(
        f"{team.name}, {each.baseline.source}."
        for team in pitch.teams
        for each in team.settings
        if each.baseline.basis is Basis.PUBLISHED
    )
    if not used:
        return (Paragraph("None: what is expected rests on own records alone, or is not known."),)
    return (Points(tuple(used)),)


def keep_in_mind(pitch: PitchAnswer, block: Block) -> tuple[str, ...]:
    """Return what was hidden or left out, and what to keep in mind."""
    lines = [
        f"“hidden” stands for a count of 1 to {THRESHOLD - 1}, for one from which such a count "
        "could be worked out, and for one of too few departments.",
        *(one.words for name in (AGREEMENT, SAME_SITES) if (one := block.figure(name))),
    ]
    if block.corrected:
        lines.append(f"Corrected since an earlier release: {', '.join(block.corrected)}.")
    unknown = [team for team in pitch.teams if team.injuries is None and team.athletes]
    if unknown:
        lines.append(
            f"Injuries are not known for {words.plural(len(unknown), 'team')} of "
            f"{len(pitch.teams)}: {', '.join(team.name for team in unknown)}."
        )
    aside = {CAUTION, *pitch.prospect.notes}
    lines += [each for each in pitch.summary.caveats if each not in aside]
    lines.append(
        "Hiding small counts is a safeguard, not a finding that nobody can be known again: who "
        "knows a team may know more."
    )
    return tuple(dict.fromkeys(lines))
