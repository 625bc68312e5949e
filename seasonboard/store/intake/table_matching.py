"""Which table a sheet is, by its headings, its name and the file's; or why it is none."""

import re
from collections.abc import Mapping, Sequence

from seasonboard.store.intake.header import own_columns, stands_in
from seasonboard.store.intake.mapping_draft import DraftKnowledge
from seasonboard.store.intake.problems import quoted
from seasonboard.store.intake.site_columns import site_headings
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import folded
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.stored_tables import TABLES
from seasonboard.terms import Stage

OF_GAMES = frozenset(
    {"opponent", "opp", "vs", "h a", "home away", "home", "result", "score", "w l"}
)
"""Headings that only a list of games has."""
_FOR_PEOPLE = frozenset(
    {
        *("notes", "note", "contacts", "contact", "legend", "key", "codes", "info", "readme"),
        *("read me", "instructions", "summary", "totals", "to do", "todo", "phone list", "lists"),
        *("emails", "staff", "supplies", "shopping", "template", "blank", "help"),
    }
)
"""Names of sheets that hold no records."""
_OF_CONTACTS = frozenset({"phone", "email", "e mail", "cell", "cell phone", "mobile", "role"})
_FEWEST_HEADINGS = 2
_DATE_WORDS = frozenset({"date", "on", "at", "day"})


def table_for(sheet: OpenSheet, known: DraftKnowledge) -> str:
    """Return the table whose columns and name fit best."""
    if sheet.table is not None:
        return sheet.table
    synonyms, headings = known.synonyms, sheet.grid.headings
    bare = [without_unit(heading, synonyms)[0] for heading in headings]
    called = {_table_called(one, synonyms) for one in (sheet.name, sheet.path.stem)}
    is_of_games = not OF_GAMES.isdisjoint(map(folded, headings))
    has_sites = bool(site_headings(headings, "kind", known.kinds, synonyms))
    staged = len(stage_headings(headings, synonyms))

    def weight(name: str) -> float:
        table, own = TABLES[name], own_columns(TABLES[name])
        meant = [[c for c in synonyms.columns_called(name, one) if c in own] for one in bare]
        named = {columns[0] for columns in meant if columns}
        needed = [one for one in table.required if one in named or stands_in(table, one, named)]
        points = 2 * len(needed) / len(table.required) + 3 * (name in called)
        if name == "guards":
            named |= {"kind", "side"} if has_sites else set()
            is_log = known.has_guards and {"guard", "printer", "print_hours"} <= named
            points += 2 * is_log + (staged if staged > 1 else 0)
        points += 2 * (name == "sessions" and is_of_games)
        return points + len(named) - 0.5 * len(named - set(table.names))

    return max(TABLES, key=weight)


def rows_of(sheet: OpenSheet) -> list[Sequence[str]]:
    """Return the cells of a sheet of records, the headings as its first row."""
    body = sheet.grid.body.drop("file_row")
    return [sheet.grid.headings, *([cell or "" for cell in row] for row in body.iter_rows())]


def why_no_table(
    sheet: OpenSheet, legend: Mapping[str, Mapping[str, str]], synonyms: Synonyms
) -> str | None:
    """Return why one of the sheets of a workbook holds no records; None when it may.

    `legend` is what is known of the marks of grids in its file.
    """
    rows = rows_of(sheet)
    marks = {mark for known in legend.values() for mark in known}
    first = [row[0].strip().casefold() for row in rows if len(row) == 2]
    if len(first) == len(rows) and sum(one in marks for one in first) * 2 >= len(rows):
        return "it holds the legend of the marks, no records"
    written = sheet.grid.headings
    headings = {folded(one) for one in written}
    if {"first", "last"} <= headings or {"first name", "last name"} <= headings:
        return None
    if folded(sheet.name) in _FOR_PEOPLE or len(written) == 1 or headings & _OF_CONTACTS:
        return f"it is for people to read, not a table ({quoted(written[:4])})"
    columns = (
        {column for one in written for column in synonyms.columns_called(name, one)}
        & {*own_columns(table)}
        for name, table in TABLES.items()
    )
    if max(map(len, columns)) < _FEWEST_HEADINGS:
        return f"none of the tables has columns such as {quoted(written[:4])}"
    return None


def stage_headings(headings: Sequence[str], synonyms: Synonyms) -> dict[str, str]:
    """Return heading → stage of the headings that name a stage of an order."""
    bare = {
        heading: " ".join(one for one in folded(heading).split() if one not in _DATE_WORDS)
        or heading
        for heading in headings
    }
    meant = meanings(list(bare.values()), "stage", tuple(Stage), synonyms)
    return {heading: meant[word] for heading, word in bare.items() if word in meant}


def _table_called(name: str, synonyms: Synonyms) -> str | None:
    """Return the table a file or sheet is called after, also within a longer name."""
    words = " ".join(re.sub(r"[0-9]+", " ", folded(name)).split())
    tables = {folded(table): table for table in TABLES} | dict(synonyms.tables)
    fitting = [one for one in tables if f" {one} " in f" {words} "]
    return tables[max(fitting, key=len)] if fitting else None


def without_unit(heading: str, synonyms: Synonyms) -> tuple[str, str | None]:
    """Part a heading from its unit: “Shell (in)” → “Shell”, “in”; a known heading stays whole."""
    if folded(heading) in synonyms.every_heading:
        return heading, None
    units = {unit for many in synonyms.units.values() for unit in many}
    parts = re.match(r"^(.*?)[\s_]*[(\[]\s*([^)\]]+?)\.?\s*[)\]]$", heading)
    if parts and parts[2].casefold() in units:
        return parts[1], parts[2].casefold()
    words = re.split(r"[\s_]+", heading)
    if len(words) > 1 and words[-1].casefold() in units - {"mm", "g", "m", "h"}:
        return " ".join(words[:-1]), words[-1].casefold()
    return heading, None
