"""The data checks of guards, stages, wear and offers once more, by plain loops over rows."""

from collections import Counter
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from itertools import product
from typing import Any

from tests.queries.build import Row, Season
from tests.queries.slow import covered
from tests.queries.slow_checks import Found, SlowChecks
from tests.queries.slow_orders import STAGES, SlowOrders
from tests.queries.slow_wear import is_unknown, wear_of, worn_rows

LIMITS = {
    "shell_mm": (0.8, 10),
    "liner_mm": (0, 12),
    "contact_pct": (40, 100),
    "mass_g": (10, 1000),
    "print_hours": (0.2, 48),
}


class SlowGuardChecks(SlowChecks):
    """One season looked at through one scope of the checks."""

    def __init__(self, club: Season, scope: dict[str, Any]) -> None:
        super().__init__(club, scope)
        every_kind = [*self.covers, "knee"]
        self.covers.setdefault("knee", {"knee"})
        self.orders = SlowOrders(club, scope | {"kinds": scope["kinds"] or every_kind})
        self.orders.covers = self.covers
        self.by_key = {g["guard"]: g for g in club.guards}
        self.worn = list(self._worn(worn_rows(club)))

    def firsts(self, guard: Row) -> dict[str, datetime]:
        """Return when each known stage was first reached, in the athlete's zone's days."""
        mine = [r for r in self.club.roster if r["athlete"] == guard["athlete"]]
        if not any(r in list(self.places()) for r in mine):
            return {}
        return self.orders.firsts(guard, min(mine, key=self.orders.home))

    def ready(self, guard: Row) -> datetime | None:
        found = self.firsts(guard)
        return min((found[s] for s in ("delivered", "fitted") if s in found), default=None)

    def over(self, guard: Row) -> datetime | None:
        found = self.firsts(guard)
        return min((found[s] for s in ("retired", "cancelled") if s in found), default=None)

    def guards(self) -> Iterator[Row]:
        """Yield the guards of the scope that are known: by a stage, by wear, or never dated."""
        dated = {row["guard"] for row in (*self.club.stages, *worn_rows(self.club))}
        for g in self.club.guards:
            place = self.orders.place(g)
            if place is None or not self.orders._in_scope(g, place):
                continue
            home = min(
                (r for r in self.club.roster if r["athlete"] == g["athlete"]),
                key=lambda r: str(self.orders.zone(r)),
            )
            known = any(self.orders.known_stamps(g, home)) or self.orders._worn(g)
            if known or g["guard"] not in dated:
                yield g

    def _worn(self, rows: list[Row]) -> Iterator[tuple[Row, Row]]:
        """Yield (session, guard) of rows of wear in the scope."""
        sessions = {s["session"]: s for s in self.sessions()}
        places = {(r["athlete"], r["team"], r["season"]) for r in self.places()}
        for w in rows:
            s, g = sessions.get(w["session"]), self.by_key[w["guard"]]
            if s is None or not self._is_looked_at(g):
                continue
            here = (g["athlete"], s["team"], s["season"]) in places
            if self.asked["position_groups"] is None or here:
                yield s, g

    def _is_looked_at(self, g: Row) -> bool:
        asked = self.asked
        return (
            (asked["kinds"] is None or g["kind"] in asked["kinds"])
            and (asked["areas"] is None or bool(self.covers[g["kind"]] & set(asked["areas"])))
            and (asked["sides"] is None or g["side"] in ("both", *asked["sides"]))
        )

    def _part(self, s: Row, g: Row) -> str | None:
        return self.parts.get((s["session"], g["athlete"]))

    def worn_before_delivered(self) -> Found:
        return Counter(
            (g["athlete"], g["guard"])
            for s, g in self.worn
            if self.firsts(g)
            and ((r := self.ready(g)) is None or self.season.instant(s["session"]) < r)
        )

    def worn_while_out(self) -> Found:
        return Counter(_keys(g for s, g in self.worn if self._part(s, g) == "out"))

    def worn_without_attendance(self) -> Found:
        return Counter(_keys(g for s, g in self.worn if self._part(s, g) is None))

    def worn_and_not(self) -> Found:
        both = [w for w in self.club.wear if w.get("worn") == "no" and w.get("kept_on")]
        return Counter(_keys(g for _, g in self._worn(both)))

    def worn_after_the_end(self) -> Found:
        return Counter(
            (g["athlete"], g["guard"])
            for s, g in self.worn
            if (over := self.over(g)) and self.season.instant(s["session"]) > over
        )

    def two_guards_at_once(self) -> Found:
        at: dict[tuple[str, str, str, str], list[str]] = {}
        for s, g in self.worn:
            for site in covered(self.covers, g):
                at.setdefault((s["session"], g["athlete"], *site), []).append(g["guard"])
        crowded = {place: sorted(keys) for place, keys in at.items() if len(set(keys)) > 1}
        return Counter((place[1], keys[0]) for place, keys in crowded.items())

    def _could_wear(self, s: Row) -> set[str]:
        """Return who took part in a session without any wear and had a guard to put on."""
        start = self.season.instant(s["session"])
        if any(w["session"] == s["session"] for w in worn_rows(self.club)):
            return set()
        return {
            g["athlete"]
            for g in self.club.guards
            if (self.asked["kinds"] is None or g["kind"] in self.asked["kinds"])
            and self._part(s, g) in ("full", "limited")
            and (ready := self.ready(g)) is not None
            and ready < start
            and ((over := self.over(g)) is None or over > start)
        }

    def wear_not_recorded(self) -> Found:
        found: Found = Counter()
        for s in self.held:
            if wear_of(self.club, s) == "assumed":
                found[None, s["session"]] += len(self._could_wear(s)) >= 3
            lacking = {
                g["athlete"]
                for g in self.club.guards
                if (self.asked["kinds"] is None or g["kind"] in self.asked["kinds"])
                and is_unknown(self.club, g, s)
            }
            found[None, s["session"]] += len(lacking) >= 3
        return +found

    def injuries_wear_differs(self) -> Found:
        sessions = {s["session"]: s for s in self.club.sessions}
        worn_in = {(w["session"], w["guard"]) for w in worn_rows(self.club)}
        found: Found = Counter()
        for i in self.hurt:
            said, s = i.get("was_on"), sessions.get(i["session"])
            if not said or s is None:
                continue
            near = [
                (g, g["side"] in ("both", i["side"]) or i["side"] in ("both", "midline"))
                for g in self.club.guards
                if g["athlete"] == i["athlete"] and i["area"] in self.covers[g["kind"]]
            ]
            worn = [at for g, at in near if (s["session"], g["guard"]) in worn_in]
            maybe = [at for g, at in near if is_unknown(self.club, g, s)]
            lost_side = i["side"] is None
            if said == "no":
                differs = any(worn)
            else:
                differs = not (any(worn) or any(maybe) or (lost_side and (worn or maybe)))
            found[i["athlete"], i["injury"]] += differs
        return +found

    def wear_of_few_games(self) -> Found:
        told: dict[tuple[str, str], list[bool]] = {}
        for s in self.held:
            if s["setting"] == "game":
                worn = any(w["session"] == s["session"] for w in worn_rows(self.club))
                if worn or (wear_of(self.club, s) != "complete" and self._could_wear(s)):
                    told.setdefault((s["team"], s["season"]), []).append(worn)
        few = (t for (t, _), g in told.items() if len(g) >= 5 and 2 * sum(g) < len(g))
        return Counter((None, team) for team in few)

    def stages_out_of_order(self) -> Found:
        found = []
        for g in self.guards():
            times = [at for stage in STAGES if (at := self.firsts(g).get(stage))]
            if times != sorted(times):
                found.append(g)
        return Counter(_keys(found))

    def stages_missing(self) -> Found:
        found = []
        for g in self.guards():
            places = [n for n, stage in enumerate(STAGES[:8]) if stage in self.firsts(g)]
            home = self.teams[self.orders.place(g)["team"]]["department"]  # type: ignore[index]
            plan = next(d["plan"] for d in self.club.departments if d["department"] == home)
            needless = {5, 6} if plan == "onsite printer" else set()
            if places and set(range(places[0], places[-1])) - set(places) - needless:
                found.append(g)
        return Counter(_keys(found))

    def orders_without_stage(self) -> Found:
        return Counter(_keys(g for g in self.guards() if not self.firsts(g)))

    def offers_without_order(self) -> Found:
        staged = {row["guard"] for row in self.club.stages}
        found: Found = Counter()
        for o in self.club.offers:
            place = self.place_on(o["athlete"], o["offered_on"])
            kinds = self.asked["kinds"]
            if o["answer"] != "accepted" or o["offered_on"] >= self.until or place is None:
                continue
            if kinds is not None and o["kind"] not in kinds:
                continue
            served = False
            for g in self.club.guards:
                known = self.firsts(g) or g["guard"] not in staged
                over = self.over(g)
                in_use = over is None or over.replace(tzinfo=None).date() >= o["offered_on"]
                same = (g["athlete"], g["kind"]) == (o["athlete"], o["kind"])
                served |= bool(same and known and in_use)
            found[o["athlete"], o["offer"]] += not served
        return +found

    def remake_of_another(self) -> Found:
        found = []
        for g in self.guards():
            o = self.by_key.get(g.get("remake_of") or "")
            if o is None:
                continue
            same_side = g["side"] == o["side"] or "both" in (g["side"], o["side"])
            if (g["athlete"], g["kind"]) != (o["athlete"], o["kind"]) or not same_side:
                found.append(g)
        return Counter(_keys(found))

    def remake_before_fitting(self) -> Found:
        found = []
        for g in self.guards():
            o = self.by_key.get(g.get("remake_of") or "")
            if o is None or o["athlete"] != g["athlete"]:
                continue
            (asked, fitted) = (self.firsts(g).values(), self.firsts(o).get("fitted"))
            if asked and fitted and self.day_of(g, min(asked)) < self.day_of(g, fitted):
                found.append(g)
        return Counter(_keys(found))

    def day_of(self, guard: Row, at: datetime) -> date:
        """Return the day of an instant where the athlete is at home."""
        mine = [r for r in self.club.roster if r["athlete"] == guard["athlete"]]
        return at.astimezone(self.orders.zone(min(mine, key=self.orders.home))).date()

    def order_twice(self) -> Found:
        found: Found = Counter()
        alike = ("athlete", "kind", "side", "purpose")
        for g, o in product(list(self.guards()), repeat=2):
            at, before = (self.firsts(x).get("requested") for x in (g, o))
            if at is None or before is None or g.get("remake_of"):
                continue
            over = self.over(o)
            if (
                all(g[name] == o[name] for name in alike)
                and (before, o["guard"]) < (at, g["guard"])
                and at - before <= timedelta(days=7)
                and (over is None or over > at)
            ):
                found[g["athlete"], g["guard"]] = 1
        return found

    def dimensions_implausible(self) -> Found:
        return Counter(
            _keys(
                g
                for g in self.guards()
                if any(
                    g.get(name) is not None and not low <= g[name] <= high
                    for name, (low, high) in LIMITS.items()
                )
            )
        )


def _keys(guards: Any) -> list[tuple[str, str]]:
    return [(g["athlete"], g["guard"]) for g in guards]
