"""Seasons of guards that were fitted and came back, in few words, for the Remakes answer."""

from datetime import datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from seasonboard.answers.remakes.answer import remakes
from seasonboard.answers.remakes.options import RemakesBy, RemakesOptions
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.scope_values import read_known
from seasonboard.scope import read_scope
from tests.queries import build
from tests.queries.build import Row, Season, day, stamp


def noon(number: int) -> datetime:
    """Return noon of a day of the season, also of one far on."""
    return datetime.combine(day(1), time(12), tzinfo=ZoneInfo("UTC")) + timedelta(days=number - 1)


class Made:
    """A season put together guard by guard; every athlete has one guard and what replaces it."""

    def __init__(self) -> None:
        self.guards: list[Row] = []
        self.stages: list[Row] = []
        self.sessions: list[Row] = []
        self.attendance: list[Row] = []
        self.wear: list[Row] = []

    def guard(self, key: str, days: dict[str, int], *, athlete: str = "", **cells: object) -> None:
        """Add a guard with the days of its stages."""
        self.guards.append(build.guard(key, athlete or key.split("-", maxsplit=1)[0], **cells))
        self.stages += [stamp(key, stage, noon(number)) for stage, number in days.items()]

    def fitted(self, prefix: str, count: int, *, on: int = 2, **cells: object) -> None:
        """Add some guards fitted on one day, of one athlete each."""
        for number in range(count):
            self.guard(f"{prefix}{number}", {"requested": on - 1, "fitted": on}, **cells)

    def back(self, prefix: str, count: int, *, on: int, why: str | None = "fit") -> None:
        """Let the first of those be asked for anew on one day; nobody is fitted with it yet."""
        for number in range(count):
            key = f"{prefix}{number}"
            cells = {"remake_of": key, "remake_reason": why}
            self.guard(f"{key}-b", {"requested": on}, **cells)

    def worn(self, key: str, days: range) -> None:
        """Let a guard be worn in a game on each of some days."""
        known = {row["session"] for row in self.sessions}
        for number in days:
            game = f"G{number}"
            if game not in known:
                self.sessions.append(build.session(game, day(1) + timedelta(days=number - 1)))
            self.wear.append({"session": game, "guard": key})
            who = next(g["athlete"] for g in self.guards if g["guard"] == key)
            self.attendance.append({"session": game, "athlete": who, "part": "full"})

    def season(self) -> Season:
        """Return the rows of every table."""
        athletes = sorted({guard["athlete"] for guard in self.guards}) or ["A"]
        plain = build.Season(
            roster=[build.member(athlete) for athlete in athletes],
            guards=self.guards,
            sessions=self.sessions,
            attendance=self.attendance,
            wear=self.wear,
        )
        plain.stages = self.stages
        return plain

    def ask(
        self, folder: Path, by: str = "kind", through: int = 90, window: int = 30, **scope: str
    ) -> RemakesAnswer:
        """Load the season and ask for its remakes."""
        last = day(1) + timedelta(days=through - 1)
        with self.season().load(folder / f"{by}-{through}-{window}") as store:
            known = read_known(store)
            asked = read_scope({"through": last.isoformat()} | scope, known)
            return remakes(store, asked, known, RemakesOptions(RemakesBy(by), window))
