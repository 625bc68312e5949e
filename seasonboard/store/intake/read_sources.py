"""Everything that is read of a load: files opened, assigned to tables, and turned into values."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

import polars as pl

from seasonboard.errors import IntakeError
from seasonboard.load_options import LoadOptions
from seasonboard.sheet_readings import SheetReading
from seasonboard.store.bundles.loading import BundlePlan, lone_bundle, take_bundle
from seasonboard.store.intake.assigning import assign, sources_of, text_of
from seasonboard.store.intake.athlete_names import with_athletes
from seasonboard.store.intake.column_text import WrittenAs
from seasonboard.store.intake.guards_by_kind import with_guards
from seasonboard.store.intake.injury_reports import (
    with_injury_keys,
    with_known_sides,
    with_single_areas,
)
from seasonboard.store.intake.instants import settle_instants
from seasonboard.store.intake.kept_mappings import changed_mappings, refuse_unknown
from seasonboard.store.intake.keys import (
    refuse_keyless,
    with_guard_keys,
    with_kinds,
    with_likely_keys,
    with_own_keys,
    with_roster_keys,
)
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.mapping import SourceMapping, as_toml
from seasonboard.store.intake.mapping_draft import DraftKnowledge, draft_knowledge
from seasonboard.store.intake.mapping_proposal import MappingProposal, propose, sheet_readings
from seasonboard.store.intake.order_notes import with_order_notes, with_runs_summed
from seasonboard.store.intake.problems import counted
from seasonboard.store.intake.row_keys import PLACE, UNREAD, added_to, completed, without_doubles
from seasonboard.store.intake.seasons import SeasonYears, years_in
from seasonboard.store.intake.sessions_by_day import TIME_IS_PUT, with_session_keys, with_sessions
from seasonboard.store.intake.sources import OpenSheet, TableSource, open_sheets
from seasonboard.store.intake.teams_by_name import new_team, with_teams
from seasonboard.store.intake.values import read_values
from seasonboard.store.intake.worn_columns import placed_wear, with_was_on, with_worn_words
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES


@dataclass(slots=True)
class ReadRows:
    """The sources in the order of tables; their rows as text and as values, table by table.

    `sheets` says how those were read that a mapping was proposed for.
    """

    sources: list[TableSource]
    texts: dict[str, list[pl.DataFrame]] = field(default_factory=dict)
    read: dict[str, list[pl.DataFrame]] = field(default_factory=dict)
    bundle: BundlePlan | None = None
    sheets: tuple[SheetReading, ...] = ()


def read_sources(paths: Sequence[Path], context: LoadContext) -> ReadRows:
    """Read all files and folders into the season of a load.

    Raises:
        IntakeError: A mapping cannot be read, has open questions or was not confirmed.
    """
    bundle = lone_bundle(paths, context.options)
    if bundle is not None:
        return ReadRows([], bundle=take_bundle(bundle, context))
    context.dialog.progress("opening the files")
    opened = open_sheets(paths, context.findings, context.synonyms)
    context.season.unread |= opened.unread
    options, made = new_team(context.options, opened.sheets, context.synonyms, context.findings)
    context = replace(context, options=options)
    assigned = assign(opened.sheets, options, context.findings)
    sources = assigned.sources
    readings: tuple[SheetReading, ...] = ()
    if assigned.strangers or assigned.kept:
        sources += made
        known = draft_knowledge(sources, context)
        if not assigned.strangers:
            refuse_unknown(assigned.kept, options, context.findings)
        for mapping, text in changed_mappings(assigned.kept):
            _accept(mapping, text, context)
        readings = sheet_readings([(one.sheet, one.parts) for one in assigned.kept], known)
        if assigned.strangers:
            proposed, others = _proposed(assigned.strangers, known, context)
            sources += proposed
            readings += others
    rows = read_assigned(sources, context)
    rows.sheets = readings
    return rows


def read_assigned(sources: Sequence[TableSource], context: LoadContext) -> ReadRows:
    """Read sources table by table, so that each finds what it refers to."""
    order = list(TABLES)
    rows = ReadRows(sorted(sources, key=lambda source: order.index(source.table)))
    for name in TABLES:
        mine = [source for source in rows.sources if source.table == name]
        if mine:
            _read_table(TABLES[name], sorted(mine, key=_comes_later), rows, context)
    return rows


def _read_table(
    table: StoredTable, sources: Sequence[TableSource], rows: ReadRows, context: LoadContext
) -> None:
    """Read the files of one table and lay their rows over the stored ones."""
    season, findings = context.season, context.findings
    parts: list[pl.DataFrame] = []
    unread = []
    for source in sources:
        context.dialog.progress(f"reading {source.label}")
        text = text_of(source, findings)
        if text is None:
            season.unread.add(table.name)
            continue
        written = _written(source, context)
        text = _named_as_people_do(table, text, context, written)
        if UNREAD in text.columns:
            unread.append(text.select(*PLACE, UNREAD))
        if context.options.accept_likely:
            text = with_likely_keys(table, text, context)
        is_added = _adds_only(table, text.columns)
        if is_added:
            text = with_runs_summed(text, findings)
        read = _values_of(source, text, context, written)
        if findings.keep_rows:
            rows.texts.setdefault(table.name, []).append(text)
            rows.read.setdefault(table.name, []).append(read)
        if is_added:
            parts = added_to(table, read, parts, context)
        else:
            parts.append(completed(table, read, season.stored(table.name)))
        if table.name == "sessions" and source is not sources[-1]:
            season.take(table.name, pl.concat(parts).unique(table.key, keep="first"))
    if parts:
        beside = pl.concat(unread) if unread else None
        season.take(table.name, without_doubles(table, pl.concat(parts), findings, beside))


def _values_of(
    source: TableSource, text: pl.DataFrame, context: LoadContext, written: WrittenAs
) -> pl.DataFrame:
    """Return the rows of one source as values, their instants settled and their keys made."""
    table = TABLES[source.table]
    read = read_values(table, text, context.findings, written)
    zone = source.mapping.time_zone if source.mapping else None
    read = with_session_keys(settle_instants(table, read, context, zone), text, context)
    if table.name == "injuries":
        read = with_injury_keys(with_known_sides(read, context), text, context)
    read = with_own_keys(table, read)
    if source.mapping is not None:
        refuse_keyless(table, read, source.label, context.findings)
    return read


def _comes_later(source: TableSource) -> bool:
    """Say whether a source adds to others of its table: a log of prints, days without times."""
    columns = list(source.mapping.columns if source.mapping else source.grid.headings)
    return _adds_only(TABLES[source.table], columns) or TIME_IS_PUT in columns


def _named_as_people_do(
    table: StoredTable, text: pl.DataFrame, context: LoadContext, written: WrittenAs
) -> pl.DataFrame:
    """Find the keys that rows give by name, day or kind, and what their notes and cells tell."""
    text = with_worn_words(with_single_areas(table, text, context), context)
    text = with_was_on(table, text, context)
    text = with_kinds(table, with_teams(table, text, context), context)
    text = with_athletes(table, with_roster_keys(table, text, context), context)
    text = with_order_notes(table, with_guard_keys(table, text, context), context)
    text = with_guards(table, with_sessions(table, text, context, written), context)
    return placed_wear(text, context)


def _adds_only(table: StoredTable, columns: Sequence[str]) -> bool:
    """Say whether rows of guards say nothing of whose they are: a log, which adds to orders."""
    return table.name == "guards" and "guard" in columns and not {"athlete", "kind"} & set(columns)


def _written(source: TableSource, context: LoadContext) -> WrittenAs:
    mapping, options = source.mapping, context.options
    return WrittenAs(
        context.synonyms,
        options.dates or (mapping.dates if mapping else None),
        options.decimal or (mapping.decimal if mapping else None),
        mapping.units if mapping else {},
        mapping.time if mapping else None,
        source.grid.from_1904,
        _years(source, context),
    )


def _years(source: TableSource, context: LoadContext) -> SeasonYears | None:
    """Return the years of dates without one: by the titles, the file, or the only season.

    Rows typed in are of no file, and give their years.
    """
    if not source.sha256:
        return None
    mapping = source.mapping
    season = mapping.constants.get("season", "") if mapping else ""
    texts = [*source.grid.titles, mapping.file if mapping else source.label, season]
    if years := years_in(texts):
        return years
    seasons = context.season.now("roster")["season"].drop_nulls().unique()
    return years_in(seasons) if len(seasons) == 1 else None


def _proposed(
    strangers: Sequence[OpenSheet], known: DraftKnowledge, context: LoadContext
) -> tuple[list[TableSource], tuple[SheetReading, ...]]:
    """Propose a mapping, have it confirmed, and keep it; return also how it reads each sheet."""
    proposal = propose(strangers, known)
    readings = sheet_readings(proposal.parts, known)
    if proposal.questions:
        _stop_at_questions(proposal, readings, context.options)
    _accept(proposal.mapping, proposal.text, context)
    read = [
        source
        for sheet, parts in proposal.parts
        for source in sources_of(sheet, parts, context.findings)
    ]
    return read, readings


def _accept(mapping: SourceMapping, text: str, context: LoadContext) -> None:
    if not context.dialog.accept_mapping(text):
        raise IntakeError(
            f"The mapping “{mapping.name}” was not confirmed; nothing was loaded.",
            hint="Name other columns with --column COLUMN=HEADING, and load again.",
        )
    if context.options.mappings is not None and context.options.write:
        path = context.options.mappings / f"{mapping.name}.toml"
        _keep(path, mapping)
        context.dialog.tell(f"The mapping is kept in {path}.")


def _stop_at_questions(
    proposal: MappingProposal, readings: tuple[SheetReading, ...], options: LoadOptions
) -> None:
    many = counted(len(proposal.questions), "question is", "questions are")
    said = f"{proposal.text}{many} open:"
    hint = "Answer with the options named, and load again."
    path = options.mappings / f"{proposal.mapping.name}.toml" if options.mappings else None
    if path is not None and options.write and not path.exists():
        draft = path.with_suffix(".draft")
        _keep(draft, proposal.mapping)
        hint += f" Or answer them in {draft}, take its list of questions out, and name it "
        hint += f"{path.name}."
    raise IntakeError(said, proposal.questions, hint, readings)


def _keep(path: Path, mapping: SourceMapping) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    making = path.with_name(f".{path.name}.making")
    making.write_text(as_toml(mapping), "utf-8")
    making.replace(path)
