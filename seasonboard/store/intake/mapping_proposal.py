"""A mapping proposed from headings and a sample of the values; the person confirms it once."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from seasonboard.errors import OpenQuestion, Problem
from seasonboard.load_options import ORDERS, LoadOptions
from seasonboard.store.intake.assigning import title_of
from seasonboard.store.intake.draft_knowledge import DraftKnowledge
from seasonboard.store.intake.grid_proposal import grid_draft, grid_lines
from seasonboard.store.intake.legends import ATTENDANCE, WEAR, legend_of_rows
from seasonboard.store.intake.mapping import SheetMapping, SourceMapping
from seasonboard.store.intake.mapping_draft import MappingDraft, examples
from seasonboard.store.intake.no_tables import left_out_mapping, sheet_rows, why_no_table
from seasonboard.store.intake.sheet_matching import draft_of, further_parts
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.title_words import season_written, wordy


@dataclass(frozen=True, slots=True)
class MappingProposal:
    """A mapping to confirm: its text for the person, and the questions it could not answer.

    `parts` are the sheets in their order, each with how it is read.
    """

    mapping: SourceMapping
    text: str
    questions: tuple[Problem, ...]
    parts: tuple[tuple[OpenSheet, tuple[SheetMapping, ...]], ...]


Legend = Mapping[str, Mapping[str, str]]
"""`attendance` or `wear` → mark → meaning."""

_Drafted = tuple[MappingDraft | None, tuple[SheetMapping, ...], list[str]]


def propose(strangers: Sequence[OpenSheet], known: DraftKnowledge) -> MappingProposal:
    """Propose how sheets in other words are read.

    Args:
        strangers: The sheets.
        known: What the command, the store and the other files say; learns what each sheet says.
    """
    options = known.options
    name = options.mapping or _free_name(strangers[0].path.stem, options)
    legends = _legends(strangers)
    if not known.seasons and "season" not in known.only:
        season = season_written([text for sheet in strangers for text in _titles(sheet)])
        if season:
            known.learn("season", season)
    drafted = [
        (sheet, _drafted(sheet, strangers, legends.get(sheet.path, {}), known))
        for sheet in sorted(strangers, key=lambda one: one.date_grid is not None)
    ]
    drafted.sort(key=lambda one: strangers.index(one[0]))
    drafted = [(sheet, (draft, _titled(sheet, parts, strangers), lines))
               for sheet, (draft, parts, lines) in drafted]  # fmt: skip
    questions = _asked_once(
        [one for _, (draft, _, _) in drafted if draft for one in draft.questions]
    )
    sheets = _each_once([part for _, (_, parts, _) in drafted for part in parts])
    mapping = SourceMapping(name, sheets, tuple(one.sentence() for one in questions))
    lines = [f"Proposed mapping “{name}”:"]
    lines += [line for _, (_, _, own) in drafted for line in own]
    parts = tuple((sheet, parts) for sheet, (_, parts, _) in drafted)
    return MappingProposal(mapping, "\n".join(lines) + "\n", questions, parts)


def _titles(sheet: OpenSheet) -> list[str]:
    titles = sheet.date_grid.titles if sheet.date_grid else sheet.grid.titles
    return [*titles, sheet.name, sheet.path.stem]


def _titled(
    sheet: OpenSheet, parts: tuple[SheetMapping, ...], strangers: Sequence[OpenSheet]
) -> tuple[SheetMapping, ...]:
    """Let sheets of the same headings, as one a team, be known again by their titles."""
    headings = sheet.grid.headings
    alike = [one for one in strangers if one.grid.headings == headings and one.date_grid is None]
    if len(alike) < 2 or sheet.date_grid is not None:
        return parts
    return tuple(part if part.layout else replace(part, title=title_of(sheet)) for part in parts)


def _drafted(
    sheet: OpenSheet, strangers: Sequence[OpenSheet], legend: Legend, known: DraftKnowledge
) -> _Drafted:
    """Draft one sheet: as a grid, as records of one or more tables, or as none at all."""
    why = "it is asked for" if sheet.name in known.options.leave_out else None
    if sheet.date_grid is not None and why is None:
        draft, part = grid_draft(sheet, sheet.date_grid, known, legend)
        return draft, (part,), grid_lines(draft, part, sheet.date_grid)
    several = sum(one.path == sheet.path for one in strangers) > 1
    if several and why is None:
        why = why_no_table(sheet, legend, known.synonyms)
    if why is not None:
        line = f"  {sheet.label} is left out: {why}"
        return None, (left_out_mapping(sheet),), [line]
    draft = draft_of(sheet, known)
    for column in ("team", "season", "department"):
        if column in draft.constants:
            known.learn(column, draft.constants[column])
    parts = (_as_mapping(draft, known.options), *further_parts(draft, known.options))
    return draft, parts, _mapping_lines(draft, parts)


def _legends(strangers: Sequence[OpenSheet]) -> dict[Path, dict[str, dict[str, str]]]:
    """Return what sheets of mark and meaning say, by their file; only beside a grid."""
    legends: dict[Path, dict[str, dict[str, str]]] = {}
    with_grids = {one.path for one in strangers if one.date_grid is not None}
    for sheet in strangers:
        if sheet.path not in with_grids or sheet.date_grid is not None:
            continue
        of_file = legends.setdefault(sheet.path, {ATTENDANCE: {}, WEAR: {}})
        for holds in (ATTENDANCE, WEAR):
            of_file[holds] |= legend_of_rows(sheet_rows(sheet), holds)
    return legends


def _asked_once(questions: Sequence[Problem]) -> tuple[Problem, ...]:
    """Return the questions; one that several sheets ask alike is asked once for all of them."""
    asked: dict[object, Problem] = {}
    for one in questions:
        is_open = isinstance(one, OpenQuestion)
        shared = is_open and one.column in _FOR_ALL
        shared = shared or (one.column == "team" and "the department" in one.expected)
        asked.setdefault((one.column,) if shared else (one.file, one.column, one.expected), one)
    return tuple(asked.values())


_FOR_ALL = frozenset({"season", "purpose", "dates", "blank", "marks", "setting", "plan"})
"""One answer counts for all files and sheets alike."""


def _free_name(stem: str, options: LoadOptions) -> str:
    """Return a name after the file that no kept mapping has."""
    plain = re.sub(r"[^\w-]+", "-", stem.casefold()).strip("-") or "source"
    name, place = plain, 1
    while options.mappings and (options.mappings / f"{name}.toml").exists():
        place += 1
        name = f"{plain}-{place}"
    return name


def _as_mapping(draft: MappingDraft, options: LoadOptions) -> SheetMapping:
    constants = {name: value for name, value in draft.constants.items() if name != "time"}
    return SheetMapping(
        draft.table.name,
        draft.sheet.grid.headings,
        draft.columns,
        draft.sheet.path.name,
        constants,
        draft.units,
        sites=draft.sites,
        dates=draft.dates,
        decimal=options.decimal,
        time=draft.constants.get("time"),
    )


def _each_once(parts: Sequence[SheetMapping]) -> tuple[SheetMapping, ...]:
    once: list[SheetMapping] = []
    for part in parts:  # sheets of one layout, as one a month, are read alike
        alike = any(
            part.layout
            and (one.layout, one.table, one.headings) == (part.layout, part.table, part.headings)
            and wordy(one.title) == wordy(part.title)
            and one.constants == part.constants
            for one in once
        )
        once += [] if alike else [part]
    return tuple(once)


def _mapping_lines(draft: MappingDraft, parts: Sequence[SheetMapping]) -> list[str]:
    sheet, *more = parts
    lines = [f"  {draft.sheet.label} → {', '.join(part.table for part in parts)}"]
    if draft.sheet.carried is not None:
        lines.append(f"    {draft.sheet.carried.sentence()}")
    wide = max((len(name) for name in [*sheet.columns, *sheet.constants]), default=8)
    for name, headings in sheet.columns.items():
        called = " + ".join(f"“{one}”" for one in headings)
        unit = f" in {sheet.units[name]}" if name in sheet.units else ""
        if headings[0] not in draft.sheet.grid.places:
            continue
        lines.append(
            f"    {name:<{wide}}  from {called}{unit}: {examples(draft.sheet.grid, headings[0])}"
        )
    lines += [
        f"    {name:<{wide}}  is {value} in all rows" for name, value in sheet.constants.items()
    ]
    (key, *rest) = draft.table.key
    if not rest and key not in sheet.columns and draft.table.key_made_of:
        lines.append(f"    {key:<{wide}}  made of {', '.join(draft.table.key_made_of)}")
    if sheet.dates:
        lines.append(f"    dates are {ORDERS[sheet.dates]}{draft.proof}")
    if sheet.time:
        lines.append(f"    the time of day is {sheet.time} where none is written")
    for part in more:
        dated = ", ".join(f"“{heading}” ({stage})" for heading, stage in part.stages.items())
        worn = ", ".join(f"“{heading}”" for heading in part.columns.get("worn", ()))
        each = f"date under {dated}" if dated else f"answer under {worn}"
        lines.append(f"    a row of {part.table} for each {each}")
    if sheet.sites:
        ticked = ", ".join(f"“{heading}” ({site})" for heading, site in sheet.sites.items())
        lines.append(f"    a row for each tick under {ticked}")
    used = {heading for part in more for heading in part.stages}
    free = [*draft.free(), *sorted(draft.left_out)]
    if free := [one for one in free if one not in used]:
        lines.append(f"    left out: {', '.join(f'“{one}”' for one in free)}")
    return lines
