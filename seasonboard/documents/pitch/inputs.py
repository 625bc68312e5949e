"""What would change a plan most, and the numbers that it rests on."""

from seasonboard.answers.fields import Field
from seasonboard.answers.pitch.inputs import OWN as OWN_RECORDS
from seasonboard.answers.pitch.parts import Basis, Input
from seasonboard.answers.pitch.tables import INPUTS, SWINGS
from seasonboard.documents.described import as_read, as_rounded, document_table
from seasonboard.documents.model import Cell, Paragraph, Part, Table
from seasonboard.documents.pitch.masked import HIDDEN, MaskedPitch

EXPECTED = "injuries to expect"


def swings(masked: MaskedPitch) -> tuple[Part, ...]:
    """Return what would change the games kept; how far own rates may be off stands in no figure.

    The interval of an own rate tells how many injuries it rests on.
    """
    pitch = masked.sources.pitch
    if not pitch.swings or not masked.has_promise:
        why = "no effect of a guard is shown yet, or it rests on counts that may not be told."
        return (Paragraph(f"What would change the games kept most is not known: {why}"),)
    has_own = any(
        setting.baseline.basis in {Basis.OWN, Basis.OWN_BOTH}
        for team in pitch.teams
        for setting in team.settings
    )
    table = document_table(
        *(SWINGS, pitch, "what changes it"),
        "Games kept on average with one number at its low and high end, the others as planned.",
        rows=[swing for swing in pitch.swings if not (has_own and swing.input == EXPECTED)],
        cell=as_rounded,
    )
    sentence = pitch.swing_sentence
    if pitch.swings[0].input == EXPECTED and has_own:
        sentence = (
            "What would change the games kept most is how many injuries there are: the ranges "
            "above hold how far that may be off."
        )
    return (Paragraph(sentence), table)


def inputs(masked: MaskedPitch) -> Table:
    """Return the numbers that the plan rests on, each with where it is from."""

    def cell(field: Field, one: Input) -> Cell:
        if field.name == "source":
            return _source(masked, one)
        if field.name in {"value", "low", "high"} and not masked.has_input(one):
            return HIDDEN
        is_end = field.name in {"low", "high"}
        return "–" if is_end and one.low == one.high else as_read(field, one)

    caption = "The numbers it rests on."
    return document_table(INPUTS, masked.sources.pitch, "what it rests on", caption, cell=cell)


def _source(masked: MaskedPitch, one: Input) -> str:
    source = "own records" if one.source.startswith(OWN_RECORDS) else one.source
    if source.startswith("assumed"):
        source = "assumed: too little is recorded"
    return one.why or source if masked.has_input(one) else source
