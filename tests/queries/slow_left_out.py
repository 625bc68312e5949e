"""What is left out and why, once more by plain loops."""

from collections import Counter
from datetime import date

from tests.queries.build import Row
from tests.queries.slow import Slow, covered, of, sides
from tests.queries.slow_wear import worn_rows


class SlowLeftOut(Slow):
    """What one scope of one season leaves out."""

    def left_out(self) -> dict[tuple[str, str], int]:
        """Return how many were left out, by what and why."""
        found: Counter[tuple[str, str]] = Counter()
        for e in self.exposures:
            if e["set_aside"]:
                found["site-exposures", e["set_aside"]] += 1
        for why in self.injury_fates().values():
            if why != "yes":
                found["injuries", why] += 1
        found["injuries", "no session recorded"] = len(self.hurt_outside())
        out = "the athlete is not recorded as taking part in that session"
        for s in self.sessions():
            for r in self.on_roster(s):
                missing = (s["session"], r["athlete"]) not in self.parts
                found["athletes' sessions", "attendance not recorded"] += missing
            for w in worn_rows(self.season):
                (g,) = [g for g in self.season.guards if g["guard"] == w["guard"]]
                if w["session"] != s["session"] or not self.is_studied(g):
                    continue
                part = self.parts.get((s["session"], g["athlete"]), "out")
                group = self.group_of(g["athlete"], s)
                found["guards worn", out] += part == "out" and self.in_groups(group)
        return {key: number for key, number in found.items() if number}

    def is_studied(self, guard: Row) -> bool:
        """Say whether a guard of the scope covers a site of the scope."""
        sites = covered(self.covers, guard) & set(self.sites)
        return guard["kind"] in self.scope["kinds"] and bool(sites)

    def injury_fates(self) -> dict[tuple[str, str], str]:
        """Return `yes`, or why not counted, by injury and side, of those in a session."""
        met = {(e["session"]["session"], e["athlete"], e["site"]): e for e in self.exposures}
        sessions = {s["session"]: s for s in self.sessions()}
        found: dict[tuple[str, str], str] = {}
        counted = set()
        costly_first = sorted(self.known, key=lambda i: (not self.cost_time(i), i["injury"]))
        for i in costly_first:
            if i["session"] not in sessions:
                continue
            if not self.in_groups(self.group_of(i["athlete"], sessions[i["session"]])):
                continue
            for side in sides(*of(i)):
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
            and any((i["area"], side) in self.sites for side in sides(*of(i)))
            and r["athlete"] == i["athlete"]
            and self.in_groups(r.get("position_group"))
            and (r["team"], r["season"]) in spans
            and min(spans[r["team"], r["season"]])
            <= i["occurred_on"]
            <= max(spans[r["team"], r["season"]])
        }
