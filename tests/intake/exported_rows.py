"""An export beside what is expected of it: people by name, sessions by team and local day."""

import csv
from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

Row = dict[str, str]


class Export:
    """The CSV tables of an export, as a person would look them up: no key needs to be known.

    Sessions have `date`, `time` and `half` of their department's clock; attendance, wear, injuries
    and guards have the athlete's name under `athlete`; stages have the local day.
    """

    def __init__(self, folder: Path) -> None:
        self.tables = {path.stem: self._read(path) for path in folder.glob("*.csv")}
        zones = {one["department"]: one["time_zone"] for one in self.tables["departments"]}
        self.zones = {one["team"]: zones[one["department"]] for one in self.tables["teams"]}
        self.squads = {one["athlete"]: one for one in self.tables.get("roster", [])}
        self.sessions = {one["session"]: one for one in self.rows("sessions")}
        self.owners = {one["guard"]: one["athlete"] for one in self.tables.get("guards", [])}

    @staticmethod
    def _read(path: Path) -> list[Row]:
        with path.open(newline="", encoding="utf-8-sig") as file:
            return list(csv.DictReader(file))

    def rows(self, table: str) -> list[Row]:
        """Return the rows of a table in words; guards recorded as not worn are no wear."""
        rows = self.tables.get(table, [])
        if table == "wear":
            rows = [one for one in rows if one["worn"] != "no"]
        return [self._looked_up(table, row) for row in rows]

    def _looked_up(self, table: str, row: Row) -> Row:
        more: dict[str, Callable[[], Row]] = {
            "sessions": lambda: self._clock(row["starts_at"], self.zones[row["team"]]),
            "attendance": lambda: self._session(row) | self._athlete(row["athlete"]),
            "wear": lambda: self._session(row),
            "guards": lambda: self._athlete(row["athlete"]),
            "injuries": lambda: {"date": row["occurred_on"]} | self._athlete(row["athlete"]),
            "stages": lambda: {"reached_at": self._reached(row)},
        }
        return row | more[table]() if table in more else row

    def _clock(self, instant: str, zone: str) -> Row:
        local = datetime.fromisoformat(instant).astimezone(ZoneInfo(zone))
        half = "AM" if local.hour < 12 else "PM"
        return {"date": str(local.date()), "time": f"{local:%H:%M}", "half": half}

    def _session(self, row: Row) -> Row:
        session = self.sessions[row["session"]]
        return {name: session[name] for name in ("date", "half", "team", "setting")}

    def _athlete(self, key: str) -> Row:
        return {"athlete": self.squads[key]["name"]}

    def _reached(self, row: Row) -> str:
        team = self.squads[self.owners[row["guard"]]]["team"]
        return self._clock(row["reached_at"], self.zones[team])["date"]


def differences(export: Export, expected: Mapping[str, Any]) -> list[str]:
    """Return what an export does not hold as expected, a line each; none when all is right.

    Args:
        export: The export.
        expected: `counts` of tables, how many `distinct` values a column has, `rows` by what they
            `match` and what they then hold (`is`), and rows that are `absent`. A list is any of
            its values, null an empty cell.
    """
    wrong = []
    for table, wanted in expected["counts"].items():
        many = len(export.rows(table))
        if many not in (wanted if isinstance(wanted, list) else [wanted]):
            wrong.append(f"{table}: {many} rows, not {wanted}")
    for table, (column, wanted) in expected.get("distinct", {}).items():
        many = len({row[column] for row in export.rows(table)})
        if many != wanted:
            wrong.append(f"{table}: {many} different {column}, not {wanted}")
    for table, wanted_rows in expected["rows"].items():
        rows = export.rows(table)
        for wanted in wanted_rows:
            matching = [row for row in rows if _holds(row, wanted["match"])]
            if len(matching) != 1 or not _holds(matching[0], wanted["is"]):
                wrong.append(f"{table}: {wanted} but {matching}")
    for table, unwanted in expected.get("absent", {}).items():
        rows = export.rows(table)
        wrong += [
            f"{table}: {one} is there" for one in unwanted if any(_holds(r, one) for r in rows)
        ]
    return wrong


def _holds(row: Row, wanted: Mapping[str, Any]) -> bool:
    return all(_is_same(row[name], value) for name, value in wanted.items())


def _is_same(cell: str, wanted: object) -> bool:
    if isinstance(wanted, list):
        return any(_is_same(cell, one) for one in wanted)
    if isinstance(wanted, float):
        return bool(cell) and abs(float(cell) - wanted) <= 0.051
    return cell == ("" if wanted is None else str(wanted))
