"""Which sheet is which table: by its name and headings, by a kept mapping, or by a proposal."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import polars as pl

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.changed_sheets import alike_mapping, refuse_changed
from seasonboard.store.intake.cleaning import cleaned
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.grid_sources import sources_of_grid
from seasonboard.store.intake.header import fits, numbered, own_text
from seasonboard.store.intake.kept_mappings import KeptSheet, kept_sheet, recognised
from seasonboard.store.intake.mapping import LEFT_OUT, SheetMapping, read_mappings
from seasonboard.store.intake.mapping_draft import SAMPLE, cells_of, share_of
from seasonboard.store.intake.problems import Findings, quoted
from seasonboard.store.intake.row_keys import UNREAD
from seasonboard.store.intake.schedules import with_clock, without_cancelled
from seasonboard.store.intake.sessions_by_day import SOFT, TIME_IS_PUT
from seasonboard.store.intake.site_columns import site_rows
from seasonboard.store.intake.sources import OpenSheet, TableSource, left_out, no_tables, unnamed
from seasonboard.store.intake.stage_columns import stage_rows
from seasonboard.store.intake.text_columns import distinct, filled_from, folded, joined_cells
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES

_DATED = r"^[0-9]{1,4}[-/.][0-9]{1,2}(?:[-/.][0-9]{1,4})?"


@dataclass(frozen=True, slots=True)
class AssignedSheets:
    """What could be assigned, and the sheets that a mapping has to be proposed for.

    `kept` are the sheets among those assigned that a kept mapping reads.
    """

    sources: list[TableSource]
    strangers: list[OpenSheet]
    kept: list[KeptSheet]


def assign(sheets: Sequence[OpenSheet], options: LoadOptions, findings: Findings) -> AssignedSheets:
    """Assign sheets to tables, by the mapping that `options` name or by all that are kept.

    `findings` takes a problem for every sheet that cannot be assigned, and for headings that are
    not those of the mapping any more.

    Raises:
        IntakeError: A mapping cannot be read, or still has open questions.
    """
    mappings = read_mappings(options.mappings)
    if options.mapping is not None:
        mappings = [one for one in mappings if one.name == options.mapping]
    sources: list[TableSource] = []
    strangers: list[OpenSheet] = []
    kept: list[KeptSheet] = []
    for sheet in sheets:
        own = sheet.table is not None and fits(TABLES[sheet.table], sheet.grid)
        mapping = recognised(sheet, mappings, findings) if mappings else None
        if own and (mapping is None or options.mapping is None):
            sources.append(TableSource(str(sheet.table), sheet.label, sheet.sha256, sheet.grid))
        elif mapping is not None:
            kept.append(kept_sheet(sheet, mapping, options, findings))
            sources += sources_of(sheet, kept[-1].parts, findings)
        else:
            alike = alike_mapping(sheet, mappings, options)
            if alike is None or (options.mapping is None and options.propose):
                strangers.append(replace(sheet, alike=alike))
            else:
                refuse_changed(sheet, *alike, findings)
    return AssignedSheets(sources, _still_strange(strangers, sources, options, findings), kept)


def sources_of(
    sheet: OpenSheet, parts: Sequence[SheetMapping], findings: Findings
) -> list[TableSource]:
    """Return one source per table that a sheet holds, each under a label of its own."""
    sources: list[TableSource] = []
    for nth, part in enumerate(parts):
        if part.table == LEFT_OUT:
            shown = quoted(sheet.grid.headings[:3])
            said = "" if sheet.date_grid else f"holds no records ({shown}); "
            findings.tell(sheet.label, f"{said}the sheet was left out.")
            continue
        if part.layout:
            sources += sources_of_grid(sheet, part, findings)
            continue
        label = sheet.label
        if nth:
            of = "".join(f" {value}" for name, value in part.constants.items() if name != SOFT)
            label = f"{sheet.label} › {part.table}{of}"
            label = label if label not in findings.labels else f"{label} ({nth + 1})"
            findings.labels.append(label)
        findings.grouped.add(findings.labels.index(label))
        sources.append(_source(sheet, part, label, findings))
    _tell_left_out(sheet, parts, findings)
    return sources


def _source(sheet: OpenSheet, part: SheetMapping, label: str, findings: Findings) -> TableSource:
    grid = sheet.grid
    if part.sites:
        grid = site_rows(grid, part.sites, label, findings)
        part = replace(part, headings=grid.headings, sites={})
    if part.stages:
        grid = stage_rows(grid, part, label, findings)
        own_names = {name: (name,) for name in grid.headings}
        part = replace(part, headings=grid.headings, columns=own_names, stages={})
    elif part.table == "sessions":
        grid = without_cancelled(grid, part, label, findings)
    return TableSource(part.table, label, sheet.sha256, grid, part)


def _tell_left_out(sheet: OpenSheet, parts: Sequence[SheetMapping], findings: Findings) -> None:
    """Tell the columns that nothing was read from, and which of them hold dates."""
    used = {folded(heading) for part in parts for many in part.columns.values() for heading in many}
    used |= {folded(heading) for part in parts for heading in (*part.stages, *part.sites)}
    unread = {
        one: cells.head(SAMPLE)
        for one in sheet.grid.headings
        if folded(one) not in used and len(cells := cells_of(sheet.grid, one))
    }
    if not unread or any(part.layout for part in parts):
        return
    many = ("the column", "was") if len(unread) == 1 else ("the columns", "were")
    said = f"{many[0]} {quoted(unread)} {many[1]} left out."
    dated = [one for one, cells in unread.items() if share_of(cells.str.contains(_DATED)) >= 0.5]
    if dated:
        said += f" Dates stand under {quoted(dated)}: are they meant for something?"
    findings.tell(sheet.label, said)


def _still_strange(
    strangers: list[OpenSheet], sources: list[TableSource], options: LoadOptions, findings: Findings
) -> list[OpenSheet]:
    """Tell the sheets that are no table, or keep those that a mapping may be proposed for."""
    proposable = []
    inside = [sheet for sheet in strangers if sheet.in_folder and sheet.table is None]
    nothing = not sources and len(inside) == len(strangers)
    for sheet in strangers:
        if options.propose and (not sheet.in_folder or nothing or sheet.table is not None):
            proposable.append(sheet)
        elif sheet.table is not None:  # its own words, nearly: the header tells what is wrong
            sources.append(TableSource(sheet.table, sheet.label, sheet.sha256, sheet.grid))
        elif not sheet.in_folder:
            findings.refuse(unnamed(sheet))
        elif not nothing:
            findings.note(left_out(sheet))
    if nothing and not options.propose:
        for folder in dict.fromkeys(sheet.path.parent for sheet in inside):
            findings.refuse(no_tables(folder))
    return proposable


def text_of(source: TableSource, findings: Findings) -> pl.DataFrame | None:
    """Return the rows of one source as clean text under its table's column names.

    They have the columns of the source, `file_no` and `file_row`; None when the header cannot be
    used.
    """
    table = TABLES[source.table]
    if source.mapping is None:
        return own_text(table, source.grid, source.label, findings)
    return _mapped_text(table, source.grid, source.mapping, source.label, findings)


def _mapped_text(
    table: StoredTable, grid: Grid, mapping: SheetMapping, label: str, findings: Findings
) -> pl.DataFrame:
    places = grid.folded_places
    columns = {
        name: [places[folded(one)] for one in headings]
        for name, headings in mapping.columns.items()
    }
    cells = {name: joined_cells(many) for name, many in columns.items()}
    body, more = grid.body, []
    if table.name == "sessions" and "starts_at" in columns:
        body = with_clock(body, columns["starts_at"], mapping, label, findings)
        more = [TIME_IS_PUT] if TIME_IS_PUT in set(body.columns) - cells.keys() else []
    text = body.select("file_row", *more, **cells)
    if mapping.skip_without:
        text = text.filter(pl.col(mapping.skip_without).is_not_null())
    if cells:
        text = text.filter(~pl.all_horizontal(pl.col(list(cells)).is_null()))
    constants = {
        name: pl.lit(value) for name, value in mapping.constants.items() if name not in cells
    }
    text = cleaned(text, label, findings).with_columns(**constants)
    used = {one for many in columns.values() for one in many}
    if unread := [one for one in grid.columns if one not in used]:
        joined = pl.concat_str(unread, separator="\x1f", ignore_nulls=True).alias(UNREAD)
        beside = grid.body.select("file_row", joined)
        text = text.join(beside, on="file_row", how="left", maintain_order="left")
    for column, known in mapping.values.items():
        text = _translated(text, column, known)
    names = [name for name in table.names if name in text.columns]
    others = [name for name in text.columns if name not in names]
    if grid.origins is not None:
        rows = grid.origins.select("file_row", "row", "cell").iter_rows()
        number = findings.labels.index(label)
        findings.origins[number] = {own: (row, cell) for own, row, cell in rows}
    return numbered(text.select(*others, *names), label, findings)


def _translated(text: pl.DataFrame, column: str, known: Mapping[str, str]) -> pl.DataFrame:
    """Replace values as the mapping says; an athlete's may be found under the name."""
    name = "athlete_name" if column == "athlete" and "athlete_name" in text.columns else column
    if name not in text.columns:
        return text
    meant = {one: known[folded(one)] for one in distinct(text[name]) if folded(one) in known}
    if name == column:
        return text.with_columns(pl.col(column).replace(meant))
    return filled_from(text, "athlete", name, meant)
