"""Remakes and prints once more, by plain loops over rows, written from the definitions."""

from collections import Counter
from datetime import UTC, date, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from tests.queries import build
from tests.queries.asking import scope
from tests.queries.build import Row, Season, stamp
from tests.queries.seasons import ATHLETES, KIND_SITES
from tests.queries.slow import covered
from tests.queries.slow_orders import SlowOrders, order_seasons

REMAKE = {"fit", "damage", "print fault", "scan fault"}
REPLACEMENT = {"lost", "body change", "worn out"}
REASONS = st.sampled_from([None, "fit", "damage", "lost"])
ENDS = st.sampled_from([("fitted",), ("fitted",), ("fitted", "retired"), ("cancelled",), ()])
PRINTED_BY = ("printed", "finished", "shipped", "delivered", "fitted")


@st.composite
def remake_seasons(draw: st.DrawFn) -> Season:
    """Draw a season in which guards replace others: in chains, also of other athletes."""
    season = draw(order_seasons())
    for number, guard in enumerate(season.guards):
        guard["print_hours"] = draw(st.sampled_from([None, 2.5, 4.0]))
        guard["printer"] = draw(st.sampled_from([None, "one", "two"]))
        before = season.guards[:number]  # no ring: a load refuses them
        own = [g["guard"] for g in before if g["athlete"] == guard["athlete"]]
        older = draw(st.sampled_from([None, *(g["guard"] for g in before), *own * len(before)]))
        if older is not None:
            guard["remake_of"] = older
            guard["remake_reason"] = draw(REASONS)
    for athlete in ATHLETES[:2]:
        draw(_chain(season, athlete))
    return season


@st.composite
def _chain(draw: st.DrawFn, season: Season, athlete: str) -> None:
    """Draw guards of one athlete, each in another's place, some of them twice, and their wear."""
    kind = draw(st.sampled_from(["shin", "shin", "vest"]))
    keys: list[str] = []
    hours = draw(st.integers(-50, 100))
    for number in range(draw(st.integers(2, 4))):
        cells = {"kind": kind, "side": draw(st.sampled_from(KIND_SITES[kind]))}
        if keys:
            cells |= {"remake_of": draw(st.sampled_from(keys[-2:])), "remake_reason": draw(REASONS)}
        keys.append(f"{athlete}-{number}")
        season.guards.append(build.guard(keys[-1], athlete, **cells))
        for stage in ("requested", *draw(ENDS)):
            at = datetime(2026, 9, 1, 12, tzinfo=UTC) + timedelta(hours=hours)
            season.stages.append(stamp(keys[-1], stage, at))
            hours += draw(st.integers(5, 90))
    for row in season.attendance:
        if row["athlete"] == athlete and row["part"] != "out":
            worn = draw(st.sampled_from([None, *keys]))
            season.wear += [{"session": row["session"], "guard": worn}] if worn else []


@st.composite
def wide_scopes(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a scope with everything of two or three kinds in it."""
    kinds = draw(st.sampled_from([["shin", "vest"], ["shin", "vest", "chest"]]))
    return scope(through=date(2026, 9, draw(st.integers(6, 28))), kinds=kinds)


class SlowRemakes:
    """What became of the guards of one season, through one scope."""

    def __init__(self, season: Season, scope: dict[str, Any]) -> None:
        self.season, self.scope, self.until = season, scope, scope["until"]
        self.slow = SlowOrders(season, scope)
        self.orders = self.slow.orders()
        self.by_key = {guard["guard"]: guard for guard in season.guards}

    def local(self, guard: Row, stage: str | None = None, at: Row | None = None) -> date | None:
        """Return the first known local day of a stage, or of any; on the days of another guard."""
        place = self.slow.place(at or guard)
        assert place is not None
        zone = self.slow.zone(place)
        stamps = self.slow.known_stamps(guard, place)
        days = [at.astimezone(zone).date() for each, at in stamps if stage in {None, each}]
        return min(days, default=None)

    def is_same_athlete(self, one: str, other: str) -> bool:
        return bool(self.by_key[one]["athlete"] == self.by_key[other]["athlete"])

    def successors(self, key: str) -> list[tuple[date, str]]:
        found = []
        for guard in self.season.guards:
            if guard.get("remake_of") != key or not self.is_same_athlete(guard["guard"], key):
                continue
            own = self.by_key[key]
            asked, fitted = self.local(guard, at=own), self.local(guard, "fitted", own)
            called_off = self.local(guard, "cancelled", own) and not fitted
            begun = self.local(own, "fitted")
            is_early = asked is not None and begun is not None and asked < begun
            if asked is not None and not called_off and not is_early:
                found.append((asked, guard["guard"]))
        return sorted(found)

    def chain(self, key: str) -> list[str]:
        """Return the guard, the one it replaces, and so on."""
        path = [key]
        while older := self.by_key[path[-1]].get("remake_of"):
            if not self.is_same_athlete(older, key):
                break
            path.append(older)
        return path

    def guards(self) -> dict[str, Row]:
        found = {}
        for key in self.orders:
            guard = self.by_key[key]
            fitted, anew = self.local(guard, "fitted"), self.successors(key)
            if fitted is None and not anew:
                continue
            reasons = [self.by_key[each].get("remake_reason") for _, each in anew]
            counts_as = "remake" if anew and reasons[0] in REMAKE else "reason not recorded"
            counts_as = "replacement" if anew and reasons[0] in REPLACEMENT else counts_as
            ends = [self.local(guard, "retired"), anew[0][0] if anew else None]
            found[key] = {
                "delivered_on": self.local(guard, "delivered"),
                "fitted_on": fitted,
                "asked_on": self.local(guard),
                "first_guard": self.chain(key)[-1],
                "place": len(self.chain(key)),
                "successor": anew[0][1] if anew else None,
                "counts_as": counts_as if anew else None,
                "successor_asked_on": anew[0][0] if anew else None,
                "successors": len(anew),
                "remakes": sum(reason in REMAKE for reason in reasons),
                "ended_on": min((on for on in ends if on), default=None),
                "sessions_worn": self.worn(key, self.until),
                "worn_in_use": self.worn(key, min((on for on in ends if on), default=date.max)),
                "bare_exposures": self.bare(guard, anew[0]) if anew else 0,
            }
        return found

    def worn(self, key: str, last: date) -> int:
        on = [self.season.played_on(w["session"]) for w in self.season.wear if w["guard"] == key]
        return sum(each < self.until and each <= last for each in on)

    def bare(self, guard: Row, anew: tuple[date, str]) -> int:
        """Count sessions between asking and fitting with a site of the guard under no guard."""
        ends = [self.local(self.by_key[anew[1]], s, guard) for s in ("fitted", "retired")]
        fitted = min((on for on in ends if on), default=date.max)
        count = 0
        for row in self.season.attendance:
            on = self.season.played_on(row["session"])
            if row["athlete"] != guard["athlete"] or row["part"] == "out":
                continue
            if not anew[0] <= on < min(fitted, self.until):
                continue
            worn = [
                self.by_key[w["guard"]] for w in self.season.wear if w["session"] == row["session"]
            ]
            covers = self.slow.covers
            own = [covered(covers, g) for g in worn if g["athlete"] == guard["athlete"]]
            count += bool(covered(covers, guard).difference(*own))
        return count

    def left_out(self) -> Counter[tuple[str, str]]:
        """Count guards that are in no figure although they replace another or were worn."""
        found: Counter[tuple[str, str]] = Counter()
        dated = {row["guard"] for row in (*self.season.stages, *self.season.wear)}
        for guard in self.season.guards:
            place = self.slow.place(guard)
            if place is None or not self.slow._in_scope(guard, place):
                continue
            key, older = guard["guard"], guard.get("remake_of")
            is_staged, is_worn = self.local(guard) is not None, self.worn(key, date.max) > 0
            if is_worn and self.local(guard, "fitted") is None:
                found["guards", "worn, and never recorded as fitted"] += 1
            if older is None or not (is_staged or is_worn or key not in dated):
                continue
            if not self.is_same_athlete(key, older):
                found["guards asked for anew", "it replaces a guard of another athlete"] += 1
            elif not is_staged:
                found["guards asked for anew", "no stage of it is recorded"] += 1
            elif self.orders[key]["state"] == "cancelled":
                found["guards asked for anew", "it was cancelled before it was fitted"] += 1
            elif self._is_early(key, older):
                why = "it was asked for before the guard it replaces was fitted"
                found["guards asked for anew", why] += 1
        return found

    def _is_early(self, key: str, older: str) -> bool:
        own = self.by_key[older]
        asked, fitted = self.local(self.by_key[key], at=own), self.local(own, "fitted")
        return older in self.orders and None not in (asked, fitted) and asked < fitted

    def not_printed(self) -> Counter[tuple[str, str]]:
        """Count guards in no week's prints although they were made or worn."""
        found: Counter[tuple[str, str]] = Counter()
        made = (*PRINTED_BY[1:], "retired")
        for key in self.orders:
            guard = self.by_key[key]
            stages = [stage for stage in made if self.local(guard, stage)]
            if stages and self.local(guard, "printed") is None:
                found["guards", "made, but the stage “printed” is not recorded"] += 1
        for guard in self.season.guards:
            place, key = self.slow.place(guard), guard["guard"]
            is_asked = place is not None and self.slow._in_scope(guard, place)
            if is_asked and key not in self.orders and self.worn(key, date.max):
                found["guards", "worn, but no stage is recorded"] += 1
        return found

    def weeks(self) -> dict[tuple[str, date], Row]:
        """Return asked, prints, hours and queue by department and Monday."""
        homes: dict[str, list[Row]] = {}
        for key, order in self.orders.items():
            home = self.slow.teams[order["team"]]["department"]
            homes.setdefault(home, []).append(self.by_key[key])
        found = {}
        for home, guards in homes.items():
            monday = _monday(min(filter(None, map(self.local, guards))))
            while monday < self.until:
                found[home, monday] = self._week(guards, monday, monday + timedelta(days=7))
                monday += timedelta(days=7)
        return found

    def _week(self, guards: list[Row], monday: date, after: date) -> Row:
        printed = [g for g in guards if _within(self.local(g, "printed"), monday, after)]
        queue = 0
        for guard in guards:
            asked, gone = self.local(guard), self.left_queue(guard)
            queue += asked is not None and asked < after
            queue -= gone is not None and gone < after
        return {
            "asked": sum(_within(self.local(g), monday, after) for g in guards),
            "prints": len(printed),
            "hours": sum(g["print_hours"] or 0.0 for g in printed),
            "without_hours": sum(g["print_hours"] is None for g in printed),
            "queue": queue,
            "is_whole": after <= self.until,
        }

    def left_queue(self, guard: Row) -> date | None:
        """Return when it was printed, by the first stage recorded that tells; or called off."""
        for stage in PRINTED_BY:
            if (on := self.local(guard, stage)) is not None:
                return on
        over = [self.local(guard, stage) for stage in ("cancelled", "retired")]
        return min((on for on in over if on), default=None)


def _monday(on: date) -> date:
    return on - timedelta(days=on.weekday())


def _within(on: date | None, first: date, after: date) -> bool:
    return on is not None and first <= on < after
