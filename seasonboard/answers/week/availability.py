"""Availability over sessions, as the Roster answer counts it."""

import polars as pl

from seasonboard.answers import words


def by_team(sessions: pl.DataFrame) -> pl.DataFrame:
    """Return games and practices of every team, with the share of athletes available."""
    recorded = pl.col("recorded")
    shares = [
        (pl.col("available").filter(rule).sum() / recorded.filter(rule).sum())
        .fill_nan(None)
        .alias(f"{name}_share")
        for name, rule in (
            ("game", pl.col("setting") == "game"),
            ("practice", pl.col("setting") != "game"),
        )
    ]
    return (
        sessions.group_by("team")
        .agg(
            (pl.col("setting") == "game").sum().alias("games"),
            (pl.col("setting") != "game").sum().alias("practices"),
            (pl.col("exposures") + pl.col("out") == 0).sum().alias("unrecorded"),
            *shares,
        )
        .sort("team")
    )


def availability_words(sessions: pl.DataFrame, opening: str) -> str:
    """Return the availability over some sessions as a sentence, or nothing without a session."""
    available, recorded = int(sessions["available"].sum()), int(sessions["recorded"].sum())
    if sessions.is_empty():
        return ""
    if not recorded:
        return f"{opening} nobody's attendance is recorded. "
    unknown = int(sessions["unknown"].sum())
    aside = f" ({words.whole(unknown)} not known)" if unknown else ""
    return f"{opening} {words.percent(available / recorded)} were available{aside}. "
