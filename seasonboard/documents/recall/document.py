"""The recall sheet: who wears what was made alike, by team, to be ticked off."""

from seasonboard.answers.base import CAUTION
from seasonboard.answers.cards import read_cards
from seasonboard.answers.questions import RECALL
from seasonboard.answers.recall.parts import RecallAnswer, RecallOptions
from seasonboard.answers.recall.report import GUARDS
from seasonboard.answers.row_fields import frame_rows
from seasonboard.answers.source import AnswerSource
from seasonboard.documents.described import document_table, workbook_table
from seasonboard.documents.model import Document, Section
from seasonboard.documents.origin import Making, department_label, facts
from seasonboard.documents.week.document import COVERED, OPEN
from seasonboard.scope import Scope

TITLE = "Recall sheet"
KEEP = (
    "Whether a guard is taken back, inspected or worn on is decided by those responsible for it, "
    "not by this list."
)


def recall_sheet(
    source: AnswerSource, scope: Scope, making: Making, options: RecallOptions | None = None
) -> Document:
    """Return the list of guards made alike, team by team; names are covered as the source does.

    Raises:
        ScopeError: No guard is of the lot.
        StoreError: The store could not be read.
    """
    answer: RecallAnswer = source.ask(RECALL, scope, options)
    cards = read_cards("recall")
    return Document(
        kind=making.kind,
        title=TITLE,
        of=department_label(source.scope_values, scope),
        lead=answer.summary.answer,
        notice=COVERED if source.is_covered else OPEN,
        sections=_sections(answer),
        facts=facts(source, answer.summary.scope, making),
        cautions=(CAUTION, "Local rules come first."),
        keep_in_mind=(KEEP, *answer.summary.caveats[:-1]),
        sources=tuple(f"{card.title}: {card.source}" for card in cards.values()),
        sheets=(workbook_table(GUARDS, answer, "guards, all", "Every guard"),),
    )


def _sections(answer: RecallAnswer) -> tuple[Section, ...]:
    """Return a section for each team of those who have one in use or on its way."""
    sections = []
    for (team,), guards in answer.in_hand.group_by("team", maintain_order=True):
        table = document_table(
            *(GUARDS, answer, f"guards {team}", "In use or on their way"),
            only=("name", "guard", "kind", "side", "state", "next_game_on", "due_on", "progress"),
            headings={"name": "athlete"},
            rows=frame_rows(guards),
        )
        sections.append(Section(str(team), (table,)))
    return tuple(sorted(sections, key=lambda section: section.heading))
