"""Which sheet is which table: by its name and headings, by a kept mapping, or by a proposal."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.errors import IntakeError, Problem
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.cleaning import cleaned
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.header import fits, numbered, own_text
from seasonboard.store.intake.mapping import (
    SheetMapping,
    SourceMapping,
    changed_headings,
    read_mappings,
    same_headings,
)
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.sources import OpenSheet, left_out, no_tables, unnamed
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES

_ALIKE, _ALIKE_OF_ONE_NAME = 0.76, 0.4
"""A sheet that shares this part of its headings with a mapping is that mapping's, changed; less
will do when the file is called as the mapping's was but for its numbers."""


@dataclass(frozen=True, slots=True)
class TableSource:
    """The rows of one table in one sheet; `mapping` says how, None in the table's own words."""

    table: str
    label: str
    sha256: str
    grid: Grid
    mapping: SheetMapping | None = None


@dataclass(frozen=True, slots=True)
class AssignedSheets:
    """What could be assigned, and the sheets that a mapping has to be proposed for."""

    sources: list[TableSource]
    strangers: list[OpenSheet]


def assign(sheets: Sequence[OpenSheet], options: LoadOptions, findings: Findings) -> AssignedSheets:
    """Assign sheets to tables.

    Args:
        sheets: As they were opened.
        options: Names a mapping, and says whether others may be proposed.
        findings: Takes a problem for every sheet that cannot be assigned, and for headings that are
            not those of the mapping any more.

    Raises:
        IntakeError: A mapping cannot be read, or still has open questions.
    """
    mappings = read_mappings(options.mappings)
    if options.mapping is not None:
        mappings = [one for one in mappings if one.name == options.mapping]
    sources: list[TableSource] = []
    strangers: list[OpenSheet] = []
    for sheet in sheets:
        own = sheet.table is not None and fits(TABLES[sheet.table], sheet.grid)
        mapping = _recognised(sheet, mappings, findings) if mappings else None
        if own and (mapping is None or options.mapping is None):
            sources.append(TableSource(str(sheet.table), sheet.label, sheet.sha256, sheet.grid))
        elif mapping is not None:
            sources += _mapped(sheet, mapping, findings)
        elif not _changed(sheet, mappings, options, findings):
            strangers.append(sheet)
    return AssignedSheets(sources, _still_strange(strangers, sources, options, findings))


def _recognised(
    sheet: OpenSheet, mappings: Sequence[SourceMapping], findings: Findings
) -> SourceMapping | None:
    headings = sheet.grid.headings
    fitting = [one for one in mappings if any(same_headings(part, headings) for part in one.sheets)]
    if len(fitting) > 1:
        names = ", ".join(one.name for one in fitting)
        said = f"fits several mappings ({names}); name one with --mapping."
        findings.refuse(Problem(sheet.label, sheet.grid.header_row, None, None, said))
    return fitting[0] if fitting else None


def _mapped(sheet: OpenSheet, mapping: SourceMapping, findings: Findings) -> list[TableSource]:
    if mapping.questions:
        problems = [
            Problem(f"mapping {mapping.name}", None, None, None, q) for q in mapping.questions
        ]
        hint = "Answer them in that mapping and take its list of questions out."
        said = f"The mapping “{mapping.name}” still has open questions."
        raise IntakeError(said, problems, hint)
    parts = [one for one in mapping.sheets if same_headings(one, sheet.grid.headings)]
    said = f"was read with the mapping “{mapping.name}”, as {', '.join(p.table for p in parts)}."
    findings.note(Problem(sheet.label, None, None, None, said))
    return sources_of(sheet, parts, findings)


def sources_of(
    sheet: OpenSheet, parts: Sequence[SheetMapping], findings: Findings
) -> list[TableSource]:
    """Return one source per table that a sheet holds, each under a label of its own."""
    sources = []
    for place, part in enumerate(parts):
        label = sheet.label
        if place:
            of = "".join(f" {value}" for value in part.constants.values())
            label = f"{sheet.label} › {part.table}{of}"
            label = label if label not in findings.labels else f"{label} ({place + 1})"
            findings.labels.append(label)
        sources.append(TableSource(part.table, label, sheet.sha256, sheet.grid, part))
        findings.grouped.add(findings.labels.index(label))
    return sources


def _changed(
    sheet: OpenSheet, mappings: Sequence[SourceMapping], options: LoadOptions, findings: Findings
) -> bool:
    """Stop at headings that are nearly those of a mapping; say what changed and what to do."""
    alike = [
        (*changed_headings(part, sheet.grid.headings), part, mapping)
        for mapping in mappings
        for part in mapping.sheets
    ]
    if not alike:
        return False
    gone, new, share, part, mapping = max(alike, key=lambda one: one[2])
    called = _without_numbers(part.file) == _without_numbers(sheet.path.name)
    if share < (_ALIKE_OF_ONE_NAME if called else _ALIKE) and options.mapping is None:
        return False
    parts = []
    if gone:
        parts.append(f"gone: {', '.join(f'“{one}”' for one in gone)}")
    if new:
        parts.append(f"new: {', '.join(f'“{one}”' for one in new)}")
    path = options.mappings / f"{mapping.name}.toml" if options.mappings else mapping.name
    said = f"has other headings than the mapping “{mapping.name}” ({'; '.join(parts)}). Put the "
    said += f"headings back, change headings and columns in {path}, or move that file away to have "
    said += "a new mapping proposed."
    findings.refuse(Problem(sheet.label, sheet.grid.header_row, None, None, said))
    return True


def _without_numbers(name: str) -> str:
    return " ".join(re.sub(r"[0-9]+", " ", folded(name)).split())


def _still_strange(
    strangers: list[OpenSheet], sources: list[TableSource], options: LoadOptions, findings: Findings
) -> list[OpenSheet]:
    """Tell the sheets that are no table, or keep those that a mapping may be proposed for."""
    asked = []
    inside = [sheet for sheet in strangers if sheet.in_folder and sheet.table is None]
    nothing = not sources and len(inside) == len(strangers)
    for sheet in strangers:
        if options.propose and (not sheet.in_folder or nothing or sheet.table is not None):
            asked.append(sheet)
        elif sheet.table is not None:  # its own words, nearly: the header tells what is wrong
            sources.append(TableSource(sheet.table, sheet.label, sheet.sha256, sheet.grid))
        elif not sheet.in_folder:
            findings.refuse(unnamed(sheet))
        elif not nothing:
            findings.note(left_out(sheet))
    if nothing and not options.propose:
        for folder in dict.fromkeys(sheet.path.parent for sheet in inside):
            findings.refuse(no_tables(folder))
    return asked


def text_of(source: TableSource, findings: Findings) -> pl.DataFrame | None:
    """Return the rows of one source as clean text under its table's column names.

    Returns:
        The columns it has, `file_no` and `file_row`; None when the header cannot be used.
    """
    table = TABLES[source.table]
    if source.mapping is None:
        return own_text(table, source.grid, source.label, findings)
    return _mapped_text(table, source.grid, source.mapping, source.label, findings)


def _mapped_text(
    table: StoredTable, grid: Grid, mapping: SheetMapping, label: str, findings: Findings
) -> pl.DataFrame:
    places = {folded(heading): column for heading, column in grid.places.items()}
    cells = {
        name: _joined([places[folded(one)] for one in headings])
        for name, headings in mapping.columns.items()
    }
    text = grid.body.select("file_row", **cells)
    if mapping.skip_without:
        text = text.filter(pl.col(mapping.skip_without).is_not_null())
    if cells:
        text = text.filter(~pl.all_horizontal(pl.col(list(cells)).is_null()))
    constants = {
        name: pl.lit(value) for name, value in mapping.constants.items() if name not in cells
    }
    text = cleaned(text, label, findings).with_columns(**constants)
    for column, known in mapping.values.items():
        text = _translated(text, column, known)
    names = [name for name in table.names if name in text.columns]
    others = [name for name in text.columns if name not in names]
    return numbered(text.select(*others, *names), label, findings)


def _joined(columns: list[str]) -> pl.Expr:
    if len(columns) == 1:
        return pl.col(columns[0])
    joined = pl.concat_str(columns, separator=" ", ignore_nulls=True)
    return pl.when(joined != "").then(joined)


def _translated(text: pl.DataFrame, column: str, known: Mapping[str, str]) -> pl.DataFrame:
    """Replace values as the mapping says; an athlete's may be found under the name."""
    name = "athlete_name" if column == "athlete" and "athlete_name" in text.columns else column
    if name not in text.columns:
        return text
    meant = {
        one: known[folded(one)]
        for one in text[name].drop_nulls().unique().to_list()
        if folded(one) in known
    }
    turned = pl.col(name).replace_strict(meant, default=None, return_dtype=pl.String)
    if name == column:
        return text.with_columns(pl.coalesce(turned, name).alias(column))
    held = pl.col("athlete") if "athlete" in text.columns else pl.lit(None, pl.String)
    return text.with_columns(athlete=pl.coalesce(held, turned))
