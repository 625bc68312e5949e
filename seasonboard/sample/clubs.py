"""The invented departments and their teams."""

from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.errors import SeasonboardError
from seasonboard.sample.data_files import toml_file
from seasonboard.sample.draws import Ints
from seasonboard.sample.truth import SPORTS

SEASONS = ("2026 fall", "2026-27 winter")
MOST_DEPARTMENTS = 1200

_WORDS = toml_file("clubs")
_DEPARTMENTS = _WORDS["departments"]  # the three that others repeat
OPPONENTS = tuple(_WORDS["opponents"])
OFFSET_FORM = 1  # this one's instants carry their offset
DIGIT_KEYS = 2  # this one's athlete keys are digits with leading zeros
# (department, fall team, winter team, athletes): they change over when the fall is done.
TWO_TEAMS = ((0, "WSOC", "WBB", 2), (1, "MSOC", "MBB", 1), (2, "WSB", "WBB", 1))
ONLY_PRESENT_LISTED = (1, "MBB")  # this team's attendance lists only those who took part


@dataclass(frozen=True, slots=True)
class Clubs:
    """Departments and teams as columns; `squad_*` has one row for each team in each season."""

    departments: pl.DataFrame
    pattern: Ints  # of each department: which of the three it repeats
    teams: list[str]
    codes: list[str]
    team_department: Ints
    team_sport: Ints
    women: Ints
    headcount: Ints
    squad_team: Ints
    squad_season: Ints

    def teams_frame(self) -> pl.DataFrame:
        """The teams table."""
        keys = self.departments["department"]
        columns = {
            "team": self.teams,
            "department": keys.gather(self.team_department),
            "sport": pl.Series(SPORTS).gather(self.team_sport),
            "sex": pl.Series(["men", "women"]).gather(self.women),
        }
        return pl.DataFrame(columns)


def make_clubs(size: float) -> Clubs:
    """Three departments at size 1, in proportion otherwise, at least one.

    Raises:
        SeasonboardError: `size` is not above 0, or gives more than 1,200 departments.
    """
    most = MOST_DEPARTMENTS / 3
    if not 0 < size <= most:
        raise SeasonboardError(
            f"A sample season of size {size:g} cannot be made.",
            f"Give a size above 0 and at most {most:g}; 1 is three departments.",
        )
    count = max(1, round(3 * size))
    rows = [(number, team) for number in range(count) for team in _DEPARTMENTS[number % 3]["teams"]]
    departments = _departments(count)
    keys = departments["department"].to_list()
    squads = sorted(
        (season, team) for team, (_, row) in enumerate(rows) for season in row["seasons"]
    )
    return Clubs(
        departments=departments,
        pattern=np.arange(count, dtype=np.int64) % 3,
        teams=[f"{keys[number]}-{row['code']}" for number, row in rows],
        codes=[row["code"] for _, row in rows],
        team_department=np.array([number for number, _ in rows], dtype=np.int64),
        team_sport=np.array([SPORTS.index(row["sport"]) for _, row in rows], dtype=np.int64),
        women=np.array([row["sex"] == "women" for _, row in rows], dtype=np.int64),
        headcount=np.array([row["athletes"] for _, row in rows], dtype=np.int64),
        squad_team=np.array([team for _, team in squads], dtype=np.int64),
        squad_season=np.array([season for season, _ in squads], dtype=np.int64),
    )


def _departments(count: int) -> pl.DataFrame:
    """Later departments take after the first three under other invented names."""
    heads, tails = _WORDS["heads"], _WORDS["tails"]
    rows = []
    for number in range(count):
        like = _DEPARTMENTS[number % 3]
        name, key, prints = like["name"], like["key"], like.get("prints_per_week")
        if number >= len(_DEPARTMENTS):
            turn, head = divmod(number - len(_DEPARTMENTS), len(heads))
            again, tail = divmod(turn, len(tails))
            name = f"{heads[head]} {tails[tail]}" + (f" {again + 1}" if again else "")
            key = f"D{number + 1:03d}"
        plan = "onsite printer" if prints is None else "weekly allotment"
        rows.append((key, name, plan, prints, like["time_zone"], like["since"]))
    names = ("department", "name", "plan", "prints_per_week", "time_zone", "since")
    types: dict[str, type[pl.DataType]] = dict.fromkeys(names, pl.String)
    types |= {"prints_per_week": pl.Int64, "since": pl.Date}
    return pl.DataFrame(rows, types, orient="row")
