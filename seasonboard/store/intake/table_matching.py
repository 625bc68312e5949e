"""Which table a sheet is, by its headings, its name and the file's."""

import re

from seasonboard.store.intake.draft_knowledge import DraftKnowledge
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.header import own_columns, stands_in
from seasonboard.store.intake.key_matching import stage_headings
from seasonboard.store.intake.site_columns import site_headings
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.stored_tables import TABLES

OF_GAMES = frozenset(
    {"opponent", "opp", "vs", "h a", "home away", "home", "result", "score", "w l"}
)
"""Headings that only a list of games has."""


def table_for(sheet: OpenSheet, synonyms: Synonyms, known: DraftKnowledge) -> str:
    """Return the table whose columns and name fit best."""
    if sheet.table is not None:
        return sheet.table

    headings = {folded(one) for one in sheet.grid.headings}

    def weight(name: str) -> float:
        table = TABLES[name]
        own = own_columns(table)
        named = {
            column
            for heading in sheet.grid.headings
            for column in [
                one
                for one in synonyms.columns_called(name, without_unit(heading, synonyms)[0])
                if one in own
            ][:1]
        }
        needed = [one for one in table.required if one in named or stands_in(table, one, named)]
        called = {_table_called(one, synonyms) for one in (sheet.name, sheet.path.stem)}
        if name == "guards" and site_headings(sheet.grid.headings, "kind", known.kinds, synonyms):
            named |= {"kind", "side"}
        staged = len(stage_headings(sheet.grid.headings, synonyms)) if name == "guards" else 0
        logged = 2 * (
            name == "guards" and known.has_guards and {"guard", "printer", "print_hours"} <= named
        )
        share = len(needed) / len(table.required)
        by_name = 0.5 * len(named - set(table.names))
        games = 2 * (name == "sessions" and bool(headings & OF_GAMES))
        stages = staged if staged > 1 else 0
        return len(named) - by_name + 2 * share + 3 * (name in called) + stages + logged + games

    return max(TABLES, key=weight)


def _table_called(name: str, synonyms: Synonyms) -> str | None:
    """Return the table a file or sheet is called after, also within a longer name."""
    words = re.sub(r"[0-9]+", " ", folded(name))
    known = {folded(table): table for table in TABLES} | dict(synonyms.tables)
    fitting = [one for one in known if f" {one} " in f" {' '.join(words.split())} "]
    return known[max(fitting, key=len)] if fitting else None


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
