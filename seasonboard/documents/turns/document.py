"""The list of drawn turns: which guard is made in which week, for the shop and the department."""

from itertools import groupby

from seasonboard.answers.base import CAUTION
from seasonboard.answers.cards import read_cards
from seasonboard.answers.questions import TURNS
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.turns.answer import NEVER, RESEARCH
from seasonboard.answers.turns.parts import TurnsAnswer
from seasonboard.answers.turns.report import TURNS as TURN_TABLE
from seasonboard.answers.turns.report import draw_sentence
from seasonboard.documents.described import document_table, workbook_table
from seasonboard.documents.model import Document, Paragraph, Section
from seasonboard.documents.origin import Making, department_label, facts
from seasonboard.documents.week.document import COVERED, OPEN
from seasonboard.scope import Scope

TITLE = "Turns for the shop"
KEEP = (
    "Make guards in this order. One that is made out of turn is recorded as jumped, with the "
    "reason; the athlete keeps the turn that was drawn."
)


def turns_list(
    source: AnswerSource, scope: Scope, making: Making, _options: object = None
) -> Document:
    """Return the list of turns of every draw of the scope; names are covered as the source does.

    Raises:
        StoreError: The store could not be read.
    """
    answer = source.ask(TURNS, scope)
    cards = read_cards("turns")
    return Document(
        kind=making.kind,
        title=TITLE,
        of=department_label(source.scope_values, scope),
        lead=answer.summary.answer,
        notice=COVERED if source.is_covered else OPEN,
        sections=_sections(answer),
        facts=facts(source, scope, making),
        cautions=(RESEARCH, NEVER, CAUTION, "Local rules come first."),
        keep_in_mind=(KEEP,) if answer.turns else (),
        sources=tuple(f"{card.title}: {card.source}" for card in cards.values()),
        sheets=(workbook_table(TURN_TABLE, answer, "turns, all", "Every turn"),),
    )


def _sections(answer: TurnsAnswer) -> tuple[Section, ...]:
    """Return a section for each draw: how it was made, and its turns in their order."""
    sections = []
    for draw, group in groupby(answer.turns, lambda turn: turn.draw):
        turns = tuple(group)
        table = document_table(
            *(TURN_TABLE, answer, f"draw {draw}", "Turns in their order"),
            only=("week", "turn_on", "turn", "name", "team", "making", "state", "jump_reason"),
            headings={"turn_on": "week of", "name": "athlete", "state": "by now"},
            rows=[(turn, answer) for turn in turns],
        )
        sections.append(Section(f"Draw {draw}", (Paragraph(draw_sentence(turns[0])), table)))
    return tuple(sections)
