"""Teams and departments by the names people use, where a key is missing."""

from collections.abc import Mapping

import polars as pl

from seasonboard.file_limits import MOST_WEIGHED
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.title_words import teams_called
from seasonboard.store.intake.word_spellings import tell_meanings
from seasonboard.stored_column import StoredTable

_TEAM_COLUMNS = ("team", "athlete_team", "session_team")
_DEPARTMENT_COLUMNS = ("department", "athlete_department")


def known_teams(season: SeasonRows) -> pl.DataFrame:
    """Return `team`, `department`, `department_name`, `sport` and `sex` of every team."""
    names = season.now("departments").select("department", department_name="name")
    teams = season.now("teams").select("team", "department", "sport", "sex")
    return teams.join(names, on="department", how="left", maintain_order="left")


def with_teams(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Turn names of teams and departments into their keys, each with a note.

    Args:
        table: The table; the tables of teams and departments themselves keep their keys.
        text: Its rows as text.
        context: The load, whose findings take the notes.
    """
    for names, own, meant in (
        (_TEAM_COLUMNS, "teams", _meant_teams),
        (_DEPARTMENT_COLUMNS, "departments", _meant_departments),
    ):
        for name in names:
            if name in text.columns and table.name != own:
                text = _translated(text, name, meant(text[name], context), context)
    return text


def _translated(
    text: pl.DataFrame, name: str, meant: Mapping[str, str], context: LoadContext
) -> pl.DataFrame:
    if not meant:
        return text
    tell_meanings(text, name, meant, context.findings)
    return text.with_columns(pl.col(name).replace(dict(meant)))


def _meant_teams(cells: pl.Series, context: LoadContext) -> dict[str, str]:
    teams = known_teams(context.season)
    keys = set(teams["team"])
    meant = {}
    unknown = [one for one in cells.drop_nulls().unique(maintain_order=True) if one not in keys]
    for one in unknown[: MOST_WEIGHED // max(1, teams.height)]:
        fitting = teams_called([one], teams, context.synonyms)
        if len(fitting) == 1:
            meant[one] = fitting[0]
    return meant


def _meant_departments(cells: pl.Series, context: LoadContext) -> dict[str, str]:
    rows = context.season.now("departments").select("department", "name").iter_rows()
    names = {key: folded(name or "") for key, name in rows}
    meant = {}
    for one in cells.drop_nulls().unique().to_list():
        words = folded(one)
        fitting = [key for key, name in names.items() if words in {folded(key), name}]
        fitting = fitting or [key for key, name in names.items() if f" {words} " in f" {name} "]
        if one not in names and len(fitting) == 1:
            meant[one] = fitting[0]
    return meant
