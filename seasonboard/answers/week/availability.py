"""Availability over sessions, as the Roster answer counts it."""

import polars as pl

from seasonboard.answers import words


def by_team(sessions: pl.DataFrame) -> pl.DataFrame:
    """Return games and practices of every team, with the share of athletes available."""
    is_game, is_practice = pl.col("setting") == "game", pl.col("setting") != "game"
    available, recorded = pl.col("available"), pl.col("recorded")
    by_team = sessions.group_by("team").agg(
        games=is_game.sum(),
        practices=is_practice.sum(),
        unrecorded=(pl.col("exposures") + pl.col("out") == 0).sum(),
        game_share=available.filter(is_game).sum() / recorded.filter(is_game).sum(),
        practice_share=available.filter(is_practice).sum() / recorded.filter(is_practice).sum(),
    )
    return by_team.with_columns(pl.col("game_share", "practice_share").fill_nan(None)).sort("team")


def availability_words(sessions: pl.DataFrame, opening: str) -> str:
    """Return the availability over some sessions as a sentence, or nothing without a session."""
    available, recorded = int(sessions["available"].sum()), int(sessions["recorded"].sum())
    if sessions.is_empty():
        return ""
    if not recorded:
        return f"{opening} nobody's attendance is recorded."
    unknown = int(sessions["unknown"].sum())
    aside = f" ({words.whole(unknown)} not known)" if unknown else ""
    return f"{opening} {words.percent(available / recorded)} were available{aside}."
