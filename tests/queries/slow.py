"""The counts once more, by plain loops over rows, written from the definitions and not from SQL."""

from collections import Counter
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

from tests.queries.build import Row, Season

MIDLINE = {"head", "neck", "chest", "thoracic spine", "lumbosacral", "abdomen"}
KINDS = {"shin": ["lower leg"], "chest": ["chest"], "shoulder": ["shoulder"]}
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
        self.sites = sorted(
            (area, side)
            for kind in scope["kinds"]
            for area in self.covers[kind]
            for side in sides(area, "both")
            if _asked(scope["areas"], area) and _asked(scope["sides"], side)
        )
        self.sites = sorted(set(self.sites))

    def sessions(self, *, any_setting: bool = False) -> list[Row]:
        """Return the sessions of the scope, in order."""
        found = []
        for s in self.season.sessions:
            team = self.teams[s["team"]]
            if (
                self.season.played_on(s["session"]) < self.until
                and _asked(self.scope["seasons"], s["season"])
                and _asked(self.scope["teams"], s["team"])
                and _asked(self.scope["departments"], team["department"])
                and _asked(self.scope["sports"], team["sport"])
                and _asked(self.scope["sexes"], team["sex"])
                and (any_setting or _asked(self.scope["settings"], s["setting"]))
            ):
                found.append(s)
        return sorted(found, key=lambda s: self.season.instant(s["session"]))

    def group_of(self, athlete: str, session: Row) -> str | None:
        row = self.rosters.get((athlete, session["team"], session["season"]), {})
        return row.get("position_group")

    def in_groups(self, position_group: str | None) -> bool:
        return _asked(self.scope["position_groups"], position_group)

    def hurt_at(self, athlete: str, site: Site) -> list[Row]:
        """Return the known injuries of one site."""
        return [
            i
            for i in self.known
            if i["athlete"] == athlete and i["area"] == site[0] and site[1] in sides(*_of(i))
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
        found = set()
        for w in self.season.wear:
            for g in self.season.guards:
                if (
                    w["session"] == session
                    and w["guard"] == g["guard"]
                    and g["athlete"] == athlete
                    and site[0] in self.covers[g["kind"]]
                    and site[1] in sides(site[0], g["side"])
                ):
                    counted = g["kind"] in self.scope["kinds"]
                    found.add(g["purpose"] if counted else "other kind")
        return found

    def was_hurt_before(self, session: Row, athlete: str, site: Site) -> bool:
        start = self.season.instant(session["session"])
        on = self.season.played_on(session["session"])
        return any(
            self.season.instant(i["session"]) < start if i["session"] else i["occurred_on"] < on
            for i in self.hurt_at(athlete, site)
        )

    def exposures(self) -> list[Row]:
        """Return every site-exposure, in the order of the sessions."""
        found = []
        for s in self.sessions():
            for (session, athlete), part in self.parts.items():
                position_group = self.group_of(athlete, s)
                if session != s["session"] or part == "out" or not self.in_groups(position_group):
                    continue
                for site in self.sites:
                    worn = self.worn(session, athlete, site)
                    hurt = [i for i in self.hurt_at(athlete, site) if i["session"] == session]
                    before = self.was_hurt_before(s, athlete, site)
                    found.append(
                        {
                            "session": s,
                            "athlete": athlete,
                            "site": site,
                            "position_group": position_group,
                            "guarded": self.is_guarded(worn),
                            "set_aside": self.set_aside(worn, before),
                            "injured": any(self.counts(i) for i in hurt),
                            "any_injury": bool(hurt),
                        }
                    )
        return found

    def is_guarded(self, worn: set[str]) -> bool:
        view = self.scope["purpose"]
        return bool(worn & ({"preventive", "return"} if view == "all" else {view}))

    def set_aside(self, worn: set[str], before: bool) -> str | None:
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
            return "a guard of another kind was worn at the site"
        return None

    def strata(self) -> dict[tuple[str, Any], tuple[int, ...]]:
        """Return counts of (injuries guarded, bare, exposures guarded, bare) by stratum."""
        found: dict[tuple[str, Any], list[int]] = {}
        for e in self.exposures():
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

    def left_out(self) -> dict[tuple[str, str], int]:
        """Return how many were left out, by what and why."""
        found: Counter[tuple[str, str]] = Counter()
        for e in self.exposures():
            if e["set_aside"]:
                found["site-exposures", e["set_aside"]] += 1
        for why in self.injury_fates().values():
            if why != "yes":
                found["injuries", why] += 1
        found["injuries", "no session recorded"] = len(self.hurt_outside())
        out = "the athlete is not recorded as taking part in that session"
        for s in self.sessions():
            on = self.season.played_on(s["session"])
            for r in self.season.roster:
                here = r["team"] == s["team"] and r["season"] == s["season"]
                if here and _is_on(r, on) and self.in_groups(r.get("position_group")):
                    missing = (s["session"], r["athlete"]) not in self.parts
                    found["athletes' sessions", "attendance not recorded"] += missing
            for w in self.season.wear:
                (g,) = [g for g in self.season.guards if g["guard"] == w["guard"]]
                if w["session"] != s["session"] or not self.is_studied(g):
                    continue
                part = self.parts.get((s["session"], g["athlete"]), "out")
                group = self.group_of(g["athlete"], s)
                found["guards worn", out] += part == "out" and self.in_groups(group)
        return {key: number for key, number in found.items() if number}

    def is_studied(self, guard: Row) -> bool:
        """Say whether a guard of the scope covers a site of the scope."""
        covered = [
            (area, side)
            for area in self.covers[guard["kind"]]
            for side in sides(area, guard["side"])
        ]
        return guard["kind"] in self.scope["kinds"] and bool(set(covered) & set(self.sites))

    def injury_fates(self) -> dict[tuple[str, str], str]:
        """Return `yes`, or why not counted, by injury and side, of those in a session."""
        met = {(e["session"]["session"], e["athlete"], e["site"]): e for e in self.exposures()}
        sessions = {s["session"]: s for s in self.sessions()}
        found: dict[tuple[str, str], str] = {}
        counted = set()
        costly_first = sorted(self.known, key=lambda i: (not self.cost_time(i), i["injury"]))
        for i in costly_first:
            if i["session"] not in sessions:
                continue
            if not self.in_groups(self.group_of(i["athlete"], sessions[i["session"]])):
                continue
            for side in sides(*_of(i)):
                place = (i["session"], i["athlete"], (i["area"], side))
                if place[2] not in self.sites:
                    continue
                e = met.get(place)
                if e is None:
                    why = "the athlete is not recorded as taking part in that session"
                elif e["set_aside"]:
                    why = e["set_aside"]
                elif not self.counts(i):
                    why = "no day lost"
                elif place in counted:
                    why = "a second record of the same site in the same session"
                else:
                    why = "yes"
                    counted.add(place)
                found[i["injury"], side] = why
        return found

    def hurt_outside(self) -> set[str]:
        """Return the injuries without a session, during a season of the scope."""
        spans: dict[tuple[str, str], list[date]] = {}
        for s in self.sessions(any_setting=True):
            on = self.season.played_on(s["session"])
            spans.setdefault((s["team"], s["season"]), []).append(on)
        return {
            i["injury"]
            for i in self.known
            for r in self.season.roster
            if i["session"] is None
            and any((i["area"], side) in self.sites for side in sides(*_of(i)))
            and r["athlete"] == i["athlete"]
            and self.in_groups(r.get("position_group"))
            and (r["team"], r["season"]) in spans
            and min(spans[r["team"], r["season"]])
            <= i["occurred_on"]
            <= max(spans[r["team"], r["season"]])
        }

    def ticks(self, *, by_team: bool) -> dict[tuple[Any, ...], Counter[str]]:
        """Follow every site; count by (guarded, sport, sex, position group, tick)."""
        found: dict[tuple[Any, ...], Counter[str]] = {}
        last_on: dict[tuple[str, str], date] = {}
        for (athlete, season, _, _), _, _, (_, e, _), _ in self.steps(by_team=by_team):
            on = self.season.played_on(e["session"]["session"])
            last_on[athlete, season] = max(on, last_on.get((athlete, season), on))
        for (athlete, season, _, _), opening, before, (tick, e, _), after in self.steps(
            by_team=by_team
        ):
            team = self.teams[e["session"]["team"]]
            key = (e["guarded"], team["sport"], team["sex"], e["position_group"], tick)
            cell = found.setdefault(key, Counter())
            cell["at_risk"] += 1
            stayed = before[2] and before[0] == tick - 1 and before[1]["guarded"] == e["guarded"]
            cell["entered"] += not stayed
            cell[self._fate(e, tick, after, opening, last_on[athlete, season])] += 1
        return found

    def followed(self, *, by_team: bool) -> dict[bool, tuple[int, int]]:
        """Return how many athletes and sites were ever at risk in each group."""
        sites: dict[bool, set[tuple[str, Site]]] = {}
        for (athlete, _, site, _), _, _, (_, e, _), _ in self.steps(by_team=by_team):
            sites.setdefault(e["guarded"], set()).add((athlete, site))
        return {group: (len({a for a, _ in some}), len(some)) for group, some in sites.items()}

    def steps(self, *, by_team: bool) -> list[Any]:
        """Return (clock, opening, step before, step, step after) of every followed exposure; a
        step is (tick, exposure, whether it is followed)."""
        clocks, opened = self._clocks(by_team=by_team)
        steps = []
        for clock, walk in clocks.items():
            athlete, season, site, _ = clock
            opening = opened.get((athlete, season, site))
            states = [(tick, e, self._is_followed(e, opening)) for tick, e in walk]
            nothing = (None, None, False)
            neighbours = zip([nothing, *states[:-1]], states, [*states[1:], nothing], strict=True)
            for before, now, after in neighbours:
                if now[2]:
                    steps.append((clock, opening, before, now, after))
        return steps

    def _order(self, e: Row) -> Any:
        return self.season.instant(e["session"]["session"])

    def _clocks(self, *, by_team: bool) -> Any:
        """Return (tick, exposure) by site and clock, and when each site was first looked at."""
        clocks: dict[tuple[Any, ...], list[tuple[int, Row]]] = {}
        opened: dict[tuple[Any, ...], Row] = {}
        order = self.sessions()
        for e in self.exposures():
            s = e["session"]
            clock = (e["athlete"], s["season"], e["site"], s["team"] if by_team else "")
            walk = clocks.setdefault(clock, [])
            own = [o for o in order if (o["team"], o["season"]) == (s["team"], s["season"])]
            walk.append((own.index(s) + 1 if by_team else len(walk) + 1, e))
            if not e["set_aside"]:
                opened.setdefault((e["athlete"], s["season"], e["site"]), e)
        return clocks, opened

    def _ends(self, e: Row, opening: Row) -> list[Row]:
        """Return the injuries to the site since it was first looked at in the season."""
        start = self._order(opening)
        on = self.season.played_on(opening["session"]["session"])
        return [
            i
            for i in self.hurt_at(e["athlete"], e["site"])
            if (
                self.season.instant(i["session"]) >= start
                if i["session"]
                else i["occurred_on"] >= on
            )
        ]

    def _is_past(self, injury: Row, e: Row) -> bool:
        """Say whether an exposure came after an injury: a later session, or a later day."""
        if injury["session"]:
            return bool(self.season.instant(injury["session"]) < self._order(e))
        return bool(injury["occurred_on"] < self.season.played_on(e["session"]["session"]))

    def _is_followed(self, e: Row, opening: Row | None) -> bool:
        if e["set_aside"] or opening is None:
            return False
        return not any(self._is_past(i, e) for i in self._ends(e, opening))

    def _fate(self, e: Row, tick: int, after: Any, opening: Row, last_on: date) -> str:
        tick_after, e_after, followed_after = after
        if e["injured"]:
            return "injuries"
        if e["any_injury"]:
            return "site_injury"
        if followed_after and tick_after == tick + 1:
            return "stays" if e_after["guarded"] == e["guarded"] else "changed"
        since = [i for i in self._ends(e, opening) if not self._is_past(i, e)]
        if any(e_after is None or self._is_past(i, e_after) for i in since):
            return "site_injury"
        if e_after is not None:
            return "set_aside"
        season = e["session"]["season"]
        if self._is_out_for_good(e["athlete"], season, last_on):
            return "other_injury"
        leaves = [
            r["left_on"]
            for r in self.season.roster
            if r["athlete"] == e["athlete"] and r["season"] == season and r.get("left_on")
        ]
        return "left_roster" if any(on < self.until for on in leaves) else "no_more"

    def _is_out_for_good(self, athlete: str, season: str, last_on: date) -> bool:
        days = [
            self.season.played_on(s["session"])
            for s in self.season.sessions
            if s["season"] == season and self.season.played_on(s["session"]) < self.until
        ]
        return any(
            i["athlete"] == athlete
            and self.cost_time(i)
            and last_on - timedelta(days=1) <= i["occurred_on"] <= max(days)
            and (self.is_open(i) or i["returned_on"] > max(days))
            for i in self.known
        )


def flow(at_risk: dict[int, tuple[int, ...]]) -> list[tuple[int, int]]:
    """Return (at risk, what the tick before makes of it) for (at risk, injuries, left, entered)."""
    last = max(at_risk, default=0)
    none = (0, 0, 0, 0)
    rows = [at_risk.get(tick, none) for tick in range(last + 2)]
    return [(b[0], a[0] - a[1] - a[2] + b[3]) for a, b in pairwise(rows)]


def _of(injury: Row) -> tuple[str, str]:
    return injury["area"], injury["side"]


def _is_on(roster: Row, on: date) -> bool:
    joined, left = roster.get("joined_on"), roster.get("left_on")
    return (joined is None or joined <= on) and (left is None or left >= on)


def _asked(values: list[str] | None, value: str | None) -> bool:
    return values is None or value in values
