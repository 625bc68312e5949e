"""The rows behind a number: plain tables that a reader shows, copies or saves."""

import unicodedata
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from polars import selectors

from seasonboard.answers.reader import Reader
from seasonboard.paging import FIRST, PageAsked, PageFound
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.answers.compare.comparisons import Comparison
    from seasonboard.answers.games.parts import GamesOptions

Cell = str | int | float | None


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table; figures stand right-aligned."""

    name: str
    heading: str
    is_number: bool = False


@dataclass(frozen=True, slots=True)
class Rows:
    """A page of a table: `offset` rows come before it, `matching` match what was searched for."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    total: int
    matching: int
    offset: int = 0

    @property
    def is_cut(self) -> bool:
        """Say whether there are more matching rows than these."""
        return self.matching > len(self.rows)


def held(rows: Rows, page: PageAsked) -> Rows:
    """Return a page of rows that are all in memory, by the rules of the store."""
    found = list(rows.rows)
    wanted = [_folded(word) for word in page.search.split()]
    if wanted:
        lines = [_folded(" ".join(map(_as_text, row))) for row in found]
        found = [
            row
            for row, line in zip(found, lines, strict=True)
            if all(word in line for word in wanted)
        ]
    if page.sort:
        place = [column.name for column in rows.columns].index(page.sort)
        told = [row for row in found if row[place] is not None]
        told.sort(key=lambda row: _rank(row[place]), reverse=page.descending)
        found = told + [row for row in found if row[place] is None]
    cut = tuple(found[page.offset : page.offset + page.limit])
    return replace(rows, rows=cut, matching=len(found), offset=page.offset)


def _folded(text: str) -> str:
    plain = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in plain if not unicodedata.combining(letter))


def _as_text(cell: Cell) -> str:
    return "" if cell is None else str(cell)


def _rank(cell: Cell) -> tuple[bool, float, str]:
    """Rank figures before words; equal ones keep their order."""
    is_word = isinstance(cell, str)
    return is_word, 0.0 if cell is None or isinstance(cell, str) else float(cell), _as_text(cell)


_INJURY = (
    Column("injury", "injury"),
    Column("occurred_on", "day"),
    Column("athlete", "athlete"),
    Column("name", "name"),
    Column("area", "area"),
    Column("side", "side"),
    Column("session", "session"),
    Column("worn", "at the site"),
    Column("days_lost", "days lost", is_number=True),
    Column("counted", "counted"),
)
_ATHLETE = (
    Column("athlete", "athlete"),
    Column("name", "name"),
    Column("team", "team"),
    Column("position_group", "position group"),
    Column("exposures_guarded", "guarded", is_number=True),
    Column("injuries_guarded", "hurt", is_number=True),
    Column("exposures_unguarded", "bare", is_number=True),
    Column("injuries_unguarded", "hurt bare", is_number=True),
    Column("set_aside", "set aside", is_number=True),
)
_AT_TICK = (
    Column("athlete", "athlete"),
    Column("name", "name"),
    Column("team", "team"),
    Column("season", "season"),
    Column("area", "area"),
    Column("side", "side"),
    Column("session", "session"),
    Column("played_on", "day"),
    Column("worn", "at the site"),
    Column("injured", "hurt"),
)
_STRATUM = (
    Column("stratum", "stratum"),
    Column("injuries_guarded", "hurt guarded", is_number=True),
    Column("injuries_unguarded", "hurt bare", is_number=True),
    Column("exposures_guarded", "guarded", is_number=True),
    Column("exposures_unguarded", "bare", is_number=True),
    Column("informs", "informs"),
)


def injury_rows(reader: Reader, scope: Scope, page: PageAsked = FIRST) -> Rows:
    """Return every injury to the sites studied: counted or not, and why."""
    found = reader.read_page("rows/injuries", page, **scope.params())
    return page_rows("Injuries to the sites studied", _INJURY, found, page)


def athlete_rows(reader: Reader, scope: Scope, page: PageAsked = FIRST) -> Rows:
    """Return guarded and bare site-exposures and injuries, athlete by athlete."""
    found = reader.read_page("rows/athletes", page, **scope.params())
    return page_rows("Site-exposures by athlete", _ATHLETE, found, page)


def tick_rows(
    reader: Reader, scope: Scope, options: "GamesOptions", tick: int, page: PageAsked = FIRST
) -> Rows:
    """Return who was at risk at one tick of the clock, site by site."""
    from seasonboard.answers.games.clock_sessions import ticking_params
    from seasonboard.answers.games.parts import Clock

    params = ticking_params(scope, options.clock)
    found = reader.read_page("rows/at_tick", page, **params, tick=tick)
    word = "Session" if options.clock is Clock.SESSIONS else "Game"
    return page_rows(f"{word} {tick}: who was at risk", _AT_TICK, found, page)


def strata_rows(comparison: "Comparison", page: PageAsked = FIRST) -> Rows:
    """Return the strata of one comparison that hold an injury."""
    rows = tuple(
        (
            s.label,
            s.injuries_guarded,
            s.injuries_unguarded,
            s.exposures_guarded,
            s.exposures_unguarded,
            "yes" if s.informs else "no: only one group was exposed",
        )
        for s in comparison.strata
    )
    whole = Rows(f"Strata with an injury: {comparison.name}", _STRATUM, rows, len(rows), len(rows))
    return held(whole, page)


def page_rows(title: str, columns: tuple[Column, ...], found: PageFound, page: PageAsked) -> Rows:
    """Return a page that the store found, days and instants written as text."""
    cells = found.rows.select(column.name for column in columns).with_columns(
        selectors.date().dt.to_string("%Y-%m-%d")
    )
    rows = tuple(cells.iter_rows())
    return Rows(title, columns, rows, found.total, found.matching, page.offset)
