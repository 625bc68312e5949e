"""Sites followed along a clock, once more by plain loops."""

from collections import Counter
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

from tests.queries.build import Row
from tests.queries.slow import Site, Slow


class SlowTicks(Slow):
    """The clock of one scope of one season."""

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

    def alike(self, *, by_team: bool) -> dict[tuple[Any, ...], list[int]]:
        """Count guarded, hurt, bare, hurt by what makes sites alike at a tick, where both are."""
        found: dict[tuple[Any, ...], list[int]] = {}
        for _, _, _, (tick, e, _), _ in self.steps(by_team=by_team):
            session = e["session"]
            team = self.teams[session["team"]]
            days = self.season.played_on(session["session"]) - date(2000, 1, 3)
            kind = (e["site"][0], team["sport"], team["sex"], e["position_group"])
            key = (*kind, session["setting"], days // timedelta(days=14), tick)
            cell = found.setdefault(key, [0, 0, 0, 0])
            cell[0 if e["guarded"] else 2] += 1
            cell[1 if e["guarded"] else 3] += e["injured"]
        return {key: cell for key, cell in found.items() if cell[0] and cell[2]}

    def horizon(self, *, by_team: bool) -> int | None:
        """Return the fewest ticks that four in five athletes do not exceed in a season."""
        last: dict[tuple[Any, ...], int] = {}
        for (athlete, season, _, walk), steps in self._clocks(by_team=by_team)[0].items():
            last[athlete, season, walk] = max(tick for tick, _ in steps)
        within = [n for n in last.values() if sum(m <= n for m in last.values()) >= 0.8 * len(last)]
        return min(within, default=None)

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
        for e in self.exposures:
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
        return self._last_fate(e, last_on)

    def _last_fate(self, e: Row, last_on: date) -> str:
        """Say why no session followed."""
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
