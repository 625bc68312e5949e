"""The rows behind Compare and Games: injuries, athletes, strata, who was at risk at one tick."""

from dataclasses import replace
from typing import TYPE_CHECKING

from seasonboard.answers.fields import Field, Kind, Table, of
from seasonboard.answers.reader import Reader
from seasonboard.answers.report import table_columns, table_rows
from seasonboard.answers.row_fields import frame_rows, usual
from seasonboard.answers.rows import Rows, page_in_memory, page_rows
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.answers.compare.comparisons import Comparison
    from seasonboard.answers.games.parts import GamesOptions

_WORN = Field("worn", "what was worn at the site", heading="at the site")


def _count(name: str, meaning: str, heading: str) -> Field:
    return Field(name, meaning, Kind.COUNT, heading=heading)


_EXPOSED = _count("exposures_guarded", "guarded site-exposures", "guarded")
_EXPOSED_BARE = _count("exposures_unguarded", "bare site-exposures", "bare")
_HURT = _count("injuries_guarded", "of them, with an injury", "hurt")
_HURT_BARE = _count("injuries_unguarded", "of them, with an injury", "hurt bare")

INJURIES = Table.described(
    "injuries",
    "an injury to a site studied",
    *usual("injury"),
    Field("occurred_on", "day of onset", Kind.DAY, heading="day"),
    *(*usual("athlete", "name", "area", "side", "session"), _WORN),
    _count("days_lost", "full days lost", "days lost"),
    Field("counted", "counted, or why not", heading="counted"),
    rows=frame_rows,
)
ATHLETES = Table.described(
    "athletes",
    "an athlete with a site-exposure",
    *usual("athlete", "name", "team"),
    Field("position_group", "as on the roster", heading="position group", optional=True),
    *(_EXPOSED, _HURT, _EXPOSED_BARE, _HURT_BARE),
    _count("set_aside", "exposures in neither group", "set aside"),
    rows=frame_rows,
)
AT_RISK = Table.described(
    "at_risk",
    "a site at risk at one tick of the clock",
    *usual("athlete", "name", "team"),
    Field("season", "season of the session", heading="season"),
    *usual("area", "side", "session"),
    Field("played_on", "day of the session", Kind.DAY, heading="day"),
    _WORN,
    Field("injured", "whether it was hurt then", heading="hurt"),
    rows=frame_rows,
)


STRATA = Table.described(
    "strata",
    "a stratum with an injury",
    Field("stratum", "what is alike in it", get=of("label"), heading="stratum"),
    replace(_HURT, heading="hurt guarded"),
    *(_HURT_BARE, _EXPOSED, _EXPOSED_BARE),
    Field(
        "informs",
        "whether both groups were exposed",
        get=lambda one: "yes" if one.informs else "no: only one group was exposed",
        heading="informs",
    ),
)


def injury_rows(reader: Reader, scope: Scope, page: PageAsked = FIRST) -> Rows:
    """Return every injury to the sites studied: counted or not, and why."""
    rows = reader.read_page("rows/injuries", page, **scope.params())
    return page_rows("Injuries to the sites studied", table_columns(INJURIES), rows, page)


def athlete_rows(reader: Reader, scope: Scope, page: PageAsked = FIRST) -> Rows:
    """Return guarded and bare site-exposures and injuries, athlete by athlete."""
    rows = reader.read_page("rows/athletes", page, **scope.params())
    return page_rows("Site-exposures by athlete", table_columns(ATHLETES), rows, page)


def tick_rows(
    reader: Reader, scope: Scope, options: "GamesOptions", tick: int, page: PageAsked = FIRST
) -> Rows:
    """Return who was at risk at one tick of the clock, site by site."""
    from seasonboard.answers.games.parts import ticking_params
    from seasonboard.answers.games.words import ONE_TICK

    params = ticking_params(scope, options.clock)
    rows = reader.read_page("rows/at_tick", page, **params, tick=tick)
    word = ONE_TICK[options.clock].capitalize()
    return page_rows(f"{word} {tick}: who was at risk", table_columns(AT_RISK), rows, page)


def strata_rows(comparison: "Comparison", page: PageAsked = FIRST) -> Rows:
    """Return the strata of one comparison that hold an injury."""
    title = f"Strata with an injury: {comparison.name}"
    return page_in_memory(table_rows(STRATA, comparison, title), page)
