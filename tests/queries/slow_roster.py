"""Roster questions once more, by plain loops written from the definitions."""

from collections import Counter
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from tests.queries.build import Row, Season
from tests.queries.slow import Slow, asked, covered, sides, within

IN_ORDER = (
    "requested", "scanned", "modelled", "printed", "finished", "shipped", "delivered", "fitted",
    "retired",
)  # fmt: skip
HEALTH = ("injury", "illness")


class SlowRoster(Slow):
    """One season looked at through one scope, for the roster."""

    def __init__(self, season: Season, scope: dict[str, Any]) -> None:
        super().__init__(season, scope | {"settings": None})
        self.club = season
        self.reasons = {(a["session"], a["athlete"]): a.get("reason") for a in season.attendance}
        self.zones = {d["department"]: ZoneInfo(d["time_zone"]) for d in season.departments}
        self.known = [i for i in self.known if i["occurred_on"] < self.until]

    def places(self) -> list[Row]:
        return [
            r
            for r in self.season.roster
            if within(self.scope, self.teams[r["team"]], seasons=r["season"])
            and self.in_groups(r.get("position_group"))
        ]

    def held(self, place: Row) -> list[Row]:
        """Return the sessions of a place's team and season by the last day, in order."""
        return sorted(
            (
                s
                for s in self.season.sessions
                if (s["team"], s["season"]) == (place["team"], place["season"])
                and self.season.played_on(s["session"]) < self.until
            ),
            key=lambda s: self.season.instant(s["session"]),
        )

    def state(self, place: Row) -> tuple[str, str | None, int]:
        """Return status, reason, and sessions since the last record."""
        who, held = place["athlete"], self.held(place)
        recorded = [s["session"] for s in held if (s["session"], who) in self.parts]
        last = recorded[-1] if recorded else None
        part = self.parts[last, who] if last else None
        reason = self.reasons[last, who] if last else None
        on = self.season.played_on(last) if last else None
        keys = [s["session"] for s in held]
        since = len(keys) - 1 - keys.index(last) if last else len(keys)
        mine = [i for i in self.known if i["athlete"] == who]
        hurt = [i for i in mine if self.is_open(i)]
        if hurt:
            newest = max(i["occurred_on"] for i in hurt)
            if on is not None and on > newest and part in {"full", "limited"}:
                why = "full part despite an open injury" if part == "full" else "injury"
                return "limited", why, since
            return "out", "injury", since
        returns = [i["returned_on"] for i in mine]
        if (
            returns
            and (on is None or max(returns) > on)
            and (part in {None, "full"} or reason in {None, "injury"})
        ):
            return "full", "returned", since
        if part is None:
            return "not recorded", None, since
        return part, None if part == "full" else reason or "no reason recorded", since

    def strip(self, place: Row) -> list[tuple[str | None, bool]]:
        found: list[tuple[str | None, bool]] = []
        for s in self.held(place)[-12:]:
            part = self.parts.get((s["session"], place["athlete"]))
            joined = place.get("joined_on")
            late = joined is not None and joined > self.season.played_on(s["session"])
            guarded = any(
                w["session"] == s["session"] and w["guard"] == g["guard"]
                for w in self.season.wear
                for g in self.my_guards(place["athlete"])
            )
            found.append((part or (None if late else "not recorded"), guarded))
        return found

    def my_guards(self, athlete: str) -> list[Row]:
        return [
            g
            for g in self.season.guards
            if g["athlete"] == athlete
            and g["kind"] in self.scope["kinds"]
            and (g["side"] == "both" or asked(self.scope["sides"], g["side"]))
            and any(asked(self.scope["areas"], area) for area in self.covers[g["kind"]])
        ]

    def stamps(self, guard: str, zone: ZoneInfo) -> dict[str, datetime]:
        """Return the instant of each stage that was reached by the last day, where it was made."""
        found: dict[str, datetime] = {}
        for row in self.club.stages:
            if row["guard"] == guard and row["reached_at"].date() < self.until:
                found[row["stage"]] = row["reached_at"].replace(tzinfo=zone)
        return found

    def home(self, athlete: str) -> str:
        return min(
            self.teams[r["team"]]["department"]
            for r in self.season.roster
            if r["athlete"] == athlete
        )

    def guards(self) -> dict[str, dict[str, Any]]:
        """Return what is told of each guard that is known by the last day."""
        found = {}
        for who in {p["athlete"] for p in self.places()}:
            zone = self.zones[self.home(who)]
            for g in self.my_guards(who):
                if row := self.guard(g, zone):
                    found[g["guard"]] = row
        return found

    def guard(self, g: Row, zone: ZoneInfo) -> dict[str, Any] | None:
        stamps = self.stamps(g["guard"], zone)
        wears = [w for w in self.season.wear if w["guard"] == g["guard"]]
        worn = sorted(
            (w["session"] for w in wears if self.season.played_on(w["session"]) < self.until),
            key=self.season.instant,
        )
        noted = [s for s in self.club.stages if s["guard"] == g["guard"]]
        if not stamps and not worn and (noted or wears):
            return None
        taken = self.taken(g["athlete"], stamps)
        return {
            "state": self.guard_state(stamps),
            "stage": self.guard_stage(stamps),
            "taken_part": len(taken),
            "worn": sum(s in worn for s in taken),
            "worn_lately": sum(s in worn for s in taken[-3:]),
            "worn_ever": len(worn),
            "is_undated": not noted and not wears,
            "hurt_on": self.hurt_on(g, worn),
            "games_missed": self.missed(g["athlete"], stamps),
            "is_replaced": any("fitted" in s for _, s in self.remakes(g, zone)),
            "remade_by": max(
                ((s.get("requested", min(s.values())), k) for k, s in self.remakes(g, zone)),
                default=(None, None),
            )[1],
        }

    def remakes(self, g: Row, zone: ZoneInfo) -> list[tuple[str, dict[str, datetime]]]:
        found = []
        for other in self.my_guards(g["athlete"]):
            stamps = self.stamps(other["guard"], zone)
            is_off = self.guard_state(stamps) == "cancelled"
            if other.get("remake_of") == g["guard"] and stamps and not is_off:
                found.append((other["guard"], stamps))
        return found

    def guard_state(self, stamps: dict[str, datetime]) -> str | None:
        if not stamps:
            return None
        return next((s for s in ("fitted", "cancelled", "retired") if s in stamps), "open")

    def guard_stage(self, stamps: dict[str, datetime]) -> str | None:
        if self.guard_state(stamps) == "cancelled" and "retired" not in stamps:
            return "cancelled"
        return max((s for s in stamps if s in IN_ORDER), key=IN_ORDER.index, default=None)

    def taken(self, athlete: str, stamps: dict[str, datetime]) -> list[str]:
        """Return the sessions taken part in between fitting and retirement, in order."""
        if "fitted" not in stamps:
            return []
        keys = [
            session
            for (session, who), part in self.parts.items()
            if who == athlete and part != "out" and self.season.played_on(session) < self.until
        ]
        return sorted(
            (
                s
                for s in keys
                if stamps["fitted"] < self.season.instant(s)
                and ("retired" not in stamps or self.season.instant(s) < stamps["retired"])
            ),
            key=self.season.instant,
        )

    def missed(self, athlete: str, stamps: dict[str, datetime]) -> int:
        if self.guard_state(stamps) != "open":
            return 0
        asked = stamps.get("requested", min(stamps.values()))
        return sum(
            s["setting"] == "game" and self.season.instant(s["session"]) > asked
            for place in self.places()
            if place["athlete"] == athlete
            for s in self.held(place)
        )

    def hurt_on(self, g: Row, worn: list[str]) -> date | None:
        if not worn:
            return None
        sites = covered(self.covers, g)
        return max(
            (
                i["occurred_on"]
                for i in self.known
                if i["session"] == worn[-1]
                and i["athlete"] == g["athlete"]
                and sites & {(i["area"], side) for side in sides(i["area"], i["side"])}
            ),
            default=None,
        )

    def session_counts(self, s: Row) -> Counter[str]:
        """Return the counts of one session."""
        key, listed = s["session"], {r["athlete"] for r in self.on_roster(s)}
        counts: Counter[str] = Counter()
        counts["rostered"] = len(listed)
        attended = {who for session, who in self.parts if session == key}
        counts["not_recorded"] = len(listed - attended)
        for who in attended:
            if not self.in_groups(self.group_of(who, s)):
                continue
            part, reason = self.parts[key, who], self.reasons[key, who]
            counts["exposures"] += part != "out"
            if who not in listed:
                counts["unlisted"] += 1
            elif part == "full":
                counts["full_part"] += 1
            else:
                counts[f"{part}_{self.group(part, reason)}"] += 1
        for i in self.known:
            if i["session"] == key and self.in_groups(self.group_of(i["athlete"], s)):
                took_part = self.parts.get((key, i["athlete"]), "out") != "out"
                counts["injuries" if took_part else "injuries_unmatched"] += 1
                counts["injuries_time_loss"] += took_part and self.cost_time(i)
        return counts

    def group(self, part: str, reason: str | None) -> str:
        if reason is None:
            return "unknown"
        if reason not in HEALTH:
            return "other"
        return reason if part == "out" else "health"

    def days(self) -> tuple[int, dict[str, int]]:
        """Return roster days, and days lost to injury by athlete, a day at a time."""
        rostered: set[tuple[str, date]] = set()
        for p in self.places():
            all_days = [
                self.season.played_on(s["session"])
                for s in self.season.sessions
                if (s["team"], s["season"]) == (p["team"], p["season"])
            ]
            if not all_days:
                continue
            last = min(max(all_days), self.until - timedelta(days=1), p.get("left_on") or date.max)
            on = max(min(all_days), p.get("joined_on") or date.min)
            while on <= last:
                rostered.add((p["athlete"], on))
                on += timedelta(days=1)
        lost = {
            (who, on)
            for who, on in rostered
            for i in self.known
            if i["athlete"] == who
            and i["occurred_on"] < on
            and (self.is_open(i) or on < i["returned_on"])
        }
        return len(rostered), Counter(who for who, _ in lost)
