"""Which columns name a person, a session's day or a kind of guard where a heading says less."""

from collections.abc import Callable, Sequence

import polars as pl

from seasonboard.store.intake.mapping_draft import MappingDraft, cells_of, share_of
from seasonboard.store.intake.order_notes import NOTE
from seasonboard.store.intake.site_columns import KIND, SIDE, are_ticks, site_headings
from seasonboard.store.intake.table_matching import stage_headings
from seasonboard.store.intake.text_columns import folded, folded_name
from seasonboard.store.intake.word_spellings import meanings, with_sides_apart
from seasonboard.store.intake.written_times import is_dated
from seasonboard.terms import PATHOLOGIES, Area

_MOST = 0.5
_NAME = r"\p{L}[\p{L}’'.-]*,?\s+\p{L}"
_FIRST = ("first", "first name", "given name", "given", "firstname")
_LAST = ("last", "last name", "surname", "family name", "lastname")
_START = ("start", "started", "start time")
_END = ("end", "ended", "end time", "finish")


def pair_called(
    headings: Sequence[str], first: Sequence[str] = _FIRST, last: Sequence[str] = _LAST
) -> tuple[str, str] | None:
    """Return the headings of first and last names, or of such a pair; None without both."""
    bare = {folded(heading): heading for heading in headings}
    pair = [next((bare[one] for one in words if one in bare), "") for words in (first, last)]
    return (pair[0], pair[1]) if all(pair) else None


def join_names(draft: MappingDraft) -> None:
    """Join a first and a last name to one name."""
    column = "name" if draft.table.name == "roster" else "athlete_name"
    both = pair_called(draft.sheet.grid.headings)
    if both and column in draft.own:
        draft.columns = {
            name: many for name, many in draft.columns.items() if set(many).isdisjoint(both)
        }
        draft.columns[column] = both


def settle_keys(draft: MappingDraft) -> None:
    """Take a column of names, days or kinds for what it is, where its heading is that of a key."""
    people = "name" if draft.table.name == "roster" else "athlete_name"
    moves: tuple[tuple[str, str, Callable[[pl.Series, MappingDraft], bool]], ...] = (
        ("athlete", people, _are_names),
        ("session", "session_on", _are_days),
        ("guard", "kind", _are_kinds),
        ("injury", "pathology", _are_pathologies),
        ("guard", "guard_kind", _are_kinds),
    )
    for key, name, holds in moves:
        if key in draft.columns and name in draft.own and name not in draft.columns:
            (heading, *more) = draft.columns[key]
            if not more and holds(draft.cells(heading), draft):
                del draft.columns[key]
                draft.columns[name] = (heading,)
    kind = "kind" if "kind" in draft.table.names else "guard_kind"
    absent = kind not in draft.columns and kind not in draft.constants
    if kind in draft.own and absent and draft.sheet.grid.body.height:
        fitting = [one for one in draft.free() if _are_kinds(draft.cells(one), draft)]
        if len(fitting) == 1:
            draft.columns[kind] = (fitting[0],)


def _are_names(cells: pl.Series, draft: MappingDraft) -> bool:
    known = draft.known
    if not len(cells) or share_of(cells.is_in(list(known.athletes))) >= _MOST:
        return False
    words = {word for name in known.people["name"].drop_nulls() for word in name.split()}
    named = [folded_name(cell) in words for cell in cells]  # by the last name, or the first
    return share_of(cells.str.contains(_NAME)) >= _MOST or sum(named) >= _MOST * len(named)


def _are_days(cells: pl.Series, draft: MappingDraft) -> bool:
    return len(cells) > 0 and all(is_dated(cell, draft.synonyms.months) for cell in cells)


def _are_pathologies(cells: pl.Series, draft: MappingDraft) -> bool:
    meant = meanings(cells.unique().to_list(), "pathology", PATHOLOGIES, draft.synonyms)
    return len(cells) > 0 and sum(cell in meant for cell in cells) >= _MOST * len(cells)


def _are_kinds(cells: pl.Series, draft: MappingDraft) -> bool:
    """Say whether most cells of a column are kinds of guards, perhaps with a side or “pair”."""
    kinds = {*draft.known.kinds, *draft.synonyms.words.get("kind", {}).values()}
    meant = with_sides_apart(cells.unique().to_list(), "kind", sorted(kinds), draft.synonyms)
    return len(cells) > 0 and sum(cell in meant for cell in cells) >= _MOST * len(cells)


def find_hours(draft: MappingDraft) -> None:
    """Take the start and the end of a print for its hours, in a log that gives no hours."""
    both = pair_called(draft.free(), _START, _END)
    is_log = not {"athlete", "athlete_name", "kind"} & draft.columns.keys()
    if both and is_log and "print_hours" not in draft.columns:
        draft.columns["print_hours"] = both


def find_stages(draft: MappingDraft) -> None:
    """Find the columns of dates that are stages, and the notes that may tell a remake."""
    _free_dates(draft)
    months = draft.synonyms.months
    stages = {}
    for heading, stage in stage_headings(draft.free(), draft.synonyms).items():
        cells = draft.cells(heading)
        if sum(is_dated(cell, months) for cell in cells) >= _MOST * len(cells):
            stages[heading] = stage
    if len(stages) > 1 or (stages and "stage" not in draft.columns):
        draft.stages = stages
    notes = [
        one
        for one in draft.free()
        if "note" in draft.synonyms.columns_called("stages", one) or folded(one) == "status"
    ]
    if notes and NOTE not in draft.columns:
        draft.columns[NOTE] = tuple(notes)


def _free_dates(draft: MappingDraft) -> None:
    """Free headings of dates that an optional column of words took by name, as `Scan`."""
    for name, many in list(draft.columns.items()):
        words = name in draft.table.names and draft.table.column(name).words
        if not words or len(many) > 1 or many[0] not in draft.sheet.grid.places:
            continue
        if stage_headings(many, draft.synonyms) and _are_days(draft.cells(many[0]), draft):
            del draft.columns[name]


def find_sites(draft: MappingDraft) -> None:
    """Find the columns of ticks that are sites, where no column gives the kind or the area."""
    name = "kind" if draft.table.name == "guards" else "area"
    if name in draft.columns:
        return
    names = draft.known.kinds if name == "kind" else tuple(Area)
    sites = site_headings(draft.free(), name, names, draft.synonyms)
    grid = draft.sheet.grid
    ticked = {one: site for one, site in sites.items() if are_ticks(cells_of(grid, one))}
    if ticked:
        draft.sites = ticked
        draft.columns |= {name: (KIND,), "side": (SIDE,)}
