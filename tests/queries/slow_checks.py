"""The data checks of people, sessions and injuries once more, by plain loops over rows."""

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import combinations, product
from typing import Any

from tests.queries.build import Row, Season
from tests.queries.near_names import folded, is_long, one_apart
from tests.queries.slow import KINDS, Slow, asked, first_to_end, is_on, within

Found = Counter[tuple[str | None, str]]
"""How often a check found (athlete, key)."""


class SlowChecks(Slow):
    """One season looked at through one scope of the checks."""

    def __init__(self, club: Season, scope: dict[str, Any]) -> None:
        every_kind = [*KINDS, *(row["kind"] for row in club.kinds)]
        super().__init__(club, scope | {"kinds": scope["kinds"] or every_kind})
        self.club, self.asked = club, scope
        self.held = [s for s in self.sessions() if self.recorded(s)]
        self.hurt = list(self._hurt())

    def recorded(self, s: Row) -> list[Row]:
        return [a for a in self.club.attendance if a["session"] == s["session"]]

    def places(self) -> Iterator[Row]:
        """Yield the roster places of the scope."""
        for r in self.club.roster:
            parts = {"seasons": r["season"], "position_groups": r.get("position_group")}
            joined = (r.get("joined_on") or date.min) < self.until
            if joined and within(self.asked, self.teams[r["team"]], **parts):
                yield r

    def place_on(self, athlete: str, on: date) -> Row | None:
        """Return the place of a day, if it is in scope."""
        best = first_to_end(self.club, athlete, lambda over: over.date() < on)
        return best if best is not None and best in list(self.places()) else None

    def _hurt(self) -> Iterator[Row]:
        """Yield the known injuries of the scope."""
        sessions = {s["session"]: s for s in self.sessions()}
        kinds, wanted = self.asked["kinds"], self.asked["sides"]
        areas = None if kinds is None else [a for k in kinds for a in self.covers[k]]
        for i in self.known:
            if not (asked(areas, i["area"]) and asked(self.asked["areas"], i["area"])):
                continue
            if wanted is not None and i["side"] not in ("both", *wanted):
                continue
            if i["session"] is None:
                if self.place_on(i["athlete"], i["occurred_on"]):
                    yield i
            elif i["session"] in sessions and self.in_groups(
                self.group_of(i["athlete"], sessions[i["session"]])
            ):
                yield i

    def back(self, i: Row) -> date | None:
        return None if self.is_open(i) else i["returned_on"]

    def played(self, athlete: str, parts: tuple[str, ...], days: tuple[date, date]) -> list[Row]:
        """Return an athlete's sessions, taken part in so, after one day and before another."""
        return [
            s
            for s in self.club.sessions
            if self.parts.get((s["session"], athlete)) in parts
            and days[0] < self.season.played_on(s["session"]) < days[1]
        ]

    def attendance_not_recorded(self) -> Found:
        return Counter(
            (r["athlete"], s["session"])
            for s in self.held
            for r in self.on_roster(s)
            if (s["session"], r["athlete"]) not in self.parts
        )

    def sessions_without_attendance(self) -> Found:
        yesterday = self.until - timedelta(days=1)
        return Counter(
            (None, s["session"])
            for s in self.sessions()
            if not self.recorded(s) and self.season.played_on(s["session"]) < yesterday
        )

    def only_who_took_part(self) -> Found:
        found: Found = Counter()
        for team, year in {(s["team"], s["season"]) for s in self.held}:
            mine = [s for s in self.held if (s["team"], s["season"]) == (team, year)]
            parts = [a["part"] for s in mine for a in self.recorded(s)]
            keys = {s["session"] for s in mine}
            missing = any(key in keys for _, key in self.attendance_not_recorded())
            found[None, team] += len(mine) >= 5 and "out" not in parts and missing
        return +found

    def not_on_the_roster(self) -> Found:
        found: Found = Counter()
        for s in self.sessions():
            for a in self.recorded(s):
                on = self.season.played_on(s["session"])
                r = self.rosters.get((a["athlete"], s["team"], s["season"]))
                if a["part"] != "out" and not (r and is_on(r, on)):
                    grouped = self.in_groups(self.group_of(a["athlete"], s))
                    found[a["athlete"], s["session"]] += grouped
        return +found

    def session_twice(self) -> Found:
        found: Found = Counter()
        for s in self.sessions():
            at = self.season.instant(s["session"])
            for o in self.sessions():
                same = (o["team"], o["setting"]) == (s["team"], s["setting"])
                before = (self.season.instant(o["session"]), o["session"])
                gap = at - before[0]
                if same and before < (at, s["session"]) and gap < timedelta(hours=1):
                    found[None, s["session"]] = 1
        return found

    def teams_without_games(self) -> Found:
        settings: dict[tuple[str, str], set[str]] = {}
        for s in self.held:
            settings.setdefault((s["team"], s["season"]), set()).add(s["setting"])
        found = (team for (team, _), held in settings.items() if "game" not in held)
        return Counter((None, team) for team in found if self.asked["settings"] is None)

    def minutes_implausible(self) -> Found:
        found: Found = Counter()
        for s in self.sessions():
            for a in self.recorded(s):
                told = [n for n in (a.get("minutes"), a.get("plays")) if n is not None]
                some = any(n > 0 for n in told)
                odd = (a.get("minutes") or 0) > 240 or (a.get("plays") or 0) > 250
                if a["part"] == "out":
                    odd |= some
                elif told:
                    odd |= not some
                grouped = self.in_groups(self.group_of(a["athlete"], s))
                found[a["athlete"], s["session"]] += bool(odd and grouped)
        return +found

    def position_group_missing(self) -> Found:
        played = {
            (a["athlete"], s["team"], s["season"])
            for s in self.sessions()
            for a in self.recorded(s)
            if a["part"] != "out"
        }
        return Counter(
            (r["athlete"], r["athlete"])
            for r in self.places()
            if r.get("position_group") is None and (r["athlete"], r["team"], r["season"]) in played
        )

    def athletes_twice(self) -> Found:
        pairs = set()
        for one, two in combinations(list(self.places()), 2):
            first, later = sorted((one, two), key=lambda r: r["athlete"])
            a, b = folded(later["name"]), folded(first["name"])
            homes = [self.teams[r["team"]]["department"] for r in (one, two)]
            near = one["team"] == two["team"] and is_long(a) and is_long(b) and one_apart(a, b)
            same = a == b != "" and homes[0] == homes[1]
            if first["athlete"] != later["athlete"] and (same or near):
                pairs.add((first["athlete"], later["athlete"]))
        return Counter((later, later) for _, later in pairs)

    def _suggested(self, i: Row) -> list[Row]:
        around = timedelta(days=1)
        days = (i["occurred_on"] - around, i["occurred_on"] + around)
        return self.played(i["athlete"], ("full", "limited"), days)

    def injuries_without_session(self) -> Found:
        return _injuries(i for i in self.hurt if not i["session"] and not self._suggested(i))

    def injuries_session_suggested(self) -> Found:
        return _injuries(i for i in self.hurt if not i["session"] and self._suggested(i))

    def injuries_on_another_day(self) -> Found:
        return _injuries(
            i
            for i in self.hurt
            if i["session"] and self.season.played_on(i["session"]) != i["occurred_on"]
        )

    def injuries_without_exposure(self) -> Found:
        return _injuries(
            i
            for i in self.hurt
            if i["session"] and self.parts.get((i["session"], i["athlete"]), "out") == "out"
        )

    def returns_not_recorded(self) -> Found:
        return _injuries(
            i
            for i in self.hurt
            if self.back(i) is None
            and self.played(i["athlete"], ("full",), (i["occurred_on"], self.until))
        )

    def played_before_return(self) -> Found:
        return _injuries(
            i
            for i in self.hurt
            if (back := self.back(i)) is not None
            and self.played(i["athlete"], ("full",), (i["occurred_on"], back))
        )

    def injuries_side_unknown(self) -> Found:
        vague = {"region unspecified", "multiple"}
        return _injuries(i for i in self.hurt if i["side"] is None and i["area"] not in vague)

    def sites_without_kind(self) -> Found:
        covered = {area for areas in self.covers.values() for area in areas}
        return _injuries(i for i in self.hurt if i["area"] not in covered | {"knee"})

    def injuries_twice(self) -> Found:
        found: Found = Counter()
        for i, o in product(self.hurt, self.hurt):
            same = (i["athlete"], i["area"]) == (o["athlete"], o["area"])
            told = (i["side"], o["side"])
            same &= len(set(told)) == 1 or "both" in told or None in told
            older = (o["occurred_on"], o["injury"]) < (i["occurred_on"], i["injury"])
            if same and older and (i["occurred_on"] - o["occurred_on"]).days <= 3:
                found[i["athlete"], i["injury"]] = 1
        return found

    def _departments(self) -> list[Row]:
        homes = {self.teams[r["team"]]["department"] for r in self.places()}
        return [d for d in self.club.departments if d["department"] in homes]

    def time_zone_not_set(self) -> Found:
        found = (d["department"] for d in self._departments() if d["time_zone"] == "UTC")
        return Counter((None, key) for key in found)

    def allotment_missing(self) -> Found:
        return Counter(
            (None, d["department"])
            for d in self._departments()
            if d["plan"] == "weekly allotment" and not d.get("prints_per_week")
        )


def _injuries(rows: Iterator[Row]) -> Found:
    return Counter((i["athlete"], i["injury"]) for i in rows)
