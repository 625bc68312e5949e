"""Small seasons for tests: drawn as a grid that can be checked by eye, or given row by row.

In a grid the first line names athletes, and every further line is one session of team T, a day
after the line before: its key (G… a game, P… a practice), then one cell an athlete.

    .  took part, bare          g  with a preventive guard    r  with a guard made for return
    l  took part in part        x  with a guard of another kind at the site
    o  out                      -  not recorded
    !  hurt, days lost          ?  hurt, no day lost          *  hurt, not yet returned

`G3@7` puts a session on day 7. Guards are of the kind chest, a midline site, so one athlete is
one site. Day 1 is 1 September 2026.
"""

import csv
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import Store
from seasonboard.stored_tables import TABLES
from tests.queries.straight import put_straight
from tests.reused import ReusedStore

Row = dict[str, Any]

GUARDS = {"g": ("chest", "preventive"), "r": ("chest", "return"), "x": ("vest", "preventive")}


def day(number: int) -> date:
    """Return a day of the season: day 1 is 1 September 2026."""
    return date(2026, 8, 31) + timedelta(days=number)


@dataclass
class Season:
    """The rows of every table, as dicts of Python values."""

    kinds: list[Row] = field(default_factory=lambda: [{"kind": "vest", "area": "chest"}])
    departments: list[Row] = field(default_factory=lambda: [department("D")])
    printers: list[Row] = field(default_factory=list)
    teams: list[Row] = field(default_factory=lambda: [team("T")])
    roster: list[Row] = field(default_factory=list)
    sessions: list[Row] = field(default_factory=list)
    attendance: list[Row] = field(default_factory=list)
    guards: list[Row] = field(default_factory=list)
    wear: list[Row] = field(default_factory=list)
    injuries: list[Row] = field(default_factory=list)
    stages: list[Row] = field(default_factory=list)
    offers: list[Row] = field(default_factory=list)
    decisions: list[Row] = field(default_factory=list)
    turns: list[Row] = field(default_factory=list)
    marked_guards: list[Row] = field(default_factory=list)
    rules: list[Row] = field(default_factory=list)

    def tables(self) -> dict[str, list[Row]]:
        """Return the rows of every table that has some, in the order in which they are loaded."""
        return {name: rows for name in TABLES if (rows := getattr(self, name, []))}

    def write(self, folder: Path) -> Path:
        """Write the tables that have rows as CSV."""
        folder.mkdir(parents=True, exist_ok=True)
        for name, rows in self.tables().items():
            write_csv(folder / f"{name}.csv", rows)
        return folder

    def load(self, folder: Path) -> Store:
        """Put the season into a new store in memory.

        Rows that are plainly what their columns hold go there straight; others are written to
        `folder` and go through the checks of a load, which take most of the time of a small test.
        """
        store = ReusedStore()
        if not put_straight(store, self.tables()):
            write_load(store, plan_load(store, [self.write(folder)]))
        return store

    def played_on(self, session: str) -> date:
        """Return the day of a session where it is played; starts are written in that time."""
        return self.session(session)["starts_at"].date()

    def instant(self, session: str) -> datetime:
        """Return the instant a session starts."""
        row = self.session(session)
        (one,) = [t for t in self.teams if t["team"] == row["team"]]
        (home,) = [d for d in self.departments if d["department"] == one["department"]]
        return row["starts_at"].replace(tzinfo=ZoneInfo(home["time_zone"]))

    def session(self, key: str) -> Row:
        """Return one session's row."""
        return next(row for row in self.sessions if row["session"] == key)


def write_csv(path: Path, rows: Iterable[Row]) -> None:
    rows = list(rows)
    names = list(dict.fromkeys(name for row in rows for name in row))
    with path.open("w", encoding="utf-8", newline="") as out:
        writer = csv.DictWriter(out, names, restval="")
        writer.writeheader()
        writer.writerows({k: _text(v) for k, v in row.items()} for row in rows)


def _text(value: object) -> object:
    return value.isoformat() if isinstance(value, date) else value


def department(key: str, **cells: object) -> Row:
    base = {"department": key, "name": f"College {key}", "plan": "onsite printer"}
    return base | {"time_zone": "UTC"} | cells


def team(key: str, **cells: object) -> Row:
    return {"team": key, "department": "D", "sport": "soccer", "sex": "women"} | cells


def member(athlete: str, **cells: object) -> Row:
    base = {"athlete": athlete, "team": "T", "season": "2026", "name": f"Athlete {athlete}"}
    return base | cells


def session(key: str, on: date, **cells: object) -> Row:
    base = {"session": key, "team": "T", "season": "2026"}
    base["starts_at"] = datetime.combine(on, time(12))
    base["setting"] = "game" if key.startswith("G") else "practice"
    return base | cells


def guard(key: str, athlete: str, **cells: object) -> Row:
    base = {"guard": key, "athlete": athlete, "kind": "chest", "side": "midline"}
    return base | {"purpose": "preventive"} | cells


def injury(key: str, athlete: str, occurred_on: date, **cells: object) -> Row:
    base = {"injury": key, "athlete": athlete, "occurred_on": occurred_on, "session": None}
    return base | {"area": "chest", "side": "midline", "returned_on": None} | cells


def offer(key: str, athlete: str, on: date, answer: str, **cells: object) -> Row:
    base = {"offer": key, "athlete": athlete, "kind": "chest", "offered_on": on, "answer": answer}
    return base | {"reason": None} | cells


def decision(key: str, on: date, **cells: object) -> Row:
    base: Row = {"decision": key, "decided_on": on, "department": None, "text": f"Do {key}."}
    return base | {"due_on": None, "done_on": None} | cells


def at(number: int, hour: int = 9, minute: int = 0) -> datetime:
    """Return an instant of a day of the season, in UTC."""
    return datetime.combine(day(number), time(hour, minute), UTC)


def stamp(guard: str, stage: str, on: datetime | date | int, hour: int = 9) -> Row:
    """Return a stage reached at an instant, or at an hour of a day in UTC."""
    if not isinstance(on, datetime):
        on = datetime.combine(day(on) if isinstance(on, int) else on, time(hour), UTC)
    return {"guard": guard, "stage": stage, "reached_at": on}


def order(key: str, athlete: str, stages: dict[str, datetime], **cells: object) -> tuple[Row, list]:
    """Return a guard and the stamps of its stages."""
    return guard(key, athlete, **cells), [stamp(key, s, at) for s, at in stages.items()]


def with_orders(season: Season, *orders: tuple[Row, list[Row]]) -> Season:
    """Return the season with guards and their stages, as `order` gives them."""
    season.guards += [guard for guard, _ in orders]
    season.stages += [row for _, rows in orders for row in rows]
    return season


def drawn(
    grid: str, *, roster: dict[str, Row] | None = None, injuries: Iterable[Row] = ()
) -> Season:
    """Return the season of a grid, with further cells of roster rows by athlete, and injuries."""
    heads, *lines = [line.split() for line in grid.strip().splitlines()]
    season = Season()
    season.roster = [member(a) | (roster or {}).get(a, {}) for a in heads]
    number = 0
    for name, *cells in lines:
        key, _, at = name.partition("@")
        number = int(at) if at else number + 1
        season.sessions.append(session(key, day(number)))
        for athlete, cell in zip(heads, cells, strict=True):
            _cell(season, key, athlete, cell, day(number))
    season.injuries += injuries
    return season


def _cell(season: Season, key: str, athlete: str, cell: str, on: date) -> None:
    if "-" not in cell:
        part = "out" if "o" in cell else "limited" if "l" in cell else "full"
        season.attendance.append({"session": key, "athlete": athlete, "part": part})
    for letter in set(cell) & GUARDS.keys():
        kind, purpose = GUARDS[letter]
        made = guard(f"{letter}-{athlete}", athlete, kind=kind, purpose=purpose)
        if made not in season.guards:
            season.guards.append(made)
        season.wear.append({"session": key, "guard": made["guard"]})
    returns = {"!": on + timedelta(days=10), "?": on + timedelta(days=1), "*": None}
    for letter in cell:
        if letter in returns:
            hurt = f"{athlete}-{key}{letter}"
            back = returns[letter]
            season.injuries.append(injury(hurt, athlete, on, session=key, returned_on=back))


def legs(cells: list[tuple[str, str | None]]) -> Season:
    """Return a season of one game with shin guards: `cells` are (athlete, side worn)."""
    plain = drawn("\n".join([" ".join(a for a, _ in cells), "G1 " + ". " * len(cells)]))
    for athlete, side in cells:
        if side:
            plain.guards.append(guard(f"s-{athlete}", athlete, kind="shin", side=side))
            plain.wear.append({"session": "G1", "guard": f"s-{athlete}"})
    return plain
