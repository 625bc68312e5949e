"""A week once more, by plain loops over rows, written from the definitions and not from SQL."""

from datetime import date, timedelta
from typing import Any

from tests.queries.build import Row, Season
from tests.queries.slow import within
from tests.queries.slow_take_up import Key, SlowTakeUp


class SlowWeek(SlowTakeUp):
    """What changed after one day in one season, looked at through one scope."""

    def __init__(self, season: Season, scope: dict[str, Any], since: date) -> None:
        super().__init__(season, scope)
        self.since = since

    def _is_now(self, on: date | None) -> bool:
        return on is not None and self.since < on < self.until

    def injuries(self) -> dict[str, Key]:
        """Return (known on, returned on, is new, is return, team, guarded) by injury."""
        found = {}
        for row in self.season.injuries:
            known = row.get("reported_on") or row["occurred_on"]
            back = row["returned_on"]
            back = back if back is not None and back < self.until else None
            if known >= self.until or not (self._is_now(known) or self._is_now(back)):
                continue
            place = self._place_of_injury(row)
            if place is not None and self.is_place_asked(place):
                new, back_now = self._is_now(known), self._is_now(back)
                guarded = self._is_guarded(row) if row["session"] else None
                found[row["injury"]] = (known, back, new, back_now, place["team"], guarded)
        return found

    def _place_of_injury(self, row: Row) -> Row | None:
        if row["session"]:
            s = self.season.session(row["session"])
            for place in self.season.roster:
                where = (place["athlete"], place["team"], place["season"])
                if where == (row["athlete"], s["team"], s["season"]):
                    return place
        return self.place_of_day(row["athlete"], row["occurred_on"])

    def _is_guarded(self, row: Row) -> bool:
        guards = {g["guard"]: g for g in self.season.guards}
        for w in self.season.wear:
            g = guards[w["guard"]]
            if (
                w["session"] == row["session"]
                and g["athlete"] == row["athlete"]
                and row["area"] in self.covers[g["kind"]]
                and (g["side"] in {"both", row["side"]} or row["side"] in {"both", "midline"})
            ):
                return True
        return False

    def offers_made(self) -> dict[str, str]:
        """Return the team of each offer made in the stretch."""
        found = {}
        for row in self.offers():
            place = self.place_of_day(row["athlete"], row["offered_on"])
            if row["offered_on"] > self.since and place and self.is_place_asked(place):
                found[row["offer"]] = place["team"]
        return found

    def decisions(self) -> dict[str, date | None]:
        """Return the day each decision was done, of those made, done, or still to be done."""
        found = {}
        here = {t["department"] for t in self.season.teams if within(self.scope, t)}
        for row in self.season.decisions:
            done = row["done_on"]
            done = done if done is not None and done < self.until else None
            fresh = self._is_now(row["decided_on"]) or done is None or done > self.since
            mine = row["department"] is None or row["department"] in here
            if row["decided_on"] < self.until and fresh and mine:
                found[row["decision"]] = done
        return found

    def games(self, days: int) -> set[str]:
        """Return the games ahead: those of the next days, and today's when nobody recorded it."""
        recorded = {session for session, _ in self.parts}
        today = self.until - timedelta(days=1)
        found = set()
        for s in self.season.sessions:
            on = self.season.played_on(s["session"])
            is_ahead = self.until <= on < self.until + timedelta(days=days)
            if (
                s["setting"] == "game"
                and (is_ahead or (on == today and s["session"] not in recorded))
                and within(self.scope, self.teams[s["team"]], seasons=s["season"])
            ):
                found.add(s["session"])
        return found
