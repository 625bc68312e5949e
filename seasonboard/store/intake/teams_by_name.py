"""Teams and departments by the names people use; one of each made from an answer."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

import polars as pl

from seasonboard.file_limits import MOST_WEIGHED
from seasonboard.load_options import OF_SHEET, LoadOptions
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.sources import OpenSheet, TableSource
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import distinct, folded
from seasonboard.store.intake.title_words import SHORT_SPORTS, team_said, teams_called
from seasonboard.store.intake.values import time_zones
from seasonboard.store.intake.word_spellings import meanings, tell_meanings
from seasonboard.stored_column import StoredTable
from seasonboard.terms import PLANS, Sex

EXAMPLE = "Hollow Creek College, women, soccer, America/New_York"
_BRIEF = "Hollow Creek College, America/New_York"
TEAMS = ("team", "athlete_team")
"""Columns that a new team may be described for."""
_SMALL_WORDS = frozenset({"of", "the", "and", "at", "college", "university", "school"})
_LETTERS = {Sex.WOMEN: "W", Sex.MEN: "M", Sex.MIXED: "X"}


def known_teams(season: SeasonRows) -> pl.DataFrame:
    """Return `team`, `department`, `department_name`, `sport` and `sex` of every team."""
    names = season.now("departments").select("department", department_name="name")
    teams = season.now("teams").drop_nulls("team").select("team", "department", "sport", "sex")
    return teams.join(names, on="department", how="left", maintain_order="left")


def with_teams(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Turn names of teams and departments into their keys, each with a note.

    The tables of teams and of departments keep their own keys.
    """
    for own, names, meant_by in (
        ("teams", ("team", "athlete_team", "session_team"), _meant_teams),
        ("departments", ("department", "athlete_department"), _meant_departments),
    ):
        for name in names:
            if name in text.columns and table.name != own:
                meant = meant_by(distinct(text[name]), context)
                tell_meanings(text, name, meant, context.findings)
                text = text.with_columns(pl.col(name).replace(meant)) if meant else text
    return text


def _meant_teams(cells: Sequence[str], context: LoadContext) -> dict[str, str]:
    teams = known_teams(context.season)
    known_keys = set(teams["team"])
    unknown = [one for one in cells if one not in known_keys]
    sought = unknown[: MOST_WEIGHED // max(1, teams.height)]
    fitting = {one: teams_called([one], teams, context.synonyms) for one in sought}
    return {one: keys[0] for one, keys in fitting.items() if len(keys) == 1}


def _meant_departments(cells: Sequence[str], context: LoadContext) -> dict[str, str]:
    named = context.season.now("departments").drop_nulls("department")
    rows = named.select("department", "name").iter_rows()
    names = {key: folded(name or "") for key, name in rows}
    meant = {}
    for one in cells:
        words = folded(one)
        fitting = [key for key, name in names.items() if words in {folded(key), name}]
        fitting = fitting or [key for key, name in names.items() if f" {words} " in f" {name} "]
        if one not in names and len(fitting) == 1:
            meant[one] = fitting[0]
    return meant


def team_question(choices: Sequence[str], texts: Sequence[str], synonyms: Synonyms) -> str:
    """Return the question which team a sheet is of; of no known one, how to make one."""
    said = "no title, name or roster says which team this is. Say it with --value team="
    if choices:
        return f"{said}TEAM ({', '.join(choices)})."
    sex, sport = team_said(texts, synonyms)
    if sex and sport:
        said = f"the title says {sport}, {sex}, but no such team is known. Make it with --value "
        return f"{said}team='{_BRIEF}': the department and the time zone."
    return f"{said}'{EXAMPLE}': the department, who plays, the sport and the time zone."


def new_team(
    options: LoadOptions, sheets: Sequence[OpenSheet], synonyms: Synonyms, findings: Findings
) -> tuple[LoadOptions, list[TableSource]]:
    """Return the options with the keys of teams that answers describe, and the rows they make.

    An answer is `team=DEPARTMENT, women, SPORT, TIME ZONE`, in any order behind the department,
    perhaps with the plan of its prints; any other answer is left as it is. Who plays and the sport
    may be left to the titles of each sheet; where those of several differ, each has its own team.

    Args:
        options: The answers given.
        sheets: The sheets of the load.
        synonyms: Knows how women, men and plans are written.
        findings: Learns the labels of the rows.
    """
    constants = dict(options.constants)
    said = {sheet.name: team_said(sheet.titles, synonyms) for sheet in sheets}
    are_several = len({one for one in said.values() if all(one)}) > 1
    made: dict[_Row, TableSource] = {}

    def key_of(one: _Described) -> str:
        for row in one.rows:
            made[row] = made.get(row) or _source(row[0], dict(row[1]), findings)
        return one.team

    for name, given in options.constants.items():
        sheet, _, column = name.rpartition(OF_SHEET)
        one = _described(given, synonyms) if column in TEAMS else None
        if one is None:
            continue
        del constants[name]
        if one.is_whole:
            constants[name] = key_of(one)
        for other, (sex, sport) in said.items():
            own = replace(one, sex=sex, sport=sport)
            key = f"{other}{OF_SHEET}{column}"
            is_asked = sheet == other or (not sheet and key not in constants)
            if is_asked and own.is_whole and (not one.is_whole or (are_several and not sheet)):
                constants[key] = key_of(own)
    used = {value for name, value in constants.items() if name.rpartition(OF_SHEET)[2] in TEAMS}
    rows = [one for row, one in made.items() if row[0] != "teams" or row[1][0][1] in used]
    return replace(options, constants=constants), rows


_Row = tuple[str, tuple[tuple[str, str | None], ...]]
"""A table, and the cells of one of its rows."""


@dataclass(frozen=True, slots=True)
class _Described:
    """A team as an answer describes it; `sex` and `sport` may be empty."""

    name: str
    zone: str
    plan: str | None
    sex: str
    sport: str

    @property
    def is_whole(self) -> bool:
        return bool(self.sex and self.sport)

    @property
    def department(self) -> str:
        words = (word for word in folded(self.name).split() if word not in _SMALL_WORDS)
        return "".join(word[0] for word in words).upper() or "D"

    @property
    def team(self) -> str:
        return f"{self.department}-{_LETTERS[Sex(self.sex)]}{_short(self.sport)}"

    @property
    def rows(self) -> list["_Row"]:
        rows: dict[str, dict[str, str | None]] = {
            "departments": {
                "department": self.department, "name": self.name, "plan": self.plan,
                "time_zone": self.zone,
            },
            "teams": {
                "team": self.team, "department": self.department,
                "sport": self.sport.casefold(), "sex": self.sex,
            },
        }  # fmt: skip
        return [(table, tuple(row.items())) for table, row in rows.items()]


def _described(given: str, synonyms: Synonyms) -> _Described | None:
    """Return what an answer describes; None where it is no description of a team."""
    name, *rest = [part.strip() for part in given.split(",") if part.strip()] or [""]
    zone = next((part for part in rest if part in time_zones()), None)
    sexes = meanings(rest, "sex", tuple(Sex), synonyms)
    plans = meanings(rest, "plan", PLANS, synonyms)
    sports = [part for part in rest if part != zone and part not in sexes and part not in plans]
    if zone is None or len(sexes) > 1 or len(sports) > 1 or len(sexes) != len(sports):
        return None
    sex, sport = next(iter(sexes.values()), ""), next(iter(sports), "")
    return _Described(name, zone, next(iter(plans.values()), None), sex, sport)


def _short(sport: str) -> str:
    shorts = {long: short for short, long in reversed(SHORT_SPORTS.items())}
    letters = re.sub(r"[^a-z]", "", sport.casefold())[:3]
    return shorts.get(folded(sport), letters).upper()


def _source(table: str, row: dict[str, str | None], findings: Findings) -> TableSource:
    label = f"answer › {table}"
    label = label if label not in findings.labels else f"{label} {next(iter(row.values()))}"
    findings.labels.append(label)
    body = pl.DataFrame([row], schema=dict.fromkeys(row, pl.String)).with_row_index("file_row", 1)
    return TableSource(table, label, "", Grid(tuple(row), tuple(row), 1, body))
