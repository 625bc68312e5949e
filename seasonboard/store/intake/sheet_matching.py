"""One sheet's part of a proposed mapping, while it grows: table, columns, answers, questions."""

import re
from dataclasses import replace
from difflib import get_close_matches

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.date_matching import settle_dates
from seasonboard.store.intake.draft_knowledge import DraftKnowledge
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.grid_proposal import team_question
from seasonboard.store.intake.header import own_columns, stands_in
from seasonboard.store.intake.key_matching import (
    find_hours,
    find_sites,
    find_stages,
    join_names,
    settle_keys,
)
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.mapping_draft import MappingDraft, examples
from seasonboard.store.intake.season_years import years_in
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms, heading_key
from seasonboard.store.intake.table_matching import OF_GAMES, table_for, without_unit
from seasonboard.store.intake.time_words import NOON
from seasonboard.store.intake.title_words import season_called, season_written, teams_called
from seasonboard.store.intake.value_matching import (
    add_time,
    check_values,
    fits_column,
    match_values,
)
from seasonboard.store.intake.worn_columns import find_worn, wear_part
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES
from seasonboard.terms import nearest

_DATED = (CellType.DATE, CellType.INSTANT)
_LONG_HEADING = 3
_OF_STAGES = {"kind": "guard_kind", "side": "guard_side"}


def draft_of(sheet: OpenSheet, known: DraftKnowledge) -> MappingDraft:
    """Draft how one sheet is read; what cannot be told from it is a question of the draft."""
    options, synonyms = _with_carried(sheet, known.options), known.synonyms
    draft = MappingDraft(sheet, TABLES[table_for(sheet, synonyms, known)])
    titles = (*sheet.grid.titles, sheet.path.stem, sheet.name, known.only.get("season", ""))
    draft.years = years_in(titles)
    draft.left_out |= {one for one in sheet.grid.headings if one in options.leave_out}
    _take_answers(draft, options)
    _match(draft, synonyms)
    _match_renamed(draft, synonyms)
    join_names(draft)
    settle_keys(draft, synonyms, known)
    _match(draft, synonyms)
    _match_within(draft, synonyms)
    if draft.table.name in {"guards", "injuries"}:
        find_sites(draft, synonyms, known)
    if draft.table.name == "guards":
        find_stages(draft, synonyms)
        find_hours(draft)
    find_worn(draft)
    _ask_doubled(draft)
    match_values(draft, synonyms)
    _match(draft, synonyms)  # what a heading was freed from may be another's
    check_values(draft, synonyms)
    add_time(draft)
    _settle_by_titles(draft, synonyms, known)
    _fill_required(draft, known)
    _ask_near(draft)
    settle_dates(draft, options, known)
    return draft


def _with_carried(sheet: OpenSheet, options: LoadOptions) -> LoadOptions:
    """Return the answers of a command with those of a kept mapping of a sheet much like it."""
    carried = sheet.carried
    if carried is None:
        return options
    return replace(
        options,
        columns={**carried.columns, **options.columns},
        constants={**carried.constants, **options.constants},
        dates=options.dates or carried.dates,
    )


def _match_renamed(draft: MappingDraft, synonyms: Synonyms) -> None:
    """Take the one new heading for the one that is gone, where its values are of that column."""
    carried = draft.sheet.carried
    if carried is None or len(carried.gone) != 1 or len(carried.new) != 1:
        return
    (column,), (heading,) = carried.gone, carried.new
    taken = column in draft.columns or heading not in draft.free()
    if not taken and (
        column not in draft.table.names or fits_column(draft, column, heading, synonyms)
    ):
        draft.columns[column] = (heading,)


def further_parts(draft: MappingDraft, options: LoadOptions) -> tuple[SheetMapping, ...]:
    """Return what else than its table a sheet is read as: stages of orders, or wear."""
    if not draft.stages:
        return wear_part(draft)
    columns = {_OF_STAGES.get(name, name): many for name, many in draft.columns.items()}
    by_key = {"guard"} if "guard" in columns else set(own_columns(TABLES["stages"]))
    columns = {name: many for name, many in columns.items() if name in by_key | {"order_note"}}
    stages = SheetMapping("stages", draft.sheet.grid.headings, columns, draft.sheet.path.name,
        dates=draft.dates, time=draft.constants.get("time", NOON), decimal=options.decimal,
        stages=draft.stages, sites={} if "guard" in columns else draft.sites)  # fmt: skip
    return (stages,)


def _take_answers(draft: MappingDraft, options: LoadOptions) -> None:
    name = draft.table.name
    known = own_columns(draft.table)
    headings = list(draft.sheet.grid.headings)
    for given, heading in options.columns.items():
        table, _, column = given.rpartition(".")
        if table in {"", name} and column in known and not heading.strip():
            draft.without.add(column)
        elif table in {"", name} and column in known:
            wanted = [one.strip() for one in heading.split("+")]
            close = {one.casefold(): one for one in headings}
            missing = [one for one in wanted if one.casefold() not in close]
            if missing:
                near = nearest(missing[0], headings)
                said = f"is no heading of this sheet; there are: {', '.join(headings)}."
                said += f" Did you mean “{near}”?" if near else ""
                draft.ask(column, said, missing[0])
            else:
                draft.columns[column] = tuple(close[one.casefold()] for one in wanted)
    for given, value in options.constants.items():
        table, _, column = given.rpartition(".")
        if table in {"", name} and column in [*known, "time"]:
            draft.constants[column] = value


def _match(draft: MappingDraft, synonyms: Synonyms) -> None:
    known = own_columns(draft.table)
    for place in (0, 1):  # first the likeliest meaning of every heading, then the second
        for heading in draft.free():
            bare, unit = without_unit(heading, synonyms)
            meant = [one for one in synonyms.columns_called(draft.table.name, bare) if one in known]
            column = meant[place] if place < len(meant) else None
            taken = {*draft.columns, *draft.constants, *draft.without}
            if column and column not in taken and not _is_in_place(draft, column):
                draft.columns[column] = (heading,)
                if unit:
                    draft.units[column] = unit


def _is_in_place(draft: MappingDraft, column: str) -> bool:
    """Say whether another column already names what a key column would."""
    return stands_in(draft.table, column, draft.columns)


def _match_within(draft: MappingDraft, synonyms: Synonyms) -> None:
    """Give long headings, as forms ask questions, the column whose name stands within them."""
    known = own_columns(draft.table)
    for heading in draft.free():
        text = f" {heading_key(heading)} "
        if len(text.split()) < _LONG_HEADING and "?" not in heading:
            continue
        spellings = sorted(
            (spelling, column)
            for column in known
            for spelling in synonyms.spellings_of(draft.table.name, column)
            if f" {spelling} " in text
        )
        fitting = sorted(spellings, key=lambda one: -len(one[0]))
        taken = {*draft.columns, *draft.constants, *draft.without}
        column = next((one for _, one in fitting if one not in taken), None)
        if column and not _is_in_place(draft, column) and fitting[0][1] == column:
            draft.columns[column] = (heading,)


def _settle_by_titles(draft: MappingDraft, synonyms: Synonyms, known: DraftKnowledge) -> None:
    """Take team, season and setting from titles and names where no column gives them."""
    sheet = draft.sheet
    titles = (*sheet.grid.titles, sheet.name, sheet.path.stem)
    taken = {*draft.columns, *draft.constants}
    wants_team = "team" in draft.table.required or "athlete_team" in own_columns(draft.table)
    if wants_team and not {"team", "athlete_team"} & taken and "athlete" not in draft.columns:
        fitting = teams_called(titles, known.teams, synonyms)
        name = "team" if "team" in draft.table.names else "athlete_team"
        if len(fitting) == 1:
            draft.constants[name] = fitting[0]
    if "season" in draft.table.required and "season" not in taken:
        season = season_called(titles, known.seasons) or known.only.get("season")
        season = season or season_written(titles)
        if season:
            draft.constants["season"] = season
    if draft.table.name == "sessions" and "setting" not in taken:
        headings = {folded(one) for one in sheet.grid.headings}
        if headings & OF_GAMES:
            draft.constants["setting"] = "game"


def _ask_doubled(draft: MappingDraft) -> None:
    grid = draft.sheet.grid
    for heading in draft.free():
        base = re.sub(r" \([0-9]+\)$", "", heading)
        twin = next((c for c, many in draft.columns.items() if many == (base,)), None)
        if base == heading or twin is None:
            continue
        cells = [f"“{one}” holds {examples(grid, one)}" for one in (base, heading)]
        said = f"two columns are called “{base}”: {'; '.join(cells)}. Say which one it is, with "
        said += f"--column {twin}='{base}' or --column {twin}='{heading}'."
        if not _answered(draft, twin):
            draft.ask(twin, said, None, (base, heading))


def _answered(draft: MappingDraft, column: str) -> bool:
    """Say whether another column than `column` has already been given the doubled heading."""
    many = draft.columns[column]
    return any(
        re.sub(r" \([0-9]+\)$", "", one) == many[0] and one != many[0]
        for name, others in draft.columns.items()
        if name != column
        for one in others
    )


def _is_made(draft: MappingDraft, name: str) -> bool:
    """Say whether the program makes a key from other cells of the row."""
    table = draft.table
    if table.name == "roster" and name == "athlete":
        return "name" in draft.columns
    if table.name == "guards" and name == "guard":
        return {"kind"} <= draft.columns.keys()
    return table.key == (name,) and bool(table.key_made_of)


def _adds_to_orders(draft: MappingDraft) -> bool:
    """Say whether a sheet of guards is a log of what exists already: nobody and no kind in it."""
    names = draft.columns.keys()
    return draft.table.name == "guards" and "guard" in names and not names & {
        "athlete", "athlete_name", "kind",
    }  # fmt: skip


def _fill_required(draft: MappingDraft, known: DraftKnowledge) -> None:
    if _adds_to_orders(draft):
        return
    for name in draft.table.required:
        if name in draft.columns or name in draft.constants:
            continue
        if stands_in(draft.table, name, draft.columns) or _is_made(draft, name):
            continue
        if name == "side" and draft.table.name == "guards" and "kind" in draft.columns:
            continue  # the kind tells it, or the rows without one are told
        if name in known.only:
            draft.constants[name] = known.only[name]
            continue
        if name in {"team", "athlete_team"} and known.teams.is_empty():
            draft.ask(name, team_question(()), None, ())
            continue
        free = draft.free()
        near = nearest(name.replace("_", " "), free)
        said = (
            f"no column could be told to be {name}, which every row of {draft.table.name} needs. "
        )
        said += f"Name it with --column {name}=HEADING ({', '.join(free) or 'none is left'})"
        said += f", or one value for all rows with --value {name}=VALUE."
        said += f" Is it “{near}”?" if near else ""
        draft.ask(name, said)


def _ask_near(draft: MappingDraft) -> None:
    """Ask about headings that are nearly those of columns still missing."""
    for heading in draft.free():
        lacking = [one for one in draft.table.names if one not in draft.columns]
        close = get_close_matches(
            folded(heading), [one.replace("_", " ") for one in lacking], 1, 0.8
        )
        near = close[0].replace(" ", "_") if close else ""
        if near and near not in {*draft.constants, *draft.without, *draft.table.required}:
            said = (
                f"may be {near}. Say so with --column {near}='{heading}', or that it is left out "
            )
            said += f"with --column {near}=."
            if not any(one.column == near for one in draft.questions):
                draft.ask(near, said, heading, (heading,))
