"""Sessions by team and day where a key is missing, and by time, half day or setting where two."""

import polars as pl

from seasonboard.store.intake.column_text import WrittenAs
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.time_words import half_of, time_of
from seasonboard.store.intake.values import read_values
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.stored_column import CellType, StoredColumn, StoredTable
from seasonboard.terms import Setting

DAY, TIME, TEAM, SETTING = "session_on", "session_time", "session_team", "session_setting"
TIME_IS_PUT = "time_is_put"
"""A text column of sessions: not null where the file gives no time of day and one was put."""

SOFT = "worn_beside"
"""A text column of rows that a list of something else holds beside: told all together, later."""
_ASKED = (TEAM, "_day", "_time", "_half", "_setting")
_DAY_COLUMN = StoredTable("sessions", "", (), (StoredColumn(DAY, CellType.DATE, "day"),))


def with_sessions(
    table: StoredTable, text: pl.DataFrame, context: LoadContext, written: WrittenAs
) -> pl.DataFrame:
    """Fill the key `session` of rows that only name the day of the session.

    Args:
        table: The table; only those that refer to sessions are touched.
        text: Its rows as text, with `session_on` and perhaps `session_time` (a time, AM or PM),
            `session_team` (else the athlete's team) and `session_setting`.
        context: The load. Its findings take a problem for every row whose day has no session, or
            several that nothing tells apart; where the key may be missing, a note instead.
        written: How the days are written.
    """
    if DAY not in text.columns or "session" not in table.names:
        return text
    text = _with_columns(text, context)
    rows = _asked(text, context, written)
    played = _played(context.season)
    asked = rows.select(_ASKED).unique(maintain_order=True).with_row_index("_asked")
    matched = asked.join(_matched(asked, played), on="_asked", how="left", maintain_order="left")
    joined = pl.concat([text, rows.drop(set(text.columns) & set(rows.columns))], how="horizontal")
    joined = joined.join(matched, on=_ASKED, how="left", maintain_order="left", nulls_equal=True)
    open_ = pl.col("session").is_null() & pl.col("_day").is_not_null()
    _tell(table, joined, open_, context)
    key = pl.coalesce("session", pl.when(open_).then(pl.col("_session")))
    return joined.with_columns(session=key).select(text.columns)


def _with_columns(text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    absent = [name for name in ("session", TIME, TEAM, SETTING) if name not in text.columns]
    text = text.with_columns(pl.lit(None, pl.String).alias(name) for name in absent)
    if "athlete" not in text.columns or not text[TEAM].has_nulls():
        return text
    roster = context.season.now("roster").select("athlete", "team").unique()
    alone = roster.filter(pl.len().over("athlete") == 1).rename({"team": "_own"})
    joined = text.join(alone, on="athlete", how="left", maintain_order="left")
    return joined.with_columns(pl.coalesce(TEAM, "_own").alias(TEAM)).drop("_own")


def _asked(text: pl.DataFrame, context: LoadContext, written: WrittenAs) -> pl.DataFrame:
    """Return, for every row, the day as a date, and time, half day and setting as words."""
    cells = text.select("file_no", "file_row", DAY)
    days = read_values(_DAY_COLUMN, cells, context.findings, written)
    times = text[TIME].unique().drop_nulls().to_list()
    settings = text[SETTING].unique().drop_nulls().to_list()
    meant = meanings(settings, "setting", tuple(Setting), context.synonyms)

    def meaning(name: str, known: dict[str, str]) -> pl.Expr:
        return pl.col(name).replace_strict(known, default=None, return_dtype=pl.String)

    return text.select(
        TEAM,
        _day=days[DAY],
        _time=meaning(TIME, {one: time for one in times if (time := time_of(one))}),
        _half=meaning(TIME, {one: half for one in times if (half := half_of(one))}),
        _setting=meaning(SETTING, meant),
    )


def _played(season: SeasonRows) -> pl.DataFrame:
    """Return every session with its day, time and half day where its team plays."""
    local = season.days_of_sessions().rename({"team": TEAM, "played_on": "_day"})
    settings = season.now("sessions").select("session", "setting", "label", "season_part")
    settings = settings.unique("session")
    return local.join(settings, on="session").with_columns(
        _starts=pl.col("local_time").dt.strftime("%H:%M"),
        _is_am=pl.col("local_time").dt.hour() < 12,
    )


def _matched(asked: pl.DataFrame, played: pl.DataFrame) -> pl.DataFrame:
    """Return `_asked` → `_session` where one session fits best, and `_several` that fit alike."""
    pairs = asked.join(played, on=[TEAM, "_day"], how="inner")
    pairs = pairs.filter(
        pl.col("_setting").is_null() | (pl.col("_setting") == pl.col("setting"))
    ).with_columns(
        fit=(
            4 * (pl.col("_time") == pl.col("_starts")).fill_null(False).cast(pl.Int8)
            + 2 * ((pl.col("_half") == "AM") == pl.col("_is_am")).fill_null(False).cast(pl.Int8)
        )
    )
    best = pairs.filter(pl.col("fit") == pl.col("fit").max().over("_asked"))
    return best.group_by("_asked").agg(
        _session=pl.when(pl.len() == 1).then(pl.col("session").first()),
        _several=pl.when(pl.len() > 1).then(pl.col("session").sort().str.join(", ")),
    )


def _tell(table: StoredTable, joined: pl.DataFrame, open_: pl.Expr, context: LoadContext) -> None:
    several = open_ & pl.col("_several").is_not_null()
    nothing = open_ & pl.col("_session").is_null() & pl.col("_several").is_null()
    which = "is the day of more than one session ({_several}); write the key, or the time."
    none = "is the day of no session of the team; load the schedule first, or with it."
    if SOFT in joined.columns:
        return
    if table.column("session").required:
        context.findings.reject(joined, several, DAY, which)
        context.findings.reject(joined, nothing, DAY, none)
    else:
        said = "is the day of more than one session ({_several}); none of them was taken."
        context.findings.doubt(joined, several, DAY, said)


def with_session_keys(rows: pl.DataFrame, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Give sessions without a key the key of the stored session they are.

    A session is a stored one when it has its team and instant, or when each of the two is the only
    one of its setting (of its half day, where both have two) on the team's day. A time that was
    only put for want of one does not replace a stored time.

    Args:
        rows: The rows of one file as values, their instants settled.
        text: The same rows as text, perhaps with `time_is_put`.
        context: The load.
    """
    if "session" in rows.columns or not {"team", "starts_at", "setting"} <= set(rows.columns):
        return rows
    zones = context.season.zones_of_teams().select("team", "time_zone")
    put = text[TIME_IS_PUT] if TIME_IS_PUT in text.columns else pl.Series([None] * rows.height)
    placed = rows.with_columns(_put=put.is_not_null()).with_row_index("_nth")
    placed = placed.join(zones, on="team", how="left", maintain_order="left")
    parts = [
        part.with_columns(
            _local=pl.col("starts_at")
            .dt.convert_time_zone(str(zone or "UTC"))
            .dt.replace_time_zone(None)
        )
        for (zone,), part in placed.partition_by("time_zone", as_dict=True).items()
    ]
    if not parts:
        return rows
    placed = pl.concat(parts).sort("_nth")
    day = placed.with_columns(
        _day=pl.col("_local").dt.date(), _is_am=pl.col("_local").dt.hour() < 12
    )
    stored = _played(context.season).rename({TEAM: "team"})
    joined = _joined_to_stored(day, stored)
    is_known = pl.col("_put") & pl.col("_session").is_not_null()
    given = [name for name in ("season", "label", "season_part") if name in rows.columns]
    taken = joined.with_columns(
        *(pl.coalesce(name, f"_stored_{name}").alias(name) for name in given),
        starts_at=pl.when(is_known).then(pl.col("_stored_starts_at")).otherwise("starts_at"),
        session=pl.col("_session"),
    )
    come = context.season.incoming.get("sessions")
    if come is not None:  # a day without a time says nothing new of a session of this load
        told = is_known & pl.col("_session").is_in(come["session"].implode())
        taken = taken.filter(~told)
    return taken.select(*rows.columns, "session")


def _joined_to_stored(day: pl.DataFrame, stored: pl.DataFrame) -> pl.DataFrame:
    """Find the stored session of each row: at its instant, else alone on its day, else its half."""
    exact = stored.select("team", "setting", "starts_at", _exact="session").unique(
        ["team", "setting", "starts_at"], keep="first"
    )
    day = day.join(exact, on=["team", "setting", "starts_at"], how="left", maintain_order="left")
    for name, extra in (("_alone", ()), ("_halved", ("_is_am",))):
        on = ["team", "_day", "setting", *extra]
        single = stored.filter(pl.len().over(on) == 1).select(*on, pl.col("session").alias(name))
        day = day.with_columns(_rows=pl.len().over(on))
        day = day.join(single, on=on, how="left", maintain_order="left")
        day = day.with_columns(pl.when(pl.col("_rows") == 1).then(pl.col(name)).alias(name))
    key = pl.coalesce("_exact", "_alone", "_halved")
    beside = stored.select(
        pl.col("session").alias("_session"),
        pl.col("starts_at", "season", "label", "season_part").name.prefix("_stored_"),
    ).unique("_session")
    return day.with_columns(_session=key).join(
        beside, on="_session", how="left", maintain_order="left"
    )
