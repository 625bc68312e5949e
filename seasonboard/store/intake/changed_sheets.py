"""Sheets that are nearly those of a kept mapping: what changed, and what can be carried over."""

import re
from collections.abc import Sequence
from dataclasses import replace

from seasonboard.errors import Problem
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.mapping import SheetMapping, SourceMapping, changed_headings
from seasonboard.store.intake.problems import Findings, quoted
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.text_columns import folded

_ALIKE, _ALIKE_OF_ONE_NAME = 0.76, 0.4
"""A sheet that shares this part of its headings with a mapping is that mapping's, changed; less
will do when the file is called as the mapping's was but for its numbers."""


def alike_mapping(
    sheet: OpenSheet, mappings: Sequence[SourceMapping], options: LoadOptions
) -> tuple[SheetMapping, SourceMapping] | None:
    """Return the mapping that a sheet of records is nearly of; None when there is none."""
    alike = [
        (changed_headings(part, sheet.grid.headings)[2], part, mapping)
        for mapping in mappings
        for part in mapping.sheets
        if not part.layout
    ]
    if not alike or sheet.date_grid is not None:
        return None
    share, part, mapping = max(alike, key=lambda one: one[0])
    called = without_numbers(part.file) == without_numbers(sheet.path.name)
    if share < (_ALIKE_OF_ONE_NAME if called else _ALIKE) and options.mapping is None:
        return None
    return part, mapping


def with_carried(sheet: OpenSheet, options: LoadOptions) -> LoadOptions:
    """Return the answers of a command with those that a kept mapping still gives for a sheet."""
    if sheet.alike is None:
        return options
    part, _ = sheet.alike
    here = {folded(one): one for one in sheet.grid.headings}
    columns = {
        column: " + ".join(here[folded(one)] for one in many)
        for column, many in part.columns.items()
        if all(folded(one) in here for one in many)
    }
    constants = dict(part.constants)
    if part.title:  # one sheet a team: the team is that of the title
        constants.pop("team", None)
    return replace(
        options,
        columns=columns | dict(options.columns),
        constants=constants | dict(options.constants),
        dates=options.dates or part.dates,
    )


def renamed(sheet: OpenSheet) -> tuple[str, str] | None:
    """Return the one column whose heading is gone, and the one heading that is new."""
    if sheet.alike is None:
        return None
    part, _ = sheet.alike
    here = {folded(one) for one in sheet.grid.headings}
    gone = [column for column, many in part.columns.items() if folded(many[0]) not in here]
    _, new, _ = changed_headings(part, sheet.grid.headings)
    return (gone[0], new[0]) if len(gone) == len(new) == 1 else None


def changes(sheet: OpenSheet, part: SheetMapping) -> str:
    """Return which headings are gone and which are new, in words; nothing for none."""
    gone, new, _ = changed_headings(part, sheet.grid.headings)
    parts = [f"{word}: {quoted(many)}" for word, many in (("gone", gone), ("new", new)) if many]
    return "; ".join(parts)


def refuse_changed(
    sheet: OpenSheet, part: SheetMapping, mapping: SourceMapping, findings: Findings
) -> None:
    """Stop at headings that are not those of a mapping that was named; say what to do."""
    said = f"has other headings than the mapping “{mapping.name}” ({changes(sheet, part)}). Put "
    said += "the headings back, change headings and columns in that mapping, or leave --mapping "
    said += "away to have a new one proposed."
    findings.refuse(Problem(sheet.label, sheet.grid.header_row, None, None, said))


def without_numbers(name: str) -> str:
    """Return the words of a file's name, by which next week's file is known."""
    return " ".join(re.sub(r"[0-9]+", " ", folded(name)).split())
