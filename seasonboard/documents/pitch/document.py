"""The page that a founder leaves with a new department: what a season with guards could look like.

For outsiders: it holds the figures of one release, what follows from them, and what was given for
the prospect. Nothing else of the store is read.
"""

from dataclasses import dataclass

from seasonboard.answers.pitch.answer import site_counts
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.answers.source import AnswerSource
from seasonboard.documents.model import Document, Facts, Section
from seasonboard.documents.origin import Making, is_file
from seasonboard.documents.pitch import sentences
from seasonboard.documents.pitch.evidence import evidence_sections
from seasonboard.documents.pitch.plan import plan_sections
from seasonboard.releases.basis import plan_basis
from seasonboard.releases.block import Block, Release
from seasonboard.releases.work import ORDERS
from seasonboard.scope import Scope


@dataclass(frozen=True, slots=True)
class ReleasedPitch:
    """A plan for a prospect, and the block of a release that it rests on."""

    pitch: PitchAnswer
    block: Block


def pitch_handout(
    source: AnswerSource,
    release: Release,
    kind: str | None,
    making: Making,
    options: PitchOptions | None = None,
) -> Document:
    """Return the page for one kind of guard; without one, for that with the most orders.

    Raises:
        ReleaseError: The release has no such kind.
        ScopeError: Something is asked that cannot be planned.
        StoreError: The store could not be read.
    """
    block = release.block(kind or most_ordered(release))
    scope = Scope(block.through, kinds=(block.kind,))
    sites = site_counts(scope, source.scope_values)
    basis = plan_basis(block, tuple(sites), sum(sites.values()))
    pitch = source.pitch_planned(basis, scope, options or PitchOptions())
    released = ReleasedPitch(pitch, block)
    return _document(released, _facts(source, release, block, making), making.kind)


def most_ordered(release: Release) -> str:
    """Return the kind of guard with the most orders that are told."""
    return max(release.blocks, key=lambda block: block.count(ORDERS) or 0).kind


def _facts(source: AnswerSource, release: Release, block: Block, making: Making) -> Facts:
    where = "--store …" if is_file(source.store_label) else "--sample"
    command = ["seasonboard handout", making.kind, where, "--kind", block.kind, *making.options]
    of_release = f"release {release.key} of {release.made_on}"
    if block.made_in != release.key:
        of_release += f", which quotes release {block.made_in} of {block.made_on}"
    return Facts(
        made_on=making.made_on,
        through=block.through,
        scope=f"All departments served · {block.kind} guards · {of_release}",
        place="" if is_file(source.store_label) else source.store_label,
        mark="",
        command=" ".join(command),
    )


def _document(released: ReleasedPitch, origin: Facts, kind: str) -> Document:
    pitch, block = released.pitch, released.block
    sections = (
        *plan_sections(pitch),
        *evidence_sections(block),
        Section("What we may say", sentences.may_say(pitch, block)),
        Section("What we do not say", sentences.may_not_say(block)),
        Section("Published rates used", sentences.published(pitch)),
    )
    return Document(
        kind=kind,
        title=sentences.title(pitch),
        of=sentences.of_line(block, origin),
        lead=pitch.summary.answer,
        notice=sentences.NOTICE,
        sections=tuple(section for section in sections if section.parts),
        facts=origin,
        cautions=sentences.CAUTIONS,
        keep_in_mind=sentences.keep_in_mind(pitch, block),
        sources=sentences.SOURCES,
    )
