"""Athletes and rosters: invented names, positions, comings and goings."""

import datetime as dt
from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.sample.clubs import DIGIT_KEYS, SEASONS, TWO_TEAMS, Clubs
from seasonboard.sample.data_files import toml_file
from seasonboard.sample.draws import Bools, Draws, Ints, ranks_within, spans
from seasonboard.sample.schedule import as_date, day_number
from seasonboard.sample.truth import GROUPS, SPORTS, truth

NEVER = 2**40

_WORDS = toml_file("people")
_GIVEN = (_WORDS["given_men"], _WORDS["given_women"])
_FAMILIES = pl.Series(
    [head + tail for heads, tails in _WORDS["families"] for head in heads for tail in tails]
)
# Of each group: positions, and how many of ten rostered play there.
_POSITIONS = [_WORDS["positions"][sport][group] for sport, group in GROUPS]
_CHANGE_OVER = day_number(dt.date(2026, 12, 7))
_FIRST_DAYS = (dt.date(2026, 8, 10), dt.date(2026, 11, 2))  # of the fall, of the winter


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


def make_people(clubs: Clubs, draws: Draws) -> People:
    """Athletes of every team and their roster rows for each season the team plays."""
    teams = len(clubs.teams)
    athlete_team = np.repeat(np.arange(teams, dtype=np.int64), clubs.headcount)
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
    unknown = draws.chance(len(athlete_team), truth().position_missing_share)
    sizes = np.bincount(squad, minlength=len(clubs.squad_team))
    return People(
        keys=_athlete_keys(clubs, athlete_team),
        athlete_team=athlete_team,
        athlete_group=group,
        row_squad=squad[order],
        row_athlete=athlete[order],
        row_group=row_group[order],
        row_group_known=~unknown[athlete[order]],
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
        steps = np.cumsum([_POSITIONS[index]["of_ten"] for index in members]) / 10.0
        here = sport == number
        chosen = np.minimum(np.searchsorted(steps, share[here]), len(members) - 1)
        result[here] = np.array(members, dtype=np.int64)[chosen]
    return result


def _comings_and_goings(season: Ints, draws: Draws, rows: int) -> tuple[Ints, Ints]:
    """First and last day on the roster: a few join late and a few leave early."""
    begins = np.where(season == 0, *map(day_number, _FIRST_DAYS))
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
        (first_athlete[where[f"{key}-{fall}"]] + 3 + number, squad_of[where[f"{key}-{winter}"]])
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
    columns = {
        "key": clubs.departments["department"].gather(department),
        "department": department + 1,
        "number": number.cast(pl.String).str.zfill(4),
        "digits": clubs.pattern[department] == DIGIT_KEYS,
    }
    plain = pl.concat_str("key", pl.lit("-"), "number")
    padded = pl.concat_str(pl.col("department").cast(pl.String).str.zfill(3), "number")
    athlete = pl.when("digits").then(padded).otherwise(plain)
    return pl.DataFrame(columns).select(athlete=athlete)["athlete"]


def roster_frame(clubs: Clubs, people: People, draws: Draws) -> pl.DataFrame:
    """The roster table."""
    names = _names(clubs.women[people.athlete_team], draws)
    names = names.scatter(_WORDS["special_at"], _WORDS["special"])
    group, known = people.row_group, people.row_group_known
    sizes = np.array([len(one["names"]) for one in _POSITIONS])
    first = np.cumsum(sizes) - sizes
    drawn = draws.uniform(len(people.athlete_team))[people.row_athlete]
    within = np.floor(drawn * sizes[group]).astype(np.int64)
    positions = pl.Series([name for one in _POSITIONS for name in one["names"]])
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
        pl.when("known").then(pl.col("position", "position_group")),
        jersey=pl.when("padded").then(jersey.str.zfill(2)).otherwise(jersey),
        joined_on=as_date(pl.when(pl.col("joined_on") > 0).then("joined_on")),
        left_on=as_date(pl.when(pl.col("left_on") < NEVER).then("left_on")),
    ).drop("known", "padded")


def _names(women: Ints, draws: Draws) -> pl.Series:
    """One name for each athlete; `women` is 1 or 0."""
    count = len(women)
    men = len(_GIVEN[0])
    given = pl.Series(_GIVEN[0] + _GIVEN[1]).gather(draws.below(count, men) + women * men)
    family = _FAMILIES.gather(draws.below(count, len(_FAMILIES)))
    second = _FAMILIES.gather(draws.below(count, len(_FAMILIES)))
    double = draws.chance(count, 0.04)
    frame = pl.DataFrame({"given": given, "family": family, "second": second, "double": double})
    both = pl.concat_str("family", pl.lit("-"), "second")
    family_name = pl.when("double").then(both).otherwise("family")
    return frame.select(name=pl.concat_str("given", pl.lit(" "), family_name))["name"]


def _jerseys(people: People, draws: Draws) -> pl.Series:
    """Numbers 1-99, each once in a squad; a few athletes have none yet."""
    squads = len(people.row_count)
    order = np.argsort(draws.uniform(squads * 99).reshape(squads, 99), axis=1, kind="stable") + 1
    place = np.arange(len(people.row_squad)) - people.row_first[people.row_squad]
    none = draws.chance(len(place), 0.02)
    numbers = order[people.row_squad, place]
    return pl.Series(numbers).set(pl.Series(none), None)
