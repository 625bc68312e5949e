"""One sheet's part of a proposed mapping: table, columns, answers, questions."""

import re
from collections.abc import Mapping
from difflib import get_close_matches

from seasonboard.store.intake.changed_sheets import renamed, with_carried
from seasonboard.store.intake.header import own_columns, stands_in
from seasonboard.store.intake.key_matching import (
    find_hours,
    find_sites,
    find_stages,
    join_names,
    settle_keys,
)
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.mapping_draft import DraftKnowledge, MappingDraft
from seasonboard.store.intake.seasons import years_in
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import heading_key
from seasonboard.store.intake.table_matching import OF_GAMES, table_for, without_unit
from seasonboard.store.intake.teams_by_name import TEAMS, team_question
from seasonboard.store.intake.text_columns import folded
from seasonboard.store.intake.title_words import season_of, season_question, teams_called
from seasonboard.store.intake.value_matching import (
    add_time,
    check_values,
    fits_column,
    match_values,
    settle_dates,
)
from seasonboard.store.intake.worn_columns import find_worn, wear_part
from seasonboard.store.intake.written_times import NOON
from seasonboard.stored_tables import TABLES
from seasonboard.terms import nearest

_LONG_HEADING = 3
_NUMBERED = re.compile(r" \([0-9]+\)$")
_OF_STAGES = {"kind": "guard_kind", "side": "guard_side"}


def draft_of(sheet: OpenSheet, known: DraftKnowledge) -> MappingDraft:
    """Draft how one sheet is read; what cannot be told from it is a question of the draft."""
    draft = MappingDraft(sheet, TABLES[table_for(sheet, known)], known)
    draft.years = years_in((*sheet.titles, known.only.get("season", "")))
    draft.left_out |= set(known.options.leave_out).intersection(sheet.grid.headings)
    options = with_carried(sheet, known.options)
    _take_columns(draft, options.columns)
    _take_constants(draft, options.constants)
    _match(draft)
    _match_renamed(draft)
    join_names(draft)
    settle_keys(draft)
    _match(draft)
    _match_within(draft)
    if draft.table.name in {"guards", "injuries"}:
        find_sites(draft)
    if draft.table.name == "guards":
        find_stages(draft)
        find_hours(draft)
    find_worn(draft)
    _ask_doubled(draft)
    match_values(draft)
    _match(draft)  # what a heading was freed from may be another's
    check_values(draft)
    add_time(draft)
    _settle_by_titles(draft)
    _fill_required(draft)
    _ask_near(draft)
    settle_dates(draft, options.dates)
    return draft


def further_parts(draft: MappingDraft) -> tuple[SheetMapping, ...]:
    """Return what else than its table a sheet is read as: stages of orders, or wear."""
    if not draft.stages:
        return wear_part(draft)
    columns = {_OF_STAGES.get(name, name): many for name, many in draft.columns.items()}
    has_key = "guard" in columns
    naming = {"guard", "order_note"} if has_key else set(own_columns(TABLES["stages"]))
    return (SheetMapping(
        "stages", draft.sheet.grid.headings,
        {name: many for name, many in columns.items() if name in naming},
        draft.sheet.path.name, dates=draft.dates, time=draft.constants.get("time", NOON),
        decimal=draft.known.options.decimal, stages=draft.stages,
        sites={} if has_key else draft.sites,
    ),)  # fmt: skip


def _take_columns(draft: MappingDraft, answers: Mapping[str, str]) -> None:
    """Take the headings that are said to be columns of this table; none says there is no such."""
    headings = {one.casefold(): one for one in draft.sheet.grid.headings}
    for name, heading in answers.items():
        table, _, column = name.rpartition(".")
        if table not in {"", draft.table.name} or column not in draft.own:
            continue
        if not heading.strip():
            draft.without.add(column)
            continue
        parts = [one.strip() for one in heading.split("+")]
        missing = [one for one in parts if one.casefold() not in headings]
        if missing:
            near = nearest(missing[0], list(headings.values()))
            said = f"is no heading of this sheet; there are: {', '.join(headings.values())}."
            said += f" Did you mean “{near}”?" if near else ""
            draft.ask(column, said, missing[0])
        else:
            draft.columns[column] = tuple(headings[one.casefold()] for one in parts)


def _take_constants(draft: MappingDraft, answers: Mapping[str, str]) -> None:
    for name, value in answers.items():
        table, _, column = name.rpartition(".")
        if table in {"", draft.table.name} and column in [*draft.own, "time"]:
            draft.constants[column] = value


def _match(draft: MappingDraft) -> None:
    own = draft.own
    for nth in (0, 1):  # first the likeliest meaning of every heading, then the second
        for heading in draft.free():
            bare, unit = without_unit(heading, draft.synonyms)
            called = draft.synonyms.columns_called(draft.table.name, bare)
            meant = [one for one in called if one in own][nth : nth + 1]
            if meant and draft.lacks(meant[0]):
                draft.columns[meant[0]] = (heading,)
                draft.units |= {meant[0]: unit} if unit else {}


def _match_renamed(draft: MappingDraft) -> None:
    """Take the one new heading for the one that is gone, where its values are of that column."""
    pair = renamed(draft.sheet)
    if pair is None or pair[0] in draft.columns or pair[1] not in draft.free():
        return
    column, heading = pair
    if column not in draft.table.names or fits_column(draft, column, heading):
        draft.columns[column] = (heading,)


def _match_within(draft: MappingDraft) -> None:
    """Give long headings, as forms ask questions, the column whose name stands within them."""
    for heading in draft.free():
        text = f" {heading_key(heading)} "
        if len(text.split()) < _LONG_HEADING and "?" not in heading:
            continue
        fitting = sorted(
            (-len(spelling), spelling, column)
            for column in draft.own
            for spelling in draft.synonyms.spellings_of(draft.table.name, column)
            if f" {spelling} " in text
        )
        if fitting and draft.lacks(fitting[0][2]):
            draft.columns[fitting[0][2]] = (heading,)


def _settle_by_titles(draft: MappingDraft) -> None:
    """Take team, season and setting from titles and names where no column gives them."""
    sheet, known, table = draft.sheet, draft.known, draft.table
    named = {*draft.columns, *draft.constants}
    wants_team = "team" in table.required or "athlete_team" in draft.own
    if wants_team and not {"team", "athlete_team"} & named and "athlete" not in draft.columns:
        fitting = teams_called(sheet.titles, known.teams, known.synonyms)
        if len(fitting) == 1:
            draft.constants["team" if "team" in table.names else "athlete_team"] = fitting[0]
    if "season" in table.required and "season" not in named:
        season = season_of(sheet.titles, known.seasons, known.only.get("season"))
        draft.constants |= {"season": season} if season else {}
    of_games = not OF_GAMES.isdisjoint(map(folded, sheet.grid.headings))
    if table.name == "sessions" and "setting" not in named and of_games:
        draft.constants["setting"] = "game"


def _ask_doubled(draft: MappingDraft) -> None:
    """Ask which of two columns of one heading is meant, where one was taken and one is free."""
    for heading in draft.free():
        base = _NUMBERED.sub("", heading)
        twin = next((one for one, many in draft.columns.items() if many == (base,)), None)
        used = {one for many in draft.columns.values() for one in many}
        is_settled = any(_NUMBERED.sub("", one) == base for one in used - {base})
        if base == heading or twin is None or is_settled:
            continue
        cells = [f"“{one}” holds {draft.examples(one)}" for one in (base, heading)]
        said = f"two columns are called “{base}”: {'; '.join(cells)}. Say which one it is, with "
        said += f"--column {twin}='{base}' or --column {twin}='{heading}'."
        draft.ask(twin, said, None, (base, heading))


def _is_made(draft: MappingDraft, name: str) -> bool:
    """Say whether the program makes a required cell from others of the row."""
    table, columns = draft.table, draft.columns
    if table.name == "roster" and name == "athlete":
        return "name" in columns
    if table.name == "guards" and name in {"guard", "side"}:
        return "kind" in columns  # which may tell the side; the rows without one are told
    return table.key == (name,) and bool(table.key_made_of)


def _adds_to_orders(draft: MappingDraft) -> bool:
    """Say whether a sheet of guards is a log of what exists already: nobody and no kind in it."""
    naming = {"athlete", "athlete_name", "kind"} & draft.columns.keys()
    return draft.table.name == "guards" and "guard" in draft.columns and not naming


def _fill_required(draft: MappingDraft) -> None:
    if _adds_to_orders(draft):
        return
    known, table = draft.known, draft.table
    for name in table.required:
        if name in draft.columns or name in draft.constants or _is_made(draft, name):
            continue
        if stands_in(table, name, draft.columns):
            continue
        if name in known.only:
            draft.constants[name] = known.only[name]
        elif name in TEAMS:
            choices = known.teams["team"].to_list()
            said = team_question(choices, draft.sheet.titles, known.synonyms)
            draft.ask(name, said, None, choices, wish="value")
        elif name == "season":
            said = season_question(draft.sheet.titles, known.seasons)
            draft.ask(name, said, None, known.seasons, wish="value")
        else:
            free = draft.free()
            near = nearest(name.replace("_", " "), free)
            said = f"no column could be told to be {name}, which every row of {table.name} needs. "
            said += f"Name it with --column {name}=HEADING ({', '.join(free) or 'none is left'})"
            said += f", or one value for all rows with --value {name}=VALUE."
            said += f" Is it “{near}”?" if near else ""
            draft.ask(name, said)


def _ask_near(draft: MappingDraft) -> None:
    """Ask about headings that are nearly those of columns still missing."""
    named = {*draft.constants, *draft.without, *draft.table.required}
    for heading in draft.free():
        lacking = [one.replace("_", " ") for one in draft.table.names if one not in draft.columns]
        close = get_close_matches(folded(heading), lacking, 1, 0.8)
        near = close[0].replace(" ", "_") if close else ""
        if near and near not in named and all(one.column != near for one in draft.questions):
            said = f"may be {near}. Say so with --column {near}='{heading}', or that it is left "
            draft.ask(near, said + f"out with --column {near}=.", heading, (heading,))
