"""What a pitch rests on once more, by plain loops over rows, written from the definitions."""

from collections import Counter
from datetime import date, timedelta
from statistics import median
from typing import Any

from tests.queries.build import Season
from tests.queries.slow import Slow, within
from tests.queries.slow_orders import SlowOrders

Key = tuple[Any, ...]


class SlowPitch:
    """One season looked at through one scope."""

    def __init__(self, season: Season, scope: dict[str, Any]) -> None:
        self.season, self.scope, self.until = season, scope, scope["until"]
        self.sites = Slow(season, scope)
        self.orders = SlowOrders(season, scope)

    def baseline(self) -> dict[Key, Key]:
        """Return sites, bare injuries and exposures by department, sport, sex, setting and area."""
        areas = Counter(area for area, _ in self.sites.sites)
        found: dict[Key, list[int]] = {}
        for e in self.sites.exposures:
            if e["set_aside"] or e["guarded"]:
                continue
            team = self.sites.teams[e["session"]["team"]]
            area = e["site"][0]
            key = (team["department"], team["sport"], team["sex"], e["session"]["setting"], area)
            cell = found.setdefault(key, [areas[area], 0, 0])
            cell[1] += e["injured"]
            cell[2] += 1
        return {key: tuple(cell) for key, cell in found.items()}

    def taking_part(self) -> dict[Key, Key]:
        """Return sessions, places on the roster and who took part, by sport and setting."""
        found: dict[Key, list[int]] = {}
        for s in self.sites.sessions():
            recorded = {a: p for (key, a), p in self.sites.parts.items() if key == s["session"]}
            if not recorded:
                continue
            sport = self.sites.teams[s["team"]]["sport"]
            cell = found.setdefault((sport, s["setting"]), [0, 0, 0])
            cell[0] += 1
            for row in self.sites.on_roster(s):
                cell[1] += 1
                cell[2] += recorded.get(row["athlete"], "out") != "out"
        return {key: tuple(cell) for key, cell in found.items()}

    def served(self) -> dict[Key, Key]:
        """Return team seasons and athletes, games, practices, weeks of a year by sport and sex."""
        parts: dict[Key, list[Key]] = {}
        for team in self.season.teams:
            for season in {s["season"] for s in self.season.sessions}:
                row = self._team_season(team["team"], season)
                if row is not None and within(self.scope, team, seasons=season):
                    part = "".join(filter(str.isalpha, season))
                    parts.setdefault((team["sport"], team["sex"], part), []).append(row)
        found: dict[Key, tuple[float, ...]] = {}
        for (sport, sex, _), rows in parts.items():
            athletes, *others = (float(median(column)) for column in zip(*rows, strict=True))
            before = found.get((sport, sex), (0, 0.0, 0.0, 0.0, 0.0))
            added = (one + other for one, other in zip(before[2:], others, strict=True))
            found[sport, sex] = (before[0] + len(rows), max(before[1], athletes), *added)
        return found

    def _team_season(self, team: str, season: str) -> Key | None:
        mine = [s for s in self.season.sessions if (s["team"], s["season"]) == (team, season)]
        days = [self.season.played_on(s["session"]) for s in mine]
        athletes = sum(
            (r["team"], r["season"]) == (team, season)
            and (r.get("joined_on") is None or r["joined_on"] < self.until)
            and self.sites.in_groups(r.get("position_group"))
            for r in self.season.roster
        )
        if not days or min(days) >= self.until or not athletes:
            return None
        told = [
            (s, on)
            for s, on in zip(mine, days, strict=True)
            if s["setting"] == "game" or on < self.until
        ]
        games = sum(s["setting"] == "game" for s, _ in told)
        weeks = (max(on for _, on in told) - min(days)).days // 7 + 1
        listed = (max(on for _, on in told) - min(days)).days + 1
        held = (max(on for on in days if on < self.until) - min(days)).days + 1
        return athletes, games, (len(told) - games) * listed / held, weeks

    def absences(self) -> dict[int, Key]:
        """Return injuries with a return, open ones, and those in sessions, by days lost."""
        took_part = {e["athlete"] for e in self.sites.exposures}
        found: dict[int, list[int]] = {}
        for injury in self.sites.known:
            sites = {
                s for s in self.sites.sites if injury in self.sites.hurt_at(injury["athlete"], s)
            }
            if injury["athlete"] not in took_part or not sites or not self.sites.counts(injury):
                continue
            if injury["occurred_on"] >= self.until:
                continue
            is_open = self.sites.is_open(injury)
            last: date = self.until if is_open else injury["returned_on"]
            days = max((last - injury["occurred_on"] - timedelta(days=1)).days, 0)
            cell = found.setdefault(days, [0, 0, 0])
            cell[is_open] += 1
            cell[2] += injury.get("session") is not None
        return {days: tuple(cell) for days, cell in found.items()}

    def making(self) -> Counter[int]:
        """Return how many orders took so many hours apart from waiting and printing."""
        found: Counter[int] = Counter()
        for order in self.orders.orders().values():
            names = ("requested_at", "modelled_at", "printed_at", "fitted_at")
            times = [order[name] for name in names]
            if None in times or times != sorted(times):
                continue
            asked, modelled, printed, fitted = times
            found[round(((fitted - asked) - (printed - modelled)).total_seconds() / 3600)] += 1
        return found

    def prints(self) -> Key:
        """Return athletes with a guard, their first ones, prints with hours, and the median."""
        guards = {g["guard"]: g for g in self.season.guards}
        orders = {key: (guards[key], order) for key, order in self.orders.orders().items()}
        fitted = [
            guard
            for guard, order in orders.values()
            if order["fitted_at"] is not None and guard["purpose"] == "preventive"
        ]
        hours = [
            guard["print_hours"]
            for guard, order in orders.values()
            if order["printed_at"] is not None and guard.get("print_hours")
        ]
        return (
            len({guard["athlete"] for guard in fitted}),
            sum(guard.get("remake_of") is None for guard in fitted),
            len(hours),
            float(median(hours)) if hours else None,
        )
