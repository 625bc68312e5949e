"""Orders once more, by plain loops over rows, written from the definitions and not from SQL."""

from collections.abc import Iterator
from datetime import UTC, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from hypothesis import strategies as st

from tests.queries.build import Row, Season, stamp
from tests.queries.seasons import seasons
from tests.queries.slow import KINDS, asked, covered, first_to_end, within
from tests.queries.slow_wear import worn_rows

STAGES = (
    "requested", "scanned", "modelled", "printed", "finished",
    "shipped", "delivered", "fitted", "retired", "cancelled",
)  # fmt: skip
PARTS = (
    *("seasons", "departments", "teams", "sports", "sexes", "position_groups", "areas", "sides"),
    "made_of",
)
NEVER = datetime(9999, 1, 1, tzinfo=UTC)


@st.composite
def order_seasons(draw: st.DrawFn) -> Season:
    """Draw a season whose guards have any stages at any time, also twice or backwards."""
    season = draw(seasons())
    first = min(s["starts_at"] for s in season.sessions).replace(tzinfo=UTC)
    rows: dict[tuple[Any, ...], Row] = {}
    for guard in season.guards:
        for stage in draw(st.lists(st.sampled_from(STAGES), max_size=5)):
            hours = draw(st.integers(-100, 600))
            found = stamp(guard["guard"], stage, first + timedelta(hours=hours))
            rows[found["guard"], stage, found["reached_at"]] = found
    season.stages = list(rows.values())
    return season


MADE = (
    *("requested", "scanned", "modelled", "printed"),
    *("finished", "shipped", "delivered", "fitted"),
)


class SlowOrders:
    """The orders of one season looked at through one scope."""

    def __init__(self, season: Season, scope: dict[str, Any]) -> None:
        self.season, self.scope, self.until = season, scope, scope["until"]
        self.teams = {t["team"]: t for t in season.teams}
        self.homes = {d["department"]: d for d in season.departments}
        self.covers = {kind: set(areas) for kind, areas in KINDS.items()}
        for row in season.kinds:
            self.covers.setdefault(row["kind"], set()).add(row["area"])
        self.parts = {(a["session"], a["athlete"]): a["part"] for a in season.attendance}

    def orders(self) -> dict[str, Row]:
        """Return every known order of the scope by its guard."""
        found = {}
        for guard in self.season.guards:
            place = self.place(guard)
            if place is None or not self._in_scope(guard, place):
                continue
            stamps = list(self.known_stamps(guard, place))
            if stamps:
                found[guard["guard"]] = self._order(guard, place, stamps)
        return found

    def unstaged(self) -> int:
        """Count guards worn without a stage so far, and those never worn and without any."""
        dated = {row["guard"] for row in (*self.season.stages, *worn_rows(self.season))}
        count = 0
        for guard in self.season.guards:
            place = self.place(guard)
            if place is None or not self._in_scope(guard, place):
                continue
            is_staged = any(self.known_stamps(guard, place))
            is_dated = guard["guard"] in dated
            count += not is_dated or (not is_staged and bool(self._worn(guard)))
        return count

    def _worn(self, guard: Row) -> list[datetime]:
        """Return when a guard was worn, as far as it is known."""
        return [
            self.season.instant(w["session"])
            for w in worn_rows(self.season)
            if w["guard"] == guard["guard"] and self.season.played_on(w["session"]) < self.until
        ]

    def home(self, place: Row) -> str:
        return str(self.teams[place["team"]]["department"])

    def zone(self, place: Row) -> ZoneInfo:
        return ZoneInfo(self.homes[self.home(place)]["time_zone"])

    def place(self, guard: Row) -> Row | None:
        """Of its athlete's places the first to end after the guard was heard of, else the last."""
        places = [r for r in self.season.roster if r["athlete"] == guard["athlete"]]
        if not places:
            return None
        home = min(places, key=lambda r: str(self.zone(r)))
        heard = [at for _, at in self.known_stamps(guard, home)] or self._worn(guard)
        first = min(heard, default=None)

        return first_to_end(
            self.season, guard["athlete"], lambda over: first is not None and over < first
        )

    def _in_scope(self, guard: Row, place: Row) -> bool:
        return self.is_asked_kind(guard) and self.is_place_asked(place)

    def is_asked_kind(self, guard: Row) -> bool:
        areas, sides = self.scope["areas"], self.scope["sides"]
        return (
            guard["kind"] in self.scope["kinds"]
            and (areas is None or bool(self.covers[guard["kind"]] & set(areas)))
            and (guard["side"] == "both" or asked(sides, guard["side"]))
        )

    def is_place_asked(self, place: Row) -> bool:
        parts = {"seasons": place["season"], "position_groups": place.get("position_group")}
        return within(self.scope, self.teams[place["team"]], **parts)

    def known_stamps(self, guard: Row, place: Row) -> Iterator[tuple[str, datetime]]:
        for row in self.season.stages:
            if row["guard"] == guard["guard"]:
                on = row["reached_at"].astimezone(self.zone(place)).date()
                if on < self.until:
                    yield row["stage"], row["reached_at"]

    def firsts(self, guard: Row, place: Row) -> dict[str, datetime]:
        """Return when each known stage was first reached."""
        found: dict[str, datetime] = {}
        for stage, instant in self.known_stamps(guard, place):
            found[stage] = min(instant, found.get(stage, instant))
        return found

    def _order(self, guard: Row, place: Row, stamps: list[tuple[str, datetime]]) -> Row:
        firsts = self.firsts(guard, place)
        state = next((s for s in ("fitted", "cancelled", "retired") if s in firsts), "open")
        making = [s for s in STAGES[:8] if s in firsts]
        stage = making[-1] if making else "requested"
        if "cancelled" in firsts and "fitted" not in firsts:
            stage = "cancelled"
        if "retired" in firsts:
            stage = "retired"
        found = {f"{s}_at": firsts.get(s) for s in STAGES} | {
            "athlete": guard["athlete"],
            "team": place["team"],
            "season": place["season"],
            "stage": stage,
            "state": state,
            "stamped_twice": sum(
                sum(s == each for s, _ in stamps) > 1 for each in {s for s, _ in stamps}
            ),
            "first_game_at": self._first_game(place, firsts.get("requested")),
            "next_session": self._next_game(place["team"]),
        }
        nothing = dict.fromkeys(("exposures", "bare", "worn"))
        since = firsts.get("requested", min(firsts.values()))
        return found | (self._meanwhile(guard, since) if state == "open" else nothing)

    def _games(self) -> list[Row]:
        return [s for s in self.season.sessions if s["setting"] == "game"]

    def _first_game(self, place: Row, asked: datetime | None) -> datetime | None:
        if asked is None:
            return None
        starts = [
            self.season.instant(s["session"])
            for s in self._games()
            if (s["team"], s["season"]) == (place["team"], place["season"])
        ]
        return min((start for start in starts if start > asked), default=None)

    def _next_game(self, team: str) -> str | None:
        recorded = {session for session, _ in self.parts}
        ahead = [
            s["session"]
            for s in self._games()
            if s["team"] == team
            and self.season.played_on(s["session"]) >= self.until - timedelta(days=1)
            and (self.season.played_on(s["session"]) >= self.until or s["session"] not in recorded)
        ]
        return min(ahead, key=self.season.instant, default=None)

    def _meanwhile(self, guard: Row, since: datetime) -> Row:
        """Count sessions since then, those with a site of the guard bare, and with it worn."""
        counts = {"exposures": 0, "bare": 0, "worn": 0}
        for s in self.season.sessions:
            key = s["session"]
            part = self.parts.get((key, guard["athlete"]), "out")
            if part == "out" or self.season.instant(key) <= since:
                continue
            if self.season.played_on(key) >= self.until:
                continue
            on = [
                g
                for w in worn_rows(self.season)
                for g in self.season.guards
                if w["session"] == key
                and w["guard"] == g["guard"]
                and g["athlete"] == guard["athlete"]
            ]
            worn = (covered(self.covers, g) for g in on)
            counts["exposures"] += 1
            counts["bare"] += bool(covered(self.covers, guard).difference(*worn))
            counts["worn"] += any(g["guard"] == guard["guard"] for g in on)
        return counts

    def histories(self) -> list[tuple[Any, ...]]:
        """Return home, team, kind, days of the stages, over, from, to, ending of each order."""
        found = []
        for guard in self.season.guards:
            mine = [r for r in self.season.roster if r["athlete"] == guard["athlete"]]
            if not mine:
                continue
            place = min(mine, key=lambda r: (self.home(r), r["team"]))
            zone = self.zone(place)
            known = self.firsts(guard, place)
            if not known.keys() - {"cancelled", "retired"}:
                continue
            days = {stage: at.astimezone(zone).date() for stage, at in known.items()}
            ends = [days[s] for s in ("cancelled", "retired") if s in known]
            over = None if "fitted" in known or not ends else min(ends)
            end = datetime.combine(self.until, time(0), tzinfo=zone)
            ending = next((s for s in ("fitted", "cancelled") if s in known), "open")
            until, asked = known.get(ending, end), known.get("requested")
            if asked is None or until < asked or ("retired" in known and "fitted" not in known):
                ending = None
            ending = {"fitted": "finished"}.get(ending, ending)
            stages = tuple(days.get(stage) for stage in MADE)
            home = (self.home(place), place["team"], guard["kind"])
            found.append((*home, *stages, over, asked, until, ending))
        return found
