"""A department and a team made from one answer, where a store knows none yet."""

import re
from dataclasses import replace

import polars as pl

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.table_source import TableSource
from seasonboard.store.intake.title_words import SHORT_SPORTS
from seasonboard.store.intake.values import time_zones
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.terms import PLANS, Sex

EXAMPLE = "Hollow Creek College, women, soccer, America/New_York"
_SMALL_WORDS = frozenset({"of", "the", "and", "at", "college", "university", "school"})
_LETTERS = {Sex.WOMEN: "W", Sex.MEN: "M", Sex.MIXED: "X"}
_COLUMNS = {
    "departments": ("department", "name", "plan", "time_zone"),
    "teams": ("team", "department", "sport", "sex"),
}
_FEWEST_PARTS = 4


def new_team(
    options: LoadOptions, synonyms: Synonyms, findings: Findings
) -> tuple[LoadOptions, list[TableSource]]:
    """Return the options with the key of a team that an answer describes, and the rows it makes.

    The answer is `team=DEPARTMENT, women, SPORT, TIME ZONE`, in any order behind the department,
    perhaps with the plan of its prints; any other answer is left as it is.

    Args:
        options: The answers given.
        synonyms: Knows how women, men and plans are written.
        findings: Learns the labels of the rows.
    """
    given = options.constants.get("team", "")
    parts = [part.strip() for part in given.split(",") if part.strip()]
    if len(parts) < _FEWEST_PARTS:
        return options, []
    name, *rest = parts
    zone = next((part for part in rest if part in time_zones()), None)
    sexes = meanings(rest, "sex", tuple(Sex), synonyms)
    plans = meanings(rest, "plan", PLANS, synonyms)
    sports = [part for part in rest if part != zone and part not in sexes and part not in plans]
    if zone is None or len(sexes) != 1 or len(sports) != 1:
        return options, []
    (sex,) = sexes.values()
    department = "".join(word[0] for word in folded(name).split() if word not in _SMALL_WORDS)
    department = department.upper() or "D"
    team = f"{department}-{_LETTERS[Sex(sex)]}{_short(sports[0])}"
    plan = next(iter(plans.values()), None)
    rows = {
        "departments": (department, name, plan, zone),
        "teams": (team, department, sports[0].casefold(), sex),
    }
    constants = {**options.constants, "team": team}
    made = [_source(table, cells, findings) for table, cells in rows.items()]
    return replace(options, constants=constants), made


def _short(sport: str) -> str:
    shorts = {long: short for short, long in reversed(SHORT_SPORTS.items())}
    letters = re.sub(r"[^a-z]", "", sport.casefold())[:3]
    return shorts.get(folded(sport), letters).upper()


def _source(table: str, cells: tuple[str | None, ...], findings: Findings) -> TableSource:
    label = f"answer › {table}"
    findings.labels.append(label)
    columns = _COLUMNS[table]
    row = dict(zip(columns, cells, strict=True))
    body = pl.DataFrame([row], schema=dict.fromkeys(columns, pl.String))
    numbered = body.with_row_index("file_row", 1).with_columns(pl.col("file_row").cast(pl.UInt32))
    return TableSource(table, label, "", Grid(columns, columns, 1, numbered))
