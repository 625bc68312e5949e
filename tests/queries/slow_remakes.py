"""Remakes and prints once more, by plain loops over rows, written from the definitions."""

from datetime import date, timedelta
from typing import Any

from hypothesis import strategies as st

from tests.queries.build import Row
from tests.queries.slow_orders import OrderSeason, SlowOrders, order_seasons

REMAKE = {"fit", "damage", "print fault", "scan fault"}
REPLACEMENT = {"lost", "body change", "worn out"}
PRINTED_BY = ("printed", "finished", "shipped", "delivered", "fitted")


@st.composite
def remake_seasons(draw: st.DrawFn) -> OrderSeason:
    """Draw a season in which guards replace others: in chains, also of other athletes."""
    season = draw(order_seasons())
    keys = [guard["guard"] for guard in season.guards]
    for number, guard in enumerate(season.guards):
        guard["print_hours"] = draw(st.sampled_from([None, 2.5, 4.0]))
        guard["printer"] = draw(st.sampled_from([None, "one", "two"]))
        older = draw(st.sampled_from([None, *keys[:number]]))  # no ring: a load refuses them
        if older is not None:
            guard["remake_of"] = older
            guard["remake_reason"] = draw(st.sampled_from([None, "fit", "damage", "lost"]))
    return season


class SlowRemakes:
    """What became of the guards of one season, through one scope."""

    def __init__(self, season: OrderSeason, scope: dict[str, Any]) -> None:
        self.season, self.scope, self.until = season, scope, scope["until"]
        self.slow = SlowOrders(season, scope)
        self.orders = self.slow.orders()
        self.by_key = {guard["guard"]: guard for guard in season.guards}

    def local(self, guard: Row, stage: str | None = None) -> date | None:
        """Return the first known local day of a stage, or of any."""
        place = self.slow.place(guard)
        assert place is not None
        zone = self.slow.zone(place)
        stamps = self.slow.known_stamps(guard, place)
        days = [at.astimezone(zone).date() for each, at in stamps if stage in {None, each}]
        return min(days, default=None)

    def successors(self, key: str) -> list[tuple[date, str]]:
        found = []
        athletes = {order["athlete"] for order in self.orders.values()}
        for guard in self.season.guards:
            if guard.get("remake_of") != key or guard["athlete"] not in athletes:
                continue
            asked = self.local(guard)
            called_off = self.local(guard, "cancelled") and not self.local(guard, "fitted")
            if asked is not None and not called_off:
                found.append((asked, guard["guard"]))
        return sorted(found)

    def chain(self, key: str) -> list[str]:
        """Return the guard, the one it replaces, and so on."""
        path = [key]
        while (older := self.by_key[path[-1]].get("remake_of")) and older not in path:
            path.append(older)
        return path

    def guards(self) -> dict[str, Row]:
        found = {}
        for key in self.orders:
            guard = self.by_key[key]
            fitted, anew = self.local(guard, "fitted"), self.successors(key)
            if fitted is None and not anew:
                continue
            reason = self.by_key[anew[0][1]].get("remake_reason") if anew else None
            redo = "remake" if reason in REMAKE else "reason not recorded"
            redo = "replacement" if reason in REPLACEMENT else redo
            ends = [self.local(guard, "retired"), anew[0][0] if anew else None]
            found[key] = {
                "fitted_on": fitted,
                "asked_on": self.local(guard),
                "first_guard": self.chain(key)[-1],
                "place": len(self.chain(key)),
                "redone_by": anew[0][1] if anew else None,
                "redo": redo if anew else None,
                "redone_on": anew[0][0] if anew else None,
                "redos": len(anew),
                "ended_on": min((on for on in ends if on), default=None),
                "sessions_worn": self.worn(key),
                "bare_exposures": self.bare(guard, anew[0]) if anew else 0,
            }
        return found

    def worn(self, key: str) -> int:
        return sum(
            w["guard"] == key and self.season.played_on(w["session"]) < self.until
            for w in self.season.wear
        )

    def bare(self, guard: Row, anew: tuple[date, str]) -> int:
        """Count sessions between asking and fitting in which no guard of the kind was worn."""
        fitted = self.local(self.by_key[anew[1]], "fitted") or date.max
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
            count += not any(
                g["athlete"] == guard["athlete"] and g["kind"] == guard["kind"] for g in worn
            )
        return count

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
