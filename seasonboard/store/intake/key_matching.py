"""Which columns name a person, a session's day or a kind of guard where a heading says less."""

from collections.abc import Callable, Sequence
from functools import partial

import polars as pl

from seasonboard.store.intake.draft_knowledge import DraftKnowledge
from seasonboard.store.intake.folding import folded, folded_name
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.heading_days import heading_day
from seasonboard.store.intake.mapping_draft import SAMPLE, MappingDraft, cells_of, share_of
from seasonboard.store.intake.order_notes import NOTE
from seasonboard.store.intake.site_columns import KIND, SIDE, are_ticks, site_headings
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.terms import PATHOLOGIES, Area, Stage

_MOST = 0.5
_NAME = r"\p{L}[\p{L}’'.-]*,?\s+\p{L}"
_FIRST = ("first", "first name", "given name", "given", "firstname")
_LAST = ("last", "last name", "surname", "family name", "lastname")


def first_and_last(headings: Sequence[str]) -> tuple[str, str] | None:
    """Return the headings of first and last names; None where there are not both."""
    bare = {folded(heading): heading for heading in headings}
    first = next((bare[one] for one in _FIRST if one in bare), None)
    last = next((bare[one] for one in _LAST if one in bare), None)
    return (first, last) if first and last else None


def join_names(draft: MappingDraft) -> None:
    """Join a first and a last name to one name."""
    column = "name" if draft.table.name == "roster" else "athlete_name"
    both = first_and_last(draft.sheet.grid.headings)
    if both and column in own_columns(draft.table):
        for name, many in list(draft.columns.items()):
            if set(many) & set(both):
                del draft.columns[name]
        draft.columns[column] = both


def settle_keys(draft: MappingDraft, synonyms: Synonyms, known: DraftKnowledge) -> None:
    """Take a column of names, days or kinds for what it is, where its heading is that of a key."""
    own = own_columns(draft.table)
    people = "name" if draft.table.name == "roster" else "athlete_name"
    moves: tuple[tuple[str, str, Callable[[pl.Series], bool]], ...] = (
        ("athlete", people, partial(_are_names, known=known)),
        ("session", "session_on", partial(_are_days, synonyms=synonyms)),
        ("guard", "kind", partial(are_kinds, synonyms=synonyms, known=known)),
        ("injury", "pathology", partial(_are_pathologies, synonyms=synonyms)),
        ("guard", "guard_kind", partial(are_kinds, synonyms=synonyms, known=known)),
    )
    for key, name, holds in moves:
        if key not in draft.columns or name not in own or name in draft.columns:
            continue
        (heading, *more) = draft.columns[key]
        if not more and holds(cells_of(draft.sheet.grid, heading).head(SAMPLE)):
            del draft.columns[key]
            draft.columns[name] = (heading,)
    kind = "kind" if "kind" in draft.table.names else "guard_kind"
    absent = kind not in draft.columns and kind not in draft.constants
    if kind in own and absent and draft.sheet.grid.body.height:
        fitting = [
            heading
            for heading in draft.free()
            if are_kinds(cells_of(draft.sheet.grid, heading).head(SAMPLE), synonyms, known)
        ]
        if len(fitting) == 1:
            draft.columns[kind] = (fitting[0],)


def _are_names(cells: pl.Series, known: DraftKnowledge) -> bool:
    if not len(cells) or share_of(cells.is_in(list(known.athletes))) >= _MOST:
        return False
    words = {word for name in known.people["name"].drop_nulls() for word in name.split()}
    named = [folded_name(cell) in words for cell in cells]  # by the last name, or the first
    return share_of(cells.str.contains(_NAME)) >= _MOST or sum(named) >= _MOST * len(named)


def _are_days(cells: pl.Series, synonyms: Synonyms) -> bool:
    days = [heading_day(cell, synonyms.months) for cell in cells]
    return bool(days) and sum(bool(one and (one.month or one.numbers)) for one in days) == len(days)


def _are_pathologies(cells: pl.Series, synonyms: Synonyms) -> bool:
    texts = cells.to_list()
    meant = meanings(list(set(texts)), "pathology", PATHOLOGIES, synonyms)
    return bool(texts) and sum(text in meant for text in texts) >= _MOST * len(texts)


def are_kinds(cells: pl.Series, synonyms: Synonyms, known: DraftKnowledge) -> bool:
    """Say whether most cells of a column are kinds of guards, perhaps with a side or “pair”."""
    names = {folded(kind) for kind in known.kinds} | set(synonyms.words.get("kind", {}))

    def is_kind(cell: str) -> bool:
        bare, _ = synonyms.parted_from_sides(cell)
        return bool({folded(cell), bare, bare.removesuffix("s")} & names)

    return len(cells) > 0 and sum(map(is_kind, cells)) >= _MOST * len(cells)


def stage_headings(headings: Sequence[str], synonyms: Synonyms) -> dict[str, str]:
    """Return heading → stage of the headings that name a stage of an order."""
    bare = {heading: _without_date_word(heading) for heading in headings}
    meant = meanings(list(bare.values()), "stage", tuple(Stage), synonyms)
    return {heading: meant[word] for heading, word in bare.items() if word in meant}


def _without_date_word(heading: str) -> str:
    words = [word for word in folded(heading).split() if word not in {"date", "on", "at", "day"}]
    return " ".join(words) or heading


def _free_dates(draft: MappingDraft, synonyms: Synonyms) -> None:
    """Free headings of dates that an optional column of words took by name, as `Scan`."""
    for name, many in list(draft.columns.items()):
        words = name in draft.table.names and draft.table.column(name).words
        if not words or len(many) > 1 or many[0] not in draft.sheet.grid.places:
            continue
        cells = cells_of(draft.sheet.grid, many[0]).head(SAMPLE)
        if stage_headings(many, synonyms) and _are_days(cells, synonyms):
            del draft.columns[name]


def find_hours(draft: MappingDraft) -> None:
    """Take the start and the end of a print for its hours, in a log that gives no hours."""
    bare = {folded(heading): heading for heading in draft.free()}
    start = next((bare[one] for one in ("start", "started", "start time") if one in bare), None)
    end = next((bare[one] for one in ("end", "ended", "end time", "finish") if one in bare), None)
    is_log = not {"athlete", "athlete_name", "kind"} & draft.columns.keys()
    if start and end and is_log and "print_hours" not in draft.columns:
        draft.columns["print_hours"] = (start, end)


def find_stages(draft: MappingDraft, synonyms: Synonyms) -> None:
    """Find the columns of dates that are stages, and the notes that may tell a remake."""
    _free_dates(draft, synonyms)
    named = stage_headings(draft.free(), synonyms)
    grid = draft.sheet.grid
    stages = {}
    for heading, stage in named.items():
        cells = cells_of(grid, heading)
        days = [heading_day(cell, synonyms.months) for cell in cells.head(SAMPLE)]
        dated = sum(bool(one and (one.month or one.numbers)) for one in days)
        if not len(cells) or dated >= _MOST * len(days):
            stages[heading] = stage
    if len(stages) > 1 or (stages and "stage" not in draft.columns):
        draft.stages = stages
    notes = [
        one
        for one in draft.free()
        if "note" in synonyms.columns_called("stages", one) or folded(one) == "status"
    ]
    if notes and NOTE not in draft.columns:
        draft.columns[NOTE] = tuple(notes)


def find_sites(draft: MappingDraft, synonyms: Synonyms, known: DraftKnowledge) -> None:
    """Find the columns of ticks that are sites, where no column gives the kind or the area."""
    name = "kind" if draft.table.name == "guards" else "area"
    if name in draft.columns:
        return
    names = known.kinds if name == "kind" else tuple(Area)
    sites = site_headings(draft.free(), name, names, synonyms)
    ticked = {
        heading: site
        for heading, site in sites.items()
        if are_ticks(cells_of(draft.sheet.grid, heading))
    }
    if ticked:
        draft.sites = ticked
        draft.columns |= {name: (KIND,), "side": (SIDE,)}
