"""Random seasons in which much is doubtful: what the data checks must find, and what not."""

from datetime import timedelta
from typing import Any

from hypothesis import strategies as st

from seasonboard.answers.checks.all_checks import ALL_CHECKS
from seasonboard.store.store import Store
from tests.queries import build
from tests.queries.asking import scope
from tests.queries.build import Row, Season, stamp
from tests.queries.seasons import ATHLETES, FIRST, scopes
from tests.queries.slow_orders import order_seasons

NAMES = (
    "Samuel Quirke", "Quirke, Samuel", "samuel quirké", "Samuel Quirk", "Samule Quirke", "Lee Sam",
    "山田太郎", "山田花子",
)  # fmt: skip
CHECK_PARAMS = (
    *("seasons", "until", "departments", "teams", "sports", "sexes", "settings"),
    *("position_groups", "kinds", "areas", "sides", "made_of"),
)
DIMENSIONS = {
    "shell_mm": (None, 2.0, 0.6, 12.0),
    "liner_mm": (None, 3.0, 15.0),
    "contact_pct": (None, 90.0, 8.0),
    "mass_g": (None, 120.0, 5.0, 2000.0),
    "print_hours": (None, 6.0, 0.1, 100.0),
}


@st.composite
def doubtful(draw: st.DrawFn) -> Season:
    """Draw a season with sessions twice, odd minutes, odd measures, near names, loose offers."""
    club = draw(order_seasons())
    for s in draw(st.lists(st.sampled_from(club.sessions), max_size=3)):
        later = timedelta(minutes=draw(st.sampled_from([0, 20, 59, 60, 200])))
        again = s | {"session": f"{s['session']}-{len(club.sessions)}"}
        club.sessions.append(again | {"starts_at": s["starts_at"] + later})
    draw(_cells(club))
    for row in club.injuries:
        draw(_loosened(row))
    for row in draw(st.lists(st.sampled_from(club.guards), max_size=2)) if club.guards else []:
        draw(_ordered_again(club, row))
    for number in range(draw(st.integers(0, 3))):
        club.injuries.append(draw(_uncovered(f"N{number}")))
    for number in range(draw(st.integers(0, 4))):
        club.offers.append(draw(_offer(f"O{number}")))
    if draw(st.booleans()):
        club.departments[1] |= {"plan": "weekly allotment", "prints_per_week": None}
    return club


@st.composite
def _cells(draw: st.DrawFn, club: Season) -> None:
    """Draw minutes, plays, names, days of joining, measures, and what a guard is a remake of."""
    for row in club.attendance:
        row["minutes"] = draw(st.sampled_from([None, None, None, 0, 60, 300]))
        row["plays"] = draw(st.sampled_from([None, None, None, 0, 30, 900]))
    for row in club.roster:
        row["name"] = draw(st.sampled_from(NAMES))
        if draw(st.integers(0, 5)) == 0 and not row.get("left_on"):
            row["joined_on"] = FIRST[row["season"]] + timedelta(days=draw(st.integers(0, 8)))
    for place, row in enumerate(club.guards):
        for column, values in DIMENSIONS.items():
            row[column] = draw(st.sampled_from((None, None, *values)))
        if place and draw(st.booleans()):
            row["remake_of"] = draw(st.sampled_from(club.guards[:place]))["guard"]


@st.composite
def _loosened(draw: st.DrawFn, injury: Row) -> None:
    """Take the session or the side of an injury away, or date it a day earlier."""
    away = draw(st.integers(0, 6))
    if away == 0:
        injury["session"] = None
    elif away == 1:
        injury["occurred_on"] -= timedelta(days=1)
    elif away == 2 and injury["side"] != "midline":
        injury["side"] = None


@st.composite
def _ordered_again(draw: st.DrawFn, club: Season, guard: Row) -> None:
    """Order a guard twice within a fortnight, under another key."""
    first = FIRST[draw(st.sampled_from(["2025", "2026"]))]
    again = guard | {"guard": f"{guard['guard']}-{len(club.guards)}", "remake_of": None}
    club.guards.append(again)
    for key in (guard["guard"], again["guard"]):
        on = first + timedelta(days=draw(st.integers(0, 12)))
        club.stages.append(stamp(key, "requested", on, draw(st.integers(0, 23))))


@st.composite
def _uncovered(draw: st.DrawFn, key: str) -> Row:
    on = FIRST["2026"] + timedelta(days=draw(st.integers(0, 14)))
    who = draw(st.sampled_from(ATHLETES))
    back = draw(st.sampled_from([None, on, on + timedelta(days=5)]))
    return build.injury(key, who, on, area="neck", returned_on=back, reported_on=None)


@st.composite
def _offer(draw: st.DrawFn, key: str) -> Row:
    return {
        "offer": key,
        "athlete": draw(st.sampled_from(ATHLETES)),
        "kind": draw(st.sampled_from(["shin", "chest", "knee"])),
        "offered_on": FIRST["2026"] + timedelta(days=draw(st.integers(-400, 20))),
        "answer": draw(st.sampled_from(["accepted", "accepted", "declined"])),
    }


@st.composite
def check_scopes(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a scope as the checks take it: of some kinds, or of all; some settings, or all."""
    asked = draw(scopes())
    if draw(st.booleans()):
        asked["kinds"] = None
    asked["settings"] = draw(st.sampled_from([None, None, ["game"]]))
    return {name: asked[name] for name in CHECK_PARAMS}


def wide(**parts: object) -> dict[str, Any]:
    """Return a scope as the checks take it, with everything in it but for `parts`."""
    asked = scope(**({"kinds": None} | parts))
    return {name: asked[name] for name in CHECK_PARAMS}


def case(check: str, season: Season, *expected: object, **parts: object) -> tuple[Any, ...]:
    """Return what a check is asked, and what it finds."""
    return check, season, list(expected), parts


def doubts(store: Store, check: str, **parts: object) -> list[tuple[str, str | None, str]]:
    """Return (key, athlete, what is doubtful) of the rows that a check finds."""
    rows = store.read(ALL_CHECKS[check].query, **wide(**parts))
    return list(rows.select("key", "athlete", "detail").iter_rows())
