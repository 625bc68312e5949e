"""How an offer was worked out: its prints, what it rests on, and where methods come from."""

from seasonboard.answers.cards import read_cards
from seasonboard.answers.fields import Field
from seasonboard.answers.pitch.figures import PRINTS, known_figures
from seasonboard.answers.pitch.lines import published_sources
from seasonboard.answers.pitch.parts import Input, PitchAnswer
from seasonboard.answers.pitch.tables import INPUTS
from seasonboard.documents.described import as_held, as_read, as_rounded, document_table
from seasonboard.documents.model import Cell, Part, Points, Section, Table
from seasonboard.documents.proposal.outlook import RANGES

_NOT_PUBLISHED = ("estimated", "Our own", "Counts of Take-up")
_CARDS = (*read_cards("pitch").values(), read_cards("compare")["same session"])
SOURCES = (
    *(
        f"{card.title}: {card.source}"
        for card in _CARDS
        if not any(mark in card.source for mark in _NOT_PUBLISHED)
    ),
    "Small counts: the cell size suppression policy of the United States' Medicare agency "
    "(2020) for 11; Hundepool et al. (2012), Statistical Disclosure Control, chapter 4.",
)
"""Where methods come from."""


def plan_sections(pitch: PitchAnswer) -> tuple[Section, ...]:
    """Return the sections that say how the offer was worked out, in their order."""
    sections = [Section("How it was worked out", _season(pitch))]
    if sources := published_sources(pitch.planned):
        lines = tuple(f"{source}." for source in sources)
        sections.append(Section("Published rates used", (Points(lines),)))
    return tuple(sections)


def _season(pitch: PitchAnswer) -> tuple[Part, ...]:
    prints = document_table(
        *(PRINTS, pitch, "prints", "Prints of one season."),
        only=RANGES,
        rows=known_figures(pitch, "prints"),
        cell=as_rounded,
    )
    return (prints, _inputs(pitch))


def _inputs(pitch: PitchAnswer) -> Table:
    def cell(field: Field, one: Input) -> Cell:
        is_figure = field.name in {"value", "low", "high"}
        return as_held(field, one) if is_figure else as_read(field, one)

    return document_table(
        *(INPUTS, pitch, "what it rests on", "The numbers it rests on."), cell=cell
    )
