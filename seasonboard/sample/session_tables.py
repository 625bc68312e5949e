"""The sessions, attendance and decisions tables."""

import numpy as np
import polars as pl

from seasonboard.sample.clubs import OPPONENTS, SEASONS, Clubs
from seasonboard.sample.data_files import csv_file
from seasonboard.sample.draws import Draws, Ints
from seasonboard.sample.exposure import PARTS, REASONS, Attendance, minutes_and_plays
from seasonboard.sample.people import People
from seasonboard.sample.schedule import PARTS as SEASON_PARTS
from seasonboard.sample.schedule import Sessions, instants, numbered
from seasonboard.sample.wear import COMPLETE


def sessions_frame(sessions: Sessions, clubs: Clubs, complete: Ints) -> pl.DataFrame:
    """The sessions table."""
    team = clubs.squad_team[sessions.squad]
    season = clubs.squad_season[sessions.squad]
    pattern = clubs.pattern[clubs.team_department[team]]
    frame = pl.DataFrame(
        {
            "team": pl.Series(clubs.teams).gather(team),
            "season": pl.Series(SEASONS).gather(season),
            "letter": pl.Series(["F", "W"]).gather(season),
            "number": pl.Series(sessions.number).cast(pl.String).str.zfill(3),
            "starts_at": instants(sessions.starts, pattern),
            "game": sessions.game,
            "season_part": pl.Series(SEASON_PARTS).gather(sessions.part),
            "opponent": pl.Series(OPPONENTS).gather(sessions.opponent),
            "place": pl.Series(["vs ", "at "]).gather(sessions.away.astype(int)),
            "wear_complete": pl.Series(COMPLETE).gather(complete),
            "which": pl.Series(["", ", first game", ", second game"]).gather(sessions.header),
        }
    )
    return frame.select(
        pl.concat_str("team", pl.lit("-"), "letter", "number").alias("session"),
        "team",
        "season",
        "starts_at",
        pl.when("game").then(pl.lit("game")).otherwise(pl.lit("practice")).alias("setting"),
        "season_part",
        pl.when("game").then(pl.concat_str("place", "opponent", "which")).alias("label"),
        "wear_complete",
    )


def attendance_frame(
    attendance: Attendance, keys: pl.Series, people: People, draws: Draws
) -> pl.DataFrame:
    """The attendance table, one row for each attendance row."""
    minutes, plays = minutes_and_plays(attendance, draws)
    reasons = pl.Series([*REASONS, None], dtype=pl.String)
    frame = pl.DataFrame(
        {
            "session": keys.gather(attendance.session),
            "athlete": people.keys.gather(attendance.athlete),
            "part": pl.Series(PARTS).gather(attendance.part),
            "reason": reasons.gather(np.where(attendance.reason < 0, 5, attendance.reason)),
            "minutes": minutes,
            "plays": plays,
        }
    )
    return frame.with_columns(
        pl.when(pl.col(name) >= 0).then(name).alias(name) for name in ("minutes", "plays")
    )


def decisions_frame(clubs: Clubs) -> pl.DataFrame:
    """The decisions table; those of departments that are not there are left out."""
    keys = clubs.departments["department"]
    number = pl.col("department")
    rows = csv_file("decisions").filter(number.is_null() | (number < len(keys)))
    return rows.select(
        numbered("D", 2).alias("decision"),
        "decided_on",
        keys.gather(rows["department"]),
        pl.col("text", "due_on", "done_on"),
    )
