"""The sentences of a pitch for outsiders: what is said, what is not, and what to keep in mind."""

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION
from seasonboard.answers.cards import read_cards
from seasonboard.answers.claims import parts as topics
from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.fields import Kind
from seasonboard.answers.pitch.parts import Basis
from seasonboard.documents.model import Facts, Paragraph, Part, Points, written
from seasonboard.documents.pitch import counts
from seasonboard.documents.pitch.baselines import BARE, GUARDED
from seasonboard.documents.pitch.masked import MaskedPitch
from seasonboard.documents.pitch.work import has_quantile

_CONTACT = "Contact, as mechanics:"
_ABOUT = {
    topics.HURT: "injuries in the same sessions",
    topics.GAMES: "games before an injury",
    topics.READY: "guards ready for the next game",
    topics.TURNAROUND: "the turnaround",
    topics.REMADE: "remakes",
    topics.WORN: "how often guards are worn",
}
_ENOUGH = {
    topics.HURT: "more injuries, limits of the ratio that exclude no difference, quiet control "
    "sites, or records that are alike",
    topics.GAMES: "more injuries, or a difference beyond chance, also at one mix of athletes",
    topics.READY: "more orders of which it is decided",
    topics.TURNAROUND: "more orders, or more of them done",
    topics.REMADE: "more fitted guards that are followed for long enough",
    topics.WORN: "more athletes with a guard fitted",
}
"""What is missing for a claim, without a figure: which of two it is might tell a small count."""

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


def title(masked: MaskedPitch) -> str:
    """Return the title: the prospect in words, no name."""
    pitch = masked.sources.pitch
    if not pitch.teams:
        return "What a season with guards could look like"
    teams = words.plural(len(pitch.teams), "team")
    return f"What a season with guards could look like for a department of {teams}"


def of_line(masked: MaskedPitch, facts: Facts) -> str:
    """Return whom and when it is about, in a line."""
    seasons = masked.sources.pitch.summary.scope.seasons
    which = ", ".join(seasons) if seasons else "all seasons"
    place = f"{facts.place} · " if facts.place else ""
    day = written(facts.through, Kind.TEXT)
    return f"{place}{which} · through {day}"


def lead(masked: MaskedPitch) -> str:
    """Return the answer's own sentence, or what may be said in its place."""
    pitch = masked.sources.pitch
    if not pitch.teams or (masked.has_promise and masked.has_prints):
        return pitch.summary.answer
    before, prints, _ = pitch.summary.answer.partition(" It takes ")
    if masked.has_promise and prints:  # the sentence of the prints is the last one
        return before
    return (
        f"One season of {words.plural(len(pitch.teams), 'team')}: what guards could keep is not "
        f"told here, since it rests on counts of fewer than {masked.threshold}, or on such from "
        "which one could be worked out."
    )


def notice(masked: MaskedPitch) -> str:
    """Return whom it is for and what is not in it."""
    return (
        "For outsiders. No athlete and no department served is named; departments are letters. "
        f"Counts of 1 to {masked.threshold - 1} of athletes, injuries, guards and orders are not "
        "shown, nor what they could be worked out from."
    )


def may_say(masked: MaskedPitch) -> tuple[Part, ...]:
    """Return the claims that are supported and whose counts may be shown, then contact."""
    lines = tuple(c.sentence for c in _supported(masked) if _may(masked, c))
    contact = Paragraph(masked.sources.pitch.contact, _CONTACT)
    if not lines:
        return (Paragraph("Nothing yet: the records do not support a claim."), contact)
    return (Points(lines), contact)


def may_not_say(masked: MaskedPitch) -> tuple[Part, ...]:
    """Return the claims that are not supported, and what is missing, without a small count."""
    lines = [
        f"Not said: “{claim.sentence}” Missing: {_missing(masked, claim)}."
        for claim in masked.sources.pitch.claims
        if not claim.is_supported
    ]
    lines += [
        f"What the records say of {_ABOUT[c.topic]}: it rests on counts that may not be told here."
        for c in _supported(masked)
        if not _may(masked, c)
    ]
    lines += [
        "Never said: that guards prevent injury, or are safe; nothing recorded here could show it."
    ]
    return (Points(tuple(lines)),)


def _supported(masked: MaskedPitch) -> list[Claim]:
    claims = masked.sources.pitch.claims
    return [one for one in claims if one.is_supported and one.topic != topics.CONTACT]


def _may(masked: MaskedPitch, claim: Claim) -> bool:
    if not claim.is_for_outsiders:
        return False
    if claim.topic == topics.HURT:
        return masked.has_effect and masked.may(GUARDED, BARE)
    if claim.topic == topics.GAMES:
        names = [name for name in counts.FOLLOWED.values() if name in masked.verdict.items]
        return bool(names) and masked.may(*names)
    if claim.topic == topics.TURNAROUND:
        return has_quantile(masked, counts.ORDERS, masked.sources.timed.whole.orders, 0.5)
    rests_on = {
        topics.READY: (counts.READY, f"{counts.READY}, interval"),
        topics.REMADE: (counts.REMADE, f"{counts.REMADE}, interval"),
        topics.WORN: (counts.WORN_IN, "worn in, athletes"),
    }
    return masked.may(*rests_on[claim.topic])


def _missing(masked: MaskedPitch, claim: Claim) -> str:
    """Return what is missing: figures stand in it only where what they rest on may be shown."""
    if claim.topic == topics.HURT and masked.has_effect and masked.may(GUARDED, BARE):
        return claim.missing or ""
    return _ENOUGH[claim.topic]


def published(masked: MaskedPitch) -> tuple[Part, ...]:
    """Return the published rates used, each with source, definition and years."""
    used = dict.fromkeys(
        f"{team.name}, {each.baseline.source}."
        for team in masked.sources.pitch.teams
        for each in team.settings
        if each.baseline.basis is Basis.PUBLISHED
    )
    if not used:
        return (Paragraph("None: what is expected rests on own records alone, or is not known."),)
    return (Points(tuple(used)),)


def keep_in_mind(masked: MaskedPitch) -> tuple[str, ...]:
    """Return what was left out and what to keep in mind; sentences with counts are left aside."""
    pitch = masked.sources.pitch
    lines = list(masked.verdict.notes())
    if masked.is_narrowed:
        lines.append(
            f"Left out of the plan: teams of fewer than {masked.threshold} athletes, whose size "
            "may not be told."
        )
    unknown = [team for team in pitch.teams if team.injuries is None and team.athletes]
    if unknown:
        lines.append(
            f"Injuries are not known for {words.plural(len(unknown), 'team')} of "
            f"{len(pitch.teams)}: {', '.join(team.name for team in unknown)}."
        )
    aside = {CAUTION, *pitch.prospect.notes}
    lines += [each for each in pitch.summary.caveats if each not in aside and "Fewer" not in each]
    lines.append(
        "Hiding small counts is a safeguard, not a finding that nobody can be known again: who "
        "knows a team may know more."
    )
    return tuple(dict.fromkeys(lines))
