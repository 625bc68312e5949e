"""The offer to a new department: two pages to say yes to, and the evidence behind them.

For outsiders: it holds the figures of one release, what follows from them, and what was given for
the prospect. Nothing else of the store is read.
"""

from seasonboard.answers import words
from seasonboard.answers.fields import Kind
from seasonboard.answers.pitch.answer import site_counts
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.answers.source import AnswerSource
from seasonboard.documents.model import Document, Facts, written
from seasonboard.documents.origin import Making, is_file
from seasonboard.documents.proposal.evidence import evidence_sections, keep_in_mind
from seasonboard.documents.proposal.offer import offer_sections
from seasonboard.documents.proposal.offered import Offered, hollow_parts
from seasonboard.documents.proposal.options import ProposalOptions, with_file
from seasonboard.documents.proposal.outlook import outlook_sections
from seasonboard.documents.proposal.plan import SOURCES, plan_sections
from seasonboard.releases.basis import plan_basis
from seasonboard.releases.block import Block, Release
from seasonboard.releases.work import ORDERS
from seasonboard.scope import Scope


def proposal(
    source: AnswerSource,
    release: Release,
    kind: str | None,
    making: Making,
    options: PitchOptions | None = None,
) -> Document:
    """Return the offer for one kind of guard; without one, for that with the most orders.

    Raises:
        ReleaseError: The release has no such kind.
        ScopeError: Something is asked that cannot be planned.
        IntakeError: Something the offer says cannot be taken.
        StoreError: The store could not be read.
    """
    offered = planned_offer(source, release, kind, options)
    pitch, block, asked = offered.pitch, offered.block, offered.options
    teams = words.plural(len(pitch.planned), "team")
    season = f"{pitch.options.weeks or pitch.input('weeks of the season').value:g} weeks"
    lead = (
        f"{block.kind.capitalize()} guards shaped from a scan of each athlete, for {teams} with "
        f"{words.plural(pitch.athletes, 'athlete')} over one season of {season}."
    )
    return Document(
        kind=making.kind,
        title=f"{block.kind.capitalize()} guards for {asked.to or 'your department'}",
        of=_of_line(asked, making, source),
        lead=lead,
        notice="The figures are those of departments served, as released on "
        f"{written(block.made_on, Kind.TEXT)}. Nobody is named, and no count of 1 to 10 is told.",
        sections=(
            *offer_sections(offered),
            *outlook_sections(offered),
            *evidence_sections(block),
            *plan_sections(pitch),
        ),
        facts=facts_of(source, release, block, making),
        cautions=(),
        keep_in_mind=keep_in_mind(pitch, block),
        sources=SOURCES,
        is_tight=True,
        hollow=hollow_parts(offered),
        typed=(asked.by, asked.to, asked.contact),
    )


def planned_offer(
    source: AnswerSource, release: Release, kind: str | None, options: PitchOptions | None
) -> Offered:
    """Return the plan for a prospect with the block of the release that it rests on.

    Raises:
        ReleaseError, ScopeError, IntakeError, StoreError: As `proposal`.
    """
    block = release.block(kind or _most_ordered(release))
    scope = Scope(block.through, kinds=(block.kind,))
    sites = site_counts(scope, source.scope_values)
    basis = plan_basis(block, tuple(sites), sum(sites.values()))
    asked = with_file(options or ProposalOptions())
    return Offered(source.pitch_planned(basis, scope, asked), block, asked)


def _most_ordered(release: Release) -> str:
    """Return the kind of guard with the most orders that are told."""
    return max(release.blocks, key=lambda block: block.count(ORDERS) or 0).kind


def _of_line(asked: ProposalOptions, making: Making, source: AnswerSource) -> str:
    place = "" if is_file(source.store_label) else source.store_label
    until = f"valid until {written(day, Kind.TEXT)}" if (day := asked.valid_until) else ""
    parts = [
        *("An offer from " + asked.by if asked.by else "An offer", asked.contact),
        *(written(making.made_on, Kind.TEXT), until, place),
    ]
    return " · ".join(filter(None, parts))


def facts_of(source: AnswerSource, release: Release, block: Block, making: Making) -> Facts:
    """Return where an offer's figures come from."""
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
