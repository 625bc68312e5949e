"""The rows behind Compare and Games: injuries, athletes, strata, who was at risk at one tick."""

from dataclasses import replace
from typing import TYPE_CHECKING

from seasonboard.answers.fields import Field, Kind, Privacy, Table, of
from seasonboard.answers.reader import Reader
from seasonboard.answers.report import table_columns, table_rows
from seasonboard.answers.rows import Rows, page_in_memory, page_rows
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.answers.compare.comparisons import Comparison, Stratum
    from seasonboard.answers.games.parts import GamesOptions

_ATHLETE = Field("athlete", of("athlete"), "key", heading="athlete", privacy=Privacy.KEY)
_NAME = Field("name", of("name"), "of the athlete", heading="name", privacy=Privacy.NAME)
_TEAM = Field("team", of("team"), "key of the team", heading="team")
_AREA = Field("area", of("area"), "body area", heading="area")
_SIDE = Field("side", of("side"), "left, right or midline", heading="side")
_SESSION = Field("session", of("session"), "key of the session", heading="session")
_WORN = Field("worn", of("worn"), "what was worn at the site", heading="at the site")


_EXPOSED = Field(
    *("exposures_guarded", of("exposures_guarded"), "guarded site-exposures"),
    *(Kind.COUNT, "guarded"),
)
_EXPOSED_BARE = Field(
    *("exposures_unguarded", of("exposures_unguarded"), "bare site-exposures"),
    *(Kind.COUNT, "bare"),
)
_HURT = Field(
    *("injuries_guarded", of("injuries_guarded"), "of them, with an injury"),
    *(Kind.COUNT, "hurt"),
)
_HURT_BARE = Field(
    *("injuries_unguarded", of("injuries_unguarded"), "of them, with an injury"),
    *(Kind.COUNT, "hurt bare"),
)

INJURIES = Table(
    "injuries",
    lambda frame: frame.iter_rows(named=True),
    (
        Field("injury", of("injury"), "key", heading="injury", privacy=Privacy.KEY),
        Field("occurred_on", of("occurred_on"), "day of onset", Kind.DAY, "day"),
        *(_ATHLETE, _NAME, _AREA, _SIDE, _SESSION, _WORN),
        Field("days_lost", of("days_lost"), "full days lost", Kind.COUNT, "days lost"),
        Field("counted", of("counted"), "counted, or why not", heading="counted"),
    ),
    "an injury to a site studied",
)
ATHLETES = Table(
    "athletes",
    lambda frame: frame.iter_rows(named=True),
    (
        *(_ATHLETE, _NAME, _TEAM),
        Field(
            *("position_group", of("position_group"), "as on the roster"),
            heading="position group",
            optional=True,
        ),
        *(_EXPOSED, _HURT, _EXPOSED_BARE, _HURT_BARE),
        Field("set_aside", of("set_aside"), "exposures in neither group", Kind.COUNT, "set aside"),
    ),
    "an athlete with a site-exposure",
)
AT_RISK = Table(
    "at_risk",
    lambda frame: frame.iter_rows(named=True),
    (
        *(_ATHLETE, _NAME, _TEAM),
        Field("season", of("season"), "season of the session", heading="season"),
        *(_AREA, _SIDE, _SESSION),
        Field("played_on", of("played_on"), "day of the session", Kind.DAY, "day"),
        _WORN,
        Field("injured", of("injured"), "whether it was hurt then", heading="hurt"),
    ),
    "a site at risk at one tick of the clock",
)


def _informs(stratum: "Stratum") -> str:
    return "yes" if stratum.informs else "no: only one group was exposed"


STRATA = Table(
    "strata",
    of("strata"),
    (
        Field("stratum", of("label"), "what is alike in it", heading="stratum"),
        replace(_HURT, heading="hurt guarded"),
        *(_HURT_BARE, _EXPOSED, _EXPOSED_BARE),
        Field("informs", _informs, "whether both groups were exposed", heading="informs"),
    ),
    "a stratum with an injury",
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
    from seasonboard.answers.games.parts import Clock, ticking_params

    params = ticking_params(scope, options.clock)
    rows = reader.read_page("rows/at_tick", page, **params, tick=tick)
    word = "Session" if options.clock is Clock.SESSIONS else "Game"
    return page_rows(f"{word} {tick}: who was at risk", table_columns(AT_RISK), rows, page)


def strata_rows(comparison: "Comparison", page: PageAsked = FIRST) -> Rows:
    """Return the strata of one comparison that hold an injury."""
    title = f"Strata with an injury: {comparison.name}"
    return page_in_memory(table_rows(STRATA, comparison, title), page)
