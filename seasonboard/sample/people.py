"""Athletes and rosters: invented names, positions, comings and goings."""

import datetime as dt
from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.sample.clubs import DIGIT_KEYS, SEASONS, TWO_TEAMS, Clubs
from seasonboard.sample.draws import Bools, Draws, Ints, ranks_within, spans
from seasonboard.sample.names import SPECIAL, compose_names
from seasonboard.sample.rates import GROUPS, SPORTS
from seasonboard.sample.schedule import day_number

NEVER = 2**40

# Positions of each group, in the order of GROUPS, and how many of ten rostered play there.
_POSITIONS: dict[tuple[str, str], tuple[float, tuple[str, ...]]] = {
    ("soccer", "goalkeeper"): (1.1, ("goalkeeper",)),
    ("soccer", "defender"): (3.2, ("centre back", "left back", "right back")),
    ("soccer", "midfielder"): (
        3.2,
        ("holding midfielder", "attacking midfielder", "wide midfielder"),
    ),
    ("soccer", "forward"): (2.5, ("winger", "striker")),
    ("ice hockey", "goaltender"): (1.2, ("goaltender",)),
    ("ice hockey", "defender"): (3.2, ("left defender", "right defender")),
    ("ice hockey", "forward"): (5.6, ("left wing", "center", "right wing")),
    ("lacrosse", "goalkeeper"): (1.0, ("goalkeeper",)),
    ("lacrosse", "defender"): (2.8, ("close defender", "long-stick defender")),
    ("lacrosse", "midfielder"): (3.6, ("midfielder", "draw specialist")),
    ("lacrosse", "attacker"): (2.6, ("attacker",)),
    ("basketball", "backcourt"): (5.5, ("point guard", "shooting guard")),
    ("basketball", "frontcourt"): (4.5, ("small forward", "power forward", "center")),
    ("softball", "pitcher"): (2.5, ("pitcher",)),
    ("softball", "catcher"): (1.2, ("catcher",)),
    ("softball", "infielder"): (3.6, ("first base", "second base", "shortstop", "third base")),
    ("softball", "outfielder"): (2.7, ("left field", "center field", "right field")),
}  # fmt: skip
_CHANGE_OVER = day_number(dt.date(2026, 12, 7))


@dataclass(frozen=True, slots=True)
class People:
    """Athletes (by number) and roster rows (by squad); days are counted since 1970."""

    keys: pl.Series
    athlete_team: Ints
    athlete_group: Ints  # position in GROUPS
    row_squad: Ints
    row_athlete: Ints
    row_group: Ints
    row_group_known: Bools
    joined: Ints
    left: Ints
    row_first: Ints
    row_count: Ints


def make_people(clubs: Clubs, draws: Draws, *, unknown: float) -> People:
    """Athletes of every team and their roster rows for each season the team plays."""
    teams = len(clubs.teams)
    athlete_team = np.repeat(np.arange(teams, dtype=np.int64), clubs.headcount)
    count = len(athlete_team)
    group = _groups(clubs.team_sport[athlete_team], athlete_team, draws)
    first_athlete = np.cumsum(clubs.headcount) - clubs.headcount
    athlete, squad = spans(first_athlete[clubs.squad_team], clubs.headcount[clubs.squad_team])
    again = clubs.squad_season[squad] == 1
    again &= np.isin(clubs.squad_team[squad], clubs.squad_team[clubs.squad_season == 0])
    stays = ~again | draws.chance(len(squad), 0.9)
    athlete, squad = athlete[stays], squad[stays]
    rows = len(athlete)
    joined, left = _comings_and_goings(clubs.squad_season[squad], draws, rows)
    extra = _second_teams(clubs, first_athlete)
    leaving = np.isin(athlete, extra[:, 0])
    left[leaving], joined[leaving] = _CHANGE_OVER - 1, 0
    athlete = np.r_[athlete, extra[:, 0]]
    squad = np.r_[squad, extra[:, 1]]
    joined = np.r_[joined, np.full(len(extra), _CHANGE_OVER)]
    left = np.r_[left, np.full(len(extra), NEVER)]
    new_group = _groups(clubs.team_sport[clubs.squad_team[extra[:, 1]]], extra[:, 1], draws)
    row_group = np.r_[group[athlete[:rows]], new_group]
    order = np.lexsort((athlete, squad))
    sizes = np.bincount(squad, minlength=len(clubs.squad_team))
    return People(
        keys=_athlete_keys(clubs, athlete_team),
        athlete_team=athlete_team,
        athlete_group=group,
        row_squad=squad[order],
        row_athlete=athlete[order],
        row_group=row_group[order],
        row_group_known=~draws.chance(count, unknown)[athlete[order]],
        joined=joined[order],
        left=left[order],
        row_first=np.cumsum(sizes) - sizes,
        row_count=sizes,
    )


def _groups(sport: Ints, squad: Ints, draws: Draws) -> Ints:
    """Positions in GROUPS, shared out within each squad as its sport needs them."""
    place = ranks_within(squad, draws.uniform(len(squad)))
    sizes = np.bincount(squad, minlength=int(squad.max(initial=0)) + 1)[squad]
    share = (place + 0.5) / np.maximum(sizes, 1)
    result = np.zeros(len(sport), dtype=np.int64)
    for number, name in enumerate(SPORTS):
        members = [index for index, pair in enumerate(GROUPS) if pair[0] == name]
        steps = np.cumsum([_POSITIONS[GROUPS[index]][0] for index in members]) / 10.0
        here = sport == number
        found = np.minimum(np.searchsorted(steps, share[here]), len(members) - 1)
        result[here] = np.array(members, dtype=np.int64)[found]
    return result


def _comings_and_goings(season: Ints, draws: Draws, rows: int) -> tuple[Ints, Ints]:
    """First and last day on the roster: a few join late and a few leave early."""
    begins = np.where(
        season == 0, day_number(dt.date(2026, 8, 10)), day_number(dt.date(2026, 11, 2))
    )
    late = draws.chance(rows, 0.02)
    joined = np.where(late, begins + 14 + draws.below(rows, 30), 0)
    early = draws.chance(rows, 0.02) & ~late
    left = np.where(early, begins + 40 + draws.below(rows, 30), NEVER)
    return joined, left


def _second_teams(clubs: Clubs, first_athlete: Ints) -> Ints:
    """(athlete, squad) of those who play for a second team in the winter."""
    where = {name: number for number, name in enumerate(clubs.teams)}
    squad_of = {int(team): number for number, team in enumerate(clubs.squad_team)}
    keys = clubs.departments["department"].to_list()
    pairs = [
        (
            int(first_athlete[where[f"{key}-{fall}"]]) + 3 + number,
            squad_of[where[f"{key}-{winter}"]],
        )
        for key, pattern in zip(keys, clubs.pattern.tolist(), strict=True)
        for department, fall, winter, athletes in TWO_TEAMS
        if department == pattern
        for number in range(athletes)
    ]
    return np.array(pairs, dtype=np.int64).reshape(-1, 2)


def _athlete_keys(clubs: Clubs, athlete_team: Ints) -> pl.Series:
    """`LF-0042`, or digits only with leading zeros, numbered within the department."""
    department = clubs.team_department[athlete_team]
    number = pl.Series(ranks_within(department, np.arange(len(department)).astype(float)) + 1)
    digits = pl.Series(clubs.pattern[department] == DIGIT_KEYS)
    frame = pl.DataFrame(
        {
            "key": clubs.departments["department"].gather(department),
            "department": department + 1,
            "number": number.cast(pl.String).str.zfill(4),
            "digits": digits,
        }
    )
    plain = pl.concat_str("key", pl.lit("-"), "number")
    padded = pl.concat_str(pl.col("department").cast(pl.String).str.zfill(3), "number")
    return frame.select(athlete=pl.when("digits").then(padded).otherwise(plain))["athlete"]


def roster_frame(clubs: Clubs, people: People, draws: Draws) -> pl.DataFrame:
    """The roster table."""
    athletes = len(people.athlete_team)
    names = compose_names(clubs.women[people.athlete_team], draws)
    names = names.scatter(np.array(list(SPECIAL)), list(SPECIAL.values()))
    group, known = people.row_group, people.row_group_known
    sizes = np.array([len(_POSITIONS[pair][1]) for pair in GROUPS])
    first = np.cumsum(sizes) - sizes
    within = np.floor(draws.uniform(athletes)[people.row_athlete] * sizes[group]).astype(np.int64)
    positions = pl.Series([name for pair in GROUPS for name in _POSITIONS[pair][1]])
    pattern = clubs.pattern[clubs.team_department[clubs.squad_team[people.row_squad]]]
    frame = pl.DataFrame(
        {
            "athlete": people.keys.gather(people.row_athlete),
            "team": pl.Series(clubs.teams).gather(clubs.squad_team[people.row_squad]),
            "season": pl.Series(SEASONS).gather(clubs.squad_season[people.row_squad]),
            "name": names.gather(people.row_athlete),
            "jersey": _jerseys(people, draws),
            "position": positions.gather(first[group] + within),
            "position_group": pl.Series([pair[1] for pair in GROUPS]).gather(group),
            "joined_on": people.joined,
            "left_on": people.left,
            "known": known,
            "padded": pattern == DIGIT_KEYS,
        }
    )
    jersey = pl.col("jersey").cast(pl.String)
    return frame.with_columns(
        pl.when("padded").then(jersey.str.zfill(2)).otherwise(jersey).alias("jersey"),
        pl.when("known").then("position").alias("position"),
        pl.when("known").then("position_group").alias("position_group"),
        pl.when(pl.col("joined_on") > 0)
        .then("joined_on")
        .cast(pl.Int32)
        .cast(pl.Date)
        .alias("joined_on"),
        pl.when(pl.col("left_on") < NEVER)
        .then("left_on")
        .cast(pl.Int32)
        .cast(pl.Date)
        .alias("left_on"),
    ).drop("known", "padded")


def _jerseys(people: People, draws: Draws) -> pl.Series:
    """Numbers 1-99, each once in a squad; a few athletes have none yet."""
    squads = len(people.row_count)
    order = np.argsort(draws.uniform(squads * 99).reshape(squads, 99), axis=1, kind="stable") + 1
    place = np.arange(len(people.row_squad)) - people.row_first[people.row_squad]
    none = draws.chance(len(place), 0.02)
    numbers = order[people.row_squad, place]
    return pl.Series(numbers).set(pl.Series(none), None)
