"""Sheets that a kept mapping reads, and what is wished of them otherwise than it says."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from seasonboard.errors import IntakeError, Problem
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.changed_sheets import without_numbers
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.legends import MARK, marks_answered
from seasonboard.store.intake.mapping import LEFT_OUT, SheetMapping, SourceMapping, same_headings
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.title_words import wordy
from seasonboard.stored_tables import TABLES
from seasonboard.terms import nearest

_OF_GRIDS = ("team", "season", "setting")
"""Values for all rows of a grid, whatever columns its table has."""
_TIMES = ("time", "am", "pm", "blank")
"""Answers that are parts of a mapping by themselves."""


@dataclass(frozen=True, slots=True)
class KeptSheet:
    """One sheet that a kept mapping reads: its parts as they are kept, and as they are wished."""

    sheet: OpenSheet
    mapping: SourceMapping
    before: tuple[SheetMapping, ...]
    parts: tuple[SheetMapping, ...]


def recognised(
    sheet: OpenSheet, mappings: Sequence[SourceMapping], findings: Findings
) -> SourceMapping | None:
    """Return the kept mapping that a sheet is of; None where there is none or more than one."""
    fitting = [one for one in mappings if any(_is_of(part, sheet) for part in one.sheets)]
    if len(fitting) > 1:
        names = ", ".join(one.name for one in fitting)
        said = f"fits several mappings ({names}); name one with --mapping."
        findings.refuse(Problem(sheet.label, sheet.grid.header_row, None, None, said))
    return fitting[0] if fitting else None


def title_of(sheet: OpenSheet) -> str:
    """Return what stands above a sheet's table, or else its name."""
    return sheet.grid.titles[0] if sheet.grid.titles else sheet.name


def left_out_mapping(sheet: OpenSheet) -> SheetMapping:
    """Return the part of a mapping that leaves a sheet out, known again by its name."""
    return SheetMapping(LEFT_OUT, (), {}, sheet.path.name, layout=LEFT_OUT, title=sheet.name)


def _is_of(part: SheetMapping, sheet: OpenSheet) -> bool:
    """Say whether a kept mapping is this sheet's: by headings, or of a grid by layout and title."""
    grid = sheet.date_grid
    if part.table == LEFT_OUT:
        named = without_numbers(part.file) == without_numbers(sheet.path.name)
        return named and part.title == sheet.name
    if grid is None or not part.layout:
        titled = not part.title or wordy(part.title) == wordy(title_of(sheet))
        alike = grid is None and not part.layout and titled
        return alike and same_headings(part, sheet.grid.headings)
    if grid.layout != part.layout or not same_headings(part, grid.labels):
        return False
    if part.title:
        return bool(grid.titles) and wordy(grid.titles[0]) == wordy(part.title)
    return without_numbers(part.file) == without_numbers(sheet.path.name)


def kept_sheet(
    sheet: OpenSheet, mapping: SourceMapping, options: LoadOptions, findings: Findings
) -> KeptSheet:
    """Return how a kept mapping reads a sheet, with what is wished otherwise.

    Raises:
        IntakeError: The mapping still has open questions.
    """
    if mapping.questions:
        problems = [
            Problem(f"mapping {mapping.name}", None, None, None, q) for q in mapping.questions
        ]
        hint = "Answer them in that mapping and take its list of questions out."
        said = f"The mapping “{mapping.name}” still has open questions."
        raise IntakeError(said, problems, hint)
    before = tuple(one for one in mapping.sheets if _is_of(one, sheet))
    parts = _as_wished(before, sheet, options.of_sheet(sheet.name))
    said = f"was read with the mapping “{mapping.name}”, as {', '.join(p.table for p in parts)}."
    findings.note(Problem(sheet.label, None, None, None, said))
    return KeptSheet(sheet, mapping, before, parts)


def changed_mappings(kept: Sequence[KeptSheet]) -> list[tuple[SourceMapping, str]]:
    """Return each kept mapping that is wished otherwise, and what it reads otherwise, in words."""
    changed: dict[str, SourceMapping] = {}
    lines: dict[str, list[str]] = {}
    for one in kept:
        if one.parts == one.before:
            continue
        now = changed.get(one.mapping.name, one.mapping)
        rest = [part for part in now.sheets if part not in one.before]
        changed[now.name] = replace(now, sheets=(*rest, *one.parts))
        head = f"Changed mapping “{now.name}”:"
        lines.setdefault(now.name, [head]).extend(_lines(one))
    return [(mapping, "\n".join(lines[name]) + "\n") for name, mapping in changed.items()]


def _lines(one: KeptSheet) -> list[str]:
    lines = []
    for part in one.parts:
        read = [f"{name} from “{' + '.join(many)}”" for name, many in part.columns.items()]
        read += [f"{name} is {value} in all rows" for name, value in part.constants.items()]
        read += [f"{MARK}{one} is {value}" for one, value in part.values.get("mark", {}).items()]
        lines.append(f"  {one.sheet.label} → {part.table}: {', '.join(read) or 'nothing'}")
    return lines


def _as_wished(
    parts: tuple[SheetMapping, ...], sheet: OpenSheet, options: LoadOptions
) -> tuple[SheetMapping, ...]:
    if any(part.table == LEFT_OUT for part in parts):
        return parts
    if sheet.name in options.leave_out:
        return (left_out_mapping(sheet),)
    spelled = {one.casefold(): one for one in _headings(sheet)}
    for name in options.leave_out:
        parts = tuple(_without(part, name) for part in parts)
    for given, heading in options.columns.items():
        wanted = _parted(heading)
        if all(one.casefold() in spelled for one in wanted):
            many = tuple(spelled[one.casefold()] for one in wanted)
            parts = tuple(_with_column(part, given, many) for part in parts)
    for given, value in options.constants.items():
        parts = tuple(_with_constant(part, given, value) for part in parts)
    return tuple(_with_marks(part, options) for part in parts)


def refuse_unknown(kept: Sequence[KeptSheet], options: LoadOptions, findings: Findings) -> None:
    """Refuse wishes for headings that none of the sheets has."""
    there = [heading for one in kept for heading in _headings(one.sheet)]
    spelled = {one.casefold() for one in there}
    for given, heading in options.columns.items():
        for one in _parted(heading):
            if one.casefold() not in spelled:
                said = f"is no heading here; there are: {', '.join(dict.fromkeys(there))}."
                place = (kept[0].sheet.label, kept[0].sheet.grid.header_row)
                findings.refuse(Problem(*place, given, one, said, nearest(one, there)))


def _headings(sheet: OpenSheet) -> tuple[str, ...]:
    return tuple(sheet.date_grid.labels if sheet.date_grid else sheet.grid.headings)


def _parted(heading: str) -> list[str]:
    return [one.strip() for one in heading.split("+") if one.strip()]


def _without(part: SheetMapping, heading: str) -> SheetMapping:
    columns = {
        name: left
        for name, many in part.columns.items()
        if (left := tuple(one for one in many if one != heading))
    }
    stages, sites = (
        {name: meant for name, meant in named.items() if name != heading}
        for named in (part.stages, part.sites)
    )
    return replace(part, columns=columns, stages=stages, sites=sites)


def _with_column(part: SheetMapping, given: str, wanted: tuple[str, ...]) -> SheetMapping:
    table, _, column = given.rpartition(".")
    is_meant = table in {"", part.table} and column in own_columns(TABLES[part.table])
    if not is_meant and column not in part.columns:
        return part
    for heading in wanted:
        part = _without(part, heading)
    columns = {name: many for name, many in part.columns.items() if name != column}
    constants = {name: value for name, value in part.constants.items() if name != column}
    return replace(
        part, columns=columns | ({column: wanted} if wanted else {}), constants=constants
    )


def _with_marks(part: SheetMapping, options: LoadOptions) -> SheetMapping:
    marks = marks_answered(options.constants, part.table) if part.layout else {}
    own = {**part.values.get("mark", {}), **marks}
    return replace(part, values={**part.values, "mark": own}) if marks else part


def _with_constant(part: SheetMapping, given: str, value: str) -> SheetMapping:
    table, _, name = given.rpartition(".")
    if table not in {"", part.table}:
        return part
    if name in _TIMES:
        wished: dict[str, Any] = {name: value}
        return replace(part, **wished) if getattr(part, name) else part
    if name not in own_columns(TABLES[part.table]) and not (part.layout and name in _OF_GRIDS):
        return part
    columns = {column: many for column, many in part.columns.items() if column != name}
    return replace(part, columns=columns, constants={**part.constants, name: value})
