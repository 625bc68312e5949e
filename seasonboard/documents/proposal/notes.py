"""The notes of who makes an offer: what it lacks, what not to claim, what will be asked."""

from collections.abc import Iterator

from seasonboard.answers import words
from seasonboard.answers.pitch.lines import effect_interval
from seasonboard.answers.pitch.parts import PitchAnswer, PlanAhead
from seasonboard.answers.pitch.tables import SWINGS
from seasonboard.answers.pitch.words import count, range_80, range_95
from seasonboard.answers.source import AnswerSource
from seasonboard.disclosure.count_table import is_small
from seasonboard.documents.described import as_rounded, document_table
from seasonboard.documents.model import Document, Paragraph, Part, Points, Section
from seasonboard.documents.origin import Making
from seasonboard.documents.proposal.document import facts_of, planned_offer
from seasonboard.documents.proposal.offered import (
    Offered,
    hollow_parts,
    released_sentences,
    sentence,
)
from seasonboard.documents.proposal.options import ProposalOptions
from seasonboard.documents.proposal.outlook import carries_a_number
from seasonboard.releases.block import Block, Release
from seasonboard.releases.claims import NO_CLAIM


def founder_notes(
    source: AnswerSource,
    release: Release,
    kind: str | None,
    making: Making,
    options: ProposalOptions | None = None,
) -> Document:
    """Return the notes to the offer that the same request makes; arguments as of `proposal`.

    Raises:
        ReleaseError, ScopeError, IntakeError, StoreError: As `proposal`.
    """
    offered = planned_offer(source, release, kind, options)
    pitch, block = offered.pitch, offered.block
    return Document(
        kind=making.kind,
        title=f"Notes to an offer of {block.kind} guards",
        of=f"for {offered.options.to or 'a department'} · release {release.key}",
        lead=pitch.summary.answer,
        notice="For insiders: do not hand it out. It says what outsiders are not told, and why.",
        sections=(
            Section("What the offer lacks", (Points(hollow_parts(offered) or (_WHOLE,)),)),
            Section("What not to claim", (Points(tuple(_not_claimed(offered))),)),
            Section("What the buyer will ask", tuple(_questions(offered))),
            Section("What would change the answer most", _swings(pitch)),
            Section("What is hidden, and why", (Points(tuple(_hidden(block))),)),
        ),
        facts=facts_of(source, release, block, making),
        cautions=(),
        keep_in_mind=pitch.summary.caveats,
        is_tight=True,
    )


_WHOLE = "Nothing: every main part is filled."


def _not_claimed(offered: Offered) -> Iterator[str]:
    yield "Never: that guards prevent injury, or are safe. Nothing recorded could show it."
    for line in released_sentences(offered.block, NO_CLAIM):
        yield f"Not yet, since the records do not show it: “{line}”"
    pitch = offered.pitch
    if pitch.ahead is not None and (kept := pitch.ahead.games_kept) is not None:
        if carries_a_number(pitch):
            yield f"Not the average alone: four of five seasons keep {range_80(kept)} games."
        else:
            yield (
                "No number of games kept: the page gives none. Simulated, the median season keeps "
                f"{count(kept.median)} (95 %: {range_95(kept)})."
            )


def _questions(offered: Offered) -> Iterator[Paragraph]:
    pitch, asked, block = offered.pitch, offered.options, offered.block
    yield Paragraph(_effect(pitch), "How do you know that it works?")
    yield Paragraph(pitch.choice.why, "Which plan is better for us?")
    yield Paragraph(f"The page says: {sentence(asked.if_it_stops)}", "What if a printer stops?")
    costs = dict.fromkeys(map(_cost_of_a_game, pitch.plans))
    yield Paragraph(" ".join(costs), "What does a game kept cost?")
    served = words.plural(block.departments, "department")
    yield Paragraph(
        f"Say {served}, and name none: whoever wants to be named says so first.", "Who has it?"
    )
    yield Paragraph(
        "Local rules first: the sport's rules, the officials and the institution decide.",
        "May it be worn in a game?",
    )
    yield Paragraph(
        "No name leaves the store. Others see figures of all departments together, and no count "
        "from 1 to 10.",
        "What happens with our records?",
    )


def _cost_of_a_game(plan: PlanAhead) -> str:
    if plan.per_game_kept is None:
        return f"Not known: {plan.why}."
    cost = f"{count(plan.per_game_kept.median)} {plan.fees.currency}"
    return f"With {plan.way.words} {cost} in the median."


def _effect(pitch: PitchAnswer) -> str:
    effect = pitch.effect
    if effect.ratio is None:
        return f"It is not known yet: {effect.why}."
    told = "It is not known yet. " if effect.high is None or effect.high >= 1 else ""
    return (
        f"{told}In the same sessions guarded sites were hurt {words.ratio(effect.ratio)} times as "
        f"often ({effect_interval(pitch)}). Athletes chose to wear them; it was no trial."
    )


def _swings(pitch: PitchAnswer) -> tuple[Part, ...]:
    said = Paragraph(pitch.swing_sentence)
    if not pitch.swings:
        return (said,)
    table = document_table(
        *(SWINGS, pitch, "what changes it"),
        "Games kept on average with one number at its low and high end, the others as planned.",
        rows=pitch.swings,
        cell=as_rounded,
    )
    return (said, table)


def _hidden(block: Block) -> Iterator[str]:
    """Say which counts are hidden and why; no value is told, as a page may be left lying."""
    table, hidden = block.masked.table, sorted(block.masked.hidden & block.masked.table.shown)
    reasons = (
        ("of 1 to 10", [name for name in hidden if is_small(table.cells[name])]),
        ("of too few departments", [n for n in hidden if n in table.close]),
    )
    rest = set(hidden)
    for why, names in reasons:
        left = [name for name in names if name in rest]
        rest -= set(left)
        if left:
            yield f"Hidden as counts {why}: {'; '.join(left)}."
    if rest:
        yield f"Hidden since one of those could be worked out: {'; '.join(sorted(rest))}."
    if not hidden:
        yield "No count that the release lists is hidden."
    if block.note:
        yield block.note
    if block.corrected:
        yield f"Told higher before, and marked as corrected: {'; '.join(block.corrected)}."
