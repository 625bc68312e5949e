"""Teams and departments by the names people use; one of each made from an answer."""

import re
from collections.abc import Sequence
from dataclasses import replace

import polars as pl

from seasonboard.file_limits import MOST_WEIGHED
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.sources import TableSource
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import distinct, folded
from seasonboard.store.intake.title_words import SHORT_SPORTS, teams_called
from seasonboard.store.intake.values import time_zones
from seasonboard.store.intake.word_spellings import meanings, tell_meanings
from seasonboard.stored_column import StoredTable
from seasonboard.terms import PLANS, Sex

EXAMPLE = "Hollow Creek College, women, soccer, America/New_York"
_SMALL_WORDS = frozenset({"of", "the", "and", "at", "college", "university", "school"})
_LETTERS = {Sex.WOMEN: "W", Sex.MEN: "M", Sex.MIXED: "X"}


def known_teams(season: SeasonRows) -> pl.DataFrame:
    """Return `team`, `department`, `department_name`, `sport` and `sex` of every team."""
    names = season.now("departments").select("department", department_name="name")
    teams = season.now("teams").select("team", "department", "sport", "sex")
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
    unknown = [one for one in cells if one not in set(teams["team"])]
    sought = unknown[: MOST_WEIGHED // max(1, teams.height)]
    fitting = {one: teams_called([one], teams, context.synonyms) for one in sought}
    return {one: keys[0] for one, keys in fitting.items() if len(keys) == 1}


def _meant_departments(cells: Sequence[str], context: LoadContext) -> dict[str, str]:
    rows = context.season.now("departments").select("department", "name").iter_rows()
    names = {key: folded(name or "") for key, name in rows}
    meant = {}
    for one in cells:
        words = folded(one)
        fitting = [key for key, name in names.items() if words in {folded(key), name}]
        fitting = fitting or [key for key, name in names.items() if f" {words} " in f" {name} "]
        if one not in names and len(fitting) == 1:
            meant[one] = fitting[0]
    return meant


def team_question(choices: Sequence[str]) -> str:
    """Return the question which team a sheet is of; of no known one, how to make one."""
    said = "no title, name or roster says which team this is. Say it with --value team="
    if choices:
        return f"{said}TEAM ({', '.join(choices)})."
    return f"{said}'{EXAMPLE}': the department, who plays, the sport and the time zone."


def new_team(
    options: LoadOptions, synonyms: Synonyms, findings: Findings
) -> tuple[LoadOptions, list[TableSource]]:
    """Return the options with the key of a team that an answer describes, and the rows it makes.

    The answer is `team=DEPARTMENT, women, SPORT, TIME ZONE`, in any order behind the department,
    perhaps with the plan of its prints; any other answer is left as it is.
    """
    answer = options.constants.get("team", "")
    name, *rest = [part.strip() for part in answer.split(",") if part.strip()] or [""]
    sexes = meanings(rest, "sex", tuple(Sex), synonyms)
    plans = meanings(rest, "plan", PLANS, synonyms)
    zones = [part for part in rest if part in time_zones()]
    sports = [part for part in rest if part not in {*zones, *sexes, *plans}]
    if not zones or len(sexes) != 1 or len(sports) != 1:
        return options, []
    (sex,), (sport,) = sexes.values(), sports
    initials = "".join(word[0] for word in folded(name).split() if word not in _SMALL_WORDS)
    department = initials.upper() or "D"
    team = f"{department}-{_LETTERS[Sex(sex)]}{_short(sport)}"
    plan = next(iter(plans.values()), None)
    rows: dict[str, dict[str, str | None]] = {
        "departments": {
            "department": department, "name": name, "plan": plan, "time_zone": zones[0],
        },
        "teams": {"team": team, "department": department, "sport": sport.casefold(), "sex": sex},
    }  # fmt: skip
    made = [_source(table, row, findings) for table, row in rows.items()]
    return replace(options, constants={**options.constants, "team": team}), made


def _short(sport: str) -> str:
    shorts = {long: short for short, long in reversed(SHORT_SPORTS.items())}
    letters = re.sub(r"[^a-z]", "", sport.casefold())[:3]
    return shorts.get(folded(sport), letters).upper()


def _source(table: str, row: dict[str, str | None], findings: Findings) -> TableSource:
    label = f"answer › {table}"
    findings.labels.append(label)
    body = pl.DataFrame([row], schema=dict.fromkeys(row, pl.String)).with_row_index("file_row", 1)
    return TableSource(table, label, "", Grid(tuple(row), tuple(row), 1, body))
