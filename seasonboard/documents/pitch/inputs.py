"""What would change a plan most, and the numbers that it rests on."""

from seasonboard.answers.fields import Kind
from seasonboard.answers.pitch.inputs import OWN as OWN_RECORDS
from seasonboard.answers.pitch.parts import Basis, Input, Swing
from seasonboard.answers.pitch.words import value_words
from seasonboard.documents.model import Cell, Column, Paragraph, Part, Table
from seasonboard.documents.pitch.masked import HIDDEN, MaskedPitch, tenths

EXPECTED = "injuries to expect"


def swings(masked: MaskedPitch) -> tuple[Part, ...]:
    """Return what would change the games kept; how far own rates may be off stands in no figure.

    The limits of an own rate tell how many injuries it rests on.
    """
    pitch = masked.sources.pitch
    if not pitch.swings or not masked.has_promise:
        return (Paragraph("What would change the games kept most is not known: no effect of a "
                          "guard is shown yet, or it rests on counts that may not be told."),
               )  # fmt: skip
    has_own = any(
        each.baseline.basis in {Basis.OWN, Basis.OWN_BOTH}
        for team in pitch.teams
        for each in team.settings
    )
    told = [s for s in pitch.swings if not (has_own and s.input == EXPECTED)]
    units = {each.name: each.unit for each in pitch.inputs}
    columns = (
        Column("one at a time"),
        Column("low end"),
        Column("high end"),
        Column("games kept at low", Kind.TENTHS),
        Column("at high", Kind.TENTHS),
    )
    table = Table("what changes it", "Games kept on average with one number at its low and high "
                  "end, the others in the middle.", columns,
                  tuple(_swing(each, units) for each in told))  # fmt: skip
    if pitch.swings[0].input == EXPECTED and has_own:
        return (Paragraph("What would change the games kept most is how many injuries there are: "
                          "the ranges above hold how far that may be off."), table)  # fmt: skip
    return (Paragraph(pitch.swing_sentence), table)


def _swing(found: Swing, units: dict[str, str]) -> tuple[Cell, ...]:
    unit = units.get(found.input, "")
    ends = (value_words(found.low, unit), value_words(found.high, unit))
    return (found.input, *ends, tenths(found.kept_at_low), tenths(found.kept_at_high))


def inputs(masked: MaskedPitch) -> Table:
    """Return the numbers that the plan rests on, each with where it is from."""
    columns = (
        Column("the plan rests on"),
        Column("value"),
        Column("from"),
        Column("to"),
        Column("unit"),
        Column("where it is from"),
    )
    rows = tuple(_input(masked, each) for each in masked.sources.pitch.inputs)
    return Table("what it rests on", "The numbers it rests on.", columns, rows)


def _input(masked: MaskedPitch, found: Input) -> tuple[Cell, ...]:
    source = "own records" if found.source.startswith(OWN_RECORDS) else found.source
    if source.startswith("assumed"):
        source = "assumed: too little is recorded"
    if not masked.has_input(found):
        return (found.name, HIDDEN, HIDDEN, HIDDEN, found.unit, source)
    ends = (None, None) if found.low == found.high else (found.low, found.high)
    told = (value_words(each, found.unit) for each in (found.value, *ends))
    return (found.name, *told, found.unit, found.why or source)
