"""Small random seasons with everything in them that a record can hold, and random scopes."""

from datetime import date, datetime, time, timedelta
from typing import Any

from hypothesis import strategies as st

from tests.queries import build
from tests.queries.asking import scope
from tests.queries.build import Row, Season

ATHLETES = ("A", "B", "C", "E", "F")
TEAMS = {"T": build.team("T"), "U": build.team("U", department="H", sport="hockey", sex="men")}
FIRST = {"2025": date(2025, 9, 1), "2026": date(2026, 9, 1)}
KIND_SITES = {
    "shin": ("left", "right", "both"),
    "calf": ("left", "right", "both"),
    "chest": ("midline",),
    "vest": ("left", "both"),
}
INJURED_SITES = [("lower leg", side) for side in ("left", "right", "both")]
INJURED_SITES += [("chest", "midline"), ("shoulder", "left"), ("knee", "left")]


@st.composite
def seasons(draw: st.DrawFn) -> Season:
    """Draw two seasons of two teams: few athletes, all the oddities."""
    season = Season(
        kinds=[
            {"kind": "calf", "area": "lower leg"},
            {"kind": "vest", "area": "chest"},
            {"kind": "vest", "area": "shoulder"},
        ],
        departments=[build.department("D"), build.department("H", time_zone="America/Denver")],
        teams=list(TEAMS.values()),
    )
    season.roster = draw(_roster())
    season.sessions = draw(_sessions())
    season.guards = draw(_guards())
    for s in season.sessions:
        draw(_fill(season, s))
    for number in range(draw(st.integers(0, 4))):
        season.injuries.append(draw(_injury(f"Z{number}", None, None)))
    return season


@st.composite
def _roster(draw: st.DrawFn) -> list[Row]:
    rows = []
    for athlete in ATHLETES:
        for team in draw(st.sampled_from([["T"], ["U"], ["T", "U"]])):
            for year in draw(st.sampled_from([["2025", "2026"], ["2026"]])):
                group = draw(st.sampled_from(["back", "wing", None]))
                cells: Row = {"team": team, "season": year, "position_group": group}
                if draw(st.integers(0, 4)) == 0:
                    cells["left_on"] = FIRST[year] + timedelta(days=draw(st.integers(5, 12)))
                rows.append(build.member(athlete, **cells))
    return rows


@st.composite
def _sessions(draw: st.DrawFn) -> list[Row]:
    """Draw sessions of both teams; two on one day at different hours happen, so do late ones."""
    rows = []
    for number in range(draw(st.integers(6, 14))):
        year = draw(st.sampled_from(["2025", "2026", "2026"]))
        team = draw(st.sampled_from(["T", "U"]))
        on = FIRST[year] + timedelta(days=draw(st.integers(0, 14)))
        starts_at = datetime.combine(on, time(8 + number, number))  # no two at once
        setting = draw(st.sampled_from(["game", "game", "practice"]))
        cells: Row = {"team": team, "season": year, "starts_at": starts_at, "setting": setting}
        rows.append(build.session(f"S{number:02}", on, **cells))
    return rows


@st.composite
def _guards(draw: st.DrawFn) -> list[Row]:
    rows = []
    for athlete in ATHLETES:
        for number in range(draw(st.integers(0, 3))):
            kind = draw(st.sampled_from(["shin", "shin", "chest", "calf", "vest"]))
            side = draw(st.sampled_from(KIND_SITES[kind]))
            purpose = draw(st.sampled_from(["preventive", "preventive", "return"]))
            cells = {"kind": kind, "side": side, "purpose": purpose}
            rows.append(build.guard(f"{athlete}{number}", athlete, **cells))
    return rows


@st.composite
def _fill(draw: st.DrawFn, season: Season, s: Row) -> None:
    """Draw who took part in a session, what was worn in it, and who was hurt."""
    for athlete in dict.fromkeys(r["athlete"] for r in season.roster):
        here = any(r["athlete"] == athlete and r["team"] == s["team"] for r in season.roster)
        parts = ["full", "full", "full", "limited", "out", None] if here else [None] * 9 + ["full"]
        part = draw(st.sampled_from(parts))
        if part:
            row = {"session": s["session"], "athlete": athlete, "part": part}
            season.attendance.append(row)
        for g in season.guards:
            if g["athlete"] == athlete and here and draw(st.booleans()):
                season.wear.append({"session": s["session"], "guard": g["guard"]})
        for number in range(draw(st.sampled_from([0, 0, 0, 0, 1, 1, 2])) if here else 0):
            key = f"{athlete}-{s['session']}-{number}"
            season.injuries.append(draw(_injury(key, athlete, s)))


@st.composite
def _injury(draw: st.DrawFn, key: str, athlete: str | None, s: Row | None) -> Row:
    if s is None:
        year = draw(st.sampled_from(["2025", "2026"]))
        on = FIRST[year] + timedelta(days=draw(st.integers(-20, 20)))
    else:
        on = s["starts_at"].date()
    area, side = draw(st.sampled_from(INJURED_SITES))
    away = draw(st.sampled_from([None, 0, 1, 2, 4, 60]))
    told = draw(st.sampled_from([None, None, 0, 3]))
    return build.injury(
        key,
        athlete or draw(st.sampled_from(ATHLETES)),
        on,
        session=s and s["session"],
        area=area,
        side=side,
        returned_on=None if away is None else on + timedelta(days=away),
        reported_on=None if told is None else on + timedelta(days=told),
    )


def _some(*values: str) -> st.SearchStrategy[list[str] | None]:
    """Draw everything mostly, else some of the values."""
    few = st.lists(st.sampled_from(values), min_size=1, max_size=2, unique=True)
    return st.one_of(st.none(), st.none(), few)


@st.composite
def scopes(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a scope; it may rewind to any day of either season."""
    kinds = st.sampled_from([["shin"], ["chest"], ["shin", "chest"], ["vest", "shin"], ["calf"]])
    year = draw(st.sampled_from(["2025", "2026", "2026"]))
    on = FIRST[year] + timedelta(days=draw(st.integers(3, 40)))
    return scope(
        through=on,
        kinds=draw(kinds),
        seasons=draw(_some("2025", "2026")),
        departments=draw(_some("D", "H")),
        teams=draw(_some("T", "U")),
        sports=draw(_some("soccer", "hockey")),
        sexes=draw(_some("women", "men", "mixed")),
        position_groups=draw(_some("back", "wing")),
        areas=draw(_some("lower leg", "chest", "shoulder")),
        sides=draw(_some("left", "right", "midline")),
        outcome=draw(st.sampled_from(["time loss", "any"])),
    )
