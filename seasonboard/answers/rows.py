"""The rows behind a number: plain tables that a reader shows, copies or saves."""

from dataclasses import dataclass

from polars import selectors

from seasonboard.answers.comparisons import Comparison
from seasonboard.answers.games_parts import Clock, GamesOptions
from seasonboard.answers.reader import Reader
from seasonboard.answers.ticking import ticking_params
from seasonboard.paging import PageAsked, PageFound
from seasonboard.scope import Scope

MOST_ROWS = 500
"""Rows fetched at once; the total is told beside them."""

Cell = str | int | float | None


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table; figures stand right-aligned."""

    name: str
    heading: str
    is_number: bool = False


@dataclass(frozen=True, slots=True)
class Rows:
    """A table of rows; when `total` is larger than their number, the rest was not fetched."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    total: int

    @property
    def is_cut(self) -> bool:
        """Say whether there are more rows than were fetched."""
        return self.total > len(self.rows)


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


def injury_rows(reader: Reader, scope: Scope) -> Rows:
    """Return every injury to the sites studied: counted or not, and why."""
    page = reader.read_page("rows/injuries", PageAsked(MOST_ROWS), **scope.params())
    return _rows("Injuries to the sites studied", _INJURY, page)


def athlete_rows(reader: Reader, scope: Scope) -> Rows:
    """Return guarded and bare site-exposures and injuries, athlete by athlete."""
    page = reader.read_page("rows/athletes", PageAsked(MOST_ROWS), **scope.params())
    return _rows("Site-exposures by athlete", _ATHLETE, page)


def tick_rows(reader: Reader, scope: Scope, options: GamesOptions, tick: int) -> Rows:
    """Return who was at risk at one tick of the clock, site by site."""
    page = reader.read_page(
        "rows/at_tick",
        PageAsked(MOST_ROWS),
        **ticking_params(scope, options.clock),
        tick=tick,
    )
    word = "Session" if options.clock is Clock.SESSIONS else "Game"
    return _rows(f"{word} {tick}: who was at risk", _AT_TICK, page)


def strata_rows(comparison: Comparison) -> Rows:
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
    return Rows(f"Strata with an injury: {comparison.name}", _STRATUM, rows[:MOST_ROWS], len(rows))


def _rows(title: str, columns: tuple[Column, ...], page: PageFound) -> Rows:
    cells = page.rows.select(column.name for column in columns).with_columns(
        selectors.date().dt.to_string("%Y-%m-%d")
    )
    return Rows(title, columns, tuple(cells.iter_rows()), page.total)
