"""The counts behind the comparisons of Compare, and repeats on a clock, once more by loops.

Asked through the view `through`: as preventive, but followed through injuries.
"""

from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from hypothesis import strategies as st

from tests.queries.build import Row, Season
from tests.queries.seasons import FIRST, seasons
from tests.queries.slow import Site
from tests.queries.slow_ticks import SlowTicks

Counts = tuple[int, int, int, int]


def staged(season: Season, stages: list[Row]) -> Season:
    """Return a season with stages beside it."""
    return replace(season, stages=stages)


def stage(guard: str, on: date, at: time = time(6), word: str = "requested") -> Row:
    return {"guard": guard, "stage": word, "reached_at": datetime.combine(on, at, UTC)}


@st.composite
def staged_seasons(draw: st.DrawFn) -> Season:
    """Draw a season; of its guards some have no stage, some were asked for before or late."""
    season = draw(seasons())
    rows = []
    for g in season.guards:
        for word in draw(st.sampled_from([[], ["requested"], ["delivered", "requested"]])):
            year = draw(st.sampled_from(["2025", "2026"]))
            on = FIRST[year] + timedelta(days=draw(st.integers(-10, 20)))
            rows.append(stage(g["guard"], on, time(draw(st.integers(0, 23))), word))
    return staged(season, rows)


class SlowComparisons(SlowTicks):
    """One season looked at through one scope, whose purpose may be `through`."""

    def is_guarded(self, worn: set[str]) -> bool:
        if self.scope["purpose"] == "through":
            return "preventive" in worn
        return super().is_guarded(worn)

    def set_aside(self, worn: set[str], *, before: bool) -> str | None:
        if self.scope["purpose"] != "through":
            return super().set_aside(worn, before=before)
        if "return" in worn:
            return "a guard made for return was worn"
        return "a guard outside the scope was worn at the site" if worn == {"other kind"} else None

    @property
    def counted(self) -> list[Row]:
        """Return the exposures that are in one of the groups."""
        return [e for e in self.exposures if not e["set_aside"]]

    def athlete_strata(self) -> dict[tuple[str, Any], dict[str, Counts]]:
        """Return by comparison and stratum what each athlete adds."""
        found: dict[tuple[str, Any], dict[str, list[int]]] = {}
        for e in self.counted:
            s, team = e["session"], self.teams[e["session"]["team"]]
            same = (e["site"][0], s["session"], e["position_group"])
            alike = (e["site"][0], team["sport"], team["sex"], e["position_group"])
            alike += (s["setting"], s["season"], self.block(s))
            for key in (("crude", "all"), ("alike athletes", alike), ("same session", same)):
                self._add(found.setdefault(key, {}).setdefault(e["athlete"], [0] * 4), e)
        return {
            key: {athlete: _four(cell) for athlete, cell in cells.items()}
            for key, cells in found.items()
        }

    def bare_rates(self) -> dict[tuple[Any, ...], tuple[int, int]]:
        """Return (injuries, exposures) of bare sites by what the weights are made of."""
        found: dict[tuple[Any, ...], list[int]] = {}
        for e in self.counted:
            if not e["guarded"]:
                cell = found.setdefault((e["site"][0], *self._course(e)), [0, 0])
                cell[0] += e["injured"]
                cell[1] += 1
        return {key: (injuries, exposures) for key, (injuries, exposures) in found.items()}

    def asked_at(self, athlete: str, site: Site) -> datetime | None:
        """Return when a preventive guard for the site was first asked for, or else first worn."""
        instants = []
        for g in self.season.guards:
            covers = site[0] in self.covers[g["kind"]]
            at_site = site[1] == "midline" or g["side"] in {site[1], "both"}
            mine = g["athlete"] == athlete and g["purpose"] == "preventive"
            if not (mine and covers and at_site and g["kind"] in self.scope["kinds"]):
                continue
            reached = [
                row["reached_at"]
                for row in self.season.stages
                if row["guard"] == g["guard"] and row["reached_at"].date() < self.until
            ]
            worn = [
                self.season.instant(w["session"])
                for w in self.season.wear
                if w["guard"] == g["guard"] and self.season.played_on(w["session"]) < self.until
            ]
            if reached or worn:
                instants.append(min(reached or worn))
        return min(instants, default=None)

    def courses(self) -> dict[tuple[Any, ...], tuple[bool, *Counts]]:
        """Return (asked after, four counts) by athlete, site and kind of session."""
        found: dict[tuple[str, Site], dict[tuple[Any, ...], list[int]]] = {}
        for e in self.counted:
            asked = self.asked_at(e["athlete"], e["site"])
            if asked and self.season.instant(e["session"]["session"]) >= asked:
                cells = found.setdefault((e["athlete"], e["site"]), {})
                self._add(cells.setdefault(self._course(e), [0] * 4), e)
        return {
            (athlete, *site, *course): (self._is_late(athlete, site), *_four(cell))
            for (athlete, site), cells in found.items()
            if any(cell[0] + cell[1] for cell in cells.values())
            for course, cell in cells.items()
        }

    def pairs(self) -> Counter[tuple[str, str | None, int, int]]:
        """Return how often one side was guarded and the other bare, by who was hurt where."""
        found: Counter[tuple[str, str | None, int, int]] = Counter()
        for g in self.counted:
            for o in self.counted:
                one_body = (g["session"], g["athlete"]) == (o["session"], o["athlete"])
                one_area = g["site"][0] == o["site"][0]
                if one_body and one_area and g["guarded"] and not o["guarded"]:
                    hurt = g["injured"] or o["injured"]
                    who = g["athlete"] if hurt else None
                    found[g["site"][0], who, int(g["injured"]), int(o["injured"])] += 1
        return found

    def pace(self) -> int:
        """Return the games in which someone took part."""
        games = [s for s in self.sessions(any_setting=True) if s["setting"] == "game"]
        return sum(
            any(session == s["session"] and part != "out" for (session, _), part in parts)
            for s in games
            for parts in [self.parts.items()]
        )

    def repeats(self, *, by_team: bool) -> dict[tuple[bool, str, int], tuple[int, int]]:
        """Return (sites at risk, injuries on record) by group, athlete and tick."""
        clocks, _ = self._clocks(by_team=by_team)
        found: dict[tuple[bool, str, int], list[int]] = {}
        for (athlete, _, site, _), walk in clocks.items():
            for tick, e in walk:
                if not e["set_aside"]:
                    cell = found.setdefault((e["guarded"], athlete, tick), [0, 0])
                    cell[0] += 1
                    cell[1] += sum(
                        i["session"] == e["session"]["session"] and self.counts(i)
                        for i in self.hurt_at(athlete, site)
                    )
        return {key: (sites, injuries) for key, (sites, injuries) in found.items()}

    def ever_never(self, *, by_team: bool) -> dict[tuple[bool, int], tuple[int, int]]:
        """Return (at risk, injuries) by whether a site was ever guarded in the season, and tick."""
        steps = [
            ((athlete, season, site), tick, e)
            for (athlete, season, site, _), _, _, (tick, e, _), _ in self.steps(by_team=by_team)
        ]
        ever = {who for who, _, e in steps if e["guarded"]}
        found: dict[tuple[bool, int], list[int]] = {}
        for who, tick, e in steps:
            cell = found.setdefault((who in ever, tick), [0, 0])
            cell[0] += 1
            cell[1] += e["injured"]
        return {key: (at_risk, injuries) for key, (at_risk, injuries) in found.items()}

    def block(self, session: Row) -> int:
        """Return the fortnight, counted from a Monday."""
        return (self.season.played_on(session["session"]) - date(2000, 1, 3)).days // 14

    def _course(self, e: Row) -> tuple[Any, ...]:
        s = e["session"]
        sport = self.teams[s["team"]]["sport"]
        return sport, e["position_group"], s["setting"], self.block(s)

    def _add(self, cell: list[int], e: Row) -> None:
        cell[0 if e["guarded"] else 1] += e["injured"]
        cell[2 if e["guarded"] else 3] += 1

    def _is_late(self, athlete: str, site: Site) -> bool:
        asked = self.asked_at(athlete, site)
        assert asked is not None
        day = asked.astimezone(UTC).date()
        return any(
            self.season.instant(i["session"]) < asked if i["session"] else i["occurred_on"] < day
            for i in self.hurt_at(athlete, site)
        )


def _four(cell: list[int]) -> Counts:
    a, b, t1, t0 = cell
    return a, b, t1, t0
