"""A mapping proposed from headings and a sample of the values; the person confirms it once."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from seasonboard.errors import OpenQuestion, Problem
from seasonboard.load_options import ORDERS, LoadOptions
from seasonboard.sheet_readings import HeadingReading, SettledValue, SheetReading
from seasonboard.store.intake.changed_sheets import changes
from seasonboard.store.intake.date_grid import DateGrid
from seasonboard.store.intake.grid_proposal import LABEL_COLUMNS, MEANINGS, grid_draft, grid_lines
from seasonboard.store.intake.grid_sources import meaning_of
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.kept_mappings import left_out_mapping, title_of
from seasonboard.store.intake.legends import ATTENDANCE, MARK, NO_ROW, WEAR, legend_of_rows
from seasonboard.store.intake.mapping import LEFT_OUT, SheetMapping, SourceMapping
from seasonboard.store.intake.mapping_draft import DraftKnowledge, MappingDraft, examples, few_of
from seasonboard.store.intake.problems import quoted
from seasonboard.store.intake.sessions_by_day import SOFT
from seasonboard.store.intake.sheet_matching import draft_of, further_parts
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.table_matching import rows_of, why_no_table
from seasonboard.store.intake.teams_by_name import EXAMPLE, TEAMS
from seasonboard.store.intake.title_words import season_written, wordy
from seasonboard.stored_tables import TABLES

_FOR_ALL = frozenset({"season", "purpose", "dates", "blank", "marks", "setting", "plan"})
"""One answer to a question about these counts for all files and sheets alike."""

Legend = Mapping[str, Mapping[str, str]]
"""`attendance` or `wear` → mark → meaning."""


@dataclass(frozen=True, slots=True)
class _SheetProposal:
    """How one sheet is proposed to be read, and what the person is shown of it."""

    sheet: OpenSheet
    parts: tuple[SheetMapping, ...]
    lines: list[str]
    questions: Sequence[Problem] = ()


@dataclass(frozen=True, slots=True)
class MappingProposal:
    """A mapping to confirm: its text for the person, and the questions it could not answer.

    `parts` are the sheets in their order, each with how it is read.
    """

    mapping: SourceMapping
    text: str
    questions: tuple[Problem, ...]
    parts: tuple[tuple[OpenSheet, tuple[SheetMapping, ...]], ...]


def propose(strangers: Sequence[OpenSheet], known: DraftKnowledge) -> MappingProposal:
    """Propose how sheets in other words are read; `known` learns what each of them says."""
    options = known.options
    name = options.mapping or _free_name(strangers[0].path.stem, options)
    legends = _legends(strangers)
    if not known.seasons and "season" not in known.only:
        season = season_written([text for sheet in strangers for text in sheet.titles])
        if season:
            known.learn("season", season)
    drafted = [  # grids last: they are read by what the lists say
        _drafted(sheet, strangers, legends.get(sheet.path, {}), known)
        for sheet in sorted(strangers, key=lambda one: one.date_grid is not None)
    ]
    drafted.sort(key=lambda one: strangers.index(one.sheet))
    parts = tuple((one.sheet, _titled(one, strangers)) for one in drafted)
    questions = _asked_once([one for sheet in drafted for one in sheet.questions])
    sheets = _each_once([part for _, mappings in parts for part in mappings])
    mapping = SourceMapping(name, sheets, tuple(one.sentence() for one in questions))
    lines = [f"Proposed mapping “{name}”:", *(line for one in drafted for line in one.lines)]
    return MappingProposal(mapping, "\n".join(lines) + "\n", questions, parts)


def _titled(one: _SheetProposal, strangers: Sequence[OpenSheet]) -> tuple[SheetMapping, ...]:
    """Let sheets of the same headings, as one a team, be known again by their titles."""
    headings = one.sheet.grid.headings
    alike = [own for own in strangers if own.grid.headings == headings and own.date_grid is None]
    if len(alike) < 2 or one.sheet.date_grid is not None:
        return one.parts
    title = title_of(one.sheet)
    return tuple(part if part.layout else replace(part, title=title) for part in one.parts)


def _drafted(
    sheet: OpenSheet, strangers: Sequence[OpenSheet], legend: Legend, known: DraftKnowledge
) -> _SheetProposal:
    """Draft one sheet: as a grid, as records of one or more tables, or as none at all."""
    known = replace(known, options=known.options.of_sheet(sheet.name))
    why = "it is asked for" if sheet.name in known.options.leave_out else None
    if sheet.date_grid is not None and why is None:
        draft, part = grid_draft(sheet, sheet.date_grid, known, legend)
        lines = grid_lines(draft, part, sheet.date_grid)
        return _SheetProposal(sheet, (part,), lines, draft.questions)
    if why is None and sum(one.path == sheet.path for one in strangers) > 1:
        why = why_no_table(sheet, legend, known.synonyms)
    if why is not None:
        return _SheetProposal(
            sheet, (left_out_mapping(sheet),), [f"  {sheet.label} is left out: {why}"]
        )
    draft = draft_of(sheet, known)
    for column in draft.constants.keys() & {"team", "season", "department"}:
        known.learn(column, draft.constants[column])
    parts = (_as_mapping(draft), *further_parts(draft))
    return _SheetProposal(sheet, parts, _mapping_lines(draft, parts), draft.questions)


def _legends(strangers: Sequence[OpenSheet]) -> dict[Path, dict[str, dict[str, str]]]:
    """Return what sheets of mark and meaning say, by their file; only beside a grid."""
    legends: dict[Path, dict[str, dict[str, str]]] = {}
    with_grids = {one.path for one in strangers if one.date_grid is not None}
    for sheet in strangers:
        if sheet.path in with_grids and sheet.date_grid is None:
            of_file = legends.setdefault(sheet.path, {ATTENDANCE: {}, WEAR: {}})
            for holds in of_file:
                of_file[holds] |= legend_of_rows(rows_of(sheet), holds)
    return legends


def _asked_once(questions: Sequence[Problem]) -> tuple[Problem, ...]:
    """Return the questions; one that several sheets ask alike is asked once for all of them."""
    asked: dict[object, Problem] = {}
    for one in questions:
        shared = isinstance(one, OpenQuestion) and one.column in _FOR_ALL
        shared = shared or (one.column == "team" and "the department" in one.expected)
        asked.setdefault((one.column,) if shared else (one.file, one.column, one.expected), one)
    return tuple(asked.values())


def _free_name(stem: str, options: LoadOptions) -> str:
    """Return a name after the file that no kept mapping has."""
    base = re.sub(r"[^\w-]+", "-", stem.casefold()).strip("-") or "source"
    name, nth = base, 1
    while options.mappings and (options.mappings / f"{name}.toml").exists():
        nth += 1
        name = f"{base}-{nth}"
    return name


def _as_mapping(draft: MappingDraft) -> SheetMapping:
    constants = {name: value for name, value in draft.constants.items() if name != "time"}
    return SheetMapping(
        draft.table.name, draft.sheet.grid.headings, draft.columns, draft.sheet.path.name,
        constants, draft.units, sites=draft.sites, dates=draft.dates,
        decimal=draft.known.options.decimal, time=draft.constants.get("time"),
    )  # fmt: skip


def _each_once(parts: Sequence[SheetMapping]) -> tuple[SheetMapping, ...]:
    """Return the parts; grids of one layout, as one a month, are read alike and stand once."""
    once: dict[object, SheetMapping] = {}
    for nth, part in enumerate(parts):
        layout = (part.layout, part.table, part.headings, wordy(part.title))
        once.setdefault((*layout, *sorted(part.constants.items())) if part.layout else nth, part)
    return tuple(once.values())


def _mapping_lines(draft: MappingDraft, parts: Sequence[SheetMapping]) -> list[str]:
    part, *more = parts
    sheet = draft.sheet
    lines = [f"  {sheet.label} → {', '.join(part.table for part in parts)}"]
    if sheet.alike is not None:
        kept, mapping = sheet.alike
        said = f"    is read as the mapping “{mapping.name}” says, but its headings changed "
        lines.append(f"{said}({changes(sheet, kept) or 'another title'}).")
    lines += _column_lines(draft, part)
    if part.dates:
        lines.append(f"    dates are {ORDERS[part.dates]}{draft.proof}")
    if part.time:
        lines.append(f"    the time of day is {part.time} where none is written")
    for one in more:
        dated = ", ".join(f"“{heading}” ({stage})" for heading, stage in one.stages.items())
        what = f"date under {dated}" if dated else f"answer under {quoted(one.columns['worn'])}"
        lines.append(f"    a row of {one.table} for each {what}")
    if part.sites:
        ticked = ", ".join(f"“{heading}” ({site})" for heading, site in part.sites.items())
        lines.append(f"    a row for each tick under {ticked}")
    if free := [*draft.free(), *sorted(draft.left_out)]:
        lines.append(f"    left out: {quoted(free)}")
    return lines


def _column_lines(draft: MappingDraft, part: SheetMapping) -> list[str]:
    """Return what each column is read from, or what it is in all rows."""
    lines = []
    wide = max((len(name) for name in [*part.columns, *part.constants]), default=8)
    for name, headings in part.columns.items():
        if headings[0] in draft.sheet.grid.places:
            called = " + ".join(f"“{one}”" for one in headings)
            unit = f" in {part.units[name]}" if name in part.units else ""
            shown = draft.examples(headings[0])
            lines.append(f"    {name:<{wide}}  from {called}{unit}: {shown}")
    for name, value in part.constants.items():
        lines.append(f"    {name:<{wide}}  is {value} in all rows")
    (key, *rest) = draft.table.key
    if not rest and key not in part.columns and draft.table.key_made_of:
        lines.append(f"    {key:<{wide}}  made of {', '.join(draft.table.key_made_of)}")
    return lines


def sheet_readings(
    parts: Sequence[tuple[OpenSheet, tuple[SheetMapping, ...]]], known: DraftKnowledge
) -> tuple[SheetReading, ...]:
    """Return how the sheets of a mapping are read, heading by heading, for a person to change."""
    return tuple(_reading(sheet, mappings, known) for sheet, mappings in parts)


def _reading(
    sheet: OpenSheet, parts: tuple[SheetMapping, ...], known: DraftKnowledge
) -> SheetReading:
    first, grid = parts[0], sheet.date_grid
    if first.table == LEFT_OUT:
        return SheetReading(sheet.label, sheet.name, ())

    def reading(heading: str) -> HeadingReading:
        people = grid.people[heading].drop_nulls() if grid else None
        shown = examples(sheet.grid, heading) if people is None else few_of(people)
        return HeadingReading(heading, _meaning(heading, parts), shown)

    return SheetReading(
        sheet.label,
        sheet.name,
        tuple(dict.fromkeys(part.table for part in parts)),
        tuple(map(reading, grid.labels if grid else sheet.grid.headings)),
        LABEL_COLUMNS if grid else tuple(own_columns(TABLES[first.table])),
        may_skip=grid is None,
        settled=_settled(first, known) + _marks_of(grid, first),
    )


def _marks_of(grid: DateGrid | None, part: SheetMapping) -> tuple[SettledValue, ...]:
    """Return what each mark of a grid is read as."""
    pairs = [(mark, meaning_of(mark, part)) for mark in (grid.marks if grid else ())]
    return tuple(
        SettledValue(f"{MARK}{mark}", meant, MEANINGS[part.table]) for mark, meant in pairs if meant
    )


def _settled(part: SheetMapping, known: DraftKnowledge) -> tuple[SettledValue, ...]:
    values = {name: value for name, value in part.constants.items() if name != SOFT}
    values |= {
        name: value for name in ("time", "am", "pm", "blank") if (value := getattr(part, name))
    }
    return tuple(
        SettledValue(name, value, _choices(name, part, known), EXAMPLE if name in TEAMS else "")
        for name, value in values.items()
    )


def _choices(name: str, part: SheetMapping, known: DraftKnowledge) -> tuple[str, ...]:
    if name in TEAMS:
        return tuple(known.teams["team"])
    if name == "department":
        return tuple(known.teams["department"].unique(maintain_order=True))
    if name == "season":
        return tuple(known.seasons)
    if name == "blank":
        return ("no" if part.table == WEAR else "out", NO_ROW)
    own = (TABLES[part.table], TABLES["sessions"])
    return next((table.column(name).words for table in own if name in table.names), ())


def _meaning(heading: str, parts: tuple[SheetMapping, ...]) -> str:
    first = parts[0]
    meant = [name for name, many in first.columns.items() if heading in many]
    meant += [f"a tick for {first.sites[heading]}"] if heading in first.sites else []
    meant += [f"a stage {part.stages[heading]}" for part in parts if heading in part.stages]
    return ", ".join(meant)
