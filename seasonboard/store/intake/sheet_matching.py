"""One sheet's part of a proposed mapping, while it grows: table, columns, answers, questions."""

import re
from collections.abc import Mapping
from difflib import get_close_matches

from seasonboard.load_options import ORDERS, LoadOptions
from seasonboard.store.intake.dates import order_of
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.mapping_draft import MappingDraft, cells_of, examples
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.value_matching import add_time, check_values, match_values
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES
from seasonboard.terms import nearest

_DATED = (CellType.DATE, CellType.INSTANT)


def draft_of(
    sheet: OpenSheet, options: LoadOptions, synonyms: Synonyms, only: Mapping[str, str]
) -> MappingDraft:
    """Draft how one sheet is read; what cannot be told from it is a question of the draft."""
    draft = MappingDraft(sheet, TABLES[_table_for(sheet, synonyms)])
    _take_answers(draft, options)
    _match(draft, synonyms)
    _ask_doubled(draft)
    match_values(draft, synonyms)
    _match(draft, synonyms)  # what a heading was freed from may be another's
    check_values(draft, synonyms)
    add_time(draft)
    _fill_required(draft, only)
    _ask_near(draft)
    _settle_dates(draft, options, synonyms)
    return draft


def _table_for(sheet: OpenSheet, synonyms: Synonyms) -> str:
    """Return the table whose columns and name fit best."""
    if sheet.table is not None:
        return sheet.table

    def weight(name: str) -> float:
        table = TABLES[name]
        known = {
            column
            for heading in sheet.grid.headings
            for column in synonyms.columns_called(name, _bare(heading, synonyms)[0])[:1]
        }
        needed = [one for one in table.required if one in known]
        called = {_table_called(one, synonyms) for one in (sheet.name, sheet.path.stem)}
        return len(known) + 2 * len(needed) / len(table.required) + 3 * (name in called)

    return max(TABLES, key=weight)


def _table_called(name: str, synonyms: Synonyms) -> str | None:
    """Return the table a file or sheet is called after, also within a longer name."""
    words = re.sub(r"[0-9]+", " ", folded(name))
    known = {folded(table): table for table in TABLES} | dict(synonyms.tables)
    fitting = [one for one in known if f" {one} " in f" {' '.join(words.split())} "]
    return known[max(fitting, key=len)] if fitting else None


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
            bare, unit = _bare(heading, synonyms)
            meant = [one for one in synonyms.columns_called(draft.table.name, bare) if one in known]
            column = meant[place] if place < len(meant) else None
            taken = {*draft.columns, *draft.constants, *draft.without}
            if column and column not in taken:
                draft.columns[column] = (heading,)
                if unit:
                    draft.units[column] = unit


def _bare(heading: str, synonyms: Synonyms) -> tuple[str, str | None]:
    """Part a heading from its unit: “Shell (in)” → “Shell”, “in”."""
    units = {unit for many in synonyms.units.values() for unit in many}
    parts = re.match(r"^(.*?)[\s_]*[(\[]\s*([^)\]]+?)\.?\s*[)\]]$", heading)
    if parts and parts[2].casefold() in units:
        return parts[1], parts[2].casefold()
    words = re.split(r"[\s_]+", heading)
    if len(words) > 1 and words[-1].casefold() in units - {"mm", "g", "m", "h"}:
        return " ".join(words[:-1]), words[-1].casefold()
    return heading, None


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


def _fill_required(draft: MappingDraft, only: Mapping[str, str]) -> None:
    for name in draft.table.required:
        if name in draft.columns or name in draft.constants:
            continue
        if name == "athlete" and "athlete_name" in draft.columns and draft.table.name != "roster":
            continue
        if draft.table.key == (name,) and draft.table.key_made_of:
            continue
        if name in only:
            draft.constants[name] = only[name]
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


def _settle_dates(draft: MappingDraft, options: LoadOptions, synonyms: Synonyms) -> None:
    """Take the order of day and month from any column that settles it."""
    if options.dates is not None:
        draft.dates = options.dates
        return
    orders, open_ = set(), []
    for name, headings in draft.columns.items():
        if name in draft.table.names and draft.table.column(name).holds in _DATED:
            cells = cells_of(draft.sheet.grid, headings[0])
            order, proof = order_of(cells, synonyms) or (None, "")
            if order in ORDERS:
                orders.add(order)
                draft.proof = draft.proof or f", as “{proof}” under “{headings[0]}” shows"
            elif order is not None:
                open_.append((name, headings[0]))
    if len(orders) == 1:
        (draft.dates,) = orders
    elif open_ or orders:
        (name, heading), *others = open_ or [("dates", "")]
        also = "".join(f", “{other}” too," for _, other in others)
        said = f"“{heading}”{also} can be read day/month or month/day "
        said += f"({examples(draft.sheet.grid, heading)}). Say which with --dates dmy or "
        said += "--dates mdy."
        draft.ask(name, said, None, ("dmy", "mdy"), wish="dates")
