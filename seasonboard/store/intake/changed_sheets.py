"""Sheets that are nearly those of a kept mapping: what changed, and what can be carried over."""

import re
from collections.abc import Sequence

from seasonboard.errors import Problem
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.carried_answers import CarriedAnswers
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.mapping import SheetMapping, SourceMapping, changed_headings
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.sources import OpenSheet

_ALIKE, _ALIKE_OF_ONE_NAME = 0.76, 0.4
"""A sheet that shares this part of its headings with a mapping is that mapping's, changed; less
will do when the file is called as the mapping's was but for its numbers."""


def alike_mapping(
    sheet: OpenSheet, mappings: Sequence[SourceMapping], options: LoadOptions
) -> tuple[SheetMapping, SourceMapping] | None:
    """Return the mapping that a sheet of records is nearly of; None when there is none."""
    if sheet.date_grid is not None:
        return None
    alike = [
        (changed_headings(part, sheet.grid.headings)[2], part, mapping)
        for mapping in mappings
        for part in mapping.sheets
        if not part.layout
    ]
    if not alike:
        return None
    share, part, mapping = max(alike, key=lambda one: one[0])
    called = without_numbers(part.file) == without_numbers(sheet.path.name)
    if share < (_ALIKE_OF_ONE_NAME if called else _ALIKE) and options.mapping is None:
        return None
    return part, mapping


def carried_answers(sheet: OpenSheet, part: SheetMapping, mapping: SourceMapping) -> CarriedAnswers:
    """Return what of a kept mapping still holds for a sheet whose headings changed."""
    _, new, _ = changed_headings(part, sheet.grid.headings)
    here = {folded(one): one for one in sheet.grid.headings}
    kept = {
        column: " + ".join(here[folded(one)] for one in many)
        for column, many in part.columns.items()
        if all(folded(one) in here for one in many)
    }
    gone = {
        column: many[0]
        for column, many in part.columns.items()
        if column not in kept and folded(many[0]) not in here
    }
    constants = dict(part.constants)
    if part.title:  # one sheet a team: the team is that of the title
        constants.pop("team", None)
    return CarriedAnswers(mapping.name, kept, constants, part.dates, gone, tuple(new))


def refuse_changed(
    sheet: OpenSheet, part: SheetMapping, mapping: SourceMapping, findings: Findings
) -> None:
    """Stop at headings that are not those of a mapping that was named; say what to do."""
    gone, new, _ = changed_headings(part, sheet.grid.headings)
    shown = [
        f"{word}: {', '.join(f'“{one}”' for one in many)}"
        for word, many in (("gone", gone), ("new", new))
        if many
    ]
    said = f"has other headings than the mapping “{mapping.name}” ({'; '.join(shown)}). Put the "
    said += "headings back, change headings and columns in that mapping, or leave --mapping away "
    said += "to have a new one proposed."
    findings.refuse(Problem(sheet.label, sheet.grid.header_row, None, None, said))


def without_numbers(name: str) -> str:
    """Return the words of a file's name, by which next week's file is known."""
    return " ".join(re.sub(r"[0-9]+", " ", folded(name)).split())
