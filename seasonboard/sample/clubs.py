"""The invented departments and their teams."""

from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.errors import SeasonboardError
from seasonboard.sample.draws import Ints
from seasonboard.sample.rates import SPORTS

FALL, WINTER = "2026 fall", "2026-27 winter"
SEASONS = (FALL, WINTER)
MOST_DEPARTMENTS = 1200

# (name, key, time zone, prints a week, since) of the three departments that others repeat.
_DEPARTMENTS = (
    ("Lanternfield College", "LF", "America/New_York", None, "2025-07-01"),
    ("Quillmere State", "QM", "America/Chicago", 10, "2025-09-15"),
    ("Saltwhistle University", "SW", "America/Denver", 9, "2026-07-01"),
)
OFFSET_FORM = 1  # this one's instants carry their offset
DIGIT_KEYS = 2  # this one's athlete keys are digits with leading zeros
_HEADS = (
    "Amberwick", "Bramblecote", "Cindermarsh", "Dovetailor", "Emberhollow", "Fernwhistle",
    "Gullwick", "Hazelmoth", "Inkbarrow", "Jasperfen", "Kettlemoor", "Larkspindle",
    "Mistlecove", "Nettlequay", "Otterhithe", "Pebblegate", "Quincewold", "Rooksallow",
    "Sparrowmead", "Thimbleford", "Umberlea", "Velvetmoor", "Willowspar", "Yarrowbeck",
)  # fmt: skip
_TAILS = ("College", "State", "University", "Institute", "Tech")
OPPONENTS = (
    "Brindlemoor", "Castlewhin", "Dapplegarth", "Eiderholm", "Foxglovedale", "Grindlewater",
    "Harrowmint", "Ivorythwaite", "Juniperscar", "Kestrelby", "Loomsbury Vale", "Marrowstone",
    "Nimblewick", "Oxbowhurst", "Plumtreely", "Quaverstock", "Rushlightly", "Silverthistle",
)  # fmt: skip

_FALL_ONLY, _WINTER_ONLY, _BOTH = (0,), (1,), (0, 1)
# (code, sport, sex, seasons, athletes) of each team of the three departments.
_TEAMS = (
    (
        ("WSOC", "soccer", "women", _FALL_ONLY, 28),
        ("MSOC", "soccer", "men", _FALL_ONLY, 28),
        ("WLAX", "lacrosse", "women", _FALL_ONLY, 28),
        ("WSB", "softball", "women", _FALL_ONLY, 20),
        ("WIH", "ice hockey", "women", _WINTER_ONLY, 24),
        ("WBB", "basketball", "women", _WINTER_ONLY, 14),
    ),
    (
        ("WSOC", "soccer", "women", _FALL_ONLY, 27),
        ("MSOC", "soccer", "men", _FALL_ONLY, 28),
        ("MLAX", "lacrosse", "men", _BOTH, 32),
        ("MIH", "ice hockey", "men", _WINTER_ONLY, 26),
        ("MBB", "basketball", "men", _WINTER_ONLY, 15),
    ),
    (
        ("WSOC", "soccer", "women", _FALL_ONLY, 27),
        ("MSOC", "soccer", "men", _FALL_ONLY, 27),
        ("WSB", "softball", "women", _FALL_ONLY, 20),
        ("WLAX", "lacrosse", "women", _WINTER_ONLY, 28),
        ("MIH", "ice hockey", "men", _WINTER_ONLY, 25),
        ("WBB", "basketball", "women", _WINTER_ONLY, 15),
    ),
)
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
        return pl.DataFrame(
            {
                "team": self.teams,
                "department": keys.gather(self.team_department),
                "sport": pl.Series(SPORTS).gather(self.team_sport),
                "sex": pl.Series(["men", "women"]).gather(self.women),
            }
        )


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
    rows = [
        (number, code, SPORTS.index(sport), int(sex == "women"), seasons, athletes)
        for number in range(count)
        for code, sport, sex, seasons, athletes in _TEAMS[number % 3]
    ]
    departments = _departments(count)
    keys = departments["department"].to_list()
    squads = [(team, season) for team, row in enumerate(rows) for season in row[4]]
    squads.sort(key=lambda squad: (squad[1], squad[0]))
    return Clubs(
        departments=departments,
        pattern=np.arange(count, dtype=np.int64) % 3,
        teams=[f"{keys[row[0]]}-{row[1]}" for row in rows],
        codes=[row[1] for row in rows],
        team_department=np.array([row[0] for row in rows], dtype=np.int64),
        team_sport=np.array([row[2] for row in rows], dtype=np.int64),
        women=np.array([row[3] for row in rows], dtype=np.int64),
        headcount=np.array([row[5] for row in rows], dtype=np.int64),
        squad_team=np.array([squad[0] for squad in squads], dtype=np.int64),
        squad_season=np.array([squad[1] for squad in squads], dtype=np.int64),
    )


def _departments(count: int) -> pl.DataFrame:
    """Later departments take after the first three under other invented names."""
    rows = []
    for number in range(count):
        name, key, zone, prints, since = _DEPARTMENTS[number % 3]
        if number >= len(_DEPARTMENTS):
            turn, head = divmod(number - len(_DEPARTMENTS), len(_HEADS))
            again, tail = divmod(turn, len(_TAILS))
            name = f"{_HEADS[head]} {_TAILS[tail]}" + (f" {again + 1}" if again else "")
            key = f"D{number + 1:03d}"
        plan = "onsite printer" if prints is None else "weekly allotment"
        rows.append((key, name, plan, prints, zone, since))
    schema = {
        "department": pl.String,
        "name": pl.String,
        "plan": pl.String,
        "prints_per_week": pl.Int64,
        "time_zone": pl.String,
        "since": pl.String,
    }
    return pl.DataFrame(rows, schema=schema, orient="row").with_columns(
        pl.col("since").str.to_date()
    )
