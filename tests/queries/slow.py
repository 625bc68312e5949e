"""The counts once more, by plain loops over rows, written from the definitions and not from SQL."""

import math
from collections.abc import Callable
from datetime import date, datetime, timedelta
from functools import cached_property
from typing import Any

from tests.queries.build import Row, Season
from tests.queries.slow_wear import in_hand, is_unknown

MIDLINE = {"head", "neck", "chest", "thoracic spine", "lumbosacral", "abdomen"}
KINDS = {"shin": ["lower leg"], "chest": ["chest"], "shoulder": ["shoulder"]}
UNKNOWN = "nobody recorded whether the guard was worn"
Site = tuple[str, str]


def sides(area: str, side: str) -> list[str]:
    """Return the sides of an area that something worn on, or done to, `side` concerns."""
    if area in MIDLINE:
        return ["midline"]
    return ["left", "right"] if side == "both" else [side]


class Slow:
    """One season looked at through one scope."""

    def __init__(self, season: Season, scope: dict[str, Any]) -> None:
        self.season = season
        self.scope = scope
        self.until: date = scope["until"]
        self.covers: dict[str, set[str]] = {kind: set(areas) for kind, areas in KINDS.items()}
        for row in season.kinds:
            self.covers.setdefault(row["kind"], set()).add(row["area"])
        self.teams = {t["team"]: t for t in season.teams}
        self.rosters = {(r["athlete"], r["team"], r["season"]): r for r in season.roster}
        self.parts = {(a["session"], a["athlete"]): a["part"] for a in season.attendance}
        self.known = [
            i for i in season.injuries if (i.get("reported_on") or i["occurred_on"]) < self.until
        ]
        sites = {
            (area, side)
            for kind in scope["kinds"]
            for area, side in covered(self.covers, {"kind": kind, "side": "both"})
            if asked(scope["areas"], area) and asked(scope["sides"], side)
        }
        self.sites = sorted(sites)

    def sessions(self, *, any_setting: bool = False) -> list[Row]:
        """Return the sessions of the scope, in order."""
        found = []
        for s in self.season.sessions:
            held = self.season.played_on(s["session"]) < self.until
            setting = {} if any_setting else {"settings": s["setting"]}
            if held and within(self.scope, self.teams[s["team"]], seasons=s["season"], **setting):
                found.append(s)
        return sorted(found, key=lambda s: self.season.instant(s["session"]))

    def group_of(self, athlete: str, session: Row) -> str | None:
        row = self.rosters.get((athlete, session["team"], session["season"]), {})
        return row.get("position_group")

    def in_groups(self, position_group: str | None) -> bool:
        return asked(self.scope["position_groups"], position_group)

    def on_roster(self, s: Row) -> list[Row]:
        """Return who of the scope's groups is on a session's roster that day."""
        on, team = self.season.played_on(s["session"]), (s["team"], s["season"])
        rows = (r for r in self.season.roster if (r["team"], r["season"]) == team and is_on(r, on))
        return [r for r in rows if self.in_groups(r.get("position_group"))]

    def hurt_at(self, athlete: str, site: Site) -> list[Row]:
        """Return the known injuries of one site."""
        return [
            i
            for i in self.known
            if i["athlete"] == athlete and i["area"] == site[0] and site[1] in sides(*of(i))
        ]

    def is_open(self, injury: Row) -> bool:
        return injury["returned_on"] is None or injury["returned_on"] >= self.until

    def days_lost(self, injury: Row) -> int:
        """Return full days between onset and return, of a closed injury."""
        between = 0
        on = injury["occurred_on"] + timedelta(days=1)
        while on < injury["returned_on"]:
            between, on = between + 1, on + timedelta(days=1)
        return between

    def cost_time(self, injury: Row) -> bool:
        return self.is_open(injury) or self.days_lost(injury) > 0

    def counts(self, injury: Row) -> bool:
        return self.scope["outcome"] == "any" or self.cost_time(injury)

    def worn(self, session: str, athlete: str, site: Site) -> set[str]:
        """Return what was worn at a site: preventive, return, other kind."""
        return self.at_site(self.season.session(session), athlete, site)[0]

    def at_site(self, s: Row, athlete: str, site: Site) -> tuple[set[str], bool]:
        """Return what was worn at a site (preventive, return, other kind), and if it is unknown."""
        worn, owned, unknown = set(), set(), False
        for g in self.season.guards:
            if g["athlete"] != athlete or site not in covered(self.covers, g):
                continue
            use = g["purpose"] if g["kind"] in self.scope["kinds"] else "other kind"
            said = [
                w.get("worn") or "yes"
                for w in self.season.wear
                if (w["session"], w["guard"]) == (s["session"], g["guard"])
            ]
            if said == ["yes"]:
                worn.add(use)
            if said or in_hand(self.season, g, self.season.instant(s["session"])):
                owned.add(use)
            unknown |= use != "other kind" and is_unknown(self.season, g, s)
        told = {
            i["was_on"]
            for i in self.hurt_at(athlete, site)
            if i["session"] == s["session"] and i.get("was_on")
        }
        if told == {"no"}:
            return set(), False
        if told == {"yes"}:
            return worn or owned - {"other kind"} or {"other kind"}, False
        return worn, unknown and not worn & {"preventive", "return"}

    def was_hurt_before(self, session: Row, athlete: str, site: Site) -> bool:
        start = self.season.instant(session["session"])
        on = self.season.played_on(session["session"])
        return any(
            self.season.instant(i["session"]) < start if i["session"] else i["occurred_on"] < on
            for i in self.hurt_at(athlete, site)
        )

    @cached_property
    def exposures(self) -> list[Row]:
        """Return every site-exposure, in the order of the sessions."""
        found = []
        for s in self.sessions():
            for (session, athlete), part in self.parts.items():
                position_group = self.group_of(athlete, s)
                if session != s["session"] or part == "out" or not self.in_groups(position_group):
                    continue
                for site in self.sites:
                    worn, unknown = self.at_site(s, athlete, site)
                    hurt = [i for i in self.hurt_at(athlete, site) if i["session"] == session]
                    before = self.was_hurt_before(s, athlete, site)
                    found.append(
                        {
                            "session": s,
                            "athlete": athlete,
                            "site": site,
                            "position_group": position_group,
                            "guarded": self.is_guarded(worn),
                            "set_aside": self.set_aside(worn, before=before)
                            or (UNKNOWN if unknown else None),
                            "injured": any(self.counts(i) for i in hurt),
                            "any_injury": bool(hurt),
                        }
                    )
        return found

    def is_guarded(self, worn: set[str]) -> bool:
        view = self.scope["purpose"]
        return bool(worn & ({"preventive", "return"} if view == "all" else {view}))

    def set_aside(self, worn: set[str], *, before: bool) -> str | None:
        """Return why an exposure is in neither group."""
        view = self.scope["purpose"]
        if view == "preventive" and before:
            return "after an earlier injury to the site"
        if view == "preventive" and "return" in worn:
            return "a guard made for return was worn"
        if view == "return" and not before:
            return "no earlier injury to the site"
        if view == "return" and "preventive" in worn and "return" not in worn:
            return "a preventive guard was worn"
        if worn == {"other kind"}:
            return "a guard outside the scope was worn at the site"
        return None

    def strata(self) -> dict[tuple[str, Any], tuple[int, ...]]:
        """Return counts of (injuries guarded, bare, exposures guarded, bare) by stratum."""
        found: dict[tuple[str, Any], list[int]] = {}
        for e in self.exposures:
            if e["set_aside"]:
                continue
            s, team = e["session"], self.teams[e["session"]["team"]]
            days = (self.season.played_on(s["session"]) - date(2000, 1, 3)).days
            alike = (e["site"][0], team["sport"], team["sex"], e["position_group"])
            alike += (s["setting"], s["season"], days // 14)
            same = (e["site"][0], s["session"], e["position_group"])
            for key in (("crude", "all"), ("alike athletes", alike), ("same session", same)):
                cell = found.setdefault(key, [0, 0, 0, 0])
                cell[0 if e["guarded"] else 1] += e["injured"]
                cell[2 if e["guarded"] else 3] += 1
        return {key: tuple(cell) for key, cell in found.items()}


def first_to_end(season: Season, athlete: str, is_past: Callable[[datetime], bool]) -> Row | None:
    """Of an athlete's places the first to end that is not past, else the last to end.

    A place ends with the last session of its team and season; one without any comes last.
    """

    def rank(place: Row) -> tuple[Any, ...]:
        over = ending(season, place)
        past = over is None or is_past(over)
        key = math.inf if over is None else -over.timestamp() if past else over.timestamp()
        return (past, key, place["team"], place["season"])

    return min((r for r in season.roster if r["athlete"] == athlete), key=rank, default=None)


def ending(season: Season, place: Row) -> datetime | None:
    """Return when the last session of a place's team and season starts, in the zone there."""
    mine = (
        season.instant(s["session"])
        for s in season.sessions
        if (s["team"], s["season"]) == (place["team"], place["season"])
    )
    return max(mine, default=None)


def of(injury: Row) -> tuple[str, str]:
    return injury["area"], injury["side"]


def is_on(place: Row, on: date) -> bool:
    """Say whether a place on a roster holds that day."""
    return bool((place.get("joined_on") or on) <= on <= (place.get("left_on") or on))


def covered(covers: dict[str, set[str]], guard: Row) -> set[Site]:
    """Return the sites that a guard covers."""
    return {(area, side) for area in covers[guard["kind"]] for side in sides(area, guard["side"])}


def within(scope: dict[str, Any], team: Row, **parts: str | None) -> bool:
    """Say whether a team, and what else is given by the part of the scope, is asked for."""
    parts |= {"teams": team["team"], "departments": team["department"]}
    parts |= {"sports": team["sport"], "sexes": team["sex"]}
    return all(asked(scope[name], value) for name, value in parts.items())


def asked(values: list[str] | None, value: str | None) -> bool:
    return values is None or value in values
