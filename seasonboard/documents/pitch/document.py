"""The page that a founder leaves with a new department: what a season with guards could look like.

For outsiders: all counts are declared and settled first, then written from what may be shown.
"""

from dataclasses import replace
from datetime import UTC, datetime

from seasonboard.answers import words
from seasonboard.answers.games.parts import MIN_AT_RISK, Clock, GamesAnswer, GamesOptions
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.pitch.parts import PitchOptions
from seasonboard.answers.pitch.words import summary as with_words
from seasonboard.answers.questions import GAMES, TURNAROUND
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.disclosure.document_release import DocumentRelease, neutral_labels
from seasonboard.documents.handout import Handout, release_verdict
from seasonboard.documents.kinds import ReleaseTerms
from seasonboard.documents.model import Document, Facts, Section
from seasonboard.documents.origin import Making, facts
from seasonboard.documents.pitch import sentences
from seasonboard.documents.pitch.counts import PitchSources, declare
from seasonboard.documents.pitch.evidence import evidence_sections
from seasonboard.documents.pitch.masked import MaskedPitch
from seasonboard.documents.pitch.plan import plan_sections
from seasonboard.prospect import Prospect
from seasonboard.scope import Scope, Settings
from seasonboard.sentence import sentence


def pitch_handout(
    source: AnswerSource,
    scope: Scope,
    making: Making,
    terms: ReleaseTerms,
    options: PitchOptions | None = None,
) -> Handout:
    """Return the page, and what the ledger is to keep of it.

    Raises:
        RefusedError: A small count could be worked out, alone or with earlier handouts.
        ScopeError: Something is asked that cannot be planned.
        StoreError: The store could not be read.
    """
    threshold = terms.policy.threshold
    sources, is_narrowed = _sources(source, scope, options or PitchOptions(), threshold)
    release = DocumentRelease(terms.policy)
    declare(release, sources)
    verdict = release_verdict(release, terms, scope.through)
    masked = MaskedPitch(sources, verdict, is_narrowed=is_narrowed)
    document = _document(masked, _facts(source, scope, making), making.kind)
    whole = " · ".join(phrase.text for phrase in sentence(scope, source.scope_values))
    now = datetime.now(UTC).astimezone()
    entry = verdict.ledger_entry(now, kind=making.kind, scope=whole, through=scope.through)
    return Handout(document, entry)


def _sources(
    source: AnswerSource, scope: Scope, options: PitchOptions, threshold: int
) -> tuple[PitchSources, bool]:
    """Ask all that is needed; also say whether small teams were left out of those like served."""
    evidence = source.pitch_evidence(scope, options)
    planned = source.pitch_planned(evidence, scope, options)
    large = tuple(team.team for team in planned.teams if team.athletes >= threshold)
    is_narrowed = not planned.is_given and 0 < len(large) < len(planned.teams)
    if is_narrowed:
        narrowed = replace(options, prospect=Prospect(large))
        again = source.pitch_planned(evidence, scope, narrowed)
        planned = with_words(replace(again, is_given=False), source.scope_values)
    timed = source.ask(TURNAROUND, scope, TurnaroundOptions(by=OrdersBy.DEPARTMENT))
    sizes = [(group.key, group.orders) for group in timed.groups if group.key]
    return PitchSources(
        planned,
        evidence.compared,
        evidence.remade,
        evidence.taken,
        _followed(source, scope, threshold),
        timed,
        neutral_labels(sizes),
    ), is_narrowed


def _followed(source: AnswerSource, scope: Scope, threshold: int) -> GamesAnswer | None:
    """Return the Games answer by the first clock on which both groups have enough injuries."""
    clocks = (Clock.GAMES, Clock.SESSIONS)
    for clock in clocks[1:] if scope.setting is Settings.PRACTICES else clocks:
        options = GamesOptions(clock, min_at_risk=max(MIN_AT_RISK, threshold))
        answer = source.ask(GAMES, scope, options)
        if all(group.injuries >= threshold for group in answer.groups):
            return answer
    return None


def _facts(source: AnswerSource, scope: Scope, making: Making) -> Facts:
    """Return the facts without departments and teams: how many there are is told."""
    plain = replace(scope, departments=None, teams=None)
    whole = facts(source, plain, making)
    which, narrowed = [], []
    for part, name in ((scope.teams, "team"), (scope.departments, "department")):
        if part:
            which.append(f"{words.plural(len(part), name)} served")
            narrowed.append(f"--{name} …")
    phrase = whole.scope
    if which:
        phrase = " · ".join([" at ".join(which), *phrase.split(" · ")[2:]])
    return replace(whole, scope=phrase, command=" ".join([whole.command, *narrowed]))


def _document(masked: MaskedPitch, origin: Facts, kind: str) -> Document:
    sections = (
        *plan_sections(masked),
        *evidence_sections(masked),
        Section("What we may say", sentences.may_say(masked)),
        Section("What we do not say, and what is missing", sentences.may_not_say(masked)),
        Section("Published rates used", sentences.published(masked)),
    )
    return Document(
        kind=kind,
        title=sentences.title(masked),
        of=sentences.of_line(masked, origin),
        lead=sentences.lead(masked),
        notice=sentences.notice(masked),
        sections=tuple(section for section in sections if section.parts),
        facts=origin,
        cautions=sentences.CAUTIONS,
        keep_in_mind=sentences.keep_in_mind(masked),
        sources=sentences.SOURCES,
    )
