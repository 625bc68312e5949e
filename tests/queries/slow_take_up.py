"""Take-up once more, by plain loops over rows, written from the definitions and not from SQL."""

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from hypothesis import strategies as st

from tests.queries.build import Row, Season, decision, offer
from tests.queries.seasons import ATHLETES, FIRST
from tests.queries.slow import asked, ending, first_to_end, within
from tests.queries.slow_orders import NEVER, STAGES, SlowOrders, order_seasons

Key = tuple[Any, ...]


@st.composite
def working_seasons(draw: st.DrawFn) -> Season:
    """Draw a season with everything in it that is recorded while it goes on."""
    season = draw(order_seasons())
    for row in season.roster:
        if draw(st.integers(0, 4)) == 0:
            row["joined_on"] = FIRST[row["season"]] + timedelta(days=draw(st.integers(0, 5)))
    for number in range(draw(st.integers(0, 10))):
        on = _day(draw)
        kind = draw(st.sampled_from(["shin", "shin", "chest", "calf", "vest"]))
        answer = draw(st.sampled_from(["accepted", "accepted", "declined", "undecided"]))
        reason = draw(st.sampled_from([None, "looks", "comfort"]))
        who = draw(st.sampled_from(ATHLETES))
        season.offers.append(offer(f"O{number}", who, on, answer, kind=kind, reason=reason))
    for number in range(draw(st.integers(0, 4))):
        on = _day(draw)
        cells: Row = {"department": draw(st.sampled_from([None, "D", "H"]))}
        for name in ("due_on", "done_on"):
            wait = draw(st.sampled_from([None, 0, 3, 9]))
            cells[name] = None if wait is None else on + timedelta(days=wait)
        season.decisions.append(decision(f"Y{number}", on, **cells))
    return season


def _day(draw: st.DrawFn) -> date:
    year = draw(st.sampled_from(["2025", "2026", "2026"]))
    return FIRST[year] + timedelta(days=draw(st.integers(-5, 30)))


class SlowTakeUp(SlowOrders):
    """Take-up of one season looked at through one scope."""

    def __init__(self, season: Season, scope: dict[str, Any]) -> None:
        super().__init__(season, scope)
        self.meant = SlowOrders(season, scope | {"seasons": None, "position_groups": None})

    def places(self, *, any_group: bool = False) -> dict[Key, Row]:
        """Return the last roster place in scope of each athlete and team."""
        found: dict[Key, Row] = {}
        for row in self.season.roster:
            if self._is_eligible(row, any_group=any_group):
                key = (row["athlete"], row["team"])
                found[key] = max(row, found.get(key, row), key=self._lateness)
        return found

    def _lateness(self, row: Row) -> Key:
        return (ending(self.season, row) or NEVER, row["season"])

    def _is_eligible(self, row: Row, *, any_group: bool) -> bool:
        group = {} if any_group else {"position_groups": row.get("position_group")}
        joined = (row.get("joined_on") or date.min) < self.until
        return joined and within(
            self.scope, self.teams[row["team"]], seasons=row["season"], **group
        )

    def place_of_day(self, athlete: str, on: date) -> Row | None:
        """Of an athlete's places the first to end on or after a day, else the last."""
        return first_to_end(self.season, athlete, lambda over: over.date() < on)

    def people(self) -> dict[Key, Key]:
        """Return the counts of each athlete, team and kind, in the order of the question."""
        found: dict[Key, list[Any]] = {}
        places = self.places()
        for row in sorted(self.offers(), key=lambda o: (o["offered_on"], o["offer"])):
            home = self.place_of_day(row["athlete"], row["offered_on"])
            here = places.get((row["athlete"], home and home["team"]))
            if home and here and self._holds(home, here, row["offered_on"]):
                cell = found.setdefault((row["athlete"], home["team"], row["kind"]), _nothing())
                cell[:3] = [cell[0] + 1, row["answer"], row["reason"]]
        guards = {g["guard"]: g for g in self.season.guards}
        for key, order in self.meant.orders().items():
            here = places.get((order["athlete"], order["team"]))
            if here and self._includes(here, order):
                guard = guards[key]
                cell = found.setdefault(
                    (order["athlete"], order["team"], guard["kind"]), _nothing()
                )
                fitted = order["fitted_at"] is not None
                cell[3] += 1
                cell[4] += order["state"] == "open"
                cell[5] += fitted
                cell[6] += fitted and guard["purpose"] == "return"
        bare = {place for place in places if not any(key[:2] == place for key in found)}
        found |= {(*place, None): _nothing() for place in bare}
        return {key: tuple(cell) for key, cell in found.items()}

    def offers(self) -> Iterator[Row]:
        """Yield the known offers of guard kinds in scope."""
        areas = self.scope["areas"]
        for row in self.season.offers:
            covered = self.covers[row["kind"]]
            if (
                row["offered_on"] < self.until
                and row["kind"] in self.scope["kinds"]
                and (areas is None or covered & set(areas))
            ):
                yield row

    def _holds(self, home: Row, here: Row, on: date) -> bool:
        over = ending(self.season, here)
        return home["season"] == here["season"] or over is None or on <= over.date()

    def _includes(self, here: Row, order: Row) -> bool:
        over = ending(self.season, here)
        first = min(v for k, v in order.items() if k.removesuffix("_at") in STAGES and v)
        return order["season"] == here["season"] or over is None or first <= over

    def wear(self) -> dict[Key, tuple[int, int, int]]:
        """Return (sessions, worn, worn outside) by athlete, team, kind and Monday."""
        found: dict[Key, list[int]] = {}
        worn_in = {(w["session"], w["guard"]) for w in self.season.wear}
        on_roster = {
            (r["athlete"], r["team"])
            for r in self.season.roster
            if (r.get("joined_on") is None or r["joined_on"] < self.until)
            and asked(self.scope["seasons"], r["season"])
        }
        made = self._made()
        for s in self.sessions():
            start = self.season.instant(s["session"])
            on = self.season.played_on(s["session"])
            for athlete in dict.fromkeys(r["athlete"] for r in self.season.roster):
                part = self.parts.get((s["session"], athlete))
                if part in {None, "out"} or (athlete, s["team"]) not in on_roster:
                    continue
                for kind in self.scope["kinds"]:
                    mine = [
                        g
                        for g in made
                        if g["athlete"] == athlete and g["kind"] == kind and g["team"] == s["team"]
                    ]
                    if not mine:
                        continue
                    in_hand = any(_in_hand(g, start) for g in mine)
                    worn = any((s["session"], g["guard"]) in worn_in for g in mine)
                    monday = on - timedelta(days=on.weekday())
                    cell = found.setdefault((athlete, s["team"], kind, monday), [0, 0, 0])
                    cell[0] += in_hand
                    cell[1] += in_hand and worn
                    cell[2] += worn and not in_hand
        return {key: tuple(cell) for key, cell in found.items() if any(cell)}  # type: ignore[misc]

    def _made(self) -> list[Row]:
        """Return guards of the scope's kinds and teams with the stamps known of them."""
        found = []
        for guard in self.season.guards:
            place = self.meant.place(guard)
            if place is None or not self.meant._in_scope(guard, place):
                continue
            firsts = self.meant.firsts(guard, place)
            found.append(guard | {"team": place["team"], "firsts": firsts})
        return found

    def sessions(self) -> list[Row]:
        """Return the sessions of the scope that are known."""
        return [
            s
            for s in self.season.sessions
            if self.season.played_on(s["session"]) < self.until
            and within(self.scope, self.teams[s["team"]], seasons=s["season"])
        ]

    def left_out(self) -> dict[str, int]:
        """Return how many records of wear count for no step, by the reason."""
        found: Counter[str] = Counter()
        made = {g["guard"]: g["team"] for g in self._made()}
        guards = {g["guard"]: g for g in self.season.guards}
        sessions = {s["session"]: s for s in self.sessions()}
        rosters = {(r["athlete"], r["team"], r["season"]): r for r in self.season.roster}
        for w in self.season.wear:
            guard, s = guards[w["guard"]], sessions.get(w["session"])
            if s is None or not self.is_asked_kind(guard):
                continue
            listed = rosters.get((guard["athlete"], s["team"], s["season"]))
            group = listed and listed.get("position_group")
            if not asked(self.scope["position_groups"], group):
                continue
            if listed is None:
                found["the athlete is not on the roster of the session’s team"] += 1
            elif made.get(w["guard"]) != s["team"]:
                found["made for another team of the athlete"] += 1
            elif self.parts.get((s["session"], guard["athlete"])) in {None, "out"}:
                found["the athlete is not recorded as taking part in that session"] += 1
        return dict(found)


def _nothing() -> list[Any]:
    return [0, None, None, 0, 0, 0, 0]


def _in_hand(guard: Row, start: Any) -> bool:
    fitted, retired = guard["firsts"].get("fitted"), guard["firsts"].get("retired")
    return fitted is not None and fitted <= start and (retired is None or retired > start)
