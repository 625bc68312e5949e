"""Everything that is read of a load: files opened, assigned to tables, and turned into values."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import polars as pl

from seasonboard.errors import IntakeError
from seasonboard.store.intake.assigning import Source, assign, sources_of, text_of
from seasonboard.store.intake.athlete_names import with_athletes
from seasonboard.store.intake.existing_rows import Known
from seasonboard.store.intake.file_format import WrittenAs
from seasonboard.store.intake.instants import settle_instants
from seasonboard.store.intake.keys import with_kinds, with_likely_keys, with_own_keys
from seasonboard.store.intake.load_options import LoadOptions
from seasonboard.store.intake.mapping import SourceMapping, as_toml
from seasonboard.store.intake.mapping_proposal import Proposal, propose
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.row_keys import completed, without_doubles
from seasonboard.store.intake.sources import OpenSheet, open_sheets
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.values import read_values
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES

if TYPE_CHECKING:
    from seasonboard.store.bundles.loading import Taken

_ONE_FOR_ALL = {"season": "sessions", "team": "teams", "department": "departments"}
"""Columns for which the only value known may be proposed for all rows, and where it is known."""


@dataclass(slots=True)
class Gathered:
    """The sources in the order of tables; their rows as text and as values, table by table."""

    sources: list[Source]
    texts: dict[str, list[pl.DataFrame]] = field(default_factory=dict)
    read: dict[str, list[pl.DataFrame]] = field(default_factory=dict)
    bundle: "Taken | None" = None


def gather(
    paths: Sequence[Path],
    options: LoadOptions,
    synonyms: Synonyms,
    known: Known,
    found: Findings,
) -> Gathered:
    """Read all files into `known`.

    Args:
        paths: Folders and files.
        options: How they are written; asks about mappings.
        synonyms: Spellings.
        known: Takes the rows.
        found: Takes what is wrong.

    Raises:
        IntakeError: A mapping cannot be read, has open questions or was not confirmed.
    """
    from seasonboard.store.bundles.loading import (  # they import this folder
        lone_bundle,
        take_bundle,
    )

    bundle = lone_bundle(paths, options)
    if bundle is not None:
        return Gathered([], bundle=take_bundle(bundle, options, synonyms, known, found))
    return _Gathering(options, synonyms, known, found).of(paths)


def gather_sources(
    sources: Sequence[Source],
    options: LoadOptions,
    synonyms: Synonyms,
    known: Known,
    found: Findings,
) -> Gathered:
    """Read sources that are already assigned to tables into `known`; the rest as `gather`."""
    return _Gathering(options, synonyms, known, found).take(sources)


@dataclass(frozen=True, slots=True)
class _Gathering:
    """What every step of one load needs."""

    options: LoadOptions
    synonyms: Synonyms
    known: Known
    found: Findings

    def of(self, paths: Sequence[Path]) -> Gathered:
        """Open, assign and read the files."""
        self.options.progress("opening the files")
        opened = open_sheets(paths, self.found, self.synonyms)
        self.known.unread |= opened.unread
        assigned = assign(opened.sheets, self.options, self.found)
        sources = assigned.sources
        if assigned.strangers:
            sources += self._proposed(assigned.strangers, sources)
        return self.take(sources)

    def take(self, sources: Sequence[Source]) -> Gathered:
        """Read sources table by table, so that each finds what it refers to."""
        order = list(TABLES)
        gathered = Gathered(sorted(sources, key=lambda source: order.index(source.table)))
        for name in TABLES:
            mine = [source for source in gathered.sources if source.table == name]
            if mine:
                self._take_in(TABLES[name], mine, gathered)
        return gathered

    def _take_in(self, table: StoredTable, sources: Sequence[Source], gathered: Gathered) -> None:
        """Read the files of one table and lay their rows over the stored ones."""
        known, found = self.known, self.found
        parts = []
        for source in sources:
            self.options.progress(f"reading {source.label}")
            text = text_of(source, found)
            if text is None:
                known.unread.add(table.name)
                continue
            text = with_kinds(table, text, known, found, self.synonyms)
            likely = self.options.accept_likely
            text = with_athletes(table, text, known, found, accept_likely=likely)
            if likely:
                text = with_likely_keys(table, text, known, found)
            rows = read_values(table, text, found, self._written(source))
            zone = source.mapping.time_zone if source.mapping else None
            rows = with_own_keys(table, settle_instants(table, rows, known, found, zone))
            if found.keep_rows:
                gathered.texts.setdefault(table.name, []).append(text)
                gathered.read.setdefault(table.name, []).append(rows)
            parts.append(completed(table, rows, known.stored(table.name)))
        if parts:
            known.take(table.name, without_doubles(table, pl.concat(parts), found))

    def _written(self, source: Source) -> WrittenAs:
        mapping, options = source.mapping, self.options
        return WrittenAs(
            self.synonyms,
            options.dates or (mapping.dates if mapping else None),
            options.decimal or (mapping.decimal if mapping else None),
            mapping.units if mapping else {},
            mapping.time if mapping else None,
            source.grid.from_1904,
        )

    def _proposed(self, strangers: Sequence[OpenSheet], sources: Sequence[Source]) -> list[Source]:
        """Propose a mapping, have it confirmed, and keep it."""
        options = self.options
        only = _only_values(sources, self.known)
        proposal = propose(strangers, options, self.synonyms, only)
        mapping = proposal.mapping
        path = options.mappings / f"{mapping.name}.toml" if options.mappings else None
        if proposal.questions:
            _stop_at_questions(proposal, path, options)
        if not options.accept_mapping(proposal):
            raise IntakeError(
                f"The mapping “{mapping.name}” was not confirmed; nothing was loaded.",
                hint="Name other columns with --column COLUMN=HEADING, and load again.",
            )
        if path is not None and options.write:
            _keep(path, mapping)
            options.tell(f"The mapping is kept in {path}.")
        return [
            source
            for sheet, part in zip(strangers, mapping.sheets, strict=True)
            for source in sources_of(sheet, [part], self.found)
        ]


def _stop_at_questions(proposal: Proposal, path: Path | None, options: LoadOptions) -> None:
    many = len(proposal.questions)
    said = f"{proposal.text}{'1 question is' if many == 1 else f'{many} questions are'} open:"
    hint = "Answer with the options named, and load again."
    if path is not None and options.write and not path.exists():
        _keep(path.with_suffix(".draft"), proposal.mapping)
        hint += f" Or answer them in {path.with_suffix('.draft')}, take its list of questions out, "
        hint += f"and name it {path.name}."
    raise IntakeError(said, proposal.questions, hint)


def _keep(path: Path, mapping: SourceMapping) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    making = path.with_name(f".{path.name}.making")
    making.write_text(as_toml(mapping), "utf-8")
    making.replace(path)


def _only_values(sources: Sequence[Source], known: Known) -> dict[str, str]:
    """Return the seasons, teams and departments of which there is only one to choose."""
    only = {}
    for column, table in _ONE_FOR_ALL.items():
        values = set(known.stored(table)[column].drop_nulls().unique().to_list())
        for source in sources:
            places = {heading.casefold(): one for heading, one in source.grid.places.items()}
            if source.mapping is None and source.table == table and column in places:
                values |= set(source.grid.body[places[column]].drop_nulls().unique().to_list())
        if len(values) == 1:
            only[column] = str(next(iter(values)))
    return only
